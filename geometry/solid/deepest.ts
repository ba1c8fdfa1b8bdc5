/**
 * The point of a triangle that lies deepest inside a core.
 *
 * The signed distance f from a convex core is convex, so that every evaluation gives a plane under it:
 * f(p) ≥ f(p_k) + g_k·(p − p_k). Over the triangle, in two coordinates (u, v), the least value of the highest
 * of the planes is a lower bound, f where it occurs an upper one, and f's plane there is the next one (Kelley's
 * cutting planes, 1960, from memory). The least value with a new plane that was violated lies on the new
 * plane: on the part of the triangle where it is the highest, cut out of the triangle plane by plane, a corner
 * of that part has the least value. Ends after finitely many steps for cores with flat faces.
 */
import { distanceFromCore } from './coreDistance.ts';
import type { Depth } from './depth.ts';
import { APART, type Gjk } from './gjk.ts';
import { type Numbers, numbers } from './numbers.ts';
import { type Piece, POINTS, segmentPiece } from './piece.ts';
import { type Placement, unmoved } from './placement.ts';
import { BOUNDS_END_in } from './tolerances.ts';

const MOST_PLANES = 60;
/** Corners of a triangle cut by that many lines. */
const MOST_CORNERS = MOST_PLANES + 4;

export class Deepest {
  /** Corners of the triangle: set before `run`. */
  readonly corners = numbers(9);
  /** Least signed distance from the core, in, where it occurs, and f's gradient there. */
  least = 0.5;
  readonly point = numbers(3);
  readonly away = numbers(3);

  readonly #gjk: Gjk;
  readonly #depth: Depth;
  readonly #planes = new Float64Array(3 * MOST_PLANES);
  readonly #polygon = [new Float64Array(2 * MOST_CORNERS), new Float64Array(2 * MOST_CORNERS)];
  readonly #at = numbers(7);
  readonly #spot = segmentPiece([0, 0, 0], [0, 0, 0], 0);
  readonly #here = unmoved();

  constructor(gjk: Gjk, depth: Depth) {
    this.#gjk = gjk;
    this.#depth = depth;
  }

  /**
   * Finds the deepest point; gives up once it is surely not under `cutoff` (in), with `least` then
   * some value not under it. `placed` is what `placeCore` wrote.
   */
  run(piece: Piece, place: Placement, placed: Numbers, cutoff: number): void {
    const c = this.corners;
    const at = this.#at;
    const ux = c[3] - c[0];
    const uy = c[4] - c[1];
    const uz = c[5] - c[2];
    const vx = c[6] - c[0];
    const vy = c[7] - c[1];
    const vz = c[8] - c[2];
    const planes = this.#planes;
    let u = 1 / 3;
    let v = 1 / 3;
    this.least = Infinity;
    for (let k = 0; k < MOST_PLANES; k++) {
      at[0] = c[0] + u * ux + v * vx;
      at[1] = c[1] + u * uy + v * vy;
      at[2] = c[2] + u * uz + v * vz;
      this.distanceAt(piece, place, placed, at);
      if (at[3] < this.least) {
        this.least = at[3];
        this.point.set(at.subarray(0, 3));
        this.away.set(at.subarray(4, 7));
      }
      const a = at[4] * ux + at[5] * uy + at[6] * uz;
      const b = at[4] * vx + at[5] * vy + at[6] * vz;
      planes[3 * k] = a;
      planes[3 * k + 1] = b;
      planes[3 * k + 2] = at[3] - a * u - b * v;
      const corners = this.#highest(k);
      if (corners === 0) return;
      const polygon = this.#polygon[0] as Float64Array;
      let lower = Infinity;
      for (let i = 0; i < corners; i++) {
        const p = polygon[2 * i] as number;
        const q = polygon[2 * i + 1] as number;
        const value = a * p + b * q + (planes[3 * k + 2] as number);
        if (value < lower) {
          lower = value;
          u = p;
          v = q;
        }
      }
      if (this.least - lower <= BOUNDS_END_in || lower >= cutoff) return;
    }
  }

  /**
   * As `distanceFromCore`: signed distance (in) and gradient at the point in `at`, but exact for points too.
   */
  distanceAt(piece: Piece, place: Placement, placed: Numbers, at: Numbers): void {
    if (piece.core !== POINTS) {
      distanceFromCore(piece, placed, at);
      return;
    }
    const spot = this.#spot.data;
    for (let i = 0; i < 3; i++) spot[i] = spot[3 + i] = at[i] as number;
    const gjk = this.#gjk;
    gjk.begin(this.#spot, this.#here, piece, place);
    // v = the point − the hull's nearest, so it points away from the hull
    gjk.cutoff = Infinity;
    if (gjk.run() === APART) {
      at[3] = gjk.upper;
      for (let i = 0; i < 3; i++) at[4 + i] = (gjk.v[i] as number) / gjk.upper;
    } else {
      this.#depth.run(gjk);
      at[3] = -this.#depth.depth;
      // the hull would move along the normal to leave the point: the point leaves the other way
      for (let i = 0; i < 3; i++) at[4 + i] = -(this.#depth.normal[i] as number);
    }
  }

  /** Cuts out of the triangle where plane k is the highest; returns how many corners are left. */
  #highest(k: number): number {
    const planes = this.#planes;
    let from = this.#polygon[0] as Float64Array;
    let to = this.#polygon[1] as Float64Array;
    from[0] = from[1] = from[3] = from[4] = 0;
    from[2] = from[5] = 1;
    let count = 3;
    for (let i = 0; i < k && count > 0; i++) {
      const a = (planes[3 * k] as number) - (planes[3 * i] as number);
      const b = (planes[3 * k + 1] as number) - (planes[3 * i + 1] as number);
      const c = (planes[3 * k + 2] as number) - (planes[3 * i + 2] as number);
      let kept = 0;
      let pu = from[2 * count - 2] as number;
      let pv = from[2 * count - 1] as number;
      let before = a * pu + b * pv + c;
      for (let j = 0; j < count; j++) {
        const qu = from[2 * j] as number;
        const qv = from[2 * j + 1] as number;
        const here = a * qu + b * qv + c;
        if (before < 0 !== here < 0) {
          const f = before / (before - here);
          to[2 * kept] = pu + f * (qu - pu);
          to[2 * kept + 1] = pv + f * (qv - pv);
          kept++;
        }
        if (here >= 0) {
          to[2 * kept] = qu;
          to[2 * kept + 1] = qv;
          kept++;
        }
        pu = qu;
        pv = qv;
        before = here;
      }
      count = kept;
      const swap = from;
      from = to;
      to = swap;
    }
    // leave the result in the first array
    if (from !== this.#polygon[0])
      (this.#polygon[0] as Float64Array).set(from.subarray(0, 2 * count));
    return count;
  }
}
