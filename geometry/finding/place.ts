/** Where in the range a pose stands: its share of the steering, and whether an assumption ends the travel there. */
import type { Cycled } from '../cycle/walkReport.ts';
import type { Pose } from '../pose/pose.ts';
import type { Lock } from './words.ts';

/** What tells where the steering stands at a pose. */
export type Placed = Pick<Cycled, 'reach' | 'model'>;

/** Shares of the steering interval nearer to its ends than this count as full lock. */
const FULL = 1e-4;

/** Share of the steering interval at a pose, −1 full right to 1 full left; 0 where nothing steers. */
export function shareAt({ reach, model }: Placed, pose: Pose): number {
  const { left, right, steer } = pose.input;
  if (!model.mechanism.steering || steer === 0) return 0;
  const straight = model.near(pose, left, right, 0).pose;
  const interval = straight && reach.steering(straight);
  if (!interval) return 0;
  const end = steer > 0 ? interval.greatest.value : -interval.least.value;
  return end > 0 ? steer / end : 0;
}

export function lockAt(walk: Placed, pose: Pose): Lock {
  if (pose.input.steer === 0) return 'straight';
  const share = shareAt(walk, pose);
  if (share > 1 - FULL) return 'full left';
  return share < FULL - 1 ? 'full right' : 'between';
}

/** A pose nearer than this to an assumed end of travel stands at it, in. */
const AT_END_in = 2e-3;

/** True where a pose stands at an end of travel that is assumed, since nothing stops the axle there. */
export function atAssumedTravel({ range, reach }: Cycled, pose: Pose): boolean {
  return range.unstopped.some(({ side, direction }) => {
    const travel = pose.input[side] * (direction === 'up' ? 1 : -1);
    return travel > reach.box[side][direction] - AT_END_in;
  });
}
