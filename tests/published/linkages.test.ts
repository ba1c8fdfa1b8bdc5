/**
 * Linkages that draw a line, with the axle as coupler in side view and the line upright.
 * Watt: rho² = b² − (a sin th ± √(c² − a² cos² th))² about the middle of the fixed pivots (MathWorld, from
 * memory), deviations derived two ways. Chebyshev: ground, cranks, coupler as 4 : 5 : 2, crossed (proportions
 * from memory, values derived). The Bennett linkage needs hinges, which lengths with ball ends are not.
 */
import { describe, expect, test } from 'vitest';
import { modelOf } from '../pose/layouts.ts';
import { axleAt, bar, MM, poseAt, shift, single } from './planar.ts';

describe('Watt, half coupler upright at rest', () => {
  const watt = (R: number, half: number) =>
    modelOf(
      axleAt(
        [0, 500],
        [
          single('left forward link', [0, 500 + half], [R, 500 + half], 400),
          single('right forward link', [0, 500 + half], [R, 500 + half], -400),
          single('rearward link', [0, 500 - half], [-R, 500 - half]),
          bar([0, -500, 500]),
        ],
      ),
    );

  test.each([
    [400, 100, [0.0062, 0.0481, 0.2092, 0.6673, 1.7656]],
    [350, 75, [0.0124, 0.097, 0.4274, 1.3949, 3.8429]],
  ] as const)('arms %d mm, half coupler %d mm', (R, half, deviations) => {
    const model = watt(R, half);
    for (const [i, z] of [50, 75, 100, 125, 150].entries()) {
      for (const way of [z, -z]) {
        const [x] = shift(model, poseAt(model, way));
        // printed with four places; the curve is odd
        expect(Math.abs(Math.abs(x) - (deviations[i] as number))).toBeLessThan(6e-5);
      }
      const [up, down] = [z, -z].map(way => shift(model, poseAt(model, way))[0]);
      expect((up as number) + (down as number)).toBeCloseTo(0, 7);
    }
  });

  test.each([50, 100, 150])('lies on Watt’s curve at %d mm', z => {
    // fixed pivots (±R, ±half) about the middle: half spacing a, arms b, half coupler c
    const [R, half] = [400, 100];
    const model = watt(R, half);
    const [x, , dz] = shift(model, poseAt(model, z));
    const a = Math.hypot(R, half);
    const rho2 = x * x + dz * dz;
    const theta = Math.atan2(dz, x) - Math.atan2(half, R);
    const root = Math.sqrt(half ** 2 - (a * Math.cos(theta)) ** 2);
    const on = [1, -1].map(s => R ** 2 - (a * Math.sin(theta) + s * root) ** 2);
    expect(Math.min(...on.map(r => Math.abs(r - rho2)))).toBeLessThan(1e-4); // mm², of up to 22500
  });
});

describe('Chebyshev, a hundred times 4 : 5 : 2', () => {
  test.each([
    [0, 4],
    [0.5, 4.003443],
    [1, 4.009048],
    [1.25, 4.009684],
    [1.5, 4.00769],
    [1.75, 4.003384],
    [2, 4],
  ])('%d along the line, it is %d from the ground', (along, away) => {
    // pivots 4 apart on an upright ground, coupler 2 long at 4 from it, cranks crossed
    const s = 100;
    const model = modelOf(
      axleAt(
        [4 * s, 500],
        [
          single('left up link', [4 * s, 500 + s], [0, 500 - 2 * s], 300),
          single('right up link', [4 * s, 500 + s], [0, 500 - 2 * s], -300),
          single('down link', [4 * s, 500 - s], [0, 500 + 2 * s]),
          bar([4 * s, -500, 500]),
        ],
      ),
    );
    for (const way of [along, -along]) {
      const pose = poseAt(model, way * s * (1 - 1e-12));
      const x = (pose.axle.o[0] as number) / MM / s;
      expect(Math.abs(x - away)).toBeLessThan(6e-7); // printed with six places
    }
  });
});
