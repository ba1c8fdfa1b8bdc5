/**
 * A triangle mesh with its tree of bounds, in flat arrays that a worker can be sent.
 *
 * All in the frame of the body, inches, double precision: single precision rounds a scan by 3e-6 in at
 * 50 in, which would be seen in the distances. Triangles stand in the order of the tree's leaves.
 */
export interface TriangleMesh {
  /** Three numbers a vertex. */
  readonly positions: Float64Array;
  /** Three vertices a triangle. */
  readonly triangles: Uint32Array;
  /** Whether it knows inside from outside: each edge has two triangles, of opposite sense. */
  readonly closed: boolean;
  /** One vertex of each connected part of the surface. */
  readonly parts: Uint32Array;
  /** Sentences for the user: what was left out, why it is not closed. */
  readonly notes: readonly string[];
  /**
   * Seven numbers a node: center and half sizes of its box, and the radius of a sphere about the same
   * center. Node 0 is the whole; the first child of an inner node stands right after it.
   */
  readonly nodes: Float64Array;
  /** Two numbers a node: second child and 0, or for a leaf first triangle and their count. */
  readonly links: Int32Array;
}

/** Numbers of a node in `nodes`. */
export const NODE_SIZE = 7;

/** How deep a tree may be: the traversal's stacks are sized by it. */
export const MOST_DEPTH = 60;

/**
 * Fills in `nodes` from the positions, leaves first, so that no bound has been rounded to single
 * precision. A little wider than exact, against rounding in the sums.
 */
export function boundNodes(
  positions: Float64Array,
  triangles: Uint32Array,
  links: Int32Array,
  nodes: Float64Array,
): void {
  for (let node = links.length / 2 - 1; node >= 0; node--) {
    const count = links[2 * node + 1] as number;
    const at = NODE_SIZE * node;
    if (count > 0) {
      boundLeaf(positions, triangles, links[2 * node] as number, count, nodes, at);
    } else {
      boundInner(nodes, at, at + NODE_SIZE, NODE_SIZE * (links[2 * node] as number));
    }
  }
}

const WIDER = 1 + 1e-14;

function boundLeaf(
  positions: Float64Array,
  triangles: Uint32Array,
  first: number,
  count: number,
  nodes: Float64Array,
  at: number,
): void {
  for (let axis = 0; axis < 3; axis++) {
    let least = Infinity;
    let most = -Infinity;
    for (let i = 3 * first; i < 3 * (first + count); i++) {
      const each = positions[3 * (triangles[i] as number) + axis] as number;
      if (each < least) least = each;
      if (each > most) most = each;
    }
    nodes[at + axis] = (least + most) / 2;
    nodes[at + 3 + axis] = ((most - least) / 2) * WIDER + 1e-14 * Math.max(-least, most);
  }
  let square = 0;
  for (let i = 3 * first; i < 3 * (first + count); i++) {
    const vertex = 3 * (triangles[i] as number);
    const x = (positions[vertex] as number) - (nodes[at] as number);
    const y = (positions[vertex + 1] as number) - (nodes[at + 1] as number);
    const z = (positions[vertex + 2] as number) - (nodes[at + 2] as number);
    square = Math.max(square, x * x + y * y + z * z);
  }
  nodes[at + 6] = Math.sqrt(square) * WIDER;
}

function boundInner(nodes: Float64Array, at: number, one: number, two: number): void {
  let diagonal = 0;
  for (let axis = 0; axis < 3; axis++) {
    const c = nodes[one + axis] as number;
    const h = nodes[one + 3 + axis] as number;
    const d = nodes[two + axis] as number;
    const k = nodes[two + 3 + axis] as number;
    const least = Math.min(c - h, d - k);
    const most = Math.max(c + h, d + k);
    const half = ((most - least) / 2) * WIDER + 1e-14 * Math.max(-least, most);
    nodes[at + axis] = (least + most) / 2;
    nodes[at + 3 + axis] = half;
    diagonal += half * half;
  }
  const around = Math.max(reachOf(nodes, at, one), reachOf(nodes, at, two)) * WIDER;
  nodes[at + 6] = Math.min(Math.sqrt(diagonal), around);
}

function reachOf(nodes: Float64Array, at: number, child: number): number {
  const x = (nodes[child] as number) - (nodes[at] as number);
  const y = (nodes[child + 1] as number) - (nodes[at + 1] as number);
  const z = (nodes[child + 2] as number) - (nodes[at + 2] as number);
  return Math.sqrt(x * x + y * y + z * z) + (nodes[child + 6] as number);
}

/** Writes the unit normal of a triangle of the mesh; some direction where it has no area. */
export function normalOfTriangle(mesh: TriangleMesh, triangle: number, out: Float64Array): void {
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
