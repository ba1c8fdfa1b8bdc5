import { describe, expect, it } from 'vitest';
import { distanceFromCore, placeShape } from '../../geometry/solid/coreDistance.ts';
import { numbers } from '../../geometry/solid/numbers.ts';
import {
  boxPiece,
  cylinderPiece,
  type Piece,
  PLACED_SIZE,
  segmentPiece,
} from '../../geometry/solid/piece.ts';
import { placement, unmoved } from '../../geometry/solid/placement.ts';
import { randomFrom } from '../oracle/solidCases.ts';

function measured(piece: Piece, point: readonly number[], place = unmoved()) {
  const placed = numbers(PLACED_SIZE);
  const at = numbers(7);
  placeShape(piece, place, placed);
  at.set(point);
  distanceFromCore(piece, placed, at);
  return { distance: at[3], away: [at[4], at[5], at[6]] };
}

const axes = [1, 0, 0, 0, 1, 0, 0, 0, 1];
const box = boxPiece([0, 0, 0], axes, [3, 2, 1]);
const round = cylinderPiece([0, 0, 0], [0, 0, 1], 2, 3);
const line = segmentPiece([0, 0, 0], [4, 0, 0], 0);

describe('signed distance of a point from a core', () => {
  // by hand
  it.each([
    ['box: outside of a face', box, [0, 0, 3], 2, [0, 0, 1]],
    ['box: outside of a corner', box, [4, 4, 3], 3, [1 / 3, 2 / 3, 2 / 3]],
    ['box: inside', box, [1, 0.5, -0.75], -0.25, [0, 0, -1]],
    ['cylinder: beside it', round, [0, -5, 1], 2, [0, -1, 0]],
    ['cylinder: over its end', round, [1, 1, 2.5], 0.5, [0, 0, 1]],
    ['cylinder: off its rim', round, [6, 0, 6], 5, [0.6, 0, 0.8]],
    ['cylinder: inside, near the side', round, [2.5, 0, 0], -0.5, [1, 0, 0]],
    ['cylinder: inside, near the end', round, [0, 0, -1.75], -0.25, [0, 0, -1]],
    ['segment: beside it', line, [1, 3, 4], 5, [0, 0.6, 0.8]],
    ['segment: off its end', line, [7, 4, 0], 5, [0.6, 0.8, 0]],
  ] as const)('%s', (_, piece, point, distance, away) => {
    const found = measured(piece, point);
    expect(found.distance).toBeCloseTo(distance, 14);
    for (let i = 0; i < 3; i++) expect(found.away[i]).toBeCloseTo(away[i] as number, 14);
  });

  it('has a gradient of unit length everywhere, on axes and on edges too', () => {
    const points = [
      [0, 0, 0],
      [3, 2, 1],
      [0, 0, 2],
      [3, 0, 2],
      [2, 0, 0],
      [1e-17, 0, 0.5],
      [1e-9, 1e-9, 0.1],
    ];
    for (const piece of [box, round, line]) {
      for (const point of points) {
        expect(Math.hypot(...measured(piece, point).away), `${point}`).toBeCloseTo(1, 12);
      }
    }
  });

  it('of a point beside the axis by rounding leads square away from the axis (seed 7)', () => {
    const random = randomFrom(7);
    for (let k = 0; k < 2000; k++) {
      const v = [2 * random() - 1, 2 * random() - 1, 2 * random() - 1];
      const axis = v.map(each => each / Math.hypot(...v));
      // every fourth straight along the axis to the last bit, where |axis| is 1 to rounding only
      const isStraight = k % 4 === 0;
      const center = isStraight ? [0, 0, 0] : [10 * random(), -10 * random(), 10 * random()];
      // long, so that its inside is nearest to its side
      const long = cylinderPiece(center, axis, 10, 1);
      const along = isStraight ? 4 : 16 * random() - 8;
      const off = k % 2 === 0 ? 0 : 10 ** -Math.floor(9 + 9 * random());
      const point = axis.map((each, i) => (center[i] as number) + along * each + off);
      const { distance, away } = measured(long, point);
      expect(Math.abs(distance + 1)).toBeLessThan(2e-9);
      const slope = away.reduce((sum, each, i) => sum + each * (axis[i] as number), 0);
      expect(Math.abs(slope), `off by ${off}`).toBeLessThan(1e-10);
      expect(Math.hypot(...away)).toBeCloseTo(1, 12);
    }
  });

  it('changes by no more than the point moves, and along its gradient by just that (seed 9)', () => {
    const random = randomFrom(9);
    const place = placement([0.36, 0.48, -0.8, -0.8, 0.6, 0, 0.48, 0.64, 0.6], [1, 2, 3]);
    const point = () => [10 * random() - 4, 10 * random() - 3, 10 * random() - 2];
    for (let k = 0; k < 2000; k++) {
      const piece = [box, round, line][k % 3] as Piece;
      const [p, q] = [point(), point()];
      const one = measured(piece, p, place);
      const other = measured(piece, q, place);
      const moved = Math.hypot(...p.map((each, i) => each - (q[i] as number)));
      expect(Math.abs(one.distance - other.distance)).toBeLessThan(moved + 1e-12);
      const ahead = p.map((each, i) => each + 1e-4 * (one.away[i] as number));
      const further = measured(piece, ahead, place).distance;
      // outside the way away from the core is straight
      if (one.distance > 1e-3) expect(further - one.distance).toBeCloseTo(1e-4, 12);
    }
  });
});
