/** The scene of a GLB file: which meshes are in it, and where its tree of nodes puts them. */
import { itemOf, type Json, listOf, Problem, said, wholeOf } from './glbJson.ts';

/** A node's place: three rows of three and a translation, x' = A x + t. */
export type Affine = readonly number[];
export const UNMOVED: Affine = [1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0];

/** The scene's meshes, each with the place that its nodes give it. */
export function placedMeshes(json: Json): { mesh: number; place: Affine }[] {
  const nodes = listOf(json, 'nodes', '');
  if (nodes.length === 0) {
    return listOf(json, 'meshes', '').map((_, mesh) => ({ mesh, place: UNMOVED }));
  }
  const placed: { mesh: number; place: Affine }[] = [];
  // a stack, last one first
  const open = rootsOf(json, nodes.length)
    .map(node => ({ node, place: UNMOVED, by: 'the scene' }))
    .reverse();
  const seen = new Set<number>();
  while (open.length > 0) {
    const { node, place: parent, by } = open.pop() as (typeof open)[number];
    const where = `nodes[${node}]`;
    const each = itemOf(json, 'nodes', node, by);
    if (seen.has(node)) throw new Problem(`${where} has two parents, or is its own`);
    seen.add(node);
    const place = combined(parent, placeOfNode(each, where));
    if (each.mesh !== undefined) placed.push({ mesh: wholeOf(each, 'mesh', where), place });
    for (const child of childrenOf(each, where).reverse())
      open.push({ node: child, place, by: where });
  }
  return placed;
}

function childrenOf(node: Json, where: string): number[] {
  return listOf(node, 'children', `${where}.`).map((_, i, list) =>
    wholeOf({ child: list[i] }, 'child', `${where}.children[${i}]`),
  );
}

/** The nodes of the scene, or all that are no node's child where there is no scene. */
function rootsOf(json: Json, count: number): number[] {
  if (listOf(json, 'scenes', '').length > 0) {
    const scene = itemOf(json, 'scenes', wholeOf(json, 'scene', 'the file', 0), 'the file');
    return listOf(scene, 'nodes', 'scene.').map((each, i) =>
      wholeOf({ node: each }, 'node', `scene.nodes[${i}]`),
    );
  }
  const children = new Set<number>();
  for (let i = 0; i < count; i++) {
    const where = `nodes[${i}]`;
    for (const child of childrenOf(itemOf(json, 'nodes', i, where), where)) children.add(child);
  }
  return Array.from({ length: count }, (_, i) => i).filter(i => !children.has(i));
}

function numbersOf(node: Json, key: string, where: string, otherwise: number[]): number[] {
  const value = node[key];
  if (value === undefined) return otherwise;
  const isGood =
    Array.isArray(value) &&
    value.length === otherwise.length &&
    value.every(each => typeof each === 'number' && Number.isFinite(each));
  if (!isGood) {
    throw new Problem(`${where}.${key} is ${said(value)}; it must be ${otherwise.length} numbers`);
  }
  return value;
}

/** From a matrix by columns, or from translation, rotation (quaternion x y z w) and scale. */
function placeOfNode(node: Json, where: string): Affine {
  if (node.matrix !== undefined) {
    const m = numbersOf(node, 'matrix', where, new Array<number>(16).fill(0));
    return [0, 4, 8, 1, 5, 9, 2, 6, 10, 12, 13, 14].map(i => m[i] as number);
  }
  const [tx = 0, ty = 0, tz = 0] = numbersOf(node, 'translation', where, [0, 0, 0]);
  const [qx = 0, qy = 0, qz = 0, qw = 1] = numbersOf(node, 'rotation', where, [0, 0, 0, 1]);
  const [sx = 1, sy = 1, sz = 1] = numbersOf(node, 'scale', where, [1, 1, 1]);
  const square = qx * qx + qy * qy + qz * qz + qw * qw;
  if (!(square > 0)) throw new Problem(`${where}.rotation is zero; it must be a unit quaternion`);
  const f = 2 / square;
  return [
    (1 - f * (qy * qy + qz * qz)) * sx,
    f * (qx * qy - qw * qz) * sy,
    f * (qx * qz + qw * qy) * sz,
    f * (qx * qy + qw * qz) * sx,
    (1 - f * (qx * qx + qz * qz)) * sy,
    f * (qy * qz - qw * qx) * sz,
    f * (qx * qz - qw * qy) * sx,
    f * (qy * qz + qw * qx) * sy,
    (1 - f * (qx * qx + qy * qy)) * sz,
    tx,
    ty,
    tz,
  ];
}

/** The place that first does `inner`, then `outer`. */
function combined(outer: Affine, inner: Affine): Affine {
  const out: number[] = [];
  for (let row = 0; row < 3; row++) {
    for (let column = 0; column < 3; column++) out.push(dotOf(outer, row, inner, column, 3));
  }
  for (let row = 0; row < 3; row++) {
    out.push(dotOf(outer, row, inner, 9, 1) + (outer[9 + row] as number));
  }
  return out;
}

function dotOf(rows: Affine, row: number, other: Affine, from: number, step: number): number {
  let sum = 0;
  for (let i = 0; i < 3; i++) {
    sum += (rows[3 * row + i] as number) * (other[from + step * i] as number);
  }
  return sum;
}

/** Negative where the place mirrors. */
export function determinantOf([
  a = 0,
  b = 0,
  c = 0,
  d = 0,
  e = 0,
  f = 0,
  g = 0,
  h = 0,
  i = 0,
]: Affine): number {
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}
