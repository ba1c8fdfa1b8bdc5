/**
 * A triangle mesh as a solid: checks, welding, and the tree of bounds.
 *
 * three-mesh-bvh sorts the triangles into a tree; its own bounds and positions are single precision, so that
 * only the order is taken from it and the bounds are computed anew (triangleMesh.ts).
 */
import { BufferAttribute, BufferGeometry } from 'three';
import { MeshBVH, SAH } from 'three-mesh-bvh';
import { carryPoint, type Placement, problemOfPlacement } from './placement.ts';
import type { Made, Solid } from './solid.ts';
import { LARGEST_in, SMALLEST_in } from './tolerances.ts';
import { boundNodes, MOST_DEPTH, NODE_SIZE, type TriangleMesh } from './triangleMesh.ts';
import { MOST_TRIANGLES, type Triangles, tooMany } from './triangles.ts';
import { brokenEdges, partsOf, type Welded, weld } from './weld.ts';

/** Triangles of a leaf: fewer cost nodes, more cost triangle tests. */
const LEAF = 4;

export interface MeshShape extends Triangles {
  /** Inches of one of the file's units; 1 unless given. */
  readonly scale?: number;
  /** Where the file's axes stand in the body, after scaling; as they are unless given. */
  readonly place?: Placement;
}

/**
 * A solid of triangles. A closed mesh knows inside from outside; an open or broken one counts as a
 * surface only, and its `notes` say so.
 *
 * @example
 *   const read = readMesh('engine bay.stl', bytes);
 *   const made = 'problem' in read ? read : mesh({ ...read.mesh, scale: INCHES_OF_UNIT.mm });
 */
export function mesh(shape: MeshShape): Made {
  const { scale = 1, place } = shape;
  const problem = problemOfMesh(shape, scale, place);
  if (problem !== null) return { problem };
  const welded = weld(placed(shape.positions, scale, place), shape.triangles);
  const tooBig = problemOfExtent(welded);
  if (tooBig !== null) return { problem: tooBig };
  const vertices = welded.positions.length / 3;
  const broken = brokenEdges(welded.triangles, vertices);
  const closed = broken.open + broken.crowded + broken.turned === 0;
  const notes: string[] = [];
  if (welded.dropped > 0) {
    notes.push(`${count(welded.dropped, 'triangle')} without extent left out`);
  }
  if (!closed) {
    const reasons = [
      broken.open > 0 ? `${count(broken.open, 'edge')} with one triangle only` : '',
      broken.crowded > 0 ? `${count(broken.crowded, 'edge')} with more than two` : '',
      broken.turned > 0
        ? `${count(broken.turned, 'edge')} whose two triangles face opposite ways`
        : '',
    ].filter(each => each !== '');
    notes.push(
      `not closed (${reasons.join(', ')}): it counts as a surface without inside, so a part wholly behind it is not found`,
    );
  }
  return { solid: solidOfMesh(treeOf(welded, closed, notes)) };
}

/** A mesh that has its tree already, such as one that a worker was sent, as a solid. */
export function solidOfMesh(tree: TriangleMesh): Solid {
  const { nodes } = tree;
  const bound = Float64Array.of(
    nodes[0] as number,
    nodes[1] as number,
    nodes[2] as number,
    nodes[6] as number,
  );
  return { kind: 'mesh', pieces: [], mesh: tree, bound, rods: false };
}

function count(n: number, what: string): string {
  return `${n} ${what}${n === 1 ? '' : 's'}`;
}

function problemOfMesh(
  { positions, triangles }: Triangles,
  scale: number,
  place: Placement | undefined,
): string | null {
  if (!(Number.isFinite(scale) && scale > 0)) {
    return `scale is ${scale}; it must be above 0: the inches in one of the file's units`;
  }
  if (place !== undefined) {
    const problem = problemOfPlacement(place);
    if (problem !== null) return problem;
  }
  if (triangles.length < 3) return 'the mesh is empty: it has no triangles';
  if (triangles.length % 3 !== 0) {
    return `the mesh has ${triangles.length} corners; three make a triangle`;
  }
  if (triangles.length > 3 * MOST_TRIANGLES) {
    return tooMany(triangles.length / 3);
  }
  if (positions.length % 3 !== 0) {
    return `the mesh has ${positions.length} coordinates; three make a vertex`;
  }
  const vertices = positions.length / 3;
  for (let i = 0; i < triangles.length; i++) {
    const vertex = triangles[i] as number;
    if (vertex >= vertices) {
      return `triangle ${Math.floor(i / 3) + 1} names vertex ${vertex + 1}; there are ${vertices}`;
    }
  }
  for (let i = 0; i < positions.length; i++) {
    const value = (positions[i] as number) * scale;
    if (!(Math.abs(value) <= LARGEST_in)) {
      const axis = 'xyz'[i % 3];
      const vertex = Math.floor(i / 3) + 1;
      return Number.isFinite(value)
        ? `${axis} of vertex ${vertex} is ${value} in; at most ${LARGEST_in} in is possible: is the unit right?`
        : `${axis} of vertex ${vertex} is ${positions[i]}; it must be a finite number`;
    }
  }
  return null;
}

function placed(
  positions: Float64Array,
  scale: number,
  place: Placement | undefined,
): Float64Array {
  const out = Float64Array.from(positions, each => each * scale);
  if (place !== undefined) {
    for (let i = 0; i < out.length; i += 3) carryPoint(place, out, i, out, i);
  }
  return out;
}

function problemOfExtent({ positions, triangles }: Welded): string | null {
  if (triangles.length === 0)
    return 'the mesh has no size: all of its triangles are points or lines';
  for (let axis = 0, extent = 0; axis < 3; axis++) {
    let least = Infinity;
    let most = -Infinity;
    for (let i = axis; i < positions.length; i += 3) {
      least = Math.min(least, positions[i] as number);
      most = Math.max(most, positions[i] as number);
    }
    extent = Math.max(extent, most - least);
    if (extent >= SMALLEST_in) return null;
  }
  return 'the mesh has no size: is the unit right?';
}

/** Sorts the triangles into a tree and lays it out flat. */
function treeOf({ positions, triangles }: Welded, closed: boolean, notes: string[]): TriangleMesh {
  const geometry = new BufferGeometry();
  // about the middle, so that single precision orders as well as it can
  geometry.setAttribute('position', new BufferAttribute(centered(positions), 3));
  geometry.setIndex(new BufferAttribute(triangles.slice(), 1));
  const bvh = new MeshBVH(geometry, {
    strategy: SAH,
    targetLeafSize: LEAF,
    maxDepth: MOST_DEPTH - 4,
    verbose: false,
  });
  const sorted = geometry.getIndex()?.array ?? triangles;
  const links: number[] = [];
  /** The node last seen at each depth: the parent of what comes one deeper. */
  const lastAt: number[] = [];
  let leafBefore = -1;
  bvh.traverse((depth: number, isLeaf: boolean, _bounds: unknown, offset: number) => {
    const node = links.length / 2;
    const parent = depth > 0 ? (lastAt[depth - 1] as number) : -1;
    if (parent >= 0 && node !== parent + 1) links[2 * parent] = node;
    lastAt[depth] = node;
    links.push(isLeaf ? offset : -1, 0);
    if (!isLeaf) return;
    // A leaf ends where the next begins; the tree's own count has 16 bits and can overflow.
    if (leafBefore >= 0) links[2 * leafBefore + 1] = offset - (links[2 * leafBefore] as number);
    leafBefore = node;
  });
  links[2 * leafBefore + 1] = sorted.length / 3 - (links[2 * leafBefore] as number);
  const flat = inOrderOfUse(positions, Uint32Array.from(sorted));
  const tree = {
    ...flat,
    closed,
    parts: partsOf(flat.triangles, flat.positions.length / 3),
    notes,
    nodes: new Float64Array((NODE_SIZE * links.length) / 2),
    links: Int32Array.from(links),
  };
  boundNodes(tree.positions, tree.triangles, tree.links, tree.nodes);
  return tree;
}

function centered(positions: Float64Array): Float32Array {
  const middle = [0, 1, 2].map(axis => {
    let least = Infinity;
    let most = -Infinity;
    for (let i = axis; i < positions.length; i += 3) {
      least = Math.min(least, positions[i] as number);
      most = Math.max(most, positions[i] as number);
    }
    return (least + most) / 2;
  });
  return Float32Array.from(positions, (each, i) => each - (middle[i % 3] as number));
}

/** The same triangles with the vertices in the order in which they use them: neighbors stand together. */
function inOrderOfUse(positions: Float64Array, triangles: Uint32Array): Triangles {
  const renamed = new Int32Array(positions.length / 3).fill(-1);
  const out = new Float64Array(positions.length);
  let vertices = 0;
  for (let i = 0; i < triangles.length; i++) {
    const old = triangles[i] as number;
    let vertex = renamed[old] as number;
    if (vertex < 0) {
      vertex = vertices++;
      renamed[old] = vertex;
      out.set(positions.subarray(3 * old, 3 * old + 3), 3 * vertex);
    }
    triangles[i] = vertex;
  }
  return { positions: out, triangles };
}
