/** Helpers of the tests that read mesh files. */
import type { ReadTriangles } from '../../geometry/solid/triangles.ts';

export function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

/** The corners of all triangles, one after the other. */
export function cornersOf(read: ReadTriangles): number[][] {
  if ('problem' in read) throw new Error(read.problem);
  const { positions, triangles } = read.mesh;
  return Array.from(triangles, i => [...positions.subarray(3 * i, 3 * i + 3)]);
}

/** A GLB file of a JSON part and a binary one. */
export function glbOf(json: unknown, binary: Uint8Array | null = null): Uint8Array {
  const padded = (bytes: Uint8Array, fill: number): Uint8Array => {
    const out = new Uint8Array(4 * Math.ceil(bytes.length / 4)).fill(fill);
    out.set(bytes);
    return out;
  };
  const chunks: [number, Uint8Array][] = [
    [0x4e4f534a, padded(bytesOf(typeof json === 'string' ? json : JSON.stringify(json)), 0x20)],
  ];
  if (binary !== null) chunks.push([0x004e4942, padded(binary, 0)]);
  const length = chunks.reduce((sum, [, chunk]) => sum + 8 + chunk.length, 12);
  const out = new Uint8Array(length);
  const view = new DataView(out.buffer);
  view.setUint32(0, 0x46546c67, true);
  view.setUint32(4, 2, true);
  view.setUint32(8, length, true);
  let at = 12;
  for (const [kind, chunk] of chunks) {
    view.setUint32(at, chunk.length, true);
    view.setUint32(at + 4, kind, true);
    out.set(chunk, at + 8);
    at += 8 + chunk.length;
  }
  return out;
}
