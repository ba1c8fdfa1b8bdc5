/**
 * Gap between two meshes, in the frame of the first.
 *
 * Apart: the least distance of two triangles, by walking both trees together, the nearer pair of nodes first,
 * each pair bounded by the box of one against the sphere of the other. Where triangles cross, the surfaces
 * have gap 0; a closed mesh has an inside, and then the depth is that of the other's vertex that lies
 * deepest in it: the signed distance of a vertex from the surface, the tree walked with the bound that it changes
 * by no more than the point moves. A mesh wholly inside a closed one is found by one vertex of each of
 * its connected parts.
 */
import type { Gjk } from './gjk.ts';
import { APART, BEYOND } from './gjk.ts';
import type { MeshInside } from './meshInside.ts';
import { MeshToSegment } from './meshToSegment.ts';
import { type Numbers, numbers } from './numbers.ts';
import { pointsPiece } from './piece.ts';
import { carryPoint, type Placement, relativePlacement, unmoved } from './placement.ts';
import { TOUCHING_in } from './tolerances.ts';
import { MOST_DEPTH, NODE_SIZE, type TriangleMesh } from './triangleMesh.ts';

export class MeshPair {
  /** Gap, in; before `run` the value that has to be beaten, or Infinity. */
  least = 0.5;
  /** Whether anything beat `least`. */
  found = false;
  /** Triangles where it occurs; −1 where nothing beat `least`. For a depth the first found of each. */
  triangleA = -1;
  triangleB = -1;
  /** Points on both surfaces and the unit direction with pointB − pointA = gap · normal, frame of a. */
  readonly pointA = numbers(3);
  readonly pointB = numbers(3);
  readonly normal = numbers(3);

  readonly #gjk: Gjk;
  readonly #inside: MeshInside;
  readonly #nearest = new MeshToSegment();
  readonly #cornersA = pointsPiece(numbers(9));
  readonly #cornersB = pointsPiece(numbers(9));
  readonly #here = unmoved();
  readonly #bFromA = unmoved();
  readonly #center = numbers(3);
  readonly #bound = numbers(1);
  readonly #stack = new Int32Array(8 * MOST_DEPTH);
  readonly #bounds = new Float64Array(4 * MOST_DEPTH);
  readonly #deep = numbers(7);

  constructor(gjk: Gjk, inside: MeshInside) {
    this.#gjk = gjk;
    this.#inside = inside;
  }

  /** `guessA`, `guessB`: triangles to begin with, or −1. */
  run(a: TriangleMesh, b: TriangleMesh, aFromB: Placement, guessA: number, guessB: number): void {
    this.found = false;
    this.triangleA = -1;
    this.triangleB = -1;
    relativePlacement(this.#bFromA, aFromB, this.#here);
    const known =
      guessA >= 0 &&
      guessB >= 0 &&
      3 * guessA < a.triangles.length &&
      3 * guessB < b.triangles.length;
    // surfaces that cross have gap 0: less is told by points inside a closed mesh alone
    if (known && this.least > 0) this.#measure(a, b, aFromB, guessA, guessB);
    this.#walk(a, b, aFromB);
    if (a.closed || b.closed) this.#overlap(a, b, aFromB);
  }

  #walk(a: TriangleMesh, b: TriangleMesh, aFromB: Placement): void {
    const stack = this.#stack;
    const bounds = this.#bounds;
    const bound = this.#bound;
    let top = 0;
    stack[0] = stack[1] = 0;
    this.#between(a, 0, b, 0, aFromB);
    bounds[0] = bound[0];
    while (top >= 0 && this.least > 0) {
      const i = stack[2 * top] as number;
      const j = stack[2 * top + 1] as number;
      const here = bounds[top] as number;
      top--;
      if (here >= this.least) continue;
      const countA = a.links[2 * i + 1] as number;
      const countB = b.links[2 * j + 1] as number;
      if (countA > 0 && countB > 0) {
        const firstA = a.links[2 * i] as number;
        const firstB = b.links[2 * j] as number;
        for (let t = firstA; t < firstA + countA; t++) {
          for (let u = firstB; u < firstB + countB; u++) this.#measure(a, b, aFromB, t, u);
        }
        continue;
      }
      // split the larger one
      const larger =
        (a.nodes[NODE_SIZE * i + 6] as number) >= (b.nodes[NODE_SIZE * j + 6] as number);
      const splitA = countA === 0 && (larger || countB > 0);
      const oneA = splitA ? i + 1 : i;
      const twoA = splitA ? (a.links[2 * i] as number) : i;
      const oneB = splitA ? j : j + 1;
      const twoB = splitA ? j : (b.links[2 * j] as number);
      this.#between(a, oneA, b, oneB, aFromB);
      const one = bound[0];
      this.#between(a, twoA, b, twoB, aFromB);
      const two = bound[0];
      const oneFirst = one <= two;
      top++;
      stack[2 * top] = oneFirst ? twoA : oneA;
      stack[2 * top + 1] = oneFirst ? twoB : oneB;
      bounds[top] = oneFirst ? two : one;
      top++;
      stack[2 * top] = oneFirst ? oneA : twoA;
      stack[2 * top + 1] = oneFirst ? oneB : twoB;
      bounds[top] = oneFirst ? one : two;
    }
  }

  /** Writes a lower bound of the distance of two nodes: box against sphere, both ways. */
  #between(a: TriangleMesh, i: number, b: TriangleMesh, j: number, aFromB: Placement): void {
    const c = this.#center;
    const m = aFromB as Numbers;
    const p = NODE_SIZE * i;
    const q = NODE_SIZE * j;
    carryPoint(aFromB, b.nodes, q, c, 0);
    const x = c[0] - (a.nodes[p] as number);
    const y = c[1] - (a.nodes[p + 1] as number);
    const z = c[2] - (a.nodes[p + 2] as number);
    const ax = Math.max(0, Math.abs(x) - (a.nodes[p + 3] as number));
    const ay = Math.max(0, Math.abs(y) - (a.nodes[p + 4] as number));
    const az = Math.max(0, Math.abs(z) - (a.nodes[p + 5] as number));
    const u = Math.abs(m[0] * x + m[3] * y + m[6] * z) - (b.nodes[q + 3] as number);
    const v = Math.abs(m[1] * x + m[4] * y + m[7] * z) - (b.nodes[q + 4] as number);
    const w = Math.abs(m[2] * x + m[5] * y + m[8] * z) - (b.nodes[q + 5] as number);
    const bx = Math.max(0, u);
    const by = Math.max(0, v);
    const bz = Math.max(0, w);
    this.#bound[0] = Math.max(
      Math.sqrt(ax * ax + ay * ay + az * az) - (b.nodes[q + 6] as number),
      Math.sqrt(bx * bx + by * by + bz * bz) - (a.nodes[p + 6] as number),
    );
  }

  #measure(a: TriangleMesh, b: TriangleMesh, aFromB: Placement, t: number, u: number): void {
    const one = this.#cornersA.data as Numbers;
    const two = this.#cornersB.data as Numbers;
    for (let k = 0; k < 3; k++) {
      const i = 3 * (a.triangles[3 * t + k] as number);
      for (let axis = 0; axis < 3; axis++) one[3 * k + axis] = a.positions[i + axis] as number;
      carryPoint(aFromB, b.positions, 3 * (b.triangles[3 * u + k] as number), two, 3 * k);
    }
    const gjk = this.#gjk;
    gjk.begin(this.#cornersA, this.#here, this.#cornersB, this.#here);
    for (let axis = 0; axis < 3; axis++)
      gjk.v[axis] = (one[axis] as number) - (two[axis] as number);
    gjk.cutoff = this.least;
    const code = gjk.run();
    if (code === BEYOND || (code === APART && gjk.upper >= this.least)) return;
    this.found = true;
    this.triangleA = t;
    this.triangleB = u;
    if (code === APART) {
      this.least = gjk.upper;
      gjk.nearest(this.pointA, this.pointB);
      for (let axis = 0; axis < 3; axis++) this.normal[axis] = -(gjk.v[axis] as number) / gjk.upper;
      return;
    }
    this.least = 0;
    gjk.nearest(this.pointA, this.pointB);
    this.pointB.set(this.pointA);
    normalOfTriangle(one, this.normal);
  }

  /** Looks for vertices of one inside the other, where that one is closed. */
  #overlap(a: TriangleMesh, b: TriangleMesh, aFromB: Placement): void {
    const deep = this.#deep;
    if (!this.found) this.normal.set([1, 0, 0]);
    const crossing = this.least <= 0;
    deep[0] = Math.max(0, -this.least);
    if (a.closed && this.#deepestOf(b, a, aFromB, crossing)) {
      this.found = true;
      this.least = -deep[0];
      this.pointB.set(deep.subarray(1, 4));
      this.pointA.set(deep.subarray(4, 7));
      this.#turnNormal();
    }
    if (b.closed && this.#deepestOf(a, b, this.#bFromA, crossing)) {
      this.found = true;
      this.least = -deep[0];
      carryPoint(aFromB, deep, 1, this.pointA, 0);
      carryPoint(aFromB, deep, 4, this.pointB, 0);
      this.#turnNormal();
    }
  }

  /** The unit direction from the point of b to that of a, for a depth that is more than rounding. */
  #turnNormal(): void {
    const { pointA, pointB, normal } = this;
    const x = pointA[0] - pointB[0];
    const y = pointA[1] - pointB[1];
    const z = pointA[2] - pointB[2];
    const length = Math.sqrt(x * x + y * y + z * z);
    if (length <= TOUCHING_in) return;
    normal[0] = x / length;
    normal[1] = y / length;
    normal[2] = z / length;
  }

  /**
   * Looks for a vertex of `mesh` deeper inside `closed` than `deep[0]`; writes its depth, the vertex and the
   * point of the surface nearest to it, frame of `closed`. Without a crossing one vertex of each
   * connected part tells whether that part is inside.
   */
  #deepestOf(
    mesh: TriangleMesh,
    closed: TriangleMesh,
    closedFromMesh: Placement,
    crossing: boolean,
  ): boolean {
    const before = this.#deep[0];
    if (!crossing) {
      const some = mesh.parts.some(vertex => {
        carryPoint(closedFromMesh, mesh.positions, 3 * vertex, this.#center, 0);
        return this.#inside.holds(closed, this.#center);
      });
      if (!some) return false;
    }
    const { nodes, links, positions, triangles } = mesh;
    const stack = this.#stack;
    let top = 0;
    stack[0] = 0;
    while (top >= 0) {
      const node = stack[top--] as number;
      carryPoint(closedFromMesh, nodes, NODE_SIZE * node, this.#center, 0);
      const radius = nodes[NODE_SIZE * node + 6] as number;
      if (!this.#isDeeper(closed, this.#deep[0] - radius)) continue;
      const first = links[2 * node] as number;
      const count = links[2 * node + 1] as number;
      if (count === 0) {
        stack[++top] = first;
        stack[++top] = node + 1;
        continue;
      }
      for (let i = 3 * first; i < 3 * (first + count); i++) {
        carryPoint(closedFromMesh, positions, 3 * (triangles[i] as number), this.#center, 0);
        if (!this.#isDeeper(closed, this.#deep[0])) continue;
        this.#deep[0] = this.#nearest.least;
        this.#deep.set(this.#center, 1);
        this.#deep.set(this.#nearest.found.subarray(1, 4), 4);
      }
    }
    return this.#deep[0] > before;
  }

  /** Whether the center lies deeper inside `closed` than `depth`, which is negative for outside. */
  #isDeeper(closed: TriangleMesh, depth: number): boolean {
    const nearest = this.#nearest;
    nearest.segment.set(this.#center, 0);
    nearest.segment.set(this.#center, 3);
    const inside = this.#inside.holds(closed, this.#center);
    // outside, the depth is minus the distance: it is enough to know whether that is under −depth
    nearest.least = inside ? Infinity : Math.max(0, -depth);
    nearest.run(closed, -1);
    if (!inside) return nearest.triangle >= 0 && -nearest.least > depth;
    return nearest.least > depth;
  }
}

function normalOfTriangle(t: Numbers, out: Numbers): void {
  const bx = t[3] - t[0];
  const by = t[4] - t[1];
  const bz = t[5] - t[2];
  const cx = t[6] - t[0];
  const cy = t[7] - t[1];
  const cz = t[8] - t[2];
  out[0] = by * cz - bz * cy;
  out[1] = bz * cx - bx * cz;
  out[2] = bx * cy - by * cx;
  const length = Math.sqrt(out[0] * out[0] + out[1] * out[1] + out[2] * out[2]);
  if (length > 0) for (let i = 0; i < 3; i++) out[i] = (out[i] as number) / length;
  else out[0] = 1;
}
