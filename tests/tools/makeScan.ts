/**
 * Makes the invented scan of the whole-vehicle example: the underside of an engine with its sump, as a skin that a
 * hand scanner would give: open, lumpy, in millimeters about a mark on the frame.
 *
 *     npx tsx tests/tools/makeScan.ts examples/engine-underside.stl
 *
 * The same bytes each time. The skin is a height over a grid: a sump, ribs, bolt heads, and castings that hang down
 * over the track bar, the upper link and the differential; noise of a few hundredths of an inch, as scans have.
 */
import { writeFileSync } from 'node:fs';

/** Mark on the frame that the scan is about, vehicle axes, in. */
const MARK = { x: 0, y: 0, z: 36 };
/** Extent of the skin, vehicle axes, in, and cells along X and Y: two triangles each. */
const X = { from: -14, to: 9, cells: 112 };
const Y = { from: -12, to: 12, cells: 104 };
const MM = 25.4;
const NOISE_in = 0.03;

/** Bumps that hang down: center, radius and depth, in. */
const HANGING: readonly (readonly [x: number, y: number, radius: number, depth: number])[] = [
  // the front of the sump, over the track bar
  [4.25, 3, 3.2, 2.85],
  // an engine mount's casting, over the upper link
  [-6, -9, 2.6, 3.6],
  // the drain boss, over the differential
  [0.5, 9, 2.4, 4.8],
];

/** Pseudo-random numbers from 0 to 1 (Numerical Recipes' constants, from memory), the same each time. */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const noise = random(11);

/** Height of the skin over the ground, in. */
function heightAt(x: number, y: number): number {
  let z = 36.6 + 0.25 * Math.cos(0.9 * x) * Math.cos(0.7 * y);
  // ribs across
  z -= 0.18 * Math.max(0, Math.cos(2.1 * x)) ** 8;
  // a row of bolt heads along each side
  for (const side of [-10, 10]) {
    const toBolt = Math.hypot(x - 2.5 * Math.round(x / 2.5), y - side);
    z -= toBolt < 0.4 ? 0.3 : 0;
  }
  for (const [cx, cy, radius, depth] of HANGING) {
    const away = Math.hypot(x - cx, y - cy) / radius;
    z -= depth * Math.exp(-(away ** 4));
  }
  return z;
}

/** Binary STL (header of 80 bytes, count, and for each triangle normal, corners and two bytes). */
function binaryStl(corners: Float32Array): Uint8Array {
  const count = corners.length / 9;
  const bytes = new Uint8Array(84 + 50 * count);
  bytes.set(
    new TextEncoder().encode('scan of an invented engine, mm, about the mark on the frame'),
  );
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  for (let k = 0; k < count; k++) {
    const at = 84 + 50 * k;
    const c = (i: number): number => corners[9 * k + i] as number;
    const [ux, uy, uz] = [c(3) - c(0), c(4) - c(1), c(5) - c(2)];
    const [vx, vy, vz] = [c(6) - c(0), c(7) - c(1), c(8) - c(2)];
    const n = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx] as const;
    const size = Math.hypot(...n);
    for (let i = 0; i < 3; i++) view.setFloat32(at + 4 * i, (n[i] as number) / size, true);
    for (let i = 0; i < 9; i++) view.setFloat32(at + 12 + 4 * i, c(i), true);
  }
  return bytes;
}

function skin(): Float32Array {
  const points: number[][] = [];
  for (let j = 0; j <= Y.cells; j++) {
    for (let i = 0; i <= X.cells; i++) {
      const x = X.from + ((X.to - X.from) * i) / X.cells;
      const y = Y.from + ((Y.to - Y.from) * j) / Y.cells;
      const z = heightAt(x, y) + NOISE_in * (noise() - 0.5);
      points.push([MM * (x - MARK.x), MM * (y - MARK.y), MM * (z - MARK.z)]);
    }
  }
  const corners: number[] = [];
  const put = (...indices: number[]): void => {
    for (const index of indices) corners.push(...(points[index] as number[]));
  };
  for (let j = 0; j < Y.cells; j++) {
    for (let i = 0; i < X.cells; i++) {
      const a = j * (X.cells + 1) + i;
      const b = a + 1;
      const c = a + X.cells + 1;
      const d = c + 1;
      // facing down
      put(a, c, b);
      put(b, c, d);
    }
  }
  return Float32Array.from(corners);
}

const path = process.argv[2];
if (!path) throw new Error('where to? npx tsx tests/tools/makeScan.ts FILE.stl');
const corners = skin();
writeFileSync(path, binaryStl(corners));
console.log(`${path}: ${corners.length / 9} triangles`);
