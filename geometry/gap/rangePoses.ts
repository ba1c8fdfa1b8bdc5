/**
 * Poses of the range, quickly and many: for the search of least gaps. Places are travels with a share of the
 * steering between what the stops allow; on the edge of the range they are counted along it.
 *
 * What the stops allow is close to what they allow at a neighbor, so that the end of the steering is found from
 * there by secants of the one stop that ends it. The edge is taken as its chords (within EDGE_in of the curve).
 * Both are approximations; `exact` gives the pose that surely lies inside.
 */

import { type EdgePoint, inside } from '../cycle/edge.ts';
import type { Grid } from '../cycle/grid.ts';
import type { Range } from '../cycle/range.ts';
import type { Reach, SteerEnd, SteerInterval } from '../cycle/reach.ts';
import type { Limit, LimitTarget } from '../limit/limit.ts';
import { limits } from '../limit/list.ts';
import { MeasureContext } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';

export interface Place {
  left: number;
  right: number;
  /** −1 full right to 1 full left; 0 straight ahead. */
  share: number;
  /** Fractional index along the edge; null inside. */
  along: number | null;
}

interface Known {
  left: number;
  right: number;
  interval: SteerInterval;
}

/** Most poses that are remembered. */
const REMEMBERED = 100_000;
/** Step of the first secant, rad or in, and where the secants end. */
const SECANT = 1e-3;
const SECANT_END = 1e-9;
const SECANTS = 8;
/** How far a pose is drawn inward at most to lie inside, in. */
const INWARD_in = 4e-3;

export class RangePoses {
  readonly range: Range;
  readonly reach: Reach;
  readonly steers: boolean;
  readonly #known: Known[];
  readonly #stops: { limit: Limit; target: LimitTarget }[];
  readonly #straight = new Map<string, Pose | null>();
  readonly #steered = new Map<string, Pose | null>();
  #last: Pose;

  constructor(range: Range, reach: Reach, grid: Grid) {
    this.range = range;
    this.reach = reach;
    this.steers = reach.model.mechanism.steering !== null;
    this.#known = grid.places.flatMap(({ left, right, interval }) =>
      interval ? [{ left, right, interval }] : [],
    );
    this.#stops = limits
      .filter(limit => limit.role === 'steering')
      .flatMap(limit => limit.targets(reach.axle, reach.build).map(target => ({ limit, target })));
    this.#last = reach.model.ride;
  }

  /** The place, or where it leaves the range the nearest one on its edge. */
  within(place: Place): Place | null {
    if (place.along !== null || inside(this.range.edge, place.left, place.right)) return place;
    return this.#ontoEdge(place);
  }

  /** The place a distance (in) further along the edge. */
  alongEdge(place: Place, distance: number): Place {
    const { edge } = this.range;
    const n = edge.length;
    let index = place.along ?? 0;
    let left = Math.abs(distance);
    const way = Math.sign(distance);
    for (let steps = 0; left > 0 && steps <= n; steps++) {
      const from = way > 0 ? Math.floor(index) : Math.ceil(index) - 1;
      const chord = this.#chord(from);
      const there = (way > 0 ? from + 1 - index : index - from) * chord;
      if (there >= left && chord > 0) {
        index += (way * left) / chord;
        left = 0;
      } else {
        index = way > 0 ? from + 1 : from;
        left -= there;
      }
    }
    return this.#onEdge(((index % n) + n) % n, place.share);
  }

  /** The place this far (in) inward of a place on the edge. */
  inward(place: Place, depth: number): Place | null {
    const [p, q] = this.#endsOf(Math.floor(place.along ?? 0));
    const chord = Math.hypot(q.left - p.left, q.right - p.right);
    if (chord === 0) return null;
    const left = place.left - (depth * (q.right - p.right)) / chord;
    const right = place.right + (depth * (q.left - p.left)) / chord;
    return inside(this.range.edge, left, right)
      ? { left, right, share: place.share, along: null }
      : null;
  }

  /** The pose at a place; null where none exists. */
  pose(place: Place): Pose | null {
    const { left, right } = place;
    const key = `${left},${right}`;
    let straight = this.#straight.get(key);
    if (straight === undefined) {
      straight = this.reach.model.near(this.#last, left, right, 0).pose;
      if (this.#straight.size > REMEMBERED) this.#straight.clear();
      this.#straight.set(key, straight);
    }
    if (straight) this.#last = straight;
    if (!straight || place.share === 0 || !this.steers) return straight;
    const steeredKey = `${key},${place.share}`;
    let pose = this.#steered.get(steeredKey);
    if (pose === undefined) {
      const end = this.#end(straight, place.share > 0 ? 'greatest' : 'least', key);
      pose = end === null ? null : this.#atSteer(straight, Math.abs(place.share) * end);
      if (this.#steered.size > REMEMBERED) this.#steered.clear();
      this.#steered.set(steeredKey, pose);
    }
    return pose;
  }

  /** The pose at a place or right beside it that surely lies inside the range; null where there is none. */
  exact(place: Place): { pose: Pose; place: Place } | null {
    for (let depth = 0; depth < INWARD_in; depth = depth === 0 ? 1e-9 : 4 * depth) {
      const at = depth === 0 ? place : this.#drawnIn(place, depth);
      const { pose: straight, margin } = this.reach.travel(at.left, at.right);
      if (!straight || margin < 0) continue;
      if (!this.steers || at.share === 0) return { pose: straight, place: at };
      const interval = this.#exactInterval(straight);
      const pose = interval && this.reach.steered(straight, interval, at.share);
      return pose ? { pose, place: at } : null;
    }
    return null;
  }

  readonly #intervals = new Map<string, SteerInterval | null>();

  #exactInterval(straight: Pose): SteerInterval | null {
    const key = `${straight.input.left},${straight.input.right}`;
    let interval = this.#intervals.get(key);
    if (interval === undefined) {
      interval = this.reach.steering(straight);
      this.#intervals.set(key, interval);
    }
    return interval;
  }

  /** A place a little nearer to ride height, or inward of the edge. */
  #drawnIn(place: Place, depth: number): Place {
    const inward = place.along === null ? null : this.inward(place, depth);
    if (inward) return inward;
    const size = Math.hypot(place.left, place.right);
    const scale = size === 0 ? 1 : Math.max(0, 1 - depth / size);
    return { ...place, left: scale * place.left, right: scale * place.right };
  }

  #atSteer(straight: Pose, steer: number): Pose | null {
    return steer === 0 ? straight : this.reach.model.atSteer(straight, steer).pose;
  }

  readonly #ends = new Map<string, number | null>();

  /** The end of the steering at a pose, from that of the nearest place of the grid. */
  #end(straight: Pose, which: 'least' | 'greatest', at: string): number | null {
    const key = `${at},${which}`;
    let end = this.#ends.get(key);
    if (end === undefined) {
      end = this.#findEnd(straight, which);
      if (this.#ends.size > REMEMBERED) this.#ends.clear();
      this.#ends.set(key, end);
    }
    return end;
  }

  #findEnd(straight: Pose, which: 'least' | 'greatest'): number | null {
    const { left, right } = straight.input;
    let nearest: Known | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const known of this.#known) {
      const away = (known.left - left) ** 2 + (known.right - right) ** 2;
      if (away >= least) continue;
      least = away;
      nearest = known;
    }
    const found = nearest && this.#bySecants(straight, nearest.interval[which]);
    if (found !== null) return found;
    return this.#exactInterval(straight)?.[which].value ?? null;
  }

  #bySecants(straight: Pose, guess: SteerEnd): number | null {
    const { build, axle, model } = this.reach;
    const stops = this.#stops.filter(
      ({ limit, target }) =>
        limit.id === guess.by && target.part === guess.part && target.side === guess.side,
    );
    const marginAt = (steer: number): number | null => {
      const pose = this.#atSteer(straight, steer);
      if (!pose) return null;
      const context = new MeasureContext(build, axle, model, pose);
      let least: number | null = null;
      for (const { limit, target } of stops) {
        const margin = limit.margin(context, target);
        if (margin !== null && (least === null || margin < least)) least = margin;
      }
      return least;
    };
    let x = guess.value;
    let m = marginAt(x);
    let y = x - Math.sign(x) * SECANT;
    for (let k = 0; k < SECANTS; k++) {
      const n = marginAt(y);
      if (m === null || n === null || n === m) return null;
      const next = y - (n * (y - x)) / (n - m);
      if (!(Math.abs(next - guess.value) < 0.5 * Math.abs(guess.value))) return null;
      x = y;
      m = n;
      y = next;
      if (Math.abs(y - x) < SECANT_END) return y;
    }
    return null;
  }

  #chord(from: number): number {
    const [p, q] = this.#endsOf(from);
    return Math.hypot(q.left - p.left, q.right - p.right);
  }

  #endsOf(from: number): [EdgePoint, EdgePoint] {
    const { edge } = this.range;
    const n = edge.length;
    return [edge[((from % n) + n) % n] as EdgePoint, edge[(((from + 1) % n) + n) % n] as EdgePoint];
  }

  #onEdge(along: number, share: number): Place {
    const from = Math.floor(along);
    const [p, q] = this.#endsOf(from);
    const t = along - from;
    return {
      left: p.left + t * (q.left - p.left),
      right: p.right + t * (q.right - p.right),
      share,
      along,
    };
  }

  #ontoEdge(place: Place): Place | null {
    const { edge } = this.range;
    let best = Number.POSITIVE_INFINITY;
    let along = -1;
    for (let i = 0; i < edge.length; i++) {
      const [p, q] = this.#endsOf(i);
      const dl = q.left - p.left;
      const dr = q.right - p.right;
      const square = dl * dl + dr * dr;
      const t =
        square === 0
          ? 0
          : Math.max(
              0,
              Math.min(1, ((place.left - p.left) * dl + (place.right - p.right) * dr) / square),
            );
      const away = (p.left + t * dl - place.left) ** 2 + (p.right + t * dr - place.right) ** 2;
      if (away >= best) continue;
      best = away;
      along = i + t;
    }
    return along < 0 ? null : this.#onEdge(along % edge.length, place.share);
  }

  /** Places along the edge, `stride` in apart, and each at which the stop changes. */
  edgePlaces(stride: number): Place[] {
    const { edge } = this.range;
    const out: Place[] = [];
    let gone = Number.POSITIVE_INFINITY;
    for (const [i, p] of edge.entries()) {
      const before = edge[(i + edge.length - 1) % edge.length] as EdgePoint;
      gone += Math.hypot(p.left - before.left, p.right - before.right);
      if (gone < stride && p.by === before.by && p.part === before.part) continue;
      gone = 0;
      out.push({ left: p.left, right: p.right, share: 0, along: i });
    }
    return out;
  }
}
