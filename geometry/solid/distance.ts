/**
 * Gap between two placed solids: the shortest way between their surfaces, negative where they overlap.
 *
 *     rods (sphere, capsule, bent tube)   closed form of their center lines
 *     other convex solids                 distance search on their cores, depth search where these overlap
 *     mesh and convex solid               least signed distance of the mesh's points from the solid
 *     mesh and mesh                       nearest triangles
 *
 * Grown by radii r_a and r_b, two cores at distance d have the gap d − r_a − r_b; cores that overlap by h
 * have −h − r_a − r_b. (The origin lies at d outside, or h inside, their difference, which is grown by r_a + r_b.)
 *
 * Overlap of two convex pieces is their penetration depth, the least translation that brings
 * them apart; overlap with a mesh is the depth of the mesh's farthest point inside the convex piece, and for
 * a piece in a closed mesh of the piece's own farthest point from its surface. Solids of several pieces have
 * the least gap of any two.
 */
import { distanceFromCore } from './coreDistance.ts';
import { Depth } from './depth.ts';
import { APART, BEYOND, Gjk } from './gjk.ts';
import { MeshInside } from './meshInside.ts';
import { MeshPair } from './meshPair.ts';
import { MeshToCore } from './meshToCore.ts';
import { MeshToSegment } from './meshToSegment.ts';
import { type Numbers, numbers } from './numbers.ts';
import { BOX, CYLINDER, type Piece, PLACED_SIZE, placeCore, SEGMENT } from './piece.ts';
import { carryPoint, type Placement, relativePlacement, turnVector, unmoved } from './placement.ts';
import { segmentToSegment } from './segmentDistance.ts';
import type { Solid } from './solid.ts';
import { squareTo } from './support.ts';
import { TOUCHING_in } from './tolerances.ts';
import type { TriangleMesh } from './triangleMesh.ts';

/** `alongA`, `alongB` of a part that has no first end. */
export const NO_ALONG = -1;

/** What the search for one pair starts from: the place of the last result. Made by `pairStart`. */
export interface PairStart {
  /** Direction from b to a in the common frame at the last pose; zero before the first. */
  readonly direction: Float64Array;
  /** Nearest triangles, −1 for none. */
  triangleA: number;
  triangleB: number;
}

/** A start for one pair of solids, to be handed to `DistanceSolver.run` at one pose after the other. */
export function pairStart(): PairStart {
  return { direction: numbers(3), triangleA: -1, triangleB: -1 };
}

/** One result, as plain numbers. */
export interface Gap {
  /** In; negative is overlap. */
  readonly gap: number;
  /** Points on both surfaces, common frame, in. */
  readonly pointA: [number, number, number];
  readonly pointB: [number, number, number];
  /** Unit direction with pointB − pointA = gap · normal. */
  readonly normal: [number, number, number];
  /** 0 to 1 from the part's first end; null for a part that has none. */
  readonly alongA: number | null;
  readonly alongB: number | null;
}

/**
 * Computes gaps. It owns all scratch space, so that nothing is allocated from run to run: make one and
 * keep it.
 *
 * @example
 *   const solver = new DistanceSolver();
 *   solver.run(dragLink, chassisFromDragLink, rail, chassisFromChassis);
 *   if (!solver.beyond && solver.gap < 0.5) report(solver.result());
 */
export class DistanceSolver {
  /**
   * In: the gap that is of interest; a run may end as soon as the gap is surely not under it. Set before
   * `run`; it stays.
   */
  cutoff = Infinity;
  /** The gap, in. Where `beyond`: a lower bound of it, and the fields below mean nothing. */
  gap = 0.5;
  beyond = false;
  /** Points on both surfaces, common frame, in. */
  readonly pointA = numbers(3);
  readonly pointB = numbers(3);
  /** Unit direction with pointB − pointA = gap · normal. */
  readonly normal = numbers(3);
  /** 0 to 1 from the part's first end, or NO_ALONG. */
  alongA = 0.5;
  alongB = 0.5;

  readonly gjk = new Gjk();
  readonly depth = new Depth();
  readonly meshToSegment = new MeshToSegment();
  readonly meshToCore = new MeshToCore(this.gjk, this.depth);
  readonly #inside = new MeshInside();
  readonly #meshPair = new MeshPair(this.gjk, this.#inside);

  readonly #s = numbers(18);
  readonly #placed = numbers(PLACED_SIZE);
  readonly #at = numbers(7);
  readonly #centers = numbers(6);
  readonly #relative = unmoved();
  readonly #swap = numbers(3);
  #centerLine = 0.5;

  /** Finds the gap of two solids, each placed in the common frame. */
  run(
    a: Solid,
    commonFromA: Placement,
    b: Solid,
    commonFromB: Placement,
    start: PairStart | null = null,
  ): void {
    if (a.rods && b.rods) {
      this.beyond = false;
      this.#rods(a, commonFromA, b, commonFromB);
      return;
    }
    const centers = this.#centers;
    carryPoint(commonFromA, a.bound, 0, centers, 0);
    carryPoint(commonFromB, b.bound, 0, centers, 3);
    if (this.#areBeyond(a.bound, b.bound)) return;
    if (a.mesh === null && b.mesh === null) this.#pieces(a, commonFromA, b, commonFromB, start);
    else if (a.mesh !== null && b.mesh !== null) {
      this.#meshes(a.mesh, commonFromA, b.mesh, commonFromB, start);
    } else if (b.mesh !== null) {
      this.#meshAndPieces(b.mesh, commonFromB, a, commonFromA, start);
    } else {
      this.#meshAndPieces(a.mesh as TriangleMesh, commonFromA, b, commonFromB, start);
      this.#turnAround();
    }
  }

  /** The last result as plain numbers; null where the gap was beyond the cutoff. */
  result(): Gap | null {
    if (this.beyond) return null;
    const { pointA: p, pointB: q, normal: n, alongA, alongB } = this;
    return {
      gap: this.gap,
      pointA: [p[0], p[1], p[2]],
      pointB: [q[0], q[1], q[2]],
      normal: [n[0], n[1], n[2]],
      alongA: alongA < 0 ? null : alongA,
      alongB: alongB < 0 ? null : alongB,
    };
  }

  /** Whether two spheres with the radii in `a[3]`, `b[3]` about `#centers` are beyond the cutoff. */
  #areBeyond(a: Float64Array, b: Float64Array): boolean {
    this.beyond = false;
    if (this.cutoff === Infinity) return false;
    const c = this.#centers;
    const x = c[3] - c[0];
    const y = c[4] - c[1];
    const z = c[5] - c[2];
    const radii = (a[3] as number) + (b[3] as number);
    const far = this.cutoff + radii;
    const square = x * x + y * y + z * z;
    if (far >= 0 && square < far * far) return false;
    this.gap = Math.sqrt(square) - radii;
    // the spheres may overlap where the cutoff is deeper than that: then nothing is known yet
    this.beyond = this.gap >= this.cutoff;
    return this.beyond;
  }

  /** Center lines in closed form. */
  #rods(a: Solid, commonFromA: Placement, b: Solid, commonFromB: Placement): void {
    const s = this.#s;
    let best = Infinity;
    for (let i = 0; i < a.pieces.length; i++) {
      const one = a.pieces[i] as Piece;
      carryPoint(commonFromA, one.data, 0, s, 0);
      carryPoint(commonFromA, one.data, 3, s, 3);
      for (let j = 0; j < b.pieces.length; j++) {
        const two = b.pieces[j] as Piece;
        carryPoint(commonFromB, two.data, 0, s, 6);
        carryPoint(commonFromB, two.data, 3, s, 9);
        segmentToSegment(s);
        const line = Math.sqrt(s[17]);
        const gap = line - one.radius - two.radius;
        if (gap >= best) continue;
        best = gap;
        this.#centerLine = line;
        this.#takeRods(one, two);
      }
    }
    this.gap = best;
  }

  /** Takes the points of two rods from the scratch of their center lines. */
  #takeRods(one: Piece, two: Piece): void {
    const s = this.#s;
    const { pointA, pointB, normal } = this;
    const line = this.#centerLine;
    let nx: number;
    let ny: number;
    let nz: number;
    if (line > TOUCHING_in) {
      nx = s[14] / line;
      ny = s[15] / line;
      nz = s[16] / line;
    } else {
      this.#acrossRods();
      nx = normal[0];
      ny = normal[1];
      nz = normal[2];
    }
    normal[0] = nx;
    normal[1] = ny;
    normal[2] = nz;
    const along = s[12];
    const other = s[13];
    const ra = one.radius;
    const rb = two.radius;
    pointA[0] = s[0] + along * (s[3] - s[0]) + ra * nx;
    pointA[1] = s[1] + along * (s[4] - s[1]) + ra * ny;
    pointA[2] = s[2] + along * (s[5] - s[2]) + ra * nz;
    pointB[0] = s[6] + other * (s[9] - s[6]) - rb * nx;
    pointB[1] = s[7] + other * (s[10] - s[7]) - rb * ny;
    pointB[2] = s[8] + other * (s[11] - s[8]) - rb * nz;
    this.alongA = one.from < 0 ? NO_ALONG : one.from + along * (one.to - one.from);
    this.alongB = two.from < 0 ? NO_ALONG : two.from + other * (two.to - two.from);
  }

  /** Center lines that meet: the direction square to both; where they are in line, any square to them. */
  #acrossRods(): void {
    const s = this.#s;
    const n = this.normal;
    const dx = s[3] - s[0];
    const dy = s[4] - s[1];
    const dz = s[5] - s[2];
    const ex = s[9] - s[6];
    const ey = s[10] - s[7];
    const ez = s[11] - s[8];
    const x = dy * ez - dz * ey;
    const y = dz * ex - dx * ez;
    const z = dx * ey - dy * ex;
    const dd = dx * dx + dy * dy + dz * dz;
    const ee = ex * ex + ey * ey + ez * ez;
    const length = Math.sqrt(x * x + y * y + z * z);
    if (length > 1e-12 * Math.sqrt(dd * ee)) {
      n[0] = x / length;
      n[1] = y / length;
      n[2] = z / length;
    } else if (dd + ee > 0) {
      const f = 1 / Math.sqrt(Math.max(dd, ee));
      const [u] = dd >= ee ? squareTo(f * dx, f * dy, f * dz) : squareTo(f * ex, f * ey, f * ez);
      n.set(u);
    } else {
      n[0] = 1;
      n[1] = 0;
      n[2] = 0;
    }
  }

  /** Every piece against every piece. */
  #pieces(
    a: Solid,
    commonFromA: Placement,
    b: Solid,
    commonFromB: Placement,
    start: PairStart | null,
  ): void {
    const single = a.pieces.length === 1 && b.pieces.length === 1;
    const cutoff = this.cutoff;
    let found = false;
    let lower = Infinity;
    for (let i = 0; i < a.pieces.length; i++) {
      const one = a.pieces[i] as Piece;
      for (let j = 0; j < b.pieces.length; j++) {
        const two = b.pieces[j] as Piece;
        if (!single) {
          carryPoint(commonFromA, one.bound, 0, this.#centers, 0);
          carryPoint(commonFromB, two.bound, 0, this.#centers, 3);
          if (this.#areBeyond(one.bound, two.bound)) {
            lower = Math.min(lower, this.gap);
            continue;
          }
        }
        this.#pair(one, commonFromA, two, commonFromB, start);
        if (this.beyond) {
          lower = Math.min(lower, this.gap);
        } else {
          found = true;
          this.cutoff = this.gap;
        }
      }
    }
    this.beyond = !found;
    this.gap = found ? this.cutoff : lower;
    this.cutoff = cutoff;
  }

  /** Two convex pieces; sets `beyond` where their gap is not under the cutoff. */
  #pair(
    a: Piece,
    commonFromA: Placement,
    b: Piece,
    commonFromB: Placement,
    start: PairStart | null,
  ): void {
    if (isBall(a) && (b.core === BOX || b.core === CYLINDER)) {
      this.#ball(a, commonFromA, b, commonFromB);
      return;
    }
    if (isBall(b) && (a.core === BOX || a.core === CYLINDER)) {
      this.#ball(b, commonFromB, a, commonFromA);
      this.#turnAround();
      return;
    }
    const { gjk, depth, pointA, pointB, normal } = this;
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
      this.beyond = true;
      this.gap = gjk.lower - radii;
      return;
    }
    let gap: number;
    if (code === APART) {
      gap = gjk.upper - radii;
      if (gap >= this.cutoff) {
        this.beyond = true;
        this.gap = gap;
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
        this.beyond = true;
        this.gap = gap;
        return;
      }
      pointA.set(depth.pointA);
      pointB.set(depth.pointB);
      normal.set(depth.normal);
    }
    this.beyond = false;
    this.gap = gap;
    if (d !== undefined) {
      d[0] = -normal[0];
      d[1] = -normal[1];
      d[2] = -normal[2];
    }
    this.alongA = alongOf(a, gjk.placedA, pointA);
    this.alongB = alongOf(b, gjk.placedB, pointB);
    grow(pointA, normal, a.radius);
    grow(pointB, normal, -b.radius);
  }

  /** A ball against a box or a cylinder: the closed form for its center. */
  #ball(ball: Piece, commonFromBall: Placement, b: Piece, commonFromB: Placement): void {
    const at = this.#at;
    const { pointA, pointB, normal } = this;
    carryPoint(commonFromBall, ball.data, 0, at, 0);
    placeCore(b, commonFromB, this.#placed);
    distanceFromCore(b, commonFromB, this.#placed, at);
    this.gap = at[3] - ball.radius - b.radius;
    this.beyond = this.gap >= this.cutoff;
    if (this.beyond) return;
    for (let i = 0; i < 3; i++) {
      const away = at[4 + i] as number;
      const center = at[i] as number;
      normal[i] = -away;
      pointA[i] = center - ball.radius * away;
      pointB[i] = center - (at[3] - b.radius) * away;
    }
    this.alongA = ball.from;
    this.alongB = alongOf(b, this.#placed, pointB);
  }

  /** A mesh (as b) against the pieces of a convex solid (as a). */
  #meshAndPieces(
    mesh: TriangleMesh,
    commonFromMesh: Placement,
    solid: Solid,
    commonFromSolid: Placement,
    start: PairStart | null,
  ): void {
    const at = this.#at;
    const { pointB, normal, meshToSegment, meshToCore } = this;
    const meshFromSolid = this.#relative;
    relativePlacement(meshFromSolid, commonFromMesh, commonFromSolid);
    let best = this.cutoff;
    let bestPiece: Piece | null = null;
    let guess = start === null ? -1 : start.triangleB;
    for (let i = 0; i < solid.pieces.length; i++) {
      const piece = solid.pieces[i] as Piece;
      if (piece.core === SEGMENT) {
        const s = meshToSegment.segment;
        carryPoint(meshFromSolid, piece.data, 0, s, 0);
        carryPoint(meshFromSolid, piece.data, 3, s, 3);
        meshToSegment.least = best + piece.radius;
        meshToSegment.run(mesh, guess);
        if (meshToSegment.triangle >= 0) {
          guess = meshToSegment.triangle;
          best = meshToSegment.least - piece.radius;
          bestPiece = piece;
          this.#takeSegment(mesh);
        }
      } else {
        meshToCore.least = best + piece.radius;
        meshToCore.run(mesh, piece, meshFromSolid, guess);
        if (meshToCore.triangle >= 0) {
          guess = meshToCore.triangle;
          best = meshToCore.least - piece.radius;
          bestPiece = piece;
          pointB.set(meshToCore.point);
          normal.set(meshToCore.away);
        }
      }
      if (mesh.closed && -(piece.inner[3] as number) < best) {
        carryPoint(meshFromSolid, piece.inner, 0, at, 0);
        if (this.#inside.holds(mesh, at)) {
          meshToCore.distanceAt(piece, meshFromSolid, at);
          const deep = at[3] - piece.radius;
          if (deep < best) {
            best = deep;
            bestPiece = piece;
            pointB.set(at.subarray(0, 3));
            normal.set(at.subarray(4, 7));
          }
        }
      }
    }
    this.gap = best;
    this.beyond = bestPiece === null;
    if (bestPiece === null) return;
    if (start !== null) start.triangleB = guess;
    // from the frame of the mesh into the common one; the point on the piece lies back along the normal
    const swap = this.#swap;
    carryPoint(commonFromMesh, pointB, 0, swap, 0);
    pointB.set(swap);
    turnVector(commonFromMesh, normal, 0, swap, 0);
    normal.set(swap);
    for (let i = 0; i < 3; i++) {
      this.pointA[i] = (pointB[i] as number) - best * (normal[i] as number);
    }
    placeCore(bestPiece, commonFromSolid, this.#placed);
    this.alongA = alongOf(bestPiece, this.#placed, this.pointA);
    this.alongB = NO_ALONG;
  }

  /** Takes over the nearest triangle's point, and the direction to it from the segment. */
  #takeSegment(mesh: TriangleMesh): void {
    const { found, least, segment, triangle } = this.meshToSegment;
    const n = this.normal;
    this.pointB.set(found.subarray(1, 4));
    if (least > TOUCHING_in) {
      for (let i = 0; i < 3; i++) n[i] = (found[4 + i] as number) / least;
      return;
    }
    // the segment meets the triangle: out of the rod square to it, as much along the triangle's normal as can be
    normalOfTriangle(mesh, triangle, n);
    const dx = segment[3] - segment[0];
    const dy = segment[4] - segment[1];
    const dz = segment[5] - segment[2];
    const square = dx * dx + dy * dy + dz * dz;
    if (square === 0) return;
    const along = (n[0] * dx + n[1] * dy + n[2] * dz) / square;
    const x = n[0] - along * dx;
    const y = n[1] - along * dy;
    const z = n[2] - along * dz;
    const length = Math.sqrt(x * x + y * y + z * z);
    if (length > 1e-6) {
      n[0] = x / length;
      n[1] = y / length;
      n[2] = z / length;
    } else {
      const f = 1 / Math.sqrt(square);
      n.set(squareTo(f * dx, f * dy, f * dz)[0]);
    }
  }

  #meshes(
    a: TriangleMesh,
    commonFromA: Placement,
    b: TriangleMesh,
    commonFromB: Placement,
    start: PairStart | null,
  ): void {
    const pair = this.#meshPair;
    relativePlacement(this.#relative, commonFromA, commonFromB);
    pair.least = this.cutoff;
    pair.run(a, b, this.#relative, start?.triangleA ?? -1, start?.triangleB ?? -1);
    this.gap = pair.least;
    this.beyond = !pair.found;
    if (this.beyond) return;
    if (start !== null) {
      start.triangleA = pair.triangleA;
      start.triangleB = pair.triangleB;
    }
    carryPoint(commonFromA, pair.pointA, 0, this.pointA, 0);
    carryPoint(commonFromA, pair.pointB, 0, this.pointB, 0);
    turnVector(commonFromA, pair.normal, 0, this.normal, 0);
    this.alongA = NO_ALONG;
    this.alongB = NO_ALONG;
  }

  /** Exchanges a and b in the result. */
  #turnAround(): void {
    if (this.beyond) return;
    const { pointA, pointB, normal } = this;
    for (let i = 0; i < 3; i++) {
      const kept = pointA[i] as number;
      pointA[i] = pointB[i] as number;
      pointB[i] = kept;
      normal[i] = -(normal[i] as number);
    }
    const along = this.alongA;
    this.alongA = this.alongB;
    this.alongB = along;
  }
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

/** Where along its part a point on a placed piece lies, or NO_ALONG. */
function alongOf(piece: Piece, placed: Numbers, point: Numbers): number {
  if (piece.from < 0) return NO_ALONG;
  let t: number;
  if (piece.core === SEGMENT) {
    const dx = placed[3] - placed[0];
    const dy = placed[4] - placed[1];
    const dz = placed[5] - placed[2];
    const square = dx * dx + dy * dy + dz * dz;
    const x = point[0] - placed[0];
    const y = point[1] - placed[1];
    const z = point[2] - placed[2];
    t = square > 0 ? (x * dx + y * dy + z * dz) / square : 0;
  } else {
    const x = point[0] - placed[0];
    const y = point[1] - placed[1];
    const z = point[2] - placed[2];
    t = 0.5 + (x * placed[3] + y * placed[4] + z * placed[5]) / (2 * placed[6]);
  }
  t = Math.max(0, Math.min(1, t));
  return piece.from + t * (piece.to - piece.from);
}

function normalOfTriangle(mesh: TriangleMesh, triangle: number, out: Numbers): void {
  const { positions, triangles } = mesh;
  const a = 3 * (triangles[3 * triangle] as number);
  const b = 3 * (triangles[3 * triangle + 1] as number);
  const c = 3 * (triangles[3 * triangle + 2] as number);
  const bx = (positions[b] as number) - (positions[a] as number);
  const by = (positions[b + 1] as number) - (positions[a + 1] as number);
  const bz = (positions[b + 2] as number) - (positions[a + 2] as number);
  const cx = (positions[c] as number) - (positions[a] as number);
  const cy = (positions[c + 1] as number) - (positions[a + 1] as number);
  const cz = (positions[c + 2] as number) - (positions[a + 2] as number);
  const x = by * cz - bz * cy;
  const y = bz * cx - bx * cz;
  const z = bx * cy - by * cx;
  const length = Math.sqrt(x * x + y * y + z * z);
  out[0] = length > 0 ? x / length : 1;
  out[1] = length > 0 ? y / length : 0;
  out[2] = length > 0 ? z / length : 0;
}
