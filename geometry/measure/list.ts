/** Every measure, in the order in which tables show them. A new one is one line here. */
import { bumpSteer } from './bumpSteer.ts';
import type { Measure } from './measure.ts';
import { steer } from './steer.ts';

export const measures: readonly Measure[] = [steer, bumpSteer];
