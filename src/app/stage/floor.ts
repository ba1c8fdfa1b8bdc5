/** How high the axle stands over the shop's floor: the frame is on stands, and no tire reaches the floor. */
import type { RangeTold } from '../../worker/protocol.ts';
import type { Rig } from '../state/rig.ts';

/** Under the lowest tire of all poses, in. */
export const UNDER_TIRE_in = 8;

/** Droop where no range is known yet, in. */
const ASSUMED_DROOP_in = 8;

/** Height of the floor over the ground at ride height, in: negative. */
export function floorOf({ axle }: Rig, range: RangeTold | null): number {
  let lowest = range?.holdsRide ? 0 : -ASSUMED_DROOP_in;
  if (range?.holdsRide) {
    for (const { left, right } of range.edge) lowest = Math.min(lowest, left, right);
  }
  // off the ground a tire is round: it reaches down by half of its diameter
  return axle.origin[2] - axle.tire.diameter / 2 + lowest - UNDER_TIRE_in;
}
