/** Writes triangles as a binary STL file, in inches or scaled to another unit. */
import type { Triangles } from './triangles.ts';

const HEADER = 84;
const RECORD = 50;

/**
 * A binary STL file: 80 bytes of name, a count, 50 bytes a triangle with its normal, little end first (from memory of
 * the format's description).
 *
 * @param name told in the file's head; readers take files that begin with `solid` for text, so it begins otherwise
 * @param scale file units of one inch
 */
export function writeStl({ positions, triangles }: Triangles, name: string, scale = 1): Uint8Array {
  const count = Math.floor(triangles.length / 3);
  const bytes = new Uint8Array(HEADER + RECORD * count);
  const view = new DataView(bytes.buffer);
  const head = `axlewalk ${name}`;
  for (let i = 0; i < Math.min(79, head.length); i++) {
    const code = head.charCodeAt(i);
    bytes[i] = code < 128 ? code : 63;
  }
  view.setUint32(80, count, true);
  const p = new Float64Array(9);
  for (let t = 0; t < count; t++) {
    for (let corner = 0; corner < 3; corner++) {
      const v = 3 * (triangles[3 * t + corner] as number);
      for (let axis = 0; axis < 3; axis++) {
        p[3 * corner + axis] = scale * (positions[v + axis] as number);
      }
    }
    const at = HEADER + RECORD * t;
    for (const [axis, value] of normalOf(p).entries()) view.setFloat32(at + 4 * axis, value, true);
    for (let i = 0; i < 9; i++) view.setFloat32(at + 12 + 4 * i, p[i] as number, true);
  }
  return bytes;
}

function normalOf(p: Float64Array): [number, number, number] {
  const edge = (corner: number, axis: number): number =>
    (p[3 * corner + axis] as number) - (p[axis] as number);
  const cross = (a: number, b: number): number => edge(1, a) * edge(2, b) - edge(1, b) * edge(2, a);
  const n: [number, number, number] = [cross(1, 2), cross(2, 0), cross(0, 1)];
  const length = Math.hypot(...n);
  return length === 0 ? [0, 0, 0] : [n[0] / length, n[1] / length, n[2] / length];
}
