/**
 * Ends of the roll of a steering rod whose studs alone hold it, input held. Where another rod hangs beside its line
 * the wheels turn as it rolls, and the ends W(φ) of the studs' window move with them: the end that counts is the
 * fixed point φ = W(pose, φ).
 */
import type { Pose } from '../pose/pose.ts';
import { rolledRod, steersByRoll } from '../pose/rolledRod.ts';
import type { Reading } from './measure.ts';
import { type RollingPart, rollingAt } from './rolling.ts';

export type RollSide = 'from' | 'to';

/** Steps of the fixed point: the roll moves the wheels little, so each gains two digits or more. */
const MOST_STEPS = 60;
const ROLL_END = 1e-13;

/** End of the studs' window where the rod stands, rad, or why there is none. */
export function windowEnd(
  pose: Pose,
  rod: RollingPart | undefined,
  side: RollSide,
): number | Reading {
  if (!rod?.joints.some(joint => joint.limit !== null)) return NO_LIMIT;
  const { window } = rollingAt(pose, rod);
  if (window.kind === 'arc') return window[side];
  return window.kind === 'empty' ? NO_ROLL : NO_LIMIT;
}

/** One end of a rod's free roll, with the pose there; the pose is the same but for the roll and what hangs on it. */
export function rollEnd(
  pose: Pose,
  rod: RollingPart | undefined,
  side: RollSide,
): { roll: number; pose: Pose } | Reading {
  if (!rod) return NO_LIMIT;
  if (!steersByRoll(pose, rod.name)) {
    const roll = windowEnd(pose, rod, side);
    if (typeof roll !== 'number') return roll;
    const there = rolledRod(pose, rod.name, roll);
    return there ? { roll, pose: there } : OUT_OF_REACH;
  }
  let roll = 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    const there = rolledRod(pose, rod.name, roll);
    if (!there) return OUT_OF_REACH;
    const next = windowEnd(there, rod, side);
    if (typeof next !== 'number') return next;
    if (Math.abs(next - roll) < ROLL_END) return { roll, pose: there };
    roll = next;
  }
  return OUT_OF_REACH;
}

export const NO_LIMIT: Reading = {
  missing: 'no limit of its studs says how far the rod can roll',
};
const NO_ROLL: Reading = { missing: 'no roll of the rod keeps both studs within their limits' };
const OUT_OF_REACH: Reading = { missing: 'the rod can not roll over its window here' };
