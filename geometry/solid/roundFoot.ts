/**
 * Shortcut of the distance search where one core is a cylinder and the other has corners.
 *
 * Against a round rim the search closes in by a factor of ten in two steps: the rim is seen through ever smaller
 * chords. But its simplex soon stands on the right corner, edge or face of the other core, and for
 * that feature alone the nearest point of the cylinder is known:
 *
 *     corner    closed form
 *     edge      the distance is convex along it: its slope's root, by Newton between brackets
 *     face      the cylinder's point farthest against the face's normal, if its foot lies in the face
 *
 * What comes out is a pair of points of the two cores. The search looks in its direction: either the bounds meet,
 * or the feature was not the right one and the search goes on, with the lower bound found there if it is better.
 */
import { distanceFromCore } from './coreDistance.ts';
import type { Gjk } from './gjk.ts';
import { type Numbers, numbers } from './numbers.ts';
import { CYLINDER, type Piece } from './piece.ts';
import { supportOfCore } from './support.ts';

const MOST_STEPS_ON_EDGE = 40;
/** Slope of the distance along an edge at which its least value is found: wrong by its square. */
const SLOPE_END = 1e-11;

export class RoundFoot {
  /** a − b of the pair of points that `run` found. */
  readonly v = numbers(3);
  /** Its length, in: an upper bound of the distance of the cores. */
  length = 0.5;
  readonly #at = numbers(7);
  /** Distinct corners of the simplex on the other core, at most three. */
  readonly #corners = numbers(9);
  readonly #foot = numbers(3);
  readonly #round = numbers(3);
  #roundIsA = true;

  /** Finds the pair of points for the simplex of `gjk`; false where there is none. */
  run(gjk: Gjk): boolean {
    const a = gjk.a as Piece;
    const b = gjk.b as Piece;
    const roundIsA = a.core === CYLINDER;
    const corners = this.#distinct(roundIsA ? gjk.Q : gjk.P, gjk.size);
    if (corners > 3) return false;
    const round = roundIsA ? a : b;
    const placed = roundIsA ? gjk.placedA : gjk.placedB;
    const at = this.#at;
    const foot = this.#foot;
    if (corners === 3) {
      if (!this.#face(gjk, round, placed, roundIsA ? 1 : -1)) return false;
    } else {
      if (corners === 1) for (let i = 0; i < 3; i++) at[i] = this.#corners[i] as number;
      else this.#edge(placed);
      distanceFromCore(round, placed, at);
      if (!(at[3] > 0)) return false;
      for (let i = 0; i < 3; i++) {
        foot[i] = at[i] as number;
        this.#round[i] = (at[i] as number) - at[3] * (at[4 + i] as number);
      }
    }
    const v = this.v;
    const sign = roundIsA ? 1 : -1;
    for (let i = 0; i < 3; i++) v[i] = sign * ((this.#round[i] as number) - (foot[i] as number));
    this.#roundIsA = roundIsA;
    this.length = Math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
    return this.length > 0;
  }

  /** Puts the pair of points in place of the simplex of `gjk`. */
  take(gjk: Gjk): void {
    const from = this.#roundIsA ? this.#round : this.#foot;
    const to = this.#roundIsA ? this.#foot : this.#round;
    for (let i = 0; i < 3; i++) {
      gjk.v[i] = gjk.W[i] = this.v[i] as number;
      gjk.P[i] = from[i] as number;
      gjk.Q[i] = to[i] as number;
    }
    gjk.share[0] = 1;
    gjk.size = 1;
  }

  /** Collects the distinct ones of `size` points; returns how many, 4 for more than three. */
  #distinct(points: Numbers, size: number): number {
    const c = this.#corners;
    let count = 0;
    for (let k = 0; k < size; k++) {
      const x = points[3 * k] as number;
      const y = points[3 * k + 1] as number;
      const z = points[3 * k + 2] as number;
      let known = false;
      for (let i = 0; i < count && !known; i++) {
        known = c[3 * i] === x && c[3 * i + 1] === y && c[3 * i + 2] === z;
      }
      if (known) continue;
      if (count === 3) return 4;
      c[3 * count] = x;
      c[3 * count + 1] = y;
      c[3 * count + 2] = z;
      count++;
    }
    return count;
  }

  /**
   * Writes the point of the edge that is nearest to the cylinder to `#at`.
   *
   * At fraction t along the edge, z is the place along the axis and ρ the distance from it, e = |z| − half length
   * and s = ρ − radius how far that is outside of the ends and of the side. With ρ² = A + 2 B t + C t²:
   * ρ' = (B + C t) / ρ, ρ'' = (C − ρ'²) / ρ, and the distance f is s, e, or √(e² + s²) off the rim, for which
   * f' = (e e' + s s') / f and f'' = (e'² + s'² + s ρ'' − f'²) / f.
   */
  #edge(placed: Numbers): void {
    const c = this.#corners;
    const ax = placed[3];
    const ay = placed[4];
    const az = placed[5];
    const dx = c[3] - c[0];
    const dy = c[4] - c[1];
    const dz = c[5] - c[2];
    const px = c[0] - placed[0];
    const py = c[1] - placed[1];
    const pz = c[2] - placed[2];
    const z = px * ax + py * ay + pz * az;
    const dAlong = dx * ax + dy * ay + dz * az;
    const qx = px - z * ax;
    const qy = py - z * ay;
    const qz = pz - z * az;
    const ux = dx - dAlong * ax;
    const uy = dy - dAlong * ay;
    const uz = dz - dAlong * az;
    const A = qx * qx + qy * qy + qz * qz;
    const B = qx * ux + qy * uy + qz * uz;
    const C = ux * ux + uy * uy + uz * uz;
    const end = SLOPE_END * Math.sqrt(dx * dx + dy * dy + dz * dz);
    let from = 0;
    let to = 1;
    let t = 0;
    // 0 first, then 1, then Newton between the two
    for (let k = 0; k < MOST_STEPS_ON_EDGE; k++) {
      const along = z + t * dAlong;
      const e = Math.abs(along) - placed[6];
      const away = Math.sqrt(Math.max(0, A + t * (2 * B + t * C)));
      const s = away - placed[7];
      const eRate = along < 0 ? -dAlong : dAlong;
      const sRate = away > 0 ? (B + t * C) / away : 0;
      let slope: number;
      let bend: number;
      if (e > 0 && s > 0) {
        const f = Math.sqrt(e * e + s * s);
        slope = (e * eRate + s * sRate) / f;
        const sBend = (C - sRate * sRate) / away;
        bend = (eRate * eRate + sRate * sRate + s * sBend - slope * slope) / f;
      } else if (s > 0) {
        slope = sRate;
        bend = (C - sRate * sRate) / away;
      } else {
        slope = e > 0 ? eRate : 0;
        bend = 0;
      }
      if (Math.abs(slope) <= end) break;
      if (k === 0) {
        if (slope > 0) break;
        t = 1;
        continue;
      }
      if (k === 1 && slope < 0) break;
      if (slope < 0) from = t;
      else to = t;
      const next = t - slope / bend;
      t = next > from && next < to ? next : (from + to) / 2;
      if (to - from < 1e-15) break;
    }
    const at = this.#at;
    at[0] = c[0] + t * dx;
    at[1] = c[1] + t * dy;
    at[2] = c[2] + t * dz;
  }

  /** The cylinder's point nearest to the face's plane and its foot; false if that lies outside the face. */
  #face(gjk: Gjk, round: Piece, placed: Numbers, sign: number): boolean {
    const c = this.#corners;
    const v = gjk.v;
    const ax = c[3] - c[0];
    const ay = c[4] - c[1];
    const az = c[5] - c[2];
    const bx = c[6] - c[0];
    const by = c[7] - c[1];
    const bz = c[8] - c[2];
    const n = this.#at;
    n[0] = ay * bz - az * by;
    n[1] = az * bx - ax * bz;
    n[2] = ax * by - ay * bx;
    const square = n[0] * n[0] + n[1] * n[1] + n[2] * n[2];
    if (!(square > 0)) return false;
    // v points from b to a: the normal towards the cylinder
    const toward = sign * (n[0] * v[0] + n[1] * v[1] + n[2] * v[2]) > 0 ? 1 : -1;
    supportOfCore(round, gjk.placeA, placed, n, -toward, this.#round, 0);
    const r = this.#round;
    const px = r[0] - c[0];
    const py = r[1] - c[1];
    const pz = r[2] - c[2];
    const away = (n[0] * px + n[1] * py + n[2] * pz) / square;
    if (!(away * toward > 0)) return false;
    const s = n[0] * (py * bz - pz * by) + n[1] * (pz * bx - px * bz) + n[2] * (px * by - py * bx);
    const t = n[0] * (ay * pz - az * py) + n[1] * (az * px - ax * pz) + n[2] * (ax * py - ay * px);
    if (!(s >= 0 && t >= 0 && s + t <= square)) return false;
    for (let i = 0; i < 3; i++) this.#foot[i] = (r[i] as number) - away * (n[i] as number);
    return true;
  }
}
