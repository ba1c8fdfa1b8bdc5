/** Every rule, in the order in which findings of one severity are told. A new one is one line here. */
import { bind } from './bind.ts';
import { brackets } from './brackets.ts';
import type { Rule } from './finding.ts';
import { givenLength } from './givenLength.ts';
import { limits } from './limits.ts';
import { lineBend } from './lineBend.ts';
import { padSlidOff } from './padSlidOff.ts';
import { ram } from './ram.ts';
import { range } from './range.ts';
import { slop } from './slop.ts';
import { steeringEnd } from './steeringEnd.ts';
import { travelEnd } from './travelEnd.ts';
import { unstopped } from './unstopped.ts';
import { wanted } from './wanted.ts';

export const rules: readonly Rule[] = [
  range,
  unstopped,
  limits,
  lineBend,
  padSlidOff,
  steeringEnd,
  bind,
  ram,
  slop,
  wanted,
  travelEnd,
  givenLength,
  brackets,
];
