/**
 * Gap of a mesh and another solid.
 *
 * Convex pieces: the least signed distance of the mesh's points from a piece: the shortest connection where they are
 * apart, minus the depth of the mesh's farthest point inside the piece where they overlap. A piece whose
 * middle lies inside a closed mesh is as deep as it can be: its middle is a point of the mesh's body.
 * Another mesh: meshPair.ts.
 */
import type { Depth } from './depth.ts';
import { alongOf, type GapResult, NO_ALONG } from './gapResult.ts';
import type { Gjk } from './gjk.ts';
import { MeshInside } from './meshInside.ts';
import { MeshPair } from './meshPair.ts';
import { MeshToCore } from './meshToCore.ts';
import { MeshToSegment } from './meshToSegment.ts';
import { numbers } from './numbers.ts';
import type { PairStart } from './pairStart.ts';
import { type Piece, PLACED_SIZE, placeCore, SEGMENT } from './piece.ts';
import {
  carryPoint,
  carrySegment,
  type Placement,
  relativePlacement,
  turnVector,
  unmoved,
} from './placement.ts';
import type { Solid } from './solid.ts';
import { squareTo } from './support.ts';
import { TOUCHING_in } from './tolerances.ts';
import { normalOfTriangle, type TriangleMesh } from './triangleMesh.ts';

export class MeshGap {
  /** The gap, in, that has to be beaten: set before `run`. */
  cutoff = Infinity;
  readonly meshToSegment = new MeshToSegment();
  readonly meshToCore: MeshToCore;
  readonly #out: GapResult;
  readonly #inside = new MeshInside();
  readonly #meshPair: MeshPair;
  readonly #placed = numbers(PLACED_SIZE);
  readonly #at = numbers(7);
  readonly #relative = unmoved();
  readonly #swap = numbers(3);

  /** Writes its results to `out`. */
  constructor(out: GapResult, gjk: Gjk, depth: Depth) {
    this.#out = out;
    this.meshToCore = new MeshToCore(gjk, depth);
    this.#meshPair = new MeshPair(gjk, this.#inside);
  }

  /** A mesh (as b) against the pieces of a convex solid (as a). */
  withPieces(
    mesh: TriangleMesh,
    commonFromMesh: Placement,
    solid: Solid,
    commonFromSolid: Placement,
    start: PairStart | null,
  ): void {
    const at = this.#at;
    const out = this.#out;
    const { pointA, pointB, normal } = out;
    const { meshToSegment, meshToCore } = this;
    const meshFromSolid = this.#relative;
    relativePlacement(meshFromSolid, commonFromMesh, commonFromSolid);
    let best = this.cutoff;
    let bestPiece: Piece | null = null;
    let guess = start === null ? -1 : start.triangleB;
    for (let i = 0; i < solid.pieces.length; i++) {
      const piece = solid.pieces[i] as Piece;
      if (piece.core === SEGMENT) {
        const s = meshToSegment.segment;
        carrySegment(meshFromSolid, piece.data, s, 0);
        // a rod is nowhere deeper than its radius
        meshToSegment.least = Math.max(0, best + piece.radius);
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
    out.gap = best;
    out.beyond = bestPiece === null;
    if (bestPiece === null) return;
    if (start !== null) start.triangleB = guess;
    // from the frame of the mesh into the common one; the point on the piece lies back along the normal
    const swap = this.#swap;
    carryPoint(commonFromMesh, pointB, 0, swap, 0);
    pointB.set(swap);
    turnVector(commonFromMesh, normal, 0, swap, 0);
    normal.set(swap);
    for (let i = 0; i < 3; i++) {
      pointA[i] = (pointB[i] as number) - best * (normal[i] as number);
    }
    placeCore(bestPiece, commonFromSolid, this.#placed);
    out.alongA = alongOf(bestPiece, this.#placed, pointA);
    out.alongB = NO_ALONG;
  }

  /** Takes over the nearest triangle's point, and the direction to it from the segment. */
  #takeSegment(mesh: TriangleMesh): void {
    const { found, least, segment, triangle } = this.meshToSegment;
    const n = this.#out.normal;
    this.#out.pointB.set(found.subarray(1, 4));
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

  /** Two meshes. */
  withMesh(
    a: TriangleMesh,
    commonFromA: Placement,
    b: TriangleMesh,
    commonFromB: Placement,
    start: PairStart | null,
  ): void {
    const out = this.#out;
    const pair = this.#meshPair;
    relativePlacement(this.#relative, commonFromA, commonFromB);
    pair.least = this.cutoff;
    pair.run(a, b, this.#relative, start?.triangleA ?? -1, start?.triangleB ?? -1);
    out.gap = pair.least;
    out.beyond = !pair.found;
    if (out.beyond) return;
    if (start !== null) {
      start.triangleA = pair.triangleA;
      start.triangleB = pair.triangleB;
    }
    carryPoint(commonFromA, pair.pointA, 0, out.pointA, 0);
    carryPoint(commonFromA, pair.pointB, 0, out.pointB, 0);
    turnVector(commonFromA, pair.normal, 0, out.normal, 0);
    out.alongA = NO_ALONG;
    out.alongB = NO_ALONG;
  }
}
