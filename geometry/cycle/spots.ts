/**
 * Spots: poses of the range as a search names them, by travels and by the share of the steering that the stops
 * allow there; those on the edge by their place along it, since an extreme on a slanting edge stalls any search
 * by axes. With them, what a search needs to know of the range: ways along the edge and into it, and how the
 * share's own steering input moves with travel.
 */
import { limits } from '../limit/list.ts';
import { MeasureContext, type Slope } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';
import { closeOn } from './crossing.ts';
import type { EdgePoint } from './edge.ts';
import type { Range } from './range.ts';
import type { End, Reach, SteerEnd, SteerInterval } from './reach.ts';

export interface Place {
  left: number;
  right: number;
  /** −1 full right to 1 full left. */
  share: number;
  /** Index along the edge (fractional), or null inside. */
  along: number | null;
}

export interface Spot {
  place: Place;
  /** The same travels, straight ahead. */
  straight: Pose;
  /** What ends travel nearest by; on the edge, what makes it. */
  nearest: End;
  /** The pose at the share of the steering. */
  context: MeasureContext;
}

/** A direction in left × right, length 1. */
export type Direction = readonly [number, number];

/** Between two points of the edge, the curve lies within this of the chord, in: a few times what it was refined to. */
const DEPTH_in = 0.005;
/** Places on the edge are pulled onto the curve to this, in. */
const ON_CURVE_in = 1e-9;
/** Most spots that are kept: each holds its poses with their derivatives, some 20 kB. */
const MOST_KEPT = 4_000;

export class Spots {
  readonly range: Range;
  readonly reach: Reach;
  readonly steers: boolean;
  readonly #spots = new Map<string, Spot | null>();
  readonly #intervals = new Map<string, SteerInterval | null>();
  #lastInterval: SteerInterval | null = null;

  constructor(range: Range, reach: Reach) {
    this.range = range;
    this.reach = reach;
    this.steers = reach.model.mechanism.steering !== null;
  }

  /** The spot at a place, on the edge pulled to the inner side of the curve; null outside the range. */
  at(place: Place): Spot | null {
    const key = `${place.left},${place.right},${place.share},${place.along === null ? '' : 'e'}`;
    const known = this.#spots.get(key);
    if (known !== undefined) return known;
    const spot = this.#solve(place);
    if (this.#spots.size > MOST_KEPT) this.#spots.clear();
    this.#spots.set(key, spot);
    return spot;
  }

  /** A spot of a pose that is solved already. */
  of(place: Place, straight: Pose, pose: Pose, nearest: End): Spot {
    return { place, straight, nearest, context: this.#context(pose) };
  }

  /** The place a distance further along the edge, in; back where it is negative. */
  alongEdge(place: Place, distance: number): Place {
    const { edge } = this.range;
    const n = edge.length;
    let index = place.along as number;
    let rest = Math.abs(distance);
    const way = Math.sign(distance);
    // once around at most: an edge may have no length
    for (let passed = 0; rest > 0 && passed <= n; passed++) {
      const from = way > 0 ? Math.floor(index) : Math.ceil(index) - 1;
      const chord = this.#chord(from).length;
      const there = (way > 0 ? from + 1 - index : index - from) * chord;
      if (there >= rest && chord > 0) {
        index += (way * rest) / chord;
        rest = 0;
      } else {
        index = way > 0 ? from + 1 : from;
        rest -= there;
      }
    }
    return this.onEdge(((index % n) + n) % n, place.share);
  }

  /** The place at an index of the edge. */
  onEdge(along: number, share: number): Place {
    const from = Math.floor(along);
    const { a, b } = this.#chord(from);
    const t = along - from;
    return {
      left: a.left + t * (b.left - a.left),
      right: a.right + t * (b.right - a.right),
      share,
      along,
    };
  }

  /** The index along the edge that is nearest to a point. */
  nearestAlong(left: number, right: number): number {
    let best = 0;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < this.range.edge.length; i++) {
      const { a, length, direction } = this.#chord(i);
      const t = Math.max(
        0,
        Math.min(length, (left - a.left) * direction[0] + (right - a.right) * direction[1]),
      );
      const off = Math.hypot(a.left + t * direction[0] - left, a.right + t * direction[1] - right);
      if (off >= least) continue;
      least = off;
      best = i + (length > 0 ? t / length : 0);
    }
    return best % this.range.edge.length;
  }

  /** True at a point of the edge where one stop takes over from another. */
  isCorner(along: number): boolean {
    if (!Number.isInteger(along)) return false;
    const here = this.range.edge[along];
    const { edge } = this.range;
    const before = edge[(along + edge.length - 1) % edge.length];
    const after = edge[(along + 1) % edge.length];
    const differs = (p: EdgePoint | undefined): boolean =>
      p?.by !== here?.by || p?.part !== here?.part;
    return differs(before) || differs(after);
  }

  /** The next corner from an index on, in that direction, within a distance along the edge, or null. */
  cornerWithin(along: number, distance: number): number | null {
    const n = this.range.edge.length;
    const way = Math.sign(distance);
    let rest = Math.abs(distance);
    let index = along;
    for (let passed = 0; rest > 0 && passed <= n; passed++) {
      const from = way > 0 ? Math.floor(index) : Math.ceil(index) - 1;
      rest -= (way > 0 ? from + 1 - index : index - from) * this.#chord(from).length;
      index = way > 0 ? from + 1 : from;
      if (rest >= 0 && this.isCorner(((index % n) + n) % n)) return ((index % n) + n) % n;
    }
    return null;
  }

  /** Ways along the edge from a spot on it: onward and back; at a corner they are no straight line. */
  edgeWays(spot: Spot): { onward: Direction; back: Direction } {
    const along = spot.place.along as number;
    const inward = this.isCorner(along) ? null : this.inward(spot);
    if (inward) {
      // with the inside on the left, the way on has the inward direction on its left
      return { onward: [inward[1], -inward[0]], back: [-inward[1], inward[0]] };
    }
    const ahead = this.#chord(Math.floor(along)).direction;
    const behind = this.#chord(Math.ceil(along) - 1).direction;
    return { onward: ahead, back: [-behind[0], -behind[1]] };
  }

  /** Into the range, square to the stop that makes the edge here; null where that has no slope. */
  inward({ nearest, straight }: Spot): Direction | null {
    if (nearest.by === 'assumedTravel') {
      if (nearest.part === 'roll') return null;
      const sign = nearest.part === 'up' ? -1 : 1;
      return nearest.side === 'left' ? [sign, 0] : [0, sign];
    }
    const slope = this.#slopeOf(nearest, this.#context(straight));
    const size = slope ? Math.hypot(slope[0], slope[1]) : 0;
    return slope && size > 0 ? [slope[0] / size, slope[1] / size] : null;
  }

  /** Steering input by share at a spot: rad or in for a share of 1. */
  inputPerShare({ straight, place }: Spot): number {
    const interval = this.#interval(straight);
    if (!interval) return 0;
    const { least, greatest } = interval;
    if (least.value > 0 || greatest.value < 0) return (greatest.value - least.value) / 2;
    return place.share < 0 ? -least.value : greatest.value;
  }

  /** How the steering input moves with travel while its share stays; null where that has no slope. */
  inputSlope({ place, straight }: Spot): Direction | null {
    if (place.share === 0) return [0, 0];
    const interval = this.#interval(straight);
    if (!interval) return null;
    const end = place.share < 0 ? interval.least : interval.greatest;
    if (end.by === 'assumedTravel') return [0, 0];
    const { pose } = this.reach.model.atSteer(straight, end.value);
    const slope = pose && this.#slopeOf(end, this.#context(pose));
    if (!slope || slope[2] === 0) return null;
    const size = Math.abs(place.share);
    return [(-size * slope[0]) / slope[2], (-size * slope[1]) / slope[2]];
  }

  #slopeOf(end: End | SteerEnd, context: MeasureContext): Slope | null {
    const { axle, build } = this.reach;
    const limit = limits.find(each => each.id === end.by);
    const targets = (limit?.targets(axle, build) ?? []).filter(
      each => each.part === end.part && each.side === end.side,
    );
    // of the two ends of one part, the one that is met
    const [nearest] = targets
      .map(target => ({
        target,
        margin: limit?.margin(context, target) ?? Number.POSITIVE_INFINITY,
      }))
      .sort((a, b) => a.margin - b.margin);
    return nearest && limit ? limit.slope(context, nearest.target) : null;
  }

  #chord(index: number): { a: EdgePoint; b: EdgePoint; length: number; direction: Direction } {
    const { edge } = this.range;
    const n = edge.length;
    const a = edge[((index % n) + n) % n] as EdgePoint;
    const b = edge[(((index + 1) % n) + n) % n] as EdgePoint;
    const [dl, dr] = [b.left - a.left, b.right - a.right];
    const length = Math.hypot(dl, dr);
    return { a, b, length, direction: length > 0 ? [dl / length, dr / length] : [0, 0] };
  }

  #solve(place: Place): Spot | null {
    const { reach } = this;
    let { left, right } = place;
    let state = reach.travel(left, right);
    if (place.along !== null && !Number.isInteger(place.along)) {
      const [l, r] = this.#ontoCurve(place);
      if (l !== left || r !== right) {
        [left, right] = [l, r];
        state = reach.travel(left, right);
      }
    }
    const straight = state.pose;
    if (!straight || state.margin < 0) return null;
    const pose = this.#steered(straight, place.share);
    return pose && this.of({ ...place, left, right }, straight, pose, state.nearest);
  }

  #steered(straight: Pose, share: number): Pose | null {
    const { reach } = this;
    if (!this.steers) return straight;
    if (share === 0 && reach.allowsStraight(straight)) return straight;
    const interval = this.#interval(straight);
    return interval && reach.steered(straight, interval, share);
  }

  /** Between two points of the edge: onto the curve, square to the chord. */
  #ontoCurve({ left, right, along }: Place): Direction {
    const { direction } = this.#chord(Math.floor(along as number));
    const inward: Direction = [-direction[1], direction[0]];
    const at = (t: number) => {
      const { margin } = this.reach.travel(left + t * inward[0], right + t * inward[1]);
      return { margin, what: null };
    };
    const inner = at(DEPTH_in);
    const outer = at(-DEPTH_in);
    if (!(inner.margin >= 0 && outer.margin < 0)) return [left, right];
    const { inner: t } = closeOn(at, DEPTH_in, inner.margin, -DEPTH_in, outer, ON_CURVE_in);
    return [left + t * inward[0], right + t * inward[1]];
  }

  #interval(straight: Pose): SteerInterval | null {
    const key = `${straight.input.left},${straight.input.right}`;
    let interval = this.#intervals.get(key);
    if (interval === undefined) {
      interval = this.reach.steering(straight, this.#lastInterval);
      if (interval) this.#lastInterval = interval;
      if (this.#intervals.size > MOST_KEPT) this.#intervals.clear();
      this.#intervals.set(key, interval);
    }
    return interval;
  }

  #context(pose: Pose): MeasureContext {
    const { build, axle, model } = this.reach;
    return new MeasureContext(build, axle, model, pose);
  }
}
