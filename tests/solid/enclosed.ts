/** What a mesh encloses, by formulas of their own: volume, and whether a point lies inside. */
import type { Triangles } from '../../geometry/solid/triangles.ts';

type Point = readonly [number, number, number];

function* cornersOf({ positions, triangles }: Triangles): Generator<[Point, Point, Point]> {
  const at = (n: number): Point => {
    const v = 3 * (triangles[n] as number);
    return [positions[v] as number, positions[v + 1] as number, positions[v + 2] as number];
  };
  for (let n = 0; n < triangles.length; n += 3) yield [at(n), at(n + 1), at(n + 2)];
}

const det = (a: Point, b: Point, c: Point): number =>
  a[0] * (b[1] * c[2] - b[2] * c[1]) +
  a[1] * (b[2] * c[0] - b[0] * c[2]) +
  a[2] * (b[0] * c[1] - b[1] * c[0]);

/** Volume, in³: the sum of tetrahedra from the origin (divergence theorem). */
export function volumeOf(mesh: Triangles): number {
  let sum = 0;
  for (const [a, b, c] of cornersOf(mesh)) sum += det(a, b, c) / 6;
  return sum;
}

/**
 * How often a mesh goes around a point: 1 inside, 0 outside; the sum of the triangles' solid angles over 4π (van
 * Oosterom and Strackee, 1983; from memory).
 */
export function turnsAround(mesh: Triangles, point: readonly number[]): number {
  let sum = 0;
  for (const corners of cornersOf(mesh)) {
    const [a, b, c] = corners.map(p => p.map((x, i) => x - (point[i] as number))) as [
      number[],
      number[],
      number[],
    ] as unknown as [Point, Point, Point];
    const [p, q, r] = [Math.hypot(...a), Math.hypot(...b), Math.hypot(...c)];
    const dot = (u: Point, v: Point): number => u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
    const below = p * q * r + dot(a, b) * r + dot(b, c) * p + dot(c, a) * q;
    sum += 2 * Math.atan2(det(a, b, c), below);
  }
  return sum / (4 * Math.PI);
}
