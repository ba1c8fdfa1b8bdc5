/**
 * Whether a point lies inside a closed mesh: how often the surface winds around it.
 *
 * A ray from the point crosses the surface outward and inward; the sum of the crossings' senses is the winding
 * number, not zero inside, whichever way the triangles are turned. Which triangles it crosses is told by the signs
 * of three scalar triple products a triangle, one an edge; both triangles of an edge compute the same
 * product with the sign turned, to the last bit, so that a ray cannot slip between them. A product
 * that is zero is a ray through an edge: then the next direction is tried.
 */
import { type Numbers, numbers } from './numbers.ts';
import { MOST_DEPTH, NODE_SIZE, type TriangleMesh } from './triangleMesh.ts';

/** Directions without a common plane or round numbers, so that edges of drawn parts are rarely met. */
const DIRECTIONS = [
  [0.4387, 0.7523, 0.4915],
  [-0.6814, 0.2297, 0.6949],
  [0.1731, -0.8861, 0.4299],
  [0.5683, 0.3071, -0.7634],
  [-0.3967, -0.5741, -0.7163],
] as const;

export class MeshInside {
  readonly #stack = new Int32Array(2 * MOST_DEPTH);
  readonly #direction = numbers(3);
  #winding = 0;

  /** Whether `point` (frame of the mesh, in) is inside; never for a mesh that is not closed. */
  holds(mesh: TriangleMesh, point: Float64Array): boolean {
    const { nodes } = mesh;
    if (!mesh.closed) return false;
    for (let axis = 0; axis < 3; axis++) {
      const away = Math.abs((point[axis] as number) - (nodes[axis] as number));
      if (away > (nodes[3 + axis] as number)) return false;
    }
    for (const direction of DIRECTIONS) {
      this.#direction.set(direction);
      if (this.#cast(mesh, point as Numbers)) break;
    }
    return this.#winding !== 0;
  }

  /** Counts the crossings along the direction; false if the ray met an edge. */
  #cast(mesh: TriangleMesh, point: Numbers): boolean {
    const { nodes, links } = mesh;
    const stack = this.#stack;
    const [dx, dy, dz] = this.#direction as unknown as [number, number, number];
    const square = dx * dx + dy * dy + dz * dz;
    this.#winding = 0;
    let top = 0;
    stack[0] = 0;
    while (top >= 0) {
      const node = stack[top--] as number;
      const at = NODE_SIZE * node;
      const radius = (nodes[at + 6] as number) * (1 + 1e-9);
      const x = (nodes[at] as number) - point[0];
      const y = (nodes[at + 1] as number) - point[1];
      const z = (nodes[at + 2] as number) - point[2];
      const along = x * dx + y * dy + z * dz;
      if (along < 0 && along * along > radius * radius * square) continue;
      const away = x * x + y * y + z * z - (along * along) / square;
      if (away > radius * radius * (1 + 1e-9) + 1e-12 * (x * x + y * y + z * z)) continue;
      const first = links[2 * node] as number;
      const count = links[2 * node + 1] as number;
      if (count === 0) {
        stack[++top] = first;
        stack[++top] = node + 1;
        continue;
      }
      for (let t = first; t < first + count; t++) {
        if (!this.#cross(mesh, point, t)) return false;
      }
    }
    return true;
  }

  /** Adds the triangle's crossing to the winding; false if the ray meets one of its edges. */
  #cross(mesh: TriangleMesh, point: Numbers, triangle: number): boolean {
    const { positions, triangles } = mesh;
    const d = this.#direction;
    const i = 3 * (triangles[3 * triangle] as number);
    const j = 3 * (triangles[3 * triangle + 1] as number);
    const k = 3 * (triangles[3 * triangle + 2] as number);
    const ax = (positions[i] as number) - point[0];
    const ay = (positions[i + 1] as number) - point[1];
    const az = (positions[i + 2] as number) - point[2];
    const bx = (positions[j] as number) - point[0];
    const by = (positions[j + 1] as number) - point[1];
    const bz = (positions[j + 2] as number) - point[2];
    const cx = (positions[k] as number) - point[0];
    const cy = (positions[k + 1] as number) - point[1];
    const cz = (positions[k + 2] as number) - point[2];
    // twice the volumes under the edges, seen along the ray: keep this order of operations (see above)
    const ab = d[0] * (ay * bz - az * by) + d[1] * (az * bx - ax * bz) + d[2] * (ax * by - ay * bx);
    const bc = d[0] * (by * cz - bz * cy) + d[1] * (bz * cx - bx * cz) + d[2] * (bx * cy - by * cx);
    const ca = d[0] * (cy * az - cz * ay) + d[1] * (cz * ax - cx * az) + d[2] * (cx * ay - cy * ax);
    const some = ab > 0 || bc > 0 || ca > 0;
    if (some && (ab < 0 || bc < 0 || ca < 0)) return true;
    const nx = (by - ay) * (cz - az) - (bz - az) * (cy - ay);
    const ny = (bz - az) * (cx - ax) - (bx - ax) * (cz - az);
    const nz = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    const ahead = ax * nx + ay * ny + az * nz;
    if (ab === 0 || bc === 0 || ca === 0) {
      // through an edge: harmless behind the point
      if (some) return ahead < 0;
      if (ab < 0 || bc < 0 || ca < 0) return ahead > 0;
      // all zero: seen edge on, or without area, and then its neighbors tell
      return nx === 0 && ny === 0 && nz === 0;
    }
    if (some ? ahead > 0 : ahead < 0) this.#winding += some ? 1 : -1;
    return true;
  }
}
