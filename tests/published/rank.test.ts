/**
 * Degrees of freedom (derived): three links and track bar, or triangulated four links, leave bump and roll;
 * four equal parallel links and a track bar are one length too many at rest and bind hardly at all in roll.
 */
import { describe, expect, test } from 'vitest';
import { rankOfLengths } from '../../geometry/pose/rank.ts';
import { triangulated } from '../pose/families.ts';
import { longArms, modelOf } from '../pose/layouts.ts';
import { lengthsOf } from '../pose/witness.ts';
import { axleAt, bar, DEG, MM, pair, poseAt } from './planar.ts';

describe('rank', () => {
  test.each([
    ['three links and track bar', longArms],
    ['triangulated four links', triangulated],
  ] as const)('%s: 4 of 4, well off', (_, make) => {
    const { rank, mechanism } = modelOf(make());
    expect(mechanism.exact).toBe(true);
    expect(mechanism.lengths.names.length).toBe(4);
    // the source's layout has 0.163 with its moments in meters; these are of the same order
    expect(rank.values[3]).toBeGreaterThan(0.1);
  });

  test('is the root of the eigenvalues of JᵀJ: trace and determinant agree', () => {
    const model = modelOf(longArms());
    const { values } = rankOfLengths(model.solver, model.mechanism);
    // each row is a unit vector and its moment over half the track: Σ σ² = Σ |row|², from the points
    let trace = 0;
    for (const l of longArms().links) {
      const d = [0, 1, 2].map(c => (l.axle.at[c] as number) - (l.chassis.at[c] as number));
      const L = Math.hypot(...d);
      const [ux, uy, uz] = d.map(x => x / L) as [number, number, number];
      const [x, y, z] = [l.axle.at[0], l.axle.at[1], l.axle.at[2] - 20];
      trace +=
        ux ** 2 + uy ** 2 + ((x * uy - y * ux) / 35.5) ** 2 + ((z * ux - x * uz) / 35.5) ** 2;
    }
    expect(values.reduce((sum, v) => sum + v * v, 0)).toBeCloseTo(trace, 12);
  });
});

test('four equal parallel links and a track bar: five lengths of rank four', () => {
  const links = [
    ...pair('lower link', [0, 400], [800, 400], 450),
    ...pair('upper link', [0, 650], [800, 650], 300),
    bar([0, -400, 525], 800),
  ];
  const axle = axleAt([0, 525], links);
  const model = modelOf(axle);
  expect(model.mechanism.exact).toBe(false);
  expect((model.rank.values[3] as number) / (model.rank.values[0] as number)).toBeGreaterThan(0.01);
  // a fifth singular value would be that of the lengths' one redundancy: rows of J sum to nothing with signs
  const stretch = (degrees: number): number => {
    const half = 800 * Math.sin(degrees * DEG);
    const pose = poseAt(model, half, -half);
    return Math.max(...lengthsOf(axle, pose).links.map(l => Math.abs(l.now - l.free))) / MM;
  };
  // the source finds 2.6e-6 mm at 5° and 8.7e-5 mm at 10° for widths of its own: next to nothing, and of fifth
  // order in roll (a ratio of 33; 32 but for the seventh order)
  expect(stretch(10)).toBeLessThan(1e-3);
  expect(stretch(10) / stretch(5)).toBeGreaterThan(29);
  expect(stretch(10) / stretch(5)).toBeLessThan(35);
});
