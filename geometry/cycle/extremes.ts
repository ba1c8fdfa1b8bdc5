/**
 * The least and the greatest value of each measure over the range and all steering that the stops allow.
 *
 * Candidates come from the coarse grid and from the edge; from the best of them, one in each neighborhood, each
 * is climbed to its top (`climb.ts`): to 1e-8 of the value where slopes lead, to 1e-4 in of travel at kinks.
 */
import { measures } from '../measure/list.ts';
import type { Measure, MeasureContext, Target } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';
import { climb, type Hill, type Top } from './climb.ts';
import type { EdgePoint } from './edge.ts';
import type { Grid } from './grid.ts';
import type { Range } from './range.ts';
import type { Reach } from './reach.ts';
import { type Place, type Spot, Spots } from './spots.ts';

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

/** Most starts that are climbed from for one extreme, and how far apart they are, in. */
const STARTS = 2;
const APART_in = 1;
/** Points of the edge that are candidates, beside its corners. */
const EDGE_POINTS = 60;
/** Differences of a value that are none, as a part of the value and of its spread over the candidates. */
const NONE = 1e-8;
/** Differences that are rounding whatever the value, in or rad. */
const ROUNDING = 1e-10;

/** Columns of an axle: every measure with each of its targets. */
export function columnsOf(reach: Reach): { measure: Measure; target: Target }[] {
  return measures.flatMap(measure =>
    measure.targets(reach.axle, reach.build).map(target => ({ measure, target })),
  );
}

/** Finds the extremes of every measure of an axle. */
export const findExtremes = (range: Range, reach: Reach, grid: Grid): Extremes[] =>
  new Finder(range, reach, grid).all();

/** Anything that a pose tells; null where it tells nothing. */
export type Value = (context: MeasureContext) => number | null;

/** Looks for the extremes of anything over a range and all steering that the stops allow there. */
export class Finder {
  readonly #spots: Spots;
  /** Candidates straight ahead, and those at other steering inputs. */
  readonly #straight: Spot[] = [];
  readonly #turned: Spot[] = [];
  readonly #found = new Map<string, Extremes>();

  constructor(range: Range, reach: Reach, grid: Grid) {
    this.#spots = new Spots(range, reach);
    for (const spot of [...this.#atRide(), ...this.#ofGrid(grid), ...this.#ofEdge()]) {
      (spot.place.share === 0 ? this.#straight : this.#turned).push(spot);
    }
  }

  /**
   * The greatest of a value; null where it has none anywhere.
   *
   * @param share look only where the steering stands at this share of its interval, −1 full right to 1 full left
   */
  greatest(value: Value, share: number | null = null): Extreme | null {
    const starts = [...this.#straight, ...this.#turned].filter(
      ({ place }) => share === null || !this.#spots.steers || place.share === share,
    );
    const known = starts.flatMap((spot): Top[] => {
      const found = value(spot.context);
      return found === null ? [] : [{ value: found, spot }];
    });
    if (known.length === 0) return null;
    return this.#top(known, {
      value: context => value(context) ?? Number.NEGATIVE_INFINITY,
      slope: null,
      least: leastOf(known),
      steers: share === null,
    });
  }

  /** The extremes of every measure of the axle. */
  all(): Extremes[] {
    return measures.flatMap(measure => this.extremesOf(measure));
  }

  /** The least and the greatest of a measure; kept once they are found. */
  extremes(measure: Measure, target: Target): Extremes {
    const key = `${measure.id} ${target.part} ${target.side}`;
    const found = this.#found.get(key) ?? this.#find(measure, target);
    this.#found.set(key, found);
    return found;
  }

  /** Those of a measure's every target. */
  extremesOf(measure: Measure): Extremes[] {
    const { axle, build } = this.#spots.reach;
    return measure.targets(axle, build).map(target => this.extremes(measure, target));
  }

  #find(measure: Measure, target: Target): Extremes {
    const steers = this.#hangsOnSteering(measure, target);
    let missing: string | null = null;
    const known: Top[] = [];
    for (const spot of steers ? [...this.#straight, ...this.#turned] : this.#straight) {
      const value = measure.value(spot.context, target);
      if (typeof value === 'number') known.push({ value, spot });
      else missing = value.missing;
    }
    if (known.length === 0) return { measure, target, least: null, greatest: null, missing };
    const least = leastOf(known);
    const end = (sign: 1 | -1): Extreme => {
      const { value, pose } = this.#top(
        known.map(({ value: v, spot }) => ({ value: sign * v, spot })),
        {
          value: context => {
            const reading = measure.value(context, target);
            return typeof reading === 'number' ? sign * reading : Number.NEGATIVE_INFINITY;
          },
          slope: context => {
            const slope = measure.slope(context, target);
            return slope && [sign * slope[0], sign * slope[1], sign * slope[2]];
          },
          least,
          steers,
        },
      );
      return { value: sign * value, pose };
    };
    return { measure, target, least: end(-1), greatest: end(1), missing };
  }

  /**
   * Climbs from the best of the candidates. Where a candidate is as good as the top, the plainest is taken: the
   * one with the least travel, straight ahead before turned.
   */
  #top(known: readonly Top[], hill: Hill): Extreme {
    const sorted = [...known].sort(
      (a, b) => b.value - a.value || Math.abs(a.spot.place.share) - Math.abs(b.spot.place.share),
    );
    const [first] = sorted as [Top];
    const [last] = sorted.slice(-1) as [Top];
    let best = first;
    const taken: Spot[] = [];
    // what is constant has nothing to climb
    for (const { spot } of first.value - last.value <= hill.least ? [] : sorted) {
      if (taken.length >= STARTS) break;
      if (taken.some(({ place }) => apart(place, spot.place) < APART_in)) continue;
      taken.push(spot);
      const top = climb(this.#spots, spot, hill);
      if (top.value > best.value) best = top;
    }
    const asGood = sorted.filter(({ value }) => value >= best.value - hill.least);
    const [plainest = best] = asGood.sort((a, b) => effort(a.spot.place) - effort(b.spot.place));
    return { value: plainest.value, pose: plainest.spot.context.pose };
  }

  /** False where a measure has the very same values at full lock both ways, wherever the grid looks. */
  #hangsOnSteering(measure: Measure, target: Target): boolean {
    if (!this.#spots.steers) return false;
    const byTravel = new Map<string, number | string>();
    for (const { place, context } of this.#turned) {
      if (place.along !== null || Math.abs(place.share) !== 1) continue;
      const reading = measure.value(context, target);
      const here = typeof reading === 'number' ? reading : reading.missing;
      const key = `${place.left},${place.right}`;
      const other = byTravel.get(key);
      if (other !== undefined && other !== here) return true;
      byTravel.set(key, here);
    }
    return false;
  }

  /** Shares of the steering that are looked at away from the grid. */
  get #shares(): readonly number[] {
    return this.#spots.steers ? [0, -1, 1, -0.5, 0.5] : [0];
  }

  #atRide(): Spot[] {
    return this.#shares.flatMap(
      share => this.#spots.at({ left: 0, right: 0, share, along: null }) ?? [],
    );
  }

  #ofGrid(grid: Grid): Spot[] {
    return grid.places.flatMap(({ left, right, straight, nearest, steered }) =>
      steered.flatMap(({ share, pose }) =>
        straight && nearest
          ? [this.#spots.of({ left, right, share, along: null }, straight, pose, nearest)]
          : [],
      ),
    );
  }

  #ofEdge(): Spot[] {
    const { edge } = this.#spots.range;
    const stride = Math.max(1, Math.floor(edge.length / EDGE_POINTS));
    const points = [...edge.keys()].filter(i => i % stride === 0 || this.#spots.isCorner(i));
    return points.flatMap(i =>
      this.#shares.flatMap(share => this.#spots.at(this.#spots.onEdge(i, share)) ?? []),
    );
  }
}

const apart = (a: Pick<EdgePoint, 'left' | 'right'>, b: typeof a): number =>
  Math.hypot(a.left - b.left, a.right - b.right);

/** How far a place is from ride height, and then from straight ahead. */
const effort = ({ left, right, share }: Place): number =>
  Math.abs(left) + Math.abs(right) + Math.abs(share);

function leastOf(known: readonly Top[]): number {
  const values = known.map(({ value }) => value);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return Math.max(ROUNDING, NONE * Math.max(Math.abs(low), Math.abs(high), high - low));
}
