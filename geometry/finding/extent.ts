/** How far a trouble reaches over the range. */
import { closeOn } from '../cycle/crossing.ts';
import type { SteerInterval } from '../cycle/reach.ts';
import { type Cycled, nameOf, type PoseName } from '../cycle/walkReport.ts';
import { MeasureContext } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';
import { lockAt, shareAt } from './place.ts';
import { poseWords, type Shop } from './words.ts';

export interface Extent {
  /** Where it begins on the way from ride height, straight ahead, to the worst pose: first the steering at ride
   * height, then both travels in proportion at that share of the steering. */
  from: PoseName;
  /** That place in words. */
  fromWords: string;
  /** Share of the poses of the coarse cycle that have it, 0 to 1. */
  share: number;
}

/** Steps of the way in each of its halves, and where a beginning is found to, as a part of the half. */
const STEPS = 24;
const BEGIN = 1e-6;

/**
 * How far something reaches that a pose has where `amount` is above zero; null where the way to the worst pose
 * can't be followed.
 */
export function extentOf(
  walk: Cycled,
  shop: Shop,
  worst: Pose,
  amount: (context: MeasureContext) => number | null,
): Extent | null {
  const { build, axle, model, reach } = walk;
  const has = (pose: Pose | null): number | null => {
    const found = pose && amount(new MeasureContext(build, axle, model, pose));
    return found ?? null;
  };
  const share = shareAt(walk, worst);
  const { left, right } = worst.input;
  let last: SteerInterval | null = null;
  const at = (t: number): Pose | null => {
    const go = Math.max(0, t - 1);
    const straight = reach.travel(go * left, go * right).pose;
    if (!straight || share === 0) return straight;
    const interval = reach.steering(straight, last);
    last = interval ?? last;
    return interval && reach.steered(straight, interval, share * Math.min(1, t));
  };
  const margin = (t: number): { margin: number; what: null } => {
    const found = has(at(t));
    return { margin: found === null ? Number.POSITIVE_INFINITY : -found, what: null };
  };
  const begin = beginOf(margin, share === 0 ? 1 : 0);
  const from = begin === null ? null : at(begin);
  if (!from) return null;
  const poses = walk.grid.places.flatMap(place => place.steered.map(({ pose }) => pose));
  const having = poses.filter(pose => (has(pose) ?? 0) > 0).length;
  return {
    from: nameOf(from),
    fromWords: poseWords(shop, nameOf(from), lockAt(walk, from)),
    share: poses.length === 0 ? 0 : having / poses.length,
  };
}

/** First place of the way, 0 to 2, where the margin is negative. */
function beginOf(
  margin: (t: number) => { margin: number; what: null },
  start: number,
): number | null {
  let inner = start;
  let before = margin(start);
  if (before.margin < 0) return start;
  for (let k = 1; k <= STEPS * (2 - start); k++) {
    const outer = start + k / STEPS;
    const there = margin(outer);
    if (there.margin < 0) {
      const { inner: last } = closeOn(margin, inner, before.margin, outer, there, BEGIN);
      return Math.min(2, last + BEGIN);
    }
    inner = outer;
    before = there;
  }
  return 2;
}
