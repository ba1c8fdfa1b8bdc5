/**
 * The least gap of each pair over the range and all steering that the stops allow: from a grid and the edge, and
 * from the best of these down by a pattern search that keeps to the range.
 *
 * The gap of convex pieces is a least distance over pairs of points, each a smooth function of the pose: its kinks
 * point upward (it is semiconcave), so that a descent is not held up inside. It is held up on a slanting edge, so
 * there the search goes along the edge. A step has done its work where no neighbor is lower and their gaps differ
 * by less than END_in, or where it has become END_in itself (corners of the range). What is free to roll is searched
 * over its window at each pose as well.
 */
import type { Grid } from '../cycle/grid.ts';
import type { Place } from '../cycle/spots.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import type { Pose } from '../pose/pose.ts';
import { DistanceSolver, type PairStart, pairStart } from '../solid/distance.ts';
import { type Placement, unmoved } from '../solid/placement.ts';
import type { V3 } from '../vector.ts';
import { CoarseMap, type LeastOnGrid } from './map.ts';
import { type PairGap, statusOf } from './pairGap.ts';
import { freeOf, HELD, type RollShares, type Rolls, rollsAt, stand } from './pairRolls.ts';
import type { Pair } from './pairs.ts';
import type { Part } from './part.ts';
import { PlacedGrid } from './placedGrid.ts';
import { RangePoses } from './rangePoses.ts';
import { standingRoll } from './roll.ts';

/** Gap over what is asked from which on a pair is far: its coarse least stands, in. */
export const FAR_in = 1;
/** What a gap may differ by between two poses of the coarse grid, in: nearer pairs are searched. */
const COARSE_in = 2;
/** Gaps are searched to this, in; a tenth of what is promised. */
const END_in = 1e-5;
/** What a gap may lose when its pose is drawn surely inside the range, in. */
const HOLD_in = 5e-3;
/** First step of travel, in; a tenth of it is the step of the steering's share. */
const FIRST_in = 0.8;
/**
 * What a step must gain of its length: less is the creep of a step that points out of the range and is drawn back onto
 * its edge, 1e-11 in at a time without an end.
 */
const WORTH_A_STEP = 1e-6;
/** Step from which gaps that hardly differ end the search, in. */
const FLAT_in = 0.02;
/** Samples along the edge, in apart, and shares of the steering there. */
const STRIDE_in = 0.5;
const SHARES = [-1, -0.5, 0, 0.5, 1];
/** Samples within this of the best are worth a search of their own, in; at most so many. */
const WORTH_in = 0.75;
const STARTS = 3;

interface Candidate {
  place: Place;
  rolls: RollShares;
  gap: number;
}

interface Sample {
  place: Place;
  pose: Pose;
}

/** What of a walked axle the search needs. */
export type Searched = Pick<AxleWalk, 'model' | 'range' | 'reach' | 'grid'>;

/**
 * @example
 * const search = new GapSearch(walk, parts, pairs);
 * const gaps = pairs.map((_, p) => search.least(p));
 */
export class GapSearch {
  readonly #pairs: readonly Pair[];
  readonly #ride: Pose;
  readonly #map: CoarseMap;
  readonly #grid: PlacedGrid;
  /** Of each pose of the placed grid. */
  readonly #places: Place[];
  readonly poses: RangePoses;
  readonly #solver = new DistanceSolver();
  readonly #a: Placement = unmoved();
  readonly #b: Placement = unmoved();
  #start: PairStart = pairStart();

  /** @param before a map of these pairs, which is quicker to start from */
  constructor(
    walk: Searched,
    parts: readonly Part[],
    pairs: readonly Pair[],
    before: CoarseMap | null = null,
  ) {
    const { range, reach, grid } = walk;
    this.#pairs = pairs;
    this.#ride = walk.model.ride;
    this.poses = new RangePoses(range, reach, grid);
    const sampled = this.#sample(grid);
    this.#places = sampled.flatMap(cell => cell.steered.map(each => each.place));
    this.#map = new CoarseMap(parts, pairs, 'gap', before);
    this.#grid = new PlacedGrid(this.#map.motions, { places: sampled });
    this.#map.stage.place(this.#grid);
  }

  /** The least gap of a pair; at ride height where the stops allow no pose at all. */
  least(p: number): PairGap {
    const coarse = this.#map.least(p);
    const pair = this.#pairs[p] as Pair;
    if (!coarse) return this.#result(pair, this.#ride, HELD, false);
    const place = this.#unsteered(p, this.#places[coarse.pose] as Place);
    const pose = this.poses.exact(place) ?? (this.#grid.poses[coarse.pose] as Pose);
    if (pair.still || coarse.gap > pair.required + FAR_in + COARSE_in) {
      return this.#result(pair, pose, rollsAt(pair, pose, coarse.shares), pair.still);
    }
    const starts = this.#starts(p, coarse);
    if (starts.length === 0) {
      starts.push({ place, gap: coarse.gap, rolls: coarse.shares });
    }
    // a search that ended where the range has a hole is done again, slowly, by poses that surely lie inside
    for (const exactly of [false, true]) {
      const found = starts
        .map(start => this.#descend(p, start, exactly))
        .reduce((best, each) => (each.gap < best.gap ? each : best));
      const inside = this.poses.exact(found.place);
      const refined =
        inside && this.#result(pair, inside, rollsAt(pair, inside, found.rolls), true);
      if (refined && refined.gap < found.gap + HOLD_in) return refined;
    }
    return this.#result(pair, pose, rollsAt(pair, pose, coarse.shares), false);
  }

  /** The gap of a pair at a pose, in: of what is free to roll the least over its window, as closely as it is sampled. */
  gapAt(pair: Pair, pose: Pose): number {
    const [free, other] = freeOf(pair);
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < (free ? SAMPLED_ROLLS : 1); i++) {
      for (let k = 0; k < (other ? SAMPLED_ROLLS : 1); k++) {
        const last = SAMPLED_ROLLS - 1;
        least = Math.min(
          least,
          this.#gapRolled(pair, pose, rollsAt(pair, pose, [i / last, k / last])),
        );
      }
    }
    return least;
  }

  /**
   * All that is told of a pair at a pose inside the range.
   *
   * @param roll of what is free to roll, rad; null: the parts in the roll in which they stand
   */
  at(pair: Pair, pose: Pose, roll: number | null = null): PairGap {
    const [free, other] = freeOf(pair);
    const both = free && pair.a.roll?.of === pair.b.roll?.of;
    return this.#result(pair, pose, [free ? roll : null, other || both ? roll : null], true);
  }

  #gapRolled(pair: Pair, pose: Pose, rolls: Rolls): number {
    // a rod that is out of reach in a roll of its window has no gap there
    if (!stand(pair.a, pose, rolls[0], this.#a) || !stand(pair.b, pose, rolls[1], this.#b)) {
      return Number.POSITIVE_INFINITY;
    }
    this.#solver.run(pair.solidA, this.#a, pair.solidB, this.#b, this.#start);
    return this.#solver.gap;
  }

  /** Poses of the coarse grid, and of places along the edge. */
  #sample(grid: Grid): { steered: Sample[] }[] {
    const cells = grid.places.map(({ left, right, steered }) => ({
      steered: steered.map(
        ({ share, pose }): Sample => ({ pose, place: { left, right, share, along: null } }),
      ),
    }));
    const shares = this.poses.steers ? SHARES : [0];
    const edge = this.poses.edgePlaces(STRIDE_in).map(on => ({
      steered: shares.flatMap((share): Sample[] => {
        const place = { ...on, share };
        const pose = this.poses.pose(place);
        return pose ? [{ pose, place }] : [];
      }),
    }));
    return [...cells, ...edge];
  }

  /** The place straight ahead for a pair that the steering does not move. */
  #unsteered(p: number, place: Place): Place {
    return this.#map.stage.isByPose(p) ? place : { ...place, share: 0 };
  }

  /** The best of the samples, one in each neighborhood. */
  #starts(p: number, coarse: LeastOnGrid): Candidate[] {
    const { stage } = this.#map;
    const grid = this.#grid;
    const byPose = stage.isByPose(p);
    const asked = coarse.gap + WORTH_in;
    const near: Candidate[] = [];
    for (let c = 0; c < grid.cells.length; c++) {
      if (stage.bound(c, p) >= asked) continue;
      const from = grid.first[c] as number;
      const to = byPose ? (grid.first[c + 1] as number) : from + 1;
      for (let k = from; k < to; k++) {
        if (stage.capsules(p, k) >= asked) continue;
        const gap = stage.gap(p, k, asked);
        const place = this.#places[k] as Place;
        if (gap >= asked) continue;
        near.push({ gap, place: this.#unsteered(p, place), rolls: this.#map.sharesNow(p) });
      }
    }
    near.sort((a, b) => a.gap - b.gap);
    const out: Candidate[] = [];
    for (const start of near) {
      if (out.length >= STARTS) break;
      if (out.every(other => isElsewhere(start.place, other.place))) out.push(start);
    }
    return out;
  }

  #descend(p: number, start: Candidate, exactly: boolean): Candidate {
    const pair = this.#pairs[p] as Pair;
    this.#start = pairStart();
    const steers = this.poses.steers && this.#map.stage.isByPose(p);
    const rolling = rollMoves(pair);
    let best = start;
    let step = FIRST_in;
    let last: Move | null = null;
    while (step > END_in) {
      let moved = false;
      let differ = 0;
      const moves: readonly Move[] = [...movesFrom(best.place, steers), ...rolling];
      // the way that was good last time first
      const ordered: readonly Move[] = last ? [last, ...moves] : moves;
      for (const move of ordered) {
        const place: Place | null = this.#moved(best.place, move, step);
        const pose = place && (exactly ? this.poses.exact(place) : this.poses.pose(place));
        if (!place || !pose) continue;
        const rolls: RollShares = move.roll ? rolledBy(best.rolls, move.roll, step) : best.rolls;
        const gap = this.#gapRolled(pair, pose, rollsAt(pair, pose, rolls));
        differ = Math.max(differ, Math.abs(gap - best.gap));
        if (gap >= best.gap - WORTH_A_STEP * step) continue;
        best = { place, gap, rolls };
        moved = true;
        last = move;
        break;
      }
      if (moved) continue;
      last = null;
      if (step < FLAT_in && differ < END_in) break;
      step /= step > FLAT_in ? 2 : 4;
    }
    return best;
  }

  #moved(place: Place, move: Move, step: number): Place | null {
    if (move.roll) return place;
    if (move.share !== 0) {
      const share = Math.max(-1, Math.min(1, place.share + move.share * step * SHARE_STEP));
      return share === place.share ? null : { ...place, share };
    }
    if (move.along !== 0) {
      return place.along === null ? null : this.poses.spots.alongEdge(place, move.along * step);
    }
    if (move.inward) return place.along === null ? null : this.poses.inward(place, step);
    return this.poses.within({
      share: place.share,
      along: null,
      left: place.left + move.left * step,
      right: place.right + move.right * step,
    });
  }

  #result(pair: Pair, pose: Pose, rolls: Rolls, isRefined: boolean): PairGap {
    this.#solver.cutoff = Number.POSITIVE_INFINITY;
    const gap = this.#gapRolled(pair, pose, rolls);
    const { pointA: p, pointB: q, alongA, alongB } = this.#solver;
    return {
      pair,
      status: statusOf(gap, null, pair.required),
      gap,
      lower: null,
      pose,
      rollA: rolls[0] ?? standing(pair.a, pose),
      rollB: rolls[1] ?? standing(pair.b, pose),
      pointA: [p[0], p[1], p[2]] as V3,
      pointB: [q[0], q[1], q[2]] as V3,
      alongA: alongA < 0 ? null : alongA,
      alongB: alongB < 0 ? null : alongB,
      beyond: [],
      isRefined,
    };
  }
}

/** Rolls of a window that `gapAt` looks at. */
const SAMPLED_ROLLS = 9;
/** Share of a window for a step of travel of one inch. */
const ROLL_STEP = 0.15;

const standing = ({ roll }: Part, pose: Pose): number => (roll ? standingRoll(roll, pose) : 0);

/** Which share a move changes, and by how much a step of one inch of travel. */
type RollMove = readonly [part: 0 | 1, way: 1 | -1];

function rolledBy(rolls: RollShares, [part, way]: RollMove, step: number): RollShares {
  const share = Math.max(0, Math.min(1, rolls[part] + way * step * ROLL_STEP));
  return part === 0 ? [share, rolls[1]] : [rolls[0], share];
}

function rollMoves(pair: Pair): Move[] {
  const free = freeOf(pair);
  return ([0, 1] as const)
    .filter(part => free[part])
    .flatMap(part => ([1, -1] as const).map((way): Move => ({ ...NONE, roll: [part, way] })));
}

/** Steering share of a step of travel of one inch. */
const SHARE_STEP = 0.1;

interface Move {
  left: number;
  right: number;
  share: number;
  along: number;
  inward: boolean;
  roll: RollMove | null;
}

const NONE: Move = { left: 0, right: 0, share: 0, along: 0, inward: false, roll: null };
const STEER_MOVES: readonly Move[] = [
  { ...NONE, share: 1 },
  { ...NONE, share: -1 },
];
const INNER_MOVES: readonly Move[] = (
  [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
    [0.7, 0.7],
    [-0.7, -0.7],
    [0.7, -0.7],
    [-0.7, 0.7],
  ] as const
).map(([left, right]) => ({ ...NONE, left, right }));
const EDGE_MOVES: readonly Move[] = [
  { ...NONE, along: 1 },
  { ...NONE, along: -1 },
  { ...NONE, inward: true },
];

function movesFrom(place: Place, steers: boolean): Move[] {
  const travel = place.along === null ? INNER_MOVES : EDGE_MOVES;
  return steers ? [...STEER_MOVES, ...travel] : [...travel];
}

/** Whether two places are in different neighborhoods. */
function isElsewhere(a: Place, b: Place): boolean {
  return Math.hypot(a.left - b.left, a.right - b.right) > 2.5 || Math.abs(a.share - b.share) > 0.6;
}
