/**
 * The first touch beyond each stop: how far past it the axle, or the steering, goes until a pair of parts touches that
 * keeps apart in the range. That is the margin for a stop that gives, wears or is set wrong. It is searched, not proved:
 * from places along the stop, a step at a time and then by halving, as if that stop and the others there were gone.
 */
import type { EdgePoint } from '../cycle/edge.ts';
import type { End } from '../cycle/reach.ts';
import type { Cycled } from '../cycle/walkReport.ts';
import type { Pose } from '../pose/pose.ts';
import type { GapSearch } from './leastGaps.ts';
import type { PairGap } from './pairGap.ts';
import type { Part } from './part.ts';
import { PlacedGrid } from './placedGrid.ts';
import { Stage } from './stage.ts';

/** What comes first past one stop. */
export interface StopMargin {
  stop: End;
  unit: 'in' | 'rad';
  /** How far past it was looked: travel square to the stop's line in left × right, in; or steering input, in or rad. */
  searched: number;
  /** Null: no pair touches as far as was looked and poses exist. */
  first: Touched | null;
}

interface Touched {
  /** Index of the pair. */
  pair: number;
  past: number;
  pose: Pose;
}

/** How far past a stop is looked, in how many steps, and how closely a touch is found. */
const TRAVEL = { far: 2, steps: 8, end: 1e-3 };
const STEERING = {
  rad: { far: (12 * Math.PI) / 180, steps: 6, end: 1e-4 },
  in: { far: 1, steps: 4, end: 1e-3 },
};
/** Places along a stop's part of the edge: this far apart, in, and no more than so many. */
const APART_in = 1;
const MOST_PLACES = 10;
/** Shares of the steering that are looked at past a stop of travel. */
const SHARES = [-1, -0.5, 0, 0.5, 1];

/** A way past a stop: the poses of one place so far past it; none where the axle can't be put there. */
interface Way {
  stop: number;
  posesAt(past: number): Pose[];
}

interface Ways {
  stops: { stop: End; unit: 'in' | 'rad'; far: number; steps: number; end: number }[];
  ways: Way[];
}

/** A pair that touches on a way at some step. */
interface Touch {
  way: Way;
  pair: number;
}

/**
 * Looks past every stop that ends the travel or the steering of the range, a step at a time.
 *
 * @param gaps what is known of the pairs: those that touch in the range already are left out
 */
export function* stopMarginSteps(
  walk: Cycled,
  parts: readonly Part[],
  search: GapSearch,
  gaps: readonly PairGap[],
): Generator<void, StopMargin[]> {
  const { stops, ways } = waysOf(walk, search);
  const out = stops.map(
    ({ stop, unit, far }): StopMargin => ({ stop, unit, searched: far, first: null }),
  );
  const pairs = gaps.map(({ pair }) => pair);
  const looked = [...pairs.keys()].filter(p => {
    const { gap, pair } = gaps[p] as PairGap;
    return !pair.still && gap >= 0;
  });
  if (looked.length === 0) return out;
  const stage = new Stage(parts, pairs);
  const touches = (p: number, pose: Pose): boolean =>
    search.gapAt((gaps[p] as PairGap).pair, pose) < 0;
  const most = Math.max(0, ...stops.map(({ steps }) => steps));
  for (let k = 1; k <= most; k++) {
    const open = ways.filter(({ stop }) => !(out[stop] as StopMargin).first && k <= stepsOf(stop));
    const places = open.map(way => ({
      steered: way.posesAt(pastAt(way.stop, k)).map(pose => ({ pose })),
    }));
    const grid = new PlacedGrid(stage.motions, { places });
    stage.place(grid);
    const found = new Map<number, Touch[]>();
    for (let c = 0; c < grid.cells.length; c++) {
      const way = open[grid.cells[c] as number] as Way;
      for (const pair of looked) {
        if (!touchesIn(stage, c, pair)) continue;
        found.set(way.stop, [...(found.get(way.stop) ?? []), { way, pair }]);
      }
    }
    yield;
    for (const [stop, all] of found) {
      const { end } = stops[stop] as Ways['stops'][number];
      const first = firstOf(all, pastAt(stop, k - 1), pastAt(stop, k), end, touches);
      if (first) (out[stop] as StopMargin).first = first;
      yield;
    }
  }
  return out;

  function stepsOf(stop: number): number {
    return (stops[stop] as Ways['stops'][number]).steps;
  }
  function pastAt(stop: number, k: number): number {
    const { far, steps } = stops[stop] as Ways['stops'][number];
    return (k * far) / steps;
  }
}

/** The same in one go. */
export function stopMargins(
  walk: Cycled,
  parts: readonly Part[],
  search: GapSearch,
  gaps: readonly PairGap[],
): StopMargin[] {
  const steps = stopMarginSteps(walk, parts, search, gaps);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** The gaps with what each pair is the first to touch beyond. */
export function withBeyond(gaps: readonly PairGap[], margins: readonly StopMargin[]): PairGap[] {
  return gaps.map((found, p) => ({
    ...found,
    beyond: margins.flatMap(({ stop, unit, first }) =>
      first?.pair === p ? [{ ...stop, unit, past: first.past, pose: first.pose }] : [],
    ),
  }));
}

/** Whether a pair touches at a pose of a cell of the placed grid. */
function touchesIn(stage: Stage, c: number, p: number): boolean {
  if (stage.bound(c, p) >= 0) return false;
  const { first } = stage.grid;
  const from = first[c] as number;
  const to = stage.isByPose(p) ? (first[c + 1] as number) : from + 1;
  for (let k = from; k < to; k++) {
    if (stage.capsules(p, k) < 0 && stage.gap(p, k, 0) < 0) return true;
  }
  return false;
}

/** Of pairs that touch at `to` and not at `from`, the one that does first: by halving, to `end`. */
function firstOf(
  all: readonly Touch[],
  from: number,
  to: number,
  end: number,
  touches: (pair: number, pose: Pose) => boolean,
): Touched | null {
  let best: Touched | null = null;
  let bound = to;
  for (const { way, pair } of all) {
    const at = (past: number): Pose | undefined =>
      way.posesAt(past).find(pose => touches(pair, pose));
    let least = from;
    let most = bound;
    if (most <= least) continue;
    let pose = at(most);
    if (!pose) continue;
    while (most - least > end) {
      const middle = (least + most) / 2;
      const there = at(middle);
      if (there) [most, pose] = [middle, there];
      else least = middle;
    }
    best = { pair, past: most, pose };
    bound = most - end;
  }
  return best;
}

function waysOf(walk: Cycled, search: GapSearch): Ways {
  const out: Ways = { stops: [], ways: [] };
  const index = new Map<string, number>();
  const stopOf = ({ by, part, side }: End, unit: 'in' | 'rad', how: typeof TRAVEL): number => {
    const key = JSON.stringify([by, part, side]);
    let found = index.get(key);
    if (found === undefined) {
      found = out.stops.length;
      index.set(key, found);
      out.stops.push({ stop: { by, part, side }, unit, ...how });
    }
    return found;
  };
  travelWays(walk, search, out, end => stopOf(end, 'in', TRAVEL));
  const unit = walk.model.mechanism.steering?.unit;
  if (unit) steeringWays(walk, out, end => stopOf(end, unit, STEERING[unit]));
  return out;
}

/** Square to the edge and outward, from places along it. Where no pose exists beyond, there is nothing to look at. */
function travelWays(
  { range }: Cycled,
  search: GapSearch,
  out: Ways,
  stopOf: (end: End) => number,
): void {
  const { edge } = range;
  const byStop = new Map<number, Way[]>();
  let gone = Number.POSITIVE_INFINITY;
  let last: EdgePoint | null = null;
  for (const [i, p] of edge.entries()) {
    const q = edge[(i + 1) % edge.length] as EdgePoint;
    const chord = Math.hypot(q.left - p.left, q.right - p.right);
    const isSame = last !== null && last.by === p.by && last.part === p.part;
    if (p.by !== 'noPose' && chord > 0 && (!isSame || gone >= APART_in)) {
      gone = 0;
      const stop = stopOf(p);
      // the inside is on the left
      const outward = [(q.right - p.right) / chord, (p.left - q.left) / chord] as const;
      const posesAt = (past: number): Pose[] => {
        const left = p.left + past * outward[0];
        const right = p.right + past * outward[1];
        const shares = search.poses.steers ? SHARES : [0];
        return shares.flatMap(share => {
          const pose = search.poses.pose({ left, right, share, along: null });
          return pose ? [pose] : [];
        });
      };
      byStop.set(stop, [...(byStop.get(stop) ?? []), { stop, posesAt }]);
    }
    gone += chord;
    last = p;
  }
  for (const ways of byStop.values()) out.ways.push(...evenly(ways, MOST_PLACES));
}

/** Past either end of the steering, at the travels of the coarse grid. */
function steeringWays({ grid, model }: Cycled, out: Ways, stopOf: (end: End) => number): void {
  const byStop = new Map<number, Way[]>();
  for (const { straight, interval } of grid.places) {
    if (!straight || !interval) continue;
    for (const [end, sense] of [
      [interval.least, -1],
      [interval.greatest, 1],
    ] as const) {
      if (end.by === 'noPose') continue;
      const stop = stopOf(end);
      const posesAt = (past: number): Pose[] => {
        const { pose } = model.atSteer(straight, end.value + sense * past);
        return pose ? [pose] : [];
      };
      byStop.set(stop, [...(byStop.get(stop) ?? []), { stop, posesAt }]);
    }
  }
  for (const ways of byStop.values()) out.ways.push(...ways);
}

/** At most so many of a list, evenly over it. */
function evenly<T>(list: readonly T[], most: number): T[] {
  if (list.length <= most) return [...list];
  return Array.from(
    { length: most },
    (_, i) => list[Math.round((i * (list.length - 1)) / (most - 1))] as T,
  );
}
