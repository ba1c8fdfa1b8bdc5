/** Where the other axle stands: at equal travel, each from its own ride height, and at equal steering. */

import { inputLike } from '../../../geometry/compare/places.ts';
import { furthest, inside } from '../../../geometry/cycle/edge.ts';
import type { End } from '../../../geometry/cycle/reach.ts';
import type { RangeTold } from '../../worker/protocol.ts';
import { type Handle, place, type Rig, type Shown } from '../state/rig.ts';

/** A handle held to an edge stands on it to within this share of its travels. */
const ON_EDGE = 1e-3;
/** Steering that a stop cuts by less than this is the same, rad or in. */
const ON_STOP = 1e-6;

/** What B is asked for where A stands at a handle: the same travels, and steering that turns it alike. */
export const handleLike = (a: Rig, b: Rig, { left, right, steer }: Handle): Handle => ({
  left,
  right,
  steer: inputLike(a, b, steer),
  lock: 0,
});

/**
 * B at A's handle.
 *
 * @param range B's, where it is known
 * @param near where B stood before
 */
export function standingBeside(
  a: Rig,
  b: Rig,
  handle: Handle,
  range: RangeTold | null,
  near: Shown | null,
): { shown: Shown; isBeyond: boolean } {
  const wanted = handleLike(a, b, handle);
  const shown = place(b, wanted, near);
  const shrunk = 1 - ON_EDGE;
  const isIn = !range || inside(range.edge, shrunk * wanted.left, shrunk * wanted.right);
  const isTurned = Math.abs(shown.handle.steer - wanted.steer) <= ON_STOP;
  return { shown, isBeyond: !isIn || !isTurned || shown.pose === null };
}

/** What ends B's way to there: the stop that it meets first, or where its steering stops. */
export function endBefore(a: Rig, b: Rig, handle: Handle): End | null {
  const { left, right, steer } = handleLike(a, b, handle);
  const there = furthest(b.reach, [0, 0], [left, right]);
  const away = Math.hypot(left, right);
  if (Math.hypot(there.left, there.right) < away * (1 - ON_EDGE)) return there;
  const { interval } = place(b, { left, right, steer: 0, lock: 0 }, null);
  if (!interval) return null;
  return steer > 0 ? interval.greatest : interval.least;
}
