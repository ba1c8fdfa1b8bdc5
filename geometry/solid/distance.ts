/**
 * Gap between two placed solids: the shortest way between their surfaces, negative where they overlap.
 *
 *     rods (sphere, capsule, bent tube)   closed form of their center lines
 *     other convex solids                 distance search on their cores, depth search where these overlap
 *     mesh and convex solid               least signed distance of the mesh's points from the solid
 *     mesh and mesh                       nearest triangles
 *
 * Overlap of two convex pieces is their penetration depth, the least translation that brings
 * them apart; overlap with a mesh is the depth of the mesh's farthest point inside the convex piece, and for
 * a piece in a closed mesh of the piece's own farthest point from its surface. Solids of several pieces have
 * the least gap of any two.
 */
import { Depth } from './depth.ts';
import { GapResult } from './gapResult.ts';
import { Gjk } from './gjk.ts';
import { MeshGap } from './meshGap.ts';
import { numbers } from './numbers.ts';
import type { PairStart } from './pairStart.ts';
import { PieceGap } from './pieceGap.ts';
import type { Placement } from './placement.ts';
import { gapOfRods } from './rodGap.ts';
import type { Solid } from './solid.ts';

export { type Gap, NO_ALONG } from './gapResult.ts';
export { type PairStart, pairStart } from './pairStart.ts';

/**
 * Computes gaps. It owns all scratch space, so that nothing is allocated from run to run: make one and
 * keep it.
 *
 * @example
 *   const solver = new DistanceSolver();
 *   solver.run(dragLink, chassisFromDragLink, rail, chassisFromChassis);
 *   if (!solver.beyond && solver.gap < 0.5) report(solver.result());
 */
export class DistanceSolver extends GapResult {
  /**
   * In: the gap that is of interest; a run may end as soon as the gap is surely not under it. Set before
   * `run`; it stays.
   */
  cutoff = Infinity;
  /** The searches below, with their counts of steps. */
  readonly gjk = new Gjk();
  readonly depth = new Depth();
  readonly pieces = new PieceGap(this, this.gjk, this.depth);
  readonly meshes = new MeshGap(this, this.gjk, this.depth);
  readonly #s = numbers(18);

  /**
   * Finds the gap of two solids, each placed in the common frame. The result is in the fields of this
   * object, until the next run.
   */
  run(
    a: Solid,
    commonFromA: Placement,
    b: Solid,
    commonFromB: Placement,
    start: PairStart | null = null,
  ): void {
    if (a.rods && b.rods) {
      gapOfRods(a, commonFromA, b, commonFromB, this.#s, this);
      return;
    }
    const { cutoff, meshes, pieces } = this;
    pieces.cutoff = cutoff;
    meshes.cutoff = cutoff;
    if (pieces.areFar(a, commonFromA, b, commonFromB)) return;
    if (a.mesh === null && b.mesh === null) pieces.run(a, commonFromA, b, commonFromB, start);
    else if (b.mesh === null) {
      if (a.mesh !== null) meshes.withPieces(a.mesh, commonFromA, b, commonFromB, start);
      this.turnAround();
    } else if (a.mesh === null) meshes.withPieces(b.mesh, commonFromB, a, commonFromA, start);
    else meshes.withMesh(a.mesh, commonFromA, b.mesh, commonFromB, start);
  }
}
