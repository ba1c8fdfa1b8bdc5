import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { numbers } from '../../geometry/solid/numbers.ts';
import { segmentToSegment } from '../../geometry/solid/segmentDistance.ts';

type P = readonly [number, number, number];

function measured(p: P, q: P, r: P, s: P) {
  const n = numbers(18);
  n.set([...p, ...q, ...r, ...s]);
  segmentToSegment(n);
  return { along: n[12], across: n[13], distance: Math.sqrt(n[17]) };
}

const first: [P, P] = [
  [0, 0, 0],
  [10, 0, 0],
];

/** Rounding of a few operations on numbers up to 20. */
const rounding = 1e-14;

describe('distance of two segments', () => {
  // closed values, by hand and by bounded minimization
  const cases: [string, P, P, P, P, number][] = [
    ['parallel', ...first, [0, 5, 0], [10, 5, 0], 5],
    ['crossing above', ...first, [5, -3, 4], [5, 3, 4], 4],
    ['end to end', ...first, [13, 4, 0], [20, 4, 0], 5],
    ['corner, end to end', ...first, [12, 1, 2], [12, 9, 2], 3],
    ['collinear, overlapping', ...first, [2, 0, 0], [8, 0, 0], 0],
    ['two points', [0, 0, 0], [0, 0, 0], [1, 2, 2], [1, 2, 2], 3],
    ['inclined above', [-1, 0, 0], [1, 0, 0], [0, -1, 3], [0, 1, 5], 3.1622776601683795],
    ['diagonals that meet', [0, 0, 0], [1, 1, 1], [0, 1, 0], [1, 0, 1], 0],
    ['point beside a segment', [3, 4, 0], [3, 4, 0], ...first, 4],
  ];
  for (const [name, p, q, r, s, want] of cases) {
    it(`${name}: ${want.toFixed(4)}`, () => {
      expect(Math.abs(measured(p, q, r, s).distance - want)).toBeLessThan(rounding);
      expect(Math.abs(measured(r, s, p, q).distance - want)).toBeLessThan(rounding);
    });
  }

  it('says where along both the nearest points lie', () => {
    const found = measured(...first, [5, -3, 4], [5, 3, 4]);
    expect(found.along).toBeCloseTo(0.5, 14);
    expect(found.across).toBeCloseTo(0.5, 14);
    expect(measured(...first, [13, 4, 0], [20, 4, 0])).toMatchObject({ along: 1, across: 0 });
  });

  it('keeps its digits where segments cross at a tiny angle', () => {
    // two rods that cross in the middle: distance 0 at every angle; the textbook denominator a·e − b² has lost it
    for (const angle of [1e-3, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10, 1e-12]) {
      const y = 10 * angle;
      const found = measured([-10, 1, 2], [10, 1, 2], [-10, 1 - y, 2], [10, 1 + y, 2]);
      expect(found.distance, `angle ${angle}`).toBeLessThan(rounding);
    }
  });

  it('is never above the distance of any two points of the segments, and met by one', () => {
    const coordinate = fc.oneof(
      fc.integer({ min: -3, max: 3 }),
      fc.double({ min: -10, max: 10, noNaN: true }),
    );
    const point = fc.tuple(coordinate, coordinate, coordinate);
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(point, point, point, point, share, share, (p, q, r, s, t, u) => {
        const found = measured(p, q, r, s);
        const at = (a: P, b: P, f: number) => a.map((each, i) => each + f * ((b[i] ?? 0) - each));
        const apart = (f: number, g: number) => {
          const other = at(r, s, g);
          return Math.hypot(...at(p, q, f).map((each, i) => each - (other[i] ?? 0)));
        };
        return (
          found.distance <= apart(t, u) + rounding &&
          Math.abs(found.distance - apart(found.along, found.across)) < rounding
        );
      }),
      { seed: 1, numRuns: 2000 },
    );
  });
});
