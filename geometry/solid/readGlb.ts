/**
 * Reads the triangles of a GLB file: binary glTF 2.0 (Khronos Group; layout from memory of its specification).
 *
 * Everything in the file is taken for hostile: each offset, count and index is checked against what is there
 * before it is used. Triangles, strips and fans of all meshes of the scene are read, placed by their nodes.
 * Refused with a message: other files that it leans on, compressed or quantized geometry, sparse accessors.
 * Its unit is the meter, its axis up is Y; neither is changed here.
 */
import { itemOf, type Json, listOf, objectOf, Problem, said, wholeOf } from './glbJson.ts';
import { type Affine, determinantOf, placedMeshes } from './glbScene.ts';
import { MOST_TRIANGLES, type ReadTriangles, tooMany } from './triangles.ts';

const MAGIC = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;
const BIN_CHUNK = 0x004e4942;
const FLOAT = 5126;
const INDEX_SIZES = new Map([
  [5121, 1],
  [5123, 2],
  [5125, 4],
]);

interface Glb {
  readonly json: Json;
  readonly bin: DataView | null;
}

interface Found {
  readonly positions: number[];
  readonly triangles: number[];
  readonly notes: Set<string>;
}

export function readGlb(bytes: Uint8Array): ReadTriangles {
  try {
    const glb = chunksOf(bytes);
    refuseExtensions(glb.json);
    const found: Found = { positions: [], triangles: [], notes: new Set() };
    for (const { mesh, place } of placedMeshes(glb.json)) readMesh(glb, mesh, place, found);
    if (found.triangles.length === 0) throw new Problem('the mesh is empty: it has no triangles');
    const mesh = {
      positions: Float64Array.from(found.positions),
      triangles: Uint32Array.from(found.triangles),
    };
    return { mesh, notes: [...found.notes] };
  } catch (error) {
    if (error instanceof Problem) return { problem: error.message };
    throw error;
  }
}

function chunksOf(bytes: Uint8Array): Glb {
  if (bytes.length === 0) throw new Problem('the file is empty');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 4 || view.getUint32(0, true) !== MAGIC) {
    const start = String.fromCharCode(...bytes.subarray(0, 100)).trimStart();
    throw new Problem(
      start.startsWith('{')
        ? 'this is text (glTF as JSON); a GLB file is binary: export it as one file'
        : "this is no GLB: it does not begin with 'glTF'",
    );
  }
  if (bytes.length < 20) throw new Problem(`the file is cut off: it has ${bytes.length} bytes`);
  const version = view.getUint32(4, true);
  if (version !== 2) throw new Problem(`this is glTF ${version}; version 2 is read`);
  const length = view.getUint32(8, true);
  if (length > bytes.length) {
    throw new Problem(
      `the file is cut off: its header announces ${length} bytes; it has ${bytes.length}`,
    );
  }
  let json: Json | null = null;
  let bin: DataView | null = null;
  for (let at = 12; at + 8 <= length; ) {
    const size = view.getUint32(at, true);
    const kind = view.getUint32(at + 4, true);
    if (size > length - at - 8) {
      throw new Problem(
        `the chunk at byte ${at} announces ${size} bytes; ${length - at - 8} are left`,
      );
    }
    const chunk = bytes.subarray(at + 8, at + 8 + size);
    if (kind === JSON_CHUNK && json === null) json = parse(chunk);
    if (kind === BIN_CHUNK && bin === null) {
      bin = new DataView(chunk.buffer, chunk.byteOffset, chunk.byteLength);
    }
    at += 8 + size + ((4 - (size % 4)) % 4);
  }
  if (json === null) throw new Problem('it has no JSON chunk, which says what is in it');
  return { json, bin };
}

/** Its structure is ASCII; names may come out garbled and are not used. */
function parse(chunk: Uint8Array): Json {
  const parts: string[] = [];
  for (let at = 0; at < chunk.length; at += 8192) {
    parts.push(String.fromCharCode(...chunk.subarray(at, at + 8192)));
  }
  let json: unknown;
  try {
    json = JSON.parse(parts.join(''));
  } catch {
    throw new Problem('its JSON chunk cannot be parsed');
  }
  return objectOf(json, 'the JSON chunk');
}

function refuseExtensions(json: Json): void {
  for (const each of listOf(json, 'extensionsRequired', '')) {
    // what surfaces look like does not matter here
    if (typeof each === 'string' && /^KHR_(materials_|texture_)/.test(each)) continue;
    throw new Problem(`it needs the extension ${said(each)}, which is not read: export it without`);
  }
}

function readMesh({ json, bin }: Glb, meshAt: number, place: Affine, found: Found): void {
  const named = `meshes[${meshAt}]`;
  const mesh = itemOf(json, 'meshes', meshAt, 'a node');
  for (const [i, value] of listOf(mesh, 'primitives', `${named}.`).entries()) {
    const where = `${named}.primitives[${i}]`;
    const primitive = objectOf(value, where);
    const mode = wholeOf(primitive, 'mode', where, 4);
    if (mode < 4) {
      found.notes.add('points and lines left out');
      continue;
    }
    if (mode > 6) throw new Problem(`${where}.mode is ${mode}; 0 to 6 are possible`);
    const attributes = objectOf(primitive.attributes, `${where}.attributes`);
    const first = found.positions.length / 3;
    const positions = wholeOf(attributes, 'POSITION', `${where}.attributes`);
    const count = readPositions(json, bin, positions, place, found.positions);
    const corners =
      primitive.indices === undefined
        ? Array.from({ length: count }, (_, k) => k)
        : readIndices(json, bin, wholeOf(primitive, 'indices', where), count);
    cut(mode, corners, first, determinantOf(place) < 0, found.triangles);
    if (found.triangles.length > 3 * MOST_TRIANGLES) {
      throw new Problem(tooMany(found.triangles.length / 3));
    }
  }
}

/** Triangles of a list (4), strip (5) or fan (6); turned over where the place mirrors. */
function cut(
  mode: number,
  corners: readonly number[],
  first: number,
  isMirrored: boolean,
  out: number[],
): void {
  const at = (i: number) => first + (corners[i] as number);
  const add = (i: number, j: number, k: number) =>
    isMirrored ? out.push(at(i), at(k), at(j)) : out.push(at(i), at(j), at(k));
  if (mode === 4) {
    for (let i = 0; i + 2 < corners.length; i += 3) add(i, i + 1, i + 2);
    return;
  }
  for (let i = 0; i + 2 < corners.length; i++) {
    if (mode === 6) add(0, i + 1, i + 2);
    else if (i % 2 === 0) add(i, i + 1, i + 2);
    else add(i + 1, i, i + 2);
  }
}

/** Where an accessor's numbers lie in the binary chunk, checked to lie inside it. */
function spanOf(
  json: Json,
  bin: DataView | null,
  accessorAt: number,
  size: number,
): { start: number; stride: number; count: number; where: string } {
  const where = `accessors[${accessorAt}]`;
  const accessor = itemOf(json, 'accessors', accessorAt, 'a primitive');
  if (accessor.sparse !== undefined) throw new Problem(`${where} is sparse, which is not read`);
  const count = wholeOf(accessor, 'count', where);
  const viewAt = wholeOf(accessor, 'bufferView', where);
  const named = `bufferViews[${viewAt}]`;
  const view = itemOf(json, 'bufferViews', viewAt, where);
  const bufferAt = wholeOf(view, 'buffer', named);
  const buffer = itemOf(json, 'buffers', bufferAt, named);
  if (buffer.uri !== undefined || bufferAt !== 0) {
    throw new Problem(`buffers[${bufferAt}] lies outside of the file: export it as one GLB`);
  }
  if (bin === null) throw new Problem(`${where} needs the binary chunk, which is missing`);
  const viewStart = wholeOf(view, 'byteOffset', named, 0);
  const viewLength = wholeOf(view, 'byteLength', named);
  if (viewStart + viewLength > bin.byteLength) {
    throw new Problem(
      `${named} ends at byte ${viewStart + viewLength}; the binary chunk has ${bin.byteLength}`,
    );
  }
  const stride = wholeOf(view, 'byteStride', named, size) || size;
  const offset = wholeOf(accessor, 'byteOffset', where, 0);
  if (stride < size)
    throw new Problem(`${named}.byteStride is ${stride}; items have ${size} bytes`);
  if (count > 0 && offset + stride * (count - 1) + size > viewLength) {
    throw new Problem(
      `${where} ends at byte ${offset + stride * (count - 1) + size} of ${named}, which has ${viewLength}`,
    );
  }
  return { start: viewStart + offset, stride, count, where };
}

/** Appends the positions carried by `place`; returns how many. */
function readPositions(
  json: Json,
  bin: DataView | null,
  accessorAt: number,
  place: Affine,
  out: number[],
): number {
  const { start, stride, count, where } = spanOf(json, bin, accessorAt, 12);
  const accessor = itemOf(json, 'accessors', accessorAt, 'a primitive');
  if (accessor.componentType !== FLOAT || accessor.type !== 'VEC3') {
    throw new Problem(
      `${where} holds positions as ${said(accessor.type)} of ${said(accessor.componentType)}; "VEC3" of ${FLOAT} (floats) is read`,
    );
  }
  if (out.length / 3 + count > 3 * MOST_TRIANGLES) {
    throw new Problem(`the mesh has more than ${3 * MOST_TRIANGLES} vertices: thin it out`);
  }
  const m = place;
  for (let k = 0; k < count; k++) {
    const at = start + stride * k;
    const [x, y, z] = [0, 4, 8].map(step => bin?.getFloat32(at + step, true) ?? 0) as [
      number,
      number,
      number,
    ];
    for (let row = 0; row < 3; row++) {
      const value =
        (m[3 * row] as number) * x +
        (m[3 * row + 1] as number) * y +
        (m[3 * row + 2] as number) * z +
        (m[9 + row] as number);
      if (!Number.isFinite(value)) {
        throw new Problem(`${where}: vertex ${k} is (${x}, ${y}, ${z}); it must be finite`);
      }
      out.push(value);
    }
  }
  return count;
}

function readIndices(
  json: Json,
  bin: DataView | null,
  accessorAt: number,
  vertices: number,
): number[] {
  const accessor = itemOf(json, 'accessors', accessorAt, 'a primitive');
  const type = accessor.componentType;
  const size = typeof type === 'number' ? INDEX_SIZES.get(type) : undefined;
  if (size === undefined || accessor.type !== 'SCALAR') {
    throw new Problem(
      `accessors[${accessorAt}] holds indices as ${said(accessor.type)} of ${said(type)}; "SCALAR" of 5121, 5123 or 5125 is possible`,
    );
  }
  const { start, stride, count, where } = spanOf(json, bin, accessorAt, size);
  // a strip of n corners makes n − 2 triangles, a list n / 3
  if (count > 3 * MOST_TRIANGLES + 2) throw new Problem(tooMany(Math.floor(count / 3)));
  const out: number[] = [];
  for (let k = 0; k < count; k++) {
    const at = start + stride * k;
    const index =
      size === 1
        ? bin?.getUint8(at)
        : size === 2
          ? bin?.getUint16(at, true)
          : bin?.getUint32(at, true);
    if (index === undefined || index >= vertices) {
      throw new Problem(`${where}: index ${k} is ${index}; there are ${vertices} vertices`);
    }
    out.push(index);
  }
  return out;
}
