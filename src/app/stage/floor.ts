/**
 * How high the axle stands over the shop's floor, and how high its tires come: the frame is on stands, and no tire
 * reaches the floor.
 */
import type { RangeTold } from '../../worker/protocol.ts';
import type { Rig } from '../state/rig.ts';

/** Under the lowest tire of all poses, in. */
export const UNDER_TIRE_in = 8;

/** Travel each way where no range is known yet, in. */
const ASSUMED_in = 8;

/** Height of the floor over the ground at ride height, in: negative. */
export function floorOf({ axle }: Rig, range: RangeTold | null): number {
  const [lowest] = travelsOf(range);
  // off the ground a tire is round: it reaches down by half of its diameter
  return axle.origin[2] - axle.tire.diameter / 2 + lowest - UNDER_TIRE_in;
}

/** Height of the highest tire's top over the ground at ride height, in. */
export function topOf({ axle }: Rig, range: RangeTold | null): number {
  const [, highest] = travelsOf(range);
  return axle.origin[2] + axle.tire.diameter / 2 + highest;
}

/** Least and greatest travel of a wheel, in. */
function travelsOf(range: RangeTold | null): [number, number] {
  if (!range?.holdsRide) return [-ASSUMED_in, ASSUMED_in];
  let [lowest, highest] = [0, 0];
  for (const { left, right } of range.edge) {
    lowest = Math.min(lowest, left, right);
    highest = Math.max(highest, left, right);
  }
  return [lowest, highest];
}
