/**
 * Least signed distance of the points of a mesh's surface from a convex core, in the frame of the mesh.
 *
 * f(p) = signed distance of p from the core, negative inside. Its least value over all triangles is the shortest
 * connection where they are apart, and minus the depth of the surface's farthest point inside where
 * they overlap. f changes by no more than the point moves and is nowhere under its tangent planes, so that for a node
 * of the tree with half sizes h and a sphere of radius r
 *
 *     f(center) − min(r, Σ |gradient_i| h_i)  ≤  f on everything in it.
 *
 * A triangle is measured by the distance search, and where it enters the core by its deepest point.
 */
import { distanceFromCore, placeShape } from './coreDistance.ts';
import { Deepest } from './deepest.ts';
import type { Depth } from './depth.ts';
import { APART, BEYOND, type Gjk } from './gjk.ts';
import { type Numbers, numbers } from './numbers.ts';
import { type Piece, PLACED_SIZE, pointsPiece } from './piece.ts';
import { type Placement, unmoved } from './placement.ts';
import { MOST_DEPTH, NODE_SIZE, type TriangleMesh } from './triangleMesh.ts';

export class MeshToCore {
  /** Least f, in; before `run` the value that has to be beaten, or Infinity. */
  least = 0.5;
  /** The triangle where it occurs; −1 where nothing beat `least`. */
  triangle = -1;
  /** The point on the mesh, and the unit direction away from the core there. */
  readonly point = numbers(3);
  readonly away = numbers(3);
  /** Nodes and triangles looked at, all runs. */
  totalNodes = 0;
  totalTriangles = 0;
  /** Triangles that no bound kept from a distance search. */
  totalSearches = 0;

  readonly #gjk: Gjk;
  readonly #deepest: Deepest;
  readonly #placed = numbers(PLACED_SIZE);
  readonly #here = unmoved();
  readonly #triangle = pointsPiece(numbers(9));
  readonly #onCore = numbers(3);
  readonly #at = numbers(7);
  readonly #stack = new Int32Array(2 * MOST_DEPTH);
  readonly #bounds = new Float64Array(2 * MOST_DEPTH);

  constructor(gjk: Gjk, depth: Depth) {
    this.#gjk = gjk;
    this.#deepest = new Deepest(gjk, depth);
  }

  /** `guess`: a triangle to begin with, such as the nearest one of the pose before, or −1. */
  run(mesh: TriangleMesh, piece: Piece, meshFromPiece: Placement, guess: number): void {
    const { nodes, links, triangles } = mesh;
    const placed = this.#placed;
    const at = this.#at;
    const stack = this.#stack;
    const bounds = this.#bounds;
    placeShape(piece, meshFromPiece, placed);
    this.triangle = -1;
    if (guess >= 0 && 3 * guess < triangles.length)
      this.#measure(mesh, piece, meshFromPiece, guess);
    let looked = 1;
    let top = 0;
    stack[0] = 0;
    bounds[0] = -Infinity;
    while (top >= 0) {
      const node = stack[top] as number;
      const bound = bounds[top] as number;
      top--;
      if (bound >= this.least) continue;
      const second = links[2 * node] as number;
      const count = links[2 * node + 1] as number;
      if (count > 0) {
        for (let t = second; t < second + count; t++) {
          this.#measure(mesh, piece, meshFromPiece, t);
        }
        continue;
      }
      looked += 2;
      this.#boundNode(nodes, node + 1, piece);
      const one = at[3];
      this.#boundNode(nodes, second, piece);
      const two = at[3];
      // the nearer one on top
      const near = one <= two ? node + 1 : second;
      stack[++top] = one <= two ? second : node + 1;
      bounds[top] = Math.max(one, two);
      stack[++top] = near;
      bounds[top] = Math.min(one, two);
    }
    this.totalNodes += looked;
  }

  /** Writes the lower bound of f on a node to `#at[3]`. */
  #boundNode(nodes: Float64Array, node: number, piece: Piece): void {
    const at = this.#at;
    const i = NODE_SIZE * node;
    at[0] = nodes[i] as number;
    at[1] = nodes[i + 1] as number;
    at[2] = nodes[i + 2] as number;
    distanceFromCore(piece, this.#placed, at);
    const across =
      Math.abs(at[4]) * (nodes[i + 3] as number) +
      Math.abs(at[5]) * (nodes[i + 4] as number) +
      Math.abs(at[6]) * (nodes[i + 5] as number);
    at[3] -= Math.min(across, nodes[i + 6] as number);
  }

  /**
   * Signed distance (in) and gradient of the point in `at[0..2]`, frame of the mesh, from the core, to
   * `at[3..6]`.
   */
  distanceAt(piece: Piece, meshFromPiece: Placement, at: Numbers): void {
    placeShape(piece, meshFromPiece, this.#placed);
    this.#deepest.distanceAt(piece, meshFromPiece, this.#placed, at);
  }

  #measure(mesh: TriangleMesh, piece: Piece, meshFromPiece: Placement, triangle: number): void {
    const { positions, triangles } = mesh;
    const corners = this.#triangle.data as Float64Array;
    const a = 3 * (triangles[3 * triangle] as number);
    const b = 3 * (triangles[3 * triangle + 1] as number);
    const c = 3 * (triangles[3 * triangle + 2] as number);
    const at = this.#at;
    for (let i = 0; i < 3; i++) {
      const x = positions[a + i] as number;
      const y = positions[b + i] as number;
      const z = positions[c + i] as number;
      corners[i] = x;
      corners[3 + i] = y;
      corners[6 + i] = z;
      at[i] = (x + y + z) / 3;
    }
    this.totalTriangles++;
    // under the tangent plane at its middle f is not, and the plane is lowest at a corner
    distanceFromCore(piece, this.#placed, at);
    let lowest = Infinity;
    for (let k = 0; k < 9; k += 3) {
      const slope =
        at[4] * ((corners[k] as number) - at[0]) +
        at[5] * ((corners[k + 1] as number) - at[1]) +
        at[6] * ((corners[k + 2] as number) - at[2]);
      if (slope < lowest) lowest = slope;
    }
    if (at[3] + lowest >= this.least) return;
    this.totalSearches++;
    const gjk = this.#gjk;
    gjk.begin(this.#triangle, this.#here, piece, meshFromPiece);
    // toward the piece's middle from the triangle's; the search needs only a guess
    gjk.v[0] = at[4];
    gjk.v[1] = at[5];
    gjk.v[2] = at[6];
    gjk.cutoff = this.least;
    const code = gjk.run();
    if (code === BEYOND) return;
    if (code === APART) {
      if (gjk.upper >= this.least) return;
      this.least = gjk.upper;
      this.triangle = triangle;
      gjk.nearest(this.point, this.#onCore);
      for (let i = 0; i < 3; i++) this.away[i] = (gjk.v[i] as number) / gjk.upper;
      return;
    }
    const deepest = this.#deepest;
    deepest.corners.set(corners);
    deepest.run(piece, meshFromPiece, this.#placed, this.least);
    if (deepest.least >= this.least) return;
    this.least = deepest.least;
    this.triangle = triangle;
    this.point.set(deepest.point);
    this.away.set(deepest.away);
  }
}
