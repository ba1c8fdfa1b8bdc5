/** How each part is shown before anybody chooses: the frame seen through, and fainter where it hides the axle. */
import type { Axle } from '../../geometry/build/build.ts';
import type { Part } from '../../geometry/gap/part.ts';
import type { Showing } from './looks.ts';
import { extentOf } from './shapes/solids.ts';

/** Whether a part is drawn on the chassis, by hand: frame, engine, panels. */
export const isFrame = (part: Part): boolean =>
  part.kind === 'drawn' && part.motion.kind === 'rigid' && part.motion.body === 'chassis';

/**
 * What stands before the tires, above them, or under the middle of the vehicle like a skid plate, would hide the
 * axle: it is drawn faintly.
 */
export function plainShowing(part: Part, axle: Axle): Showing {
  if (!isFrame(part)) return 'solid';
  const { low, high } = extentOf(part);
  const reach = axle.tire.diameter / 2;
  const way = axle.name === 'front' ? 1 : -1;
  const ahead = (way * (low[0] + high[0])) / 2 - way * axle.origin[0];
  const top = axle.origin[2] + reach;
  const isBefore = ahead > 0.85 * reach;
  const isAbove = (low[2] + high[2]) / 2 > 0.93 * top;
  return isBefore || isAbove ? 'faint' : 'frame';
}

export interface Wishes {
  hidden: ReadonlySet<string>;
  ghosted: ReadonlySet<string>;
  /** Chosen by the user. */
  part: string | null;
  /** The part of a touching pair that is to be marked as a whole. */
  touching: string | null;
}

export function showingOf(part: Part, plain: Showing, wishes: Wishes): Showing | null {
  const { hidden, ghosted, part: chosen, touching } = wishes;
  const is = (name: string | null): boolean => name === part.name || name === part.of;
  if (hidden.has(part.name) || hidden.has(part.of)) return null;
  if (is(touching) && part.kind !== 'tire') return 'touch';
  if (is(chosen)) return 'chosen';
  if (ghosted.has(part.name) || ghosted.has(part.of)) return 'ghost';
  return plain;
}
