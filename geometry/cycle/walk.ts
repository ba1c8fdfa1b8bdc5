/** Walks: ordered paths of poses over the range, and the shop's poses. */
import type { Pose } from '../pose/pose.ts';
import { furthest } from './edge.ts';
import type { Range } from './range.ts';
import type { Reach } from './reach.ts';

export const WALKS = [
  'both',
  'crossed-left-up',
  'crossed-right-up',
  'left',
  'right',
  'lock-to-lock',
  'edge',
] as const;
export type WalkName = (typeof WALKS)[number];

/** Poses of a walk between its ends, without them. */
const POSES = 41;

/**
 * The poses of a walk, from one end of the range to the other, ride height among them. Straight ahead, except
 * lock to lock.
 *
 * @param at travels at which the steering goes from lock to lock; ride height unless given
 */
export function walkPoses(
  name: WalkName,
  range: Range,
  reach: Reach,
  at: readonly [number, number] = [0, 0],
): Pose[] {
  if (!range.holdsRide) return [];
  if (name === 'edge')
    return solved(
      reach,
      range.edge.map(p => [p.left, p.right]),
    );
  if (name === 'lock-to-lock') {
    const start = reach.travel(at[0], at[1]).pose;
    const interval = start && reach.steering(start);
    if (!start || !interval) return [];
    const out: Pose[] = [];
    for (let k = -20; k <= 20; k++) {
      const pose = reach.steered(start, interval, k / 20);
      if (pose) out.push(pose);
    }
    return out;
  }
  const direction = DIRECTIONS[name];
  const up = furthest(reach, [0, 0], direction);
  const down = furthest(reach, [0, 0], [-direction[0], -direction[1]]);
  const points: [number, number][] = [];
  const half = (POSES - 1) / 2;
  for (let k = -half; k <= half; k++) {
    const end = k < 0 ? down : up;
    const t = Math.abs(k) / half;
    points.push([t * end.left, t * end.right]);
  }
  return solved(reach, points);
}

const DIRECTIONS: Record<Exclude<WalkName, 'edge' | 'lock-to-lock'>, [number, number]> = {
  both: [1, 1],
  'crossed-left-up': [1, -1],
  'crossed-right-up': [-1, 1],
  left: [1, 0],
  right: [0, 1],
};

function solved(reach: Reach, points: readonly (readonly [number, number])[]): Pose[] {
  const out: Pose[] = [];
  for (const [left, right] of points) {
    const { pose } = reach.travel(left, right);
    if (pose) out.push(pose);
  }
  return out;
}

/** A pose that a shop asks for by name: travels at the range's end in a direction, and steering. */
export interface ShopPose {
  name: string;
  wheels: 'straight' | 'full left' | 'full right';
  pose: Pose;
}

/**
 * Ride, both up, both down, driver up and passenger up (the other wheel as far down as it goes on the line
 * through ride height), each with wheels straight, at full left and at full right.
 */
export function shopPoses(range: Range, reach: Reach): ShopPose[] {
  if (!range.holdsRide) return [];
  const driverUp: [number, number] = reach.build.driverSide === 'left' ? [1, -1] : [-1, 1];
  const places: [string, [number, number] | null][] = [
    ['ride', null],
    ['both up', [1, 1]],
    ['both down', [-1, -1]],
    ['driver up', driverUp],
    ['passenger up', [-driverUp[0], -driverUp[1]]],
  ];
  const out: ShopPose[] = [];
  for (const [name, direction] of places) {
    const end = direction ? furthest(reach, [0, 0], direction) : { left: 0, right: 0 };
    const { pose } = reach.travel(end.left, end.right);
    if (!pose) continue;
    out.push({ name, wheels: 'straight', pose });
    if (!pose.turn) continue;
    const interval = reach.steering(pose);
    if (!interval) continue;
    const left = reach.steered(pose, interval, 1);
    const right = reach.steered(pose, interval, -1);
    if (left) out.push({ name, wheels: 'full left', pose: left });
    if (right) out.push({ name, wheels: 'full right', pose: right });
  }
  return out;
}
