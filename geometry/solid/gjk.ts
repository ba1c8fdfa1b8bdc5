/**
 * Distance of two convex cores: the search of Gilbert, Johnson and Keerthi (1988), from memory.
 *
 * The distance of A and B is that of the origin to their difference C = { a − b }. A simplex of at most
 * four points of C closes in on the origin: v is its point nearest to the origin, w the point of C that
 * lies farthest along −v. Two bounds then hold
 *
 *     v·w / |v|  ≤  distance  ≤  |v|
 *
 * (the plane through w square to v has all of C on its far side; v itself is in C), and the search ends
 * when they meet: a statement about the result, where 'the simplex no longer changes' is one about the
 * search. It also ends when v no longer gets shorter, which only rounding can cause: faces that are square to v
 * offer vertices whose share in the step would be 1e-12.
 *
 * The nearest point of a simplex is found by comparing candidates: the newest vertex is part of the answer,
 * so those are the edges and faces that meet in it, the feet by signed areas relative to a face's
 * normal. Products of dot products (Johnson's formula) cancel on slivers; areas lose far less.
 */
import { type Numbers, numbers } from './numbers.ts';
import { CYLINDER, type Piece, PLACED_SIZE, placeCore } from './piece.ts';
import type { Placement } from './placement.ts';
import { RoundFoot } from './roundFoot.ts';
import { supportOfCore } from './support.ts';
import { BOUNDS_END_in, MOST_STEPS, TOUCHING_in } from './tolerances.ts';

/** Steps without progress at most, and how much longer the square of v may be after one. */
const MOST_STALLS = 4;
const STALL = 1e-9;

export const APART = 0;
/** The cores overlap or touch: the simplex holds the origin. */
export const OVERLAPPING = 1;
/** Surely farther apart than was asked for; `lower` holds. */
export const BEYOND = 2;
export type GjkCode = typeof APART | typeof OVERLAPPING | typeof BEYOND;

export class Gjk {
  /** a − b of the nearest points; before `run` the guess at it (any length but 0). */
  readonly v = numbers(3);
  /** Vertices of the simplex: points of A, of B, and their differences; the fifth is for trials. */
  readonly P = numbers(15);
  readonly Q = numbers(15);
  readonly W = numbers(15);
  /** Shares of the vertices in the nearest point, and how many vertices there are. */
  readonly share = numbers(4);
  size = 0;
  /** Distance of the cores, in, above which `run` may end early: set before it. */
  cutoff = Infinity;
  /** How near the bounds must come, in. */
  end = BOUNDS_END_in;
  /** Bounds of the distance of the cores, in. */
  lower = 0.5;
  upper = 0.5;
  /** Steps of the last run, and of all so far. */
  steps = 0;
  totalSteps = 0;

  /** The two shapes in the common frame, as `begin` left them. */
  a: Piece | null = null;
  b: Piece | null = null;
  placeA: Placement = numbers(12);
  placeB: Placement = numbers(12);
  readonly placedA = numbers(PLACED_SIZE);
  readonly placedB = numbers(PLACED_SIZE);

  // the best candidate of the step
  readonly #best = numbers(4);
  readonly #bestShare = numbers(3);
  readonly #bestOf = new Int32Array(3);
  #bestSize = 0;
  readonly #roundFoot = new RoundFoot();

  /** Puts two pieces in place for `run` and `addVertex`. */
  begin(a: Piece, placeA: Placement, b: Piece, placeB: Placement): void {
    this.a = a;
    this.b = b;
    this.placeA = placeA;
    this.placeB = placeB;
    placeCore(a, placeA, this.placedA);
    placeCore(b, placeB, this.placedB);
  }

  /** Writes the vertex of C farthest along `sign` · `n` to place k (points of A and B, difference). */
  addVertex(
    k: number,
    n: Numbers,
    sign: number,
    P: Float64Array,
    Q: Float64Array,
    W: Numbers,
  ): void {
    const i = 3 * k;
    supportOfCore(this.a as Piece, this.placeA, this.placedA, n, sign, P, i);
    supportOfCore(this.b as Piece, this.placeB, this.placedB, n, -sign, Q, i);
    W[i] = (P[i] as number) - (Q[i] as number);
    W[i + 1] = (P[i + 1] as number) - (Q[i + 1] as number);
    W[i + 2] = (P[i + 2] as number) - (Q[i + 2] as number);
  }

  /**
   * Runs from the guess in `v`. Stops early with BEYOND once the distance of the cores is surely above
   * `cutoff` (in). After APART, `v`, `upper`, `lower`, `share` and the simplex hold the result.
   */
  run(): GjkCode {
    const { cutoff, end } = this;
    const { v, W, share } = this;
    const best = this.#best;
    let x = v[0];
    let y = v[1];
    let z = v[2];
    if (!(x * x + y * y + z * z > 1e-200)) {
      x = v[0] = 1;
      y = v[1] = 0;
      z = v[2] = 0;
    }
    let square = Infinity;
    let lower = -Infinity;
    let code: GjkCode = APART;
    this.size = 0;
    const isRound = (this.a?.core === CYLINDER) !== (this.b?.core === CYLINDER);
    let stalls = 0;
    let step = 0;
    while (step < MOST_STEPS) {
      step++;
      const size = this.size;
      this.addVertex(size, v, -1, this.P, this.Q, W);
      const i = 3 * size;
      const length = Math.sqrt(x * x + y * y + z * z);
      const bound =
        (x * (W[i] as number) + y * (W[i + 1] as number) + z * (W[i + 2] as number)) / length;
      if (bound > lower) lower = bound;
      if (lower > cutoff) {
        code = BEYOND;
        break;
      }
      if (size > 0 && length - bound <= end) break;
      // The bounds have met, but by an earlier direction: a few steps more for a normal that bears the gap out.
      if (length - lower <= end && ++stalls > MOST_STALLS) break;
      if (isRound && size > 1 && lower > 0 && this.#roundFoot.run(this)) {
        const bound = this.#footBound();
        if (bound > lower) lower = bound;
        const near = this.#roundFoot.length;
        if (near - lower <= end) {
          this.#roundFoot.take(this);
          square = near * near;
          break;
        }
      }
      best[0] = Infinity;
      if (size === 0) {
        this.#keep(0, 0, 0, 1, 1, 0, 0, W[0], W[1], W[2]);
      } else if (size === 1) {
        this.#edge(0, 1);
      } else if (size === 2) {
        this.#edge(0, 2);
        this.#edge(1, 2);
        this.#face(0, 1, 2);
      } else {
        if (this.#holdsOrigin()) {
          code = OVERLAPPING;
          this.size = 4;
          break;
        }
        this.#edge(0, 3);
        this.#edge(1, 3);
        this.#edge(2, 3);
        this.#face(0, 1, 3);
        this.#face(0, 2, 3);
        this.#face(1, 2, 3);
      }
      if (!(best[0] < square)) {
        // No nearer, by rounding. Where v has turned all the same, the next vertex may be a better one.
        stalls++;
        if (stalls > MOST_STALLS || !(best[0] <= square * (1 + STALL))) break;
      }
      square = best[0];
      x = v[0] = best[1];
      y = v[1] = best[2];
      z = v[2] = best[3];
      this.#compact();
      if (square <= TOUCHING_in * TOUCHING_in) {
        code = OVERLAPPING;
        break;
      }
    }
    this.steps = step;
    this.totalSteps += step;
    this.lower = lower;
    this.upper = Math.sqrt(square);
    if (this.size === 1) share[0] = 1;
    return code;
  }

  /** The lower bound of the distance that the direction of the shortcut's pair of points gives. */
  #footBound(): number {
    const W = this.W;
    const { v, length } = this.#roundFoot;
    this.addVertex(4, v, -1, this.P, this.Q, W);
    return (v[0] * W[12] + v[1] * W[13] + v[2] * W[14]) / length;
  }

  /** Writes the nearest points of the cores, in the common frame. */
  nearest(pointA: Float64Array, pointB: Float64Array): void {
    const { P, Q, share, size } = this;
    for (let i = 0; i < 3; i++) {
      let a = 0;
      let b = 0;
      for (let k = 0; k < size; k++) {
        a += (share[k] as number) * (P[3 * k + i] as number);
        b += (share[k] as number) * (Q[3 * k + i] as number);
      }
      pointA[i] = a;
      pointB[i] = b;
    }
  }

  /** Takes (x, y, z) = Σ share · vertex as the best candidate, if it is nearer than the one so far. */
  #keep(
    i: number,
    j: number,
    k: number,
    size: number,
    si: number,
    sj: number,
    sk: number,
    x: number,
    y: number,
    z: number,
  ): void {
    const square = x * x + y * y + z * z;
    const best = this.#best;
    if (square >= best[0]) return;
    best[0] = square;
    best[1] = x;
    best[2] = y;
    best[3] = z;
    this.#bestOf[0] = i;
    this.#bestOf[1] = j;
    this.#bestOf[2] = k;
    this.#bestShare[0] = si;
    this.#bestShare[1] = sj;
    this.#bestShare[2] = sk;
    this.#bestSize = size;
  }

  /** The nearest point of the edge from the newest vertex k to vertex i. */
  #edge(i: number, k: number): void {
    const W = this.W;
    const x = W[3 * k] as number;
    const y = W[3 * k + 1] as number;
    const z = W[3 * k + 2] as number;
    const ex = (W[3 * i] as number) - x;
    const ey = (W[3 * i + 1] as number) - y;
    const ez = (W[3 * i + 2] as number) - z;
    const along = -(x * ex + y * ey + z * ez);
    const square = ex * ex + ey * ey + ez * ez;
    if (!(along > 0)) {
      this.#keep(k, k, k, 1, 1, 0, 0, x, y, z);
    } else if (along >= square) {
      this.#keep(i, i, i, 1, 1, 0, 0, x + ex, y + ey, z + ez);
    } else {
      const t = along / square;
      this.#keep(i, k, k, 2, t, 1 - t, 0, x + t * ex, y + t * ey, z + t * ez);
    }
  }

  /**
   * The foot of the origin in the face of three vertices, where it lies inside. Edges and heights are taken from the
   * vertex nearest to the origin: from a far one, rounding of the normal times the way to it would be more
   * than cores that nearly touch are apart.
   */
  #face(i: number, j: number, k: number): void {
    const si = this.#squareOf(i);
    const sj = this.#squareOf(j);
    const sk = this.#squareOf(k);
    if (sk <= si && sk <= sj) this.#faceFrom(k, i, j);
    else if (sj <= si) this.#faceFrom(j, i, k);
    else this.#faceFrom(i, j, k);
  }

  #squareOf(i: number): number {
    const x = this.W[3 * i] as number;
    const y = this.W[3 * i + 1] as number;
    const z = this.W[3 * i + 2] as number;
    return x * x + y * y + z * z;
  }

  #faceFrom(k: number, i: number, j: number): void {
    const W = this.W;
    const x = W[3 * k] as number;
    const y = W[3 * k + 1] as number;
    const z = W[3 * k + 2] as number;
    const ax = (W[3 * i] as number) - x;
    const ay = (W[3 * i + 1] as number) - y;
    const az = (W[3 * i + 2] as number) - z;
    const bx = (W[3 * j] as number) - x;
    const by = (W[3 * j + 1] as number) - y;
    const bz = (W[3 * j + 2] as number) - z;
    const nx = ay * bz - az * by;
    const ny = az * bx - ax * bz;
    const nz = ax * by - ay * bx;
    const square = nx * nx + ny * ny + nz * nz;
    // signed areas of the triangles that the foot makes with the edges at k
    const si = nx * (by * z - bz * y) + ny * (bz * x - bx * z) + nz * (bx * y - by * x);
    const sj = nx * (y * az - z * ay) + ny * (z * ax - x * az) + nz * (x * ay - y * ax);
    if (!(si > 0 && sj > 0 && si + sj < square)) return;
    const away = (nx * x + ny * y + nz * z) / square;
    const s = si / square;
    const t = sj / square;
    const u = 1 - s - t;
    const vx = away * nx;
    const vy = away * ny;
    const vz = away * nz;
    // in ascending order, as #compact needs them
    if (k > j) this.#keep(i, j, k, 3, s, t, u, vx, vy, vz);
    else if (k > i) this.#keep(i, k, j, 3, s, u, t, vx, vy, vz);
    else this.#keep(k, i, j, 3, u, s, t, vx, vy, vz);
  }

  /** Whether the origin lies inside the four vertices: on the inner side of each face. */
  #holdsOrigin(): boolean {
    return (
      this.#isInside(0, 1, 3, 2) &&
      this.#isInside(0, 2, 3, 1) &&
      this.#isInside(1, 2, 3, 0) &&
      this.#isInside(0, 1, 2, 3)
    );
  }

  /** Whether the origin and vertex l lie strictly on the same side of the face i, j, k. */
  #isInside(i: number, j: number, k: number, l: number): boolean {
    const W = this.W;
    const x = W[3 * k] as number;
    const y = W[3 * k + 1] as number;
    const z = W[3 * k + 2] as number;
    const ax = (W[3 * i] as number) - x;
    const ay = (W[3 * i + 1] as number) - y;
    const az = (W[3 * i + 2] as number) - z;
    const bx = (W[3 * j] as number) - x;
    const by = (W[3 * j + 1] as number) - y;
    const bz = (W[3 * j + 2] as number) - z;
    const nx = ay * bz - az * by;
    const ny = az * bx - ax * bz;
    const nz = ax * by - ay * bx;
    const origin = -(nx * x + ny * y + nz * z);
    const other =
      nx * ((W[3 * l] as number) - x) +
      ny * ((W[3 * l + 1] as number) - y) +
      nz * ((W[3 * l + 2] as number) - z);
    return origin * other > 0;
  }

  /** Keeps the vertices of the best candidate alone, in its order. */
  #compact(): void {
    const { P, Q, W, share } = this;
    const of = this.#bestOf;
    const size = this.#bestSize;
    // ascending, so that no vertex is written over before it is moved
    for (let to = 0; to < size; to++) {
      const from = of[to] as number;
      share[to] = this.#bestShare[to] as number;
      if (from === to) continue;
      for (let c = 0; c < 3; c++) {
        P[3 * to + c] = P[3 * from + c] as number;
        Q[3 * to + c] = Q[3 * from + c] as number;
        W[3 * to + c] = W[3 * from + c] as number;
      }
    }
    this.size = size;
  }
}
