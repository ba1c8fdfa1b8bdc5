/**
 * The least and the greatest value of each measure over the range and all steering that the stops allow.
 *
 * Candidates come from the coarse grid and from the edge; from the best of them each is refined by a pattern
 * search that keeps to the range: (left, right, share of steering) inside, (place along the edge, share) on it,
 * since an extreme on a slanting edge stalls any search by axes. Ends when the steps are under 1e-4 in of travel.
 */

import { measures } from '../measure/list.ts';
import type { Measure, Target } from '../measure/measure.ts';
import { MeasureContext } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';
import type { Grid } from './grid.ts';
import { type EdgePoint, furthest, type Range } from './range.ts';
import type { Reach, SteerInterval } from './reach.ts';

export interface Extreme {
  value: number;
  pose: Pose;
}

export interface Extremes {
  measure: Measure;
  target: Target;
  /** Null where the measure has no value anywhere; `missing` says why. */
  least: Extreme | null;
  greatest: Extreme | null;
  missing: string | null;
}

/** Where the search stands: inside, or at a place along the edge (fractional index). */
interface Place {
  left: number;
  right: number;
  /** −1 full right to 1 full left. */
  share: number;
  /** Index along the edge, or null inside. */
  along: number | null;
}

/** Steps of travel (in) and of steering share at which the search begins and ends. */
const FIRST_in = 0.5;
const LAST_in = 2e-5;
/** Most starts that are refined for one extreme. */
const STARTS = 2;

/** Columns of an axle: every measure with each of its targets. */
export function columnsOf(reach: Reach): { measure: Measure; target: Target }[] {
  return measures.flatMap(measure =>
    measure.targets(reach.axle, reach.build).map(target => ({ measure, target })),
  );
}

/** Finds the extremes of every measure of an axle. */
export const findExtremes = (finder: Finder, reach: Reach): Extremes[] =>
  columnsOf(reach).map(({ measure, target }) => finder.extremes(measure, target));

/** Anything that a pose tells; null where it tells nothing. */
export type Value = (context: MeasureContext) => number | null;

interface Start {
  place: Place;
  context: MeasureContext;
}

interface Known {
  value: number;
  start: Start;
}

/** Looks for the extremes of anything over a range and all steering that the stops allow there. */
export class Finder {
  readonly #range: Range;
  readonly #reach: Reach;
  readonly #steers: boolean;
  /** Poses by place, since many measures look at the same ones. */
  readonly #memory = new Map<string, Start | null>();
  readonly #starts: readonly Start[];

  constructor(range: Range, reach: Reach, grid: Grid) {
    this.#range = range;
    this.#reach = reach;
    this.#steers = reach.model.mechanism.steering !== null;
    this.#starts = this.#startsOf(grid);
  }

  /**
   * The greatest of a value; null where it has none anywhere.
   *
   * @param share look only where the steering stands at this share of its interval, −1 full right to 1 full left
   */
  greatest(value: Value, share: number | null = null): Extreme | null {
    const known: Known[] = [];
    for (const start of this.#starts) {
      if (share !== null && this.#steers && start.place.share !== share) continue;
      const found = value(start.context);
      if (found !== null) known.push({ value: found, start });
    }
    return known.length === 0 ? null : this.#best(known, value, share);
  }

  /** The least and the greatest of a measure. */
  extremes(measure: Measure, target: Target): Extremes {
    let missing: string | null = null;
    const known: Known[] = [];
    for (const start of this.#starts) {
      const value = measure.value(start.context, target);
      if (typeof value === 'number') known.push({ value, start });
      else missing = value.missing;
    }
    if (known.length === 0) return { measure, target, least: null, greatest: null, missing };
    const end = (sign: 1 | -1): Extreme => {
      const signed = known.map(({ value, start }) => ({ value: sign * value, start }));
      const value: Value = context => {
        const reading = measure.value(context, target);
        return typeof reading === 'number' ? sign * reading : null;
      };
      const { value: best, pose } = this.#best(signed, value, null);
      return { value: sign * best, pose };
    };
    return { measure, target, least: end(-1), greatest: end(1), missing };
  }

  #startsOf(grid: Grid): Start[] {
    const out: Start[] = [];
    for (const place of grid.places) {
      for (const { share, pose } of place.steered) {
        out.push({
          place: { left: place.left, right: place.right, share, along: null },
          context: this.#context(pose),
        });
      }
    }
    const { edge } = this.#range;
    const shares = this.#steers ? [-1, -0.5, 0, 0.5, 1] : [0];
    const stride = Math.max(1, Math.floor(edge.length / 60));
    for (let i = 0; i < edge.length; i++) {
      const p = edge[i] as EdgePoint;
      const before = edge[(i + edge.length - 1) % edge.length] as EdgePoint;
      // every so many points, and each at which the stop changes
      if (i % stride !== 0 && p.by === before.by && p.part === before.part) continue;
      for (const share of shares) {
        const start = this.#at({ left: p.left, right: p.right, share, along: i });
        if (start) out.push(start);
      }
    }
    return out;
  }

  /** Climbs from the best of the starts, one in each neighborhood. */
  #best(known: readonly Known[], value: Value, share: number | null): Extreme {
    const at = (start: Start): number => value(start.context) ?? Number.NEGATIVE_INFINITY;
    const sorted = [...known].sort((a, b) => b.value - a.value);
    let best: Known | null = null;
    const taken: Place[] = [];
    for (const { start } of sorted) {
      if (taken.length >= STARTS) break;
      if (taken.some(p => Math.hypot(p.left - start.place.left, p.right - start.place.right) < 1))
        continue;
      taken.push(start.place);
      const refined = this.#climb(start, at, share === null);
      if (!best || refined.value > best.value) best = refined;
    }
    const { value: found, start } = best as Known;
    return { value: found, pose: start.context.pose };
  }

  /** Pattern search from a start. */
  #climb(start: Start, value: (start: Start) => number, steers: boolean): Known {
    let best = start;
    let bestValue = value(start);
    let step = FIRST_in;
    const flat = value(start);
    let moved = false;
    while (step > LAST_in) {
      let found = false;
      for (const next of this.#neighbors(best.place, step, steers)) {
        const there = this.#at(next);
        if (!there) continue;
        const v = value(there);
        if (v > bestValue + 1e-13 * Math.abs(bestValue)) {
          best = there;
          bestValue = v;
          found = true;
          moved = true;
        }
      }
      if (!found) step /= step > 0.01 ? 2 : 4;
      // a measure that is constant here has nothing to climb
      if (!moved && step < 0.05 && bestValue === flat && this.#isFlat(best, value, steers)) break;
    }
    return { value: bestValue, start: best };
  }

  #isFlat(start: Start, value: (start: Start) => number, steers: boolean): boolean {
    const here = value(start);
    return this.#neighbors(start.place, FIRST_in, steers).every(next => {
      const there = this.#at(next);
      return !there || value(there) === here;
    });
  }

  #neighbors(place: Place, step: number, steers: boolean): Place[] {
    const out: Place[] = [];
    const share = step / 10;
    if (this.#steers && steers) {
      for (const s of [share, -share]) {
        const next = Math.max(-1, Math.min(1, place.share + s));
        if (next !== place.share) out.push({ ...place, share: next });
      }
    }
    if (place.along === null) {
      for (const [dl, dr] of [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
        [0.7, 0.7],
        [-0.7, -0.7],
        [0.7, -0.7],
        [-0.7, 0.7],
      ] as const) {
        out.push({ ...place, left: place.left + dl * step, right: place.right + dr * step });
      }
    } else {
      for (const way of [1, -1] as const) out.push(this.#alongEdge(place, way * step));
    }
    return out;
  }

  /** The place a distance further along the edge. */
  #alongEdge(place: Place, distance: number): Place {
    const { edge } = this.#range;
    const n = edge.length;
    let index = place.along as number;
    let left = Math.abs(distance);
    const way = Math.sign(distance);
    while (left > 0) {
      const from = way > 0 ? Math.floor(index) : Math.ceil(index) - 1;
      const a = edge[((from % n) + n) % n] as EdgePoint;
      const b = edge[(((from + 1) % n) + n) % n] as EdgePoint;
      const chord = Math.hypot(b.left - a.left, b.right - a.right);
      const rest = way > 0 ? from + 1 - index : index - from;
      const there = rest * chord;
      if (there >= left && chord > 0) {
        index += (way * left) / chord;
        left = 0;
      } else {
        index = way > 0 ? from + 1 : from;
        left -= there;
      }
    }
    index = ((index % n) + n) % n;
    const from = Math.floor(index);
    const a = edge[from % n] as EdgePoint;
    const b = edge[(from + 1) % n] as EdgePoint;
    const t = index - from;
    return {
      left: a.left + t * (b.left - a.left),
      right: a.right + t * (b.right - a.right),
      share: place.share,
      along: index,
    };
  }

  /** The pose at a place, on the edge pulled to the inner side of it; null outside the range. */
  #at(place: Place): Start | null {
    const key = `${place.left},${place.right},${place.share},${place.along === null ? '' : 'e'}`;
    const known = this.#memory.get(key);
    if (known !== undefined) return known;
    const start = this.#solve(place);
    if (this.#memory.size > 200_000) this.#memory.clear();
    this.#memory.set(key, start);
    return start;
  }

  #solve(place: Place): Start | null {
    const reach = this.#reach;
    let { left, right } = place;
    let state = reach.travel(left, right);
    if (place.along !== null && !Number.isInteger(place.along)) {
      // between two points of the edge: onto the curve, along the way from a little further in
      const edge = this.#range.edge;
      const a = edge[Math.floor(place.along) % edge.length] as EdgePoint;
      const b = edge[(Math.floor(place.along) + 1) % edge.length] as EdgePoint;
      const chord = Math.hypot(b.left - a.left, b.right - a.right);
      if (chord > 1e-9) {
        const inward = [-(b.right - a.right) / chord, (b.left - a.left) / chord] as const;
        const depth = 0.01;
        const from: [number, number] = [left + depth * inward[0], right + depth * inward[1]];
        if (reach.travel(...from).margin >= 0) {
          const p = furthest(reach, from, [-inward[0], -inward[1]]);
          if (Math.hypot(p.left - left, p.right - right) < 2 * depth) {
            ({ left, right } = p);
            state = reach.travel(left, right);
          }
        }
      }
    }
    if (!state.pose || state.margin < 0) return null;
    let pose: Pose | null = state.pose;
    if (this.#steers) {
      const interval = this.#interval(state.pose);
      if (!interval) return null;
      pose = reach.steered(state.pose, interval, place.share);
    }
    return pose ? { place: { ...place, left, right }, context: this.#context(pose) } : null;
  }

  readonly #intervals = new Map<string, SteerInterval | null>();

  #interval(pose: Pose): SteerInterval | null {
    const key = `${pose.input.left},${pose.input.right}`;
    let interval = this.#intervals.get(key);
    if (interval === undefined) {
      interval = this.#reach.steering(pose);
      this.#intervals.set(key, interval);
    }
    return interval;
  }

  #context(pose: Pose): MeasureContext {
    const { build, axle, model } = this.#reach;
    return new MeasureContext(build, axle, model, pose);
  }
}
