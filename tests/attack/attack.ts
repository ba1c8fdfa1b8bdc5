/**
 * The attack on proved bounds: random poses of the range, poses on both sides of the boundaries of cells and on the
 * range's edge, each with what is free to roll anywhere in its window and at its ends, and descents. It looks for a gap under a stated bound, with the pose solver and the distance search
 * alone: no bound of motion is asked.
 */
import type { Cycled } from '../../geometry/cycle/walkReport.ts';
import type { GapSearch } from '../../geometry/gap/leastGaps.ts';
import type { PairGap } from '../../geometry/gap/pairGap.ts';
import type { Pair } from '../../geometry/gap/pairs.ts';
import type { Part, PartRoll } from '../../geometry/gap/part.ts';
import { placePart, placeRolled } from '../../geometry/gap/place.ts';
import { isHeld, rollRange } from '../../geometry/gap/roll.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { DistanceSolver } from '../../geometry/solid/distance.ts';
import { type Placement, unmoved } from '../../geometry/solid/placement.ts';

/** What is attacked: pairs with their bounds. */
export interface Attacked {
  walk: Cycled;
  search: GapSearch;
  gaps: readonly PairGap[];
}

export interface Outcome {
  poses: number;
  gaps: number;
  descents: number;
  /** Least of gap − bound, in, and where; positive where the attack has failed. */
  least: number;
  pair: string;
  pose: { left: number; right: number; steer: number } | null;
  /** Gaps of what was rolled within its window. */
  rolled: number;
}

/** Rounding between two ways to place the same parts, in. */
export const ROUNDING_in = 1e-7;

type Random = () => number;

/** A pose of the range at travels and a share of the steering, −1 to 1; null outside. */
export function poseIn(
  { walk: { reach }, search }: Attacked,
  left: number,
  right: number,
  share: number,
): Pose | null {
  const { pose, margin } = reach.travel(left, right);
  if (!pose || margin < 0) return null;
  // the steering's ends by secants, to 1e-9: quicker than asking every stop
  return search.poses.pose({ left, right, share, along: null });
}

/** Random poses: a third anywhere, a third at travels on the boundaries of cells, a third on the range's edge. */
export function* posesOf(attacked: Attacked, random: Random): Generator<Pose> {
  const { edge } = attacked.walk.range;
  const lefts = edge.map(p => p.left);
  const rights = edge.map(p => p.right);
  const low = [Math.min(...lefts) - 2e-3, Math.min(...rights) - 2e-3] as const;
  const size = [Math.max(...lefts) + 2e-3 - low[0], Math.max(...rights) + 2e-3 - low[1]] as const;
  for (let n = 0; ; n++) {
    let at = [0, 1].map(j => (low[j] as number) + (size[j] as number) * random()) as [
      number,
      number,
    ];
    let share = 2 * random() - 1;
    if (n % 3 === 1) {
      // on a boundary of some depth in one of the travels, or a hair beside it
      const j = random() < 0.5 ? 0 : 1;
      const pieces = 2 ** (1 + Math.floor(8 * random()));
      const hair = [0, 1e-9, -1e-9, 1e-5, -1e-5][Math.floor(5 * random())] as number;
      at[j] =
        (low[j] as number) + ((size[j] as number) * Math.floor(pieces * random())) / pieces + hair;
    }
    if (n % 3 === 2) {
      const p = edge[Math.floor(edge.length * random())] as { left: number; right: number };
      const inward = random() < 0.5 ? 0 : 10 ** (-9 + 7 * random());
      at = [p.left * (1 - inward), p.right * (1 - inward)];
    }
    // full lock is where most is near
    if (random() < 0.3) share = Math.sign(share);
    const pose = poseIn(attacked, at[0], at[1], share);
    if (pose) yield pose;
  }
}

/** Attacks bounds with so many poses, so many pairs at each, and descents from so many starts. */
export function attack(
  attacked: Attacked,
  random: Random,
  { poses, pairsAtEach, starts }: { poses: number; pairsAtEach: number; starts: number },
): Outcome {
  const { gaps, search } = attacked;
  const proved = gaps.filter(({ lower, pair }) => lower !== null && !pair.still);
  // those whose bound is tight are asked more often than those that are given as 'at least'
  const tight = proved.filter(({ gap, lower }) => gap - (lower as number) < 0.1);
  const out: Outcome = {
    poses: 0,
    gaps: 0,
    descents: 0,
    least: Number.POSITIVE_INFINITY,
    pair: '',
    pose: null,
    rolled: 0,
  };
  const look = (found: PairGap, pose: Pose, share: number): number => {
    out.gaps++;
    const rolls = isFree(found.pair);
    if (rolls) out.rolled++;
    const gap = rolls ? rolledGap(found.pair, pose, share) : search.gapAt(found.pair, pose);
    const over = gap - (found.lower as number);
    if (over < out.least) {
      out.least = over;
      out.pair = `${found.pair.a.name} / ${found.pair.b.name}`;
      out.pose = pose.input;
    }
    return gap;
  };
  const pick = (): PairGap => {
    const from = tight.length > 0 && random() < 0.6 ? tight : proved;
    return from[Math.floor(from.length * random())] as PairGap;
  };
  for (const pose of posesOf(attacked, random)) {
    // ends of windows are where what flops is nearest to something
    for (let k = 0; k < pairsAtEach; k++) {
      look(pick(), pose, random() < 0.4 ? Math.round(random()) : random());
    }
    if (++out.poses >= poses) break;
  }
  for (let k = 0; k < starts; k++) {
    const found = pick();
    out.descents++;
    descend(attacked, random, found, look);
  }
  return out;
}

/** From a random pose down: steps in travels and share, halved where none leads down. */
function descend(
  attacked: Attacked,
  random: Random,
  found: PairGap,
  look: (found: PairGap, pose: Pose, share: number) => number,
): void {
  const { range } = attacked.walk;
  const p = range.edge[Math.floor(range.edge.length * random())] as { left: number; right: number };
  const inward = random();
  let at: At = [p.left * inward, p.right * inward, 2 * random() - 1, random()];
  const gapAt = (q: At): number => {
    const pose = poseIn(attacked, q[0], q[1], Math.max(-1, Math.min(1, q[2])));
    return pose ? look(found, pose, Math.max(0, Math.min(1, q[3]))) : Number.POSITIVE_INFINITY;
  };
  const ways = isFree(found.pair) ? [...ROLLING, ...WAYS] : WAYS;
  let best = gapAt(at);
  for (let step = 1; step > 1e-3; ) {
    let moved = false;
    for (const [l, r, s, roll] of ways) {
      const next: At = [at[0] + step * l, at[1] + step * r, at[2] + step * s, at[3] + step * roll];
      const gap = gapAt(next);
      if (gap >= best) continue;
      best = gap;
      at = next;
      moved = true;
      break;
    }
    if (!moved) step /= 3;
  }
}

/** Travels, share of the steering, share of the window of what rolls. */
type At = [number, number, number, number];

const WAYS: readonly At[] = [
  [1, 0, 0, 0],
  [-1, 0, 0, 0],
  [0, 1, 0, 0],
  [0, -1, 0, 0],
  [0.7, 0.7, 0, 0],
  [-0.7, -0.7, 0, 0],
  [0.7, -0.7, 0, 0],
  [-0.7, 0.7, 0, 0],
  [0, 0, 0.2, 0],
  [0, 0, -0.2, 0],
];
const ROLLING: readonly At[] = [
  [0, 0, 0, 0.25],
  [0, 0, 0, -0.25],
];

const freeRoll = ({ roll }: Part): PartRoll | null => (roll && !isHeld(roll) ? roll : null);

/** Whether a part of a pair is free to roll. */
const isFree = ({ a, b }: Pair): boolean => freeRoll(a) !== null || freeRoll(b) !== null;

const solver = new DistanceSolver();
const places = [unmoved(), unmoved()] as const;

/** The gap with what is free to roll at a share of its window, of both parts alike. */
function rolledGap({ a, b, solidA, solidB }: Pair, pose: Pose, share: number): number {
  for (const [i, part] of [a, b].entries()) {
    const out = places[i] as Placement;
    const roll = freeRoll(part);
    if (!roll) {
      placePart(part, pose, out);
      continue;
    }
    const { from, to } = rollRange(roll, pose);
    // a rod that is out of reach in a roll has no gap there
    if (!placeRolled(part, pose, from + share * (to - from), out)) return Number.POSITIVE_INFINITY;
  }
  solver.run(solidA, places[0], solidB, places[1]);
  return solver.gap;
}

export const inWords = (name: string, outcome: Outcome): string =>
  `${name}: ${outcome.poses} poses, ${outcome.gaps} gaps, ${outcome.rolled} of them rolled, ${outcome.descents} descents; ` +
  `least over the bound ${outcome.least.toFixed(5)} in (${outcome.pair})`;
