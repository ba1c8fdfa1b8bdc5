/**
 * Nearest triangle of a mesh to a segment, in the frame of the mesh.
 *
 * Let w be the shortest way from the segment to the center of a node of the tree, with half sizes h and a sphere of
 * radius r. Distance changes by no more than the point moves, and the segment lies behind the plane square to
 * w at its foot, so that
 *
 *     |w| − min(r, Σ |w_i| h_i / |w|)  ≤  distance of everything in the node.
 *
 * For a long diagonal rod this is tight where boxes around the rod are useless. Nearest child first.
 */
import { type Numbers, numbers } from './numbers.ts';
import { segmentToTriangle } from './triangleDistance.ts';
import { MOST_DEPTH, NODE_SIZE, type TriangleMesh } from './triangleMesh.ts';

export class MeshToSegment {
  /** Ends of the segment: set before `run`. */
  readonly segment = numbers(18);
  /** Least distance, in; before `run` the distance that has to be beaten, or Infinity. */
  least = 0.5;
  /** The triangle where it occurs; −1 where nothing beat `least`. */
  triangle = -1;
  /** Fraction along the segment, point on the mesh, vector from the segment's point to it. */
  readonly found = numbers(7);
  /** Nodes and triangles looked at, all runs. */
  totalNodes = 0;
  totalTriangles = 0;

  readonly #t = numbers(17);
  readonly #stack = new Int32Array(2 * MOST_DEPTH);
  readonly #bounds = new Float64Array(2 * MOST_DEPTH);

  /** `guess`: a triangle to begin with, such as the nearest one of the pose before, or −1. */
  run(mesh: TriangleMesh, guess: number): void {
    const { nodes, links } = mesh;
    const s = this.segment;
    const stack = this.#stack;
    const bounds = this.#bounds;
    this.triangle = -1;
    if (guess >= 0 && 3 * guess < mesh.triangles.length) this.#measure(mesh, guess);
    const px = s[0];
    const py = s[1];
    const pz = s[2];
    const dx = s[3] - px;
    const dy = s[4] - py;
    const dz = s[5] - pz;
    const square = dx * dx + dy * dy + dz * dz;
    const over = square > 0 ? 1 / square : 0;
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
        for (let t = second; t < second + count; t++) this.#measure(mesh, t);
        continue;
      }
      looked += 2;
      let at = NODE_SIZE * (node + 1);
      let x = (nodes[at] as number) - px;
      let y = (nodes[at + 1] as number) - py;
      let z = (nodes[at + 2] as number) - pz;
      let along = Math.max(0, Math.min(1, (x * dx + y * dy + z * dz) * over));
      x -= along * dx;
      y -= along * dy;
      z -= along * dz;
      let away = Math.sqrt(x * x + y * y + z * z);
      let radius = nodes[at + 6] as number;
      let across =
        Math.abs(x) * (nodes[at + 3] as number) +
        Math.abs(y) * (nodes[at + 4] as number) +
        Math.abs(z) * (nodes[at + 5] as number);
      const one = away - (across < radius * away ? across / away : radius);
      at = NODE_SIZE * second;
      x = (nodes[at] as number) - px;
      y = (nodes[at + 1] as number) - py;
      z = (nodes[at + 2] as number) - pz;
      along = Math.max(0, Math.min(1, (x * dx + y * dy + z * dz) * over));
      x -= along * dx;
      y -= along * dy;
      z -= along * dz;
      away = Math.sqrt(x * x + y * y + z * z);
      radius = nodes[at + 6] as number;
      across =
        Math.abs(x) * (nodes[at + 3] as number) +
        Math.abs(y) * (nodes[at + 4] as number) +
        Math.abs(z) * (nodes[at + 5] as number);
      const two = away - (across < radius * away ? across / away : radius);
      const least = this.least;
      if (one <= two) {
        if (two < least) {
          stack[++top] = second;
          bounds[top] = two;
        }
        if (one < least) {
          stack[++top] = node + 1;
          bounds[top] = one;
        }
      } else {
        if (one < least) {
          stack[++top] = node + 1;
          bounds[top] = one;
        }
        if (two < least) {
          stack[++top] = second;
          bounds[top] = two;
        }
      }
    }
    this.totalNodes += looked;
  }

  #measure(mesh: TriangleMesh, triangle: number): void {
    const { positions, triangles } = mesh;
    const t = this.#t;
    const a = 3 * (triangles[3 * triangle] as number);
    const b = 3 * (triangles[3 * triangle + 1] as number);
    const c = 3 * (triangles[3 * triangle + 2] as number);
    for (let i = 0; i < 3; i++) {
      t[i] = positions[a + i] as number;
      t[3 + i] = positions[b + i] as number;
      t[6 + i] = positions[c + i] as number;
    }
    this.totalTriangles++;
    segmentToTriangle(this.segment, t);
    const least = this.least;
    if (t[9] >= least * least) return;
    this.least = Math.sqrt(t[9]);
    this.triangle = triangle;
    const found = this.found as Float64Array;
    for (let i = 0; i < 7; i++) found[i] = t[10 + i] as number;
  }
}

/**
 * Writes the triangles whose least distance from the segment (ends in `segment[0..5]`, frame of the mesh)
 * may be under `within` (in) to `out`, and returns how many there are, which may be more than fit: then make
 * `out` larger. By the spheres of the leaves only, so that some are farther away.
 */
export function trianglesNear(
  mesh: TriangleMesh,
  segment: Numbers,
  within: number,
  out: Int32Array,
  stack: Int32Array = new Int32Array(2 * MOST_DEPTH),
): number {
  const { nodes, links } = mesh;
  const dx = segment[3] - segment[0];
  const dy = segment[4] - segment[1];
  const dz = segment[5] - segment[2];
  const square = dx * dx + dy * dy + dz * dz;
  const over = square > 0 ? 1 / square : 0;
  let found = 0;
  let top = 0;
  stack[0] = 0;
  while (top >= 0) {
    const node = stack[top--] as number;
    const at = NODE_SIZE * node;
    let x = (nodes[at] as number) - segment[0];
    let y = (nodes[at + 1] as number) - segment[1];
    let z = (nodes[at + 2] as number) - segment[2];
    let along = (x * dx + y * dy + z * dz) * over;
    along = Math.max(0, Math.min(1, along));
    x -= along * dx;
    y -= along * dy;
    z -= along * dz;
    const far = within + (nodes[at + 6] as number);
    if (!(far >= 0) || x * x + y * y + z * z > far * far) continue;
    const first = links[2 * node] as number;
    const count = links[2 * node + 1] as number;
    if (count === 0) {
      stack[++top] = first;
      stack[++top] = node + 1;
      continue;
    }
    for (let t = first; t < first + count; t++) {
      if (found < out.length) out[found] = t;
      found++;
    }
  }
  return found;
}
