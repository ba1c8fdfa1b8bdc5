/**
 * Gap of two solids of convex pieces: distance search on the cores, depth search where these overlap.
 *
 * Grown by radii r_a and r_b, two cores at distance d have the gap d − r_a − r_b; cores that overlap by h have
 * −h − r_a − r_b. (The origin lies at d outside, or h inside, their difference, which is grown by r_a + r_b.)
 */
import { distanceFromCore } from './coreDistance.ts';
import type { Depth } from './depth.ts';
import { alongOf, type GapResult } from './gapResult.ts';
import { APART, BEYOND, type Gjk } from './gjk.ts';
import { type Numbers, numbers } from './numbers.ts';
import type { PairStart } from './pairStart.ts';
import { BOX, CYLINDER, type Piece, PLACED_SIZE, placeCore, SEGMENT } from './piece.ts';
import { carryPoint, carrySegment, type Placement } from './placement.ts';
import { segmentToSegment } from './segmentDistance.ts';
import type { Solid } from './solid.ts';

export class PieceGap {
  /** The gap, in, that has to be beaten: set before `run`. */
  cutoff = Infinity;
  readonly #out: GapResult;
  readonly #gjk: Gjk;
  readonly #depth: Depth;
  readonly #placed = numbers(PLACED_SIZE);
  readonly #at = numbers(7);
  readonly #centers = numbers(6);
  readonly #s = numbers(18);

  /** Writes its results to `out`. */
  constructor(out: GapResult, gjk: Gjk, depth: Depth) {
    this.#out = out;
    this.#gjk = gjk;
    this.#depth = depth;
  }

  /** Whether the spheres around two solids are beyond the cutoff; then the result is written. */
  areFar(a: Solid, commonFromA: Placement, b: Solid, commonFromB: Placement): boolean {
    carryPoint(commonFromA, a.bound, 0, this.#centers, 0);
    carryPoint(commonFromB, b.bound, 0, this.#centers, 3);
    return this.#areBeyond(a.bound, b.bound);
  }

  /** Every piece against every piece; after `areFar`. */
  run(
    a: Solid,
    commonFromA: Placement,
    b: Solid,
    commonFromB: Placement,
    start: PairStart | null,
  ): void {
    const out = this.#out;
    if (a.pieces.length === 1 && b.pieces.length === 1) {
      this.#pair(a.pieces[0] as Piece, commonFromA, b.pieces[0] as Piece, commonFromB, start);
      return;
    }
    const cutoff = this.cutoff;
    let found = false;
    let lower = Infinity;
    let i = 0;
    let j = 0;
    // the pieces of the last result first: all others then have its gap to beat
    const isKnown =
      start !== null && start.pieceA < a.pieces.length && start.pieceB < b.pieces.length;
    const first = isKnown ? start.pieceA * b.pieces.length + start.pieceB : -1;
    for (let k = first < 0 ? 0 : -1; k < a.pieces.length * b.pieces.length; k++) {
      const which = k < 0 ? first : k;
      if (k === first) continue;
      i = Math.floor(which / b.pieces.length);
      j = which - i * b.pieces.length;
      const one = a.pieces[i] as Piece;
      const two = b.pieces[j] as Piece;
      if (this.#pieceIsFar(one, commonFromA, two, commonFromB)) {
        lower = Math.min(lower, out.gap);
        continue;
      }
      this.#pair(one, commonFromA, two, commonFromB, start);
      if (out.beyond) {
        lower = Math.min(lower, out.gap);
      } else {
        found = true;
        this.cutoff = out.gap;
        if (start !== null) {
          start.pieceA = i;
          start.pieceB = j;
        }
      }
    }
    out.beyond = !found;
    out.gap = found ? this.cutoff : lower;
    this.cutoff = cutoff;
  }

  /**
   * Whether two pieces are beyond the cutoff by their bounds: a segment grown by its radius, a sphere for the rest;
   * then the result is written. Leaves their centers.
   */
  #pieceIsFar(a: Piece, commonFromA: Placement, b: Piece, commonFromB: Placement): boolean {
    carryPoint(commonFromA, a.bound, 0, this.#centers, 0);
    carryPoint(commonFromB, b.bound, 0, this.#centers, 3);
    if (this.cutoff === Infinity) return false;
    if (this.#areBeyond(a.bound, b.bound)) return true;
    const s = this.#s;
    if (a.core === SEGMENT) {
      carrySegment(commonFromA, a.data, s, 0);
      if (b.core === SEGMENT) carrySegment(commonFromB, b.data, s, 6);
      else for (let k = 0; k < 6; k++) s[6 + k] = this.#centers[3 + (k % 3)] as number;
    } else if (b.core === SEGMENT) {
      carrySegment(commonFromB, b.data, s, 0);
      for (let k = 0; k < 6; k++) s[6 + k] = this.#centers[k % 3] as number;
    } else return false;
    segmentToSegment(s);
    const gap = Math.sqrt(s[17]) - radiusOf(a) - radiusOf(b);
    // bounds that overlap say nothing of how deep
    if (gap < this.cutoff || s[17] === 0) return false;
    this.#out.gap = gap;
    this.#out.beyond = true;
    return true;
  }

  /** Two convex pieces; sets `beyond` where their gap is not under the cutoff. */
  #pair(
    a: Piece,
    commonFromA: Placement,
    b: Piece,
    commonFromB: Placement,
    start: PairStart | null,
  ): void {
    const out = this.#out;
    if (isBall(a) && (b.core === BOX || b.core === CYLINDER)) {
      this.#ball(a, commonFromA, b, commonFromB);
      return;
    }
    if (isBall(b) && (a.core === BOX || a.core === CYLINDER)) {
      this.#ball(b, commonFromB, a, commonFromA);
      out.turnAround();
      return;
    }
    const gjk = this.#gjk;
    const depth = this.#depth;
    const { pointA, pointB, normal } = out;
    const v = gjk.v;
    const c = this.#centers;
    const d = start?.direction as Numbers | undefined;
    if (d !== undefined && (d[0] !== 0 || d[1] !== 0 || d[2] !== 0)) {
      v[0] = d[0];
      v[1] = d[1];
      v[2] = d[2];
    } else {
      v[0] = c[0] - c[3];
      v[1] = c[1] - c[4];
      v[2] = c[2] - c[5];
    }
    const radii = a.radius + b.radius;
    gjk.begin(a, commonFromA, b, commonFromB);
    gjk.cutoff = this.cutoff + radii;
    const code = gjk.run();
    if (code === BEYOND) {
      out.beyond = true;
      out.gap = gjk.lower - radii;
      return;
    }
    let gap: number;
    if (code === APART) {
      gap = gjk.upper - radii;
      if (gap >= this.cutoff) {
        out.beyond = true;
        out.gap = gap;
        return;
      }
      gjk.nearest(pointA, pointB);
      const over = -1 / gjk.upper;
      normal[0] = over * v[0];
      normal[1] = over * v[1];
      normal[2] = over * v[2];
    } else {
      depth.run(gjk);
      gap = -depth.depth - radii;
      if (gap >= this.cutoff) {
        out.beyond = true;
        out.gap = gap;
        return;
      }
      pointA.set(depth.pointA);
      pointB.set(depth.pointB);
      normal.set(depth.normal);
    }
    out.beyond = false;
    out.gap = gap;
    if (d !== undefined) {
      d[0] = -normal[0];
      d[1] = -normal[1];
      d[2] = -normal[2];
    }
    out.alongA = alongOf(a, gjk.placedA, pointA);
    out.alongB = alongOf(b, gjk.placedB, pointB);
    grow(pointA, normal, a.radius);
    grow(pointB, normal, -b.radius);
  }

  /** A ball against a box or a cylinder: the closed form for its center. */
  #ball(ball: Piece, commonFromBall: Placement, b: Piece, commonFromB: Placement): void {
    const out = this.#out;
    const at = this.#at;
    const { pointA, pointB, normal } = out;
    carryPoint(commonFromBall, ball.data, 0, at, 0);
    placeCore(b, commonFromB, this.#placed);
    distanceFromCore(b, this.#placed, at);
    out.gap = at[3] - ball.radius - b.radius;
    out.beyond = out.gap >= this.cutoff;
    if (out.beyond) return;
    for (let i = 0; i < 3; i++) {
      const away = at[4 + i] as number;
      const center = at[i] as number;
      normal[i] = -away;
      pointA[i] = center - ball.radius * away;
      pointB[i] = center - (at[3] - b.radius) * away;
    }
    out.alongA = ball.from;
    out.alongB = alongOf(b, this.#placed, pointB);
  }

  /** Whether two spheres with the radii in `a[3]`, `b[3]` about `#centers` are beyond the cutoff. */
  #areBeyond(a: Float64Array, b: Float64Array): boolean {
    const out = this.#out;
    out.beyond = false;
    if (this.cutoff === Infinity) return false;
    const c = this.#centers;
    const x = c[3] - c[0];
    const y = c[4] - c[1];
    const z = c[5] - c[2];
    const radii = (a[3] as number) + (b[3] as number);
    const far = this.cutoff + radii;
    const square = x * x + y * y + z * z;
    if (far >= 0 && square < far * far) return false;
    out.gap = Math.sqrt(square) - radii;
    // the spheres may overlap where the cutoff is deeper than that: then nothing is known yet
    out.beyond = out.gap >= this.cutoff;
    return out.beyond;
  }
}

/** Radius of what stands around a piece: its own about a segment, else that of a sphere. */
function radiusOf(piece: Piece): number {
  return piece.core === SEGMENT ? piece.radius : (piece.bound[3] as number);
}

function isBall(piece: Piece): boolean {
  if (piece.core !== SEGMENT) return false;
  const d = piece.data as Numbers;
  return d[0] === d[3] && d[1] === d[4] && d[2] === d[5];
}

/** Moves a point by `by` along n. */
function grow(point: Numbers, n: Numbers, by: number): void {
  point[0] += by * n[0];
  point[1] += by * n[1];
  point[2] += by * n[2];
}
