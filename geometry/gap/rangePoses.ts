/**
 * Poses of the range, quickly and many: for the search of least gaps, which looks at some ten thousand.
 *
 * `Spots` tells exactly where the range ends and how far it can be steered; here both are taken from what is near:
 * the edge as its chords (within EDGE_in of the curve), and the end of the steering by secants of the one stop that
 * ends it at a neighboring place of the grid. A pose that is wanted in earnest comes from `exact`.
 */
import { type EdgePoint, inside } from '../cycle/edge.ts';
import type { Grid } from '../cycle/grid.ts';
import type { Range } from '../cycle/range.ts';
import type { Reach, SteerEnd, SteerInterval } from '../cycle/reach.ts';
import { type Place, Spots } from '../cycle/spots.ts';
import type { Limit, LimitTarget } from '../limit/limit.ts';
import { limits } from '../limit/list.ts';
import { MeasureContext } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';

interface Known {
  left: number;
  right: number;
  interval: SteerInterval;
}

/** Most poses that are remembered: each takes a few kB. */
const REMEMBERED = 20_000;
/** Step of the first secant, rad or in, and where the secants end. */
const SECANT = 1e-3;
const SECANT_END = 1e-9;
const SECANTS = 8;
/** How far a pose is drawn inward at most to lie inside, in. */
const INWARD_in = 4e-3;

export class RangePoses {
  readonly spots: Spots;
  readonly #reach: Reach;
  readonly #edge: readonly EdgePoint[];
  readonly #known: Known[];
  readonly #stops: { limit: Limit; target: LimitTarget }[];
  readonly #straight = new Map<string, Pose | null>();
  readonly #steered = new Map<string, Pose | null>();
  readonly #ends = new Map<string, number | null>();
  #last: Pose;

  constructor(range: Range, reach: Reach, grid: Pick<Grid, 'places'>) {
    this.spots = new Spots(range, reach);
    this.#reach = reach;
    this.#edge = range.edge;
    this.#known = grid.places.flatMap(({ left, right, interval }) =>
      interval ? [{ left, right, interval }] : [],
    );
    this.#stops = limits
      .filter(limit => limit.role === 'steering')
      .flatMap(limit => limit.targets(reach.axle, reach.build).map(target => ({ limit, target })));
    this.#last = reach.model.ride;
  }

  get steers(): boolean {
    return this.spots.steers;
  }

  /** The place, or where it leaves the range the nearest one on its edge. */
  within(place: Place): Place {
    const { left, right, share } = place;
    if (place.along !== null || inside(this.#edge, left, right)) return place;
    return this.spots.onEdge(this.spots.nearestAlong(left, right), share);
  }

  /** The place this far (in) inward of a place on the edge; null where that leaves the range again. */
  inward({ left, right, share, along }: Place, depth: number): Place | null {
    const n = this.#edge.length;
    const from = Math.floor(along ?? 0) % n;
    const p = this.#edge[from] as EdgePoint;
    const q = this.#edge[(from + 1) % n] as EdgePoint;
    const chord = Math.hypot(q.left - p.left, q.right - p.right);
    if (chord === 0) return null;
    const l = left - (depth * (q.right - p.right)) / chord;
    const r = right + (depth * (q.left - p.left)) / chord;
    return inside(this.#edge, l, r) ? { left: l, right: r, share, along: null } : null;
  }

  /** Places along the edge, `stride` in apart, and each at which the stop changes. */
  edgePlaces(stride: number): Place[] {
    const out: Place[] = [];
    let gone = Number.POSITIVE_INFINITY;
    for (const [i, p] of this.#edge.entries()) {
      const before = this.#edge.at(i - 1) as EdgePoint;
      gone += Math.hypot(p.left - before.left, p.right - before.right);
      if (gone < stride && !this.spots.isCorner(i)) continue;
      gone = 0;
      out.push({ left: p.left, right: p.right, share: 0, along: i });
    }
    return out;
  }

  /** The pose at a place; null where none exists. */
  pose(place: Place): Pose | null {
    const { left, right, share } = place;
    const key = `${left},${right}`;
    const straight = remembered(
      this.#straight,
      key,
      () => this.#reach.model.near(this.#last, left, right, 0).pose,
    );
    if (straight) this.#last = straight;
    if (!straight || share === 0 || !this.steers) return straight;
    return remembered(this.#steered, `${key},${share}`, () => {
      const which = share > 0 ? 'greatest' : 'least';
      const end = remembered(this.#ends, `${key},${which}`, () => this.#end(straight, which));
      if (end === null) return null;
      // an interval without straight ahead in it is shared out otherwise
      if (end * share <= 0) return this.spots.at(place)?.context.pose ?? null;
      return this.#atSteer(straight, Math.abs(share) * end);
    });
  }

  /** The pose at a place or right beside it that surely lies inside the range; null where there is none. */
  exact(place: Place): Pose | null {
    for (let depth = 0; depth < INWARD_in; depth = depth === 0 ? 1e-9 : 4 * depth) {
      const spot = this.spots.at(depth === 0 ? place : this.#drawnIn(place, depth));
      if (spot) return spot.context.pose;
    }
    return null;
  }

  /** A place a little inward of the edge, or nearer to ride height. */
  #drawnIn(place: Place, depth: number): Place {
    const inward = place.along === null ? null : this.inward(place, depth);
    if (inward) return inward;
    const size = Math.hypot(place.left, place.right);
    const scale = size === 0 ? 1 : Math.max(0, 1 - depth / size);
    return { ...place, left: scale * place.left, right: scale * place.right, along: null };
  }

  #atSteer(straight: Pose, steer: number): Pose | null {
    return steer === 0 ? straight : this.#reach.model.atSteer(straight, steer).pose;
  }

  /** The end of the steering at a pose, from that of the nearest place of the grid. */
  #end(straight: Pose, which: 'least' | 'greatest'): number | null {
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
    return this.#reach.steering(straight, nearest?.interval ?? null)?.[which].value ?? null;
  }

  #bySecants(straight: Pose, guess: SteerEnd): number | null {
    const stops = this.#stops.filter(
      ({ limit, target }) =>
        limit.id === guess.by && target.part === guess.part && target.side === guess.side,
    );
    let x = guess.value;
    let y = x - Math.sign(x) * SECANT;
    let m = this.#margin(straight, stops, x);
    for (let k = 0; k < SECANTS; k++) {
      const n = this.#margin(straight, stops, y);
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

  #margin(
    straight: Pose,
    stops: readonly { limit: Limit; target: LimitTarget }[],
    steer: number,
  ): number | null {
    const pose = this.#atSteer(straight, steer);
    if (!pose) return null;
    const { build, axle, model } = this.#reach;
    const context = new MeasureContext(build, axle, model, pose);
    let least: number | null = null;
    for (const { limit, target } of stops) {
      const margin = limit.margin(context, target);
      if (margin !== null && (least === null || margin < least)) least = margin;
    }
    return least;
  }
}

function remembered<T>(memory: Map<string, T>, key: string, make: () => T): T {
  const known = memory.get(key);
  if (known !== undefined) return known;
  const made = make();
  if (memory.size > REMEMBERED) memory.clear();
  memory.set(key, made);
  return made;
}
