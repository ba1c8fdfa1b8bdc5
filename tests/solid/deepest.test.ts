import { describe, expect, it } from 'vitest';
import { placeShape } from '../../geometry/solid/coreDistance.ts';
import { Deepest } from '../../geometry/solid/deepest.ts';
import { Depth } from '../../geometry/solid/depth.ts';
import { Gjk } from '../../geometry/solid/gjk.ts';
import { numbers } from '../../geometry/solid/numbers.ts';
import {
  boxPiece,
  cylinderPiece,
  type Piece,
  PLACED_SIZE,
  pointsPiece,
} from '../../geometry/solid/piece.ts';
import { unmoved } from '../../geometry/solid/placement.ts';
import { randomFrom } from '../oracle/solidCases.ts';

const deepest = new Deepest(new Gjk(), new Depth());
const here = unmoved();

function measured(piece: Piece, corners: readonly number[]) {
  const placed = numbers(PLACED_SIZE);
  placeShape(piece, here, placed);
  deepest.corners.set(corners);
  deepest.run(piece, here, placed, Infinity);
  return { least: deepest.least, point: [...deepest.point] };
}

const box = boxPiece([0, 0, 0], [1, 0, 0, 0, 1, 0, 0, 0, 1], [3, 2, 1]);
const round = cylinderPiece([0, 0, 0], [0, 0, 1], 4, 2);
/** Half of a cube: |x| + |y| + |z| ≤ 2 is the octahedron of these corners. */
const octahedron = pointsPiece(
  Float64Array.of(2, 0, 0, -2, 0, 0, 0, 2, 0, 0, -2, 0, 0, 0, 2, 0, 0, -2),
);

describe('the deepest point of a triangle', () => {
  // by hand
  it.each([
    ['through the middle of a box', box, [-9, -9, 0, 9, -9, 0, 0, 9, 0], -1],
    [
      'level in a box, a quarter under its top',
      box,
      [-9, -9, 0.75, 9, -9, 0.75, 0, 9, 0.75],
      -0.25,
    ],
    ['that dips a corner into a box', box, [0, 0, 0.5, 5, 5, 9, -5, 5, 9], -0.5],
    ['that dips an edge into a box', box, [-1, 0, 0.6, 1, 0, 0.6, 0, 0, 9], -0.4],
    ['across a cylinder', round, [-9, -9, 1, 9, -9, 1, 0, 9, 1], -2],
    ['beside the axis of a cylinder', round, [0.5, -9, -9, 0.5, 9, -9, 0.5, 0, 9], -1.5],
    ['across an octahedron', octahedron, [-9, -9, 0.5, 9, -9, 0.5, 0, 9, 0.5], -1.5 / Math.sqrt(3)],
    [
      'that ends in an octahedron',
      octahedron,
      [0.5, 0.5, 0.5, 9, 9, 0.5, 9, 0.5, 9],
      -0.5 / Math.sqrt(3),
    ],
  ] as const)('%s', (_, piece, corners, want) => {
    expect(measured(piece, corners).least).toBeCloseTo(want, 8);
  });

  it('is not above any other point of it, and lies on it (seed 12)', () => {
    const random = randomFrom(12);
    const fromBox = (p: readonly number[]) =>
      Math.max(Math.abs(p[0] ?? 0) - 3, Math.abs(p[1] ?? 0) - 2, Math.abs(p[2] ?? 0) - 1);
    const fromRound = (p: readonly number[]) =>
      Math.max(Math.abs(p[2] ?? 0) - 4, Math.hypot(p[0] ?? 0, p[1] ?? 0) - 2);
    const fromOctahedron = (p: readonly number[]) =>
      (p.reduce((sum, each) => sum + Math.abs(each), 0) - 2) / Math.sqrt(3);
    const shapes = [
      [box, fromBox],
      [round, fromRound],
      [octahedron, fromOctahedron],
    ] as const;
    let inside = 0;
    for (let k = 0; k < 240; k++) {
      const [piece, from] = shapes[k % 3] as (typeof shapes)[number];
      const corners = Array.from({ length: 9 }, () => 8 * random() - 4);
      const { least, point } = measured(piece, corners);
      if (least >= 0) continue;
      inside++;
      // the search's bounds meet within 1e-9
      expect(Math.abs(from(point) - least), `triangle ${k}`).toBeLessThan(1e-9);
      for (let i = 0; i <= 20; i++) {
        for (let j = 0; i + j <= 20; j++) {
          const [u, v] = [i / 20, j / 20];
          const p = [0, 1, 2].map(
            c =>
              (1 - u - v) * (corners[c] as number) +
              u * (corners[3 + c] as number) +
              v * (corners[6 + c] as number),
          );
          expect(from(p), `triangle ${k}`).toBeGreaterThan(least - 2e-9);
        }
      }
    }
    expect(inside).toBeGreaterThan(80);
  });
});
