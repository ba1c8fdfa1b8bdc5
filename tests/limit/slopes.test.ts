/**
 * Slopes of every limit's margin against central differences of re-solved poses, on exact and compliant layouts
 * and with every kind of steering.
 *
 * The fourth-order formula (8 (f₁ − f₋₁) − (f₂ − f₋₂)) / 12h: with h = 0.02 in (0.004 rad of pitman) its own
 * error is h⁴ f⁗′/30, under 1e-8 where nothing is near a kink, and rounding of solved poses (1e-12) over h is
 * 1e-10; 1e-6 of slope and margin leaves room for what bends quickly. Misalignment at the easiest roll has
 * kinks: where one lies between the five poses, they are drawn closer, to 1/20 and 1/400 of h, where rounding
 * over h is 2e-8.
 */
import { expect, test } from 'vitest';
import type { Limit, LimitTarget } from '../../geometry/limit/limit.ts';
import { limits } from '../../geometry/limit/list.ts';
import type { MeasureContext } from '../../geometry/measure/measure.ts';
import { Vehicle } from '../measure/vehicles.ts';
import { FAMILIES } from '../pose/families.ts';
import { limited } from './limited.ts';

const TOLERANCE = 1e-6;

const POSES: [left: number, right: number, lock: number][] = [
  [1, 1, 0.1],
  [2.5, -1.5, 0.3],
  [-3, 3.5, -0.7],
];

function difference(
  vehicle: Vehicle,
  at: MeasureContext,
  limit: Limit,
  target: LimitTarget,
  k: 0 | 1 | 2,
  closer: number,
): number {
  const { left, right, steer } = at.pose.input;
  if (k === 2 && !at.axle.steered) return 0;
  const h = (k === 2 && at.axle.steering?.box ? 0.004 : 0.02) / closer;
  const margin = (n: number): number =>
    limit.margin(
      vehicle.at(
        left + (k === 0 ? n * h : 0),
        right + (k === 1 ? n * h : 0),
        steer + (k === 2 ? n * h : 0),
      ),
      target,
    ) ?? Number.NaN;
  return (8 * (margin(1) - margin(-1)) - (margin(2) - margin(-2))) / (12 * h);
}

const seen = new Set<string>();

for (const [name, make] of Object.entries(FAMILIES)) {
  test(`slopes: ${name}`, () => {
    const vehicle = new Vehicle(limited(make()));
    const { axle, build } = vehicle;
    const most = axle.steering === null ? 0 : axle.steering.box ? 0.4 : 2;
    for (const [left, right, lock] of POSES) {
      const context = vehicle.at(left, right, lock * most);
      for (const limit of limits) {
        for (const target of limit.targets(axle, build)) {
          const what = `${limit.id} ${target.part} ${target.end} at ${left}/${right}/${lock}`;
          const margin = limit.margin(context, target);
          const slope = limit.slope(context, target);
          if (margin === null) {
            expect(slope, what).toBeNull();
            continue;
          }
          seen.add(limit.id);
          expect(slope, what).not.toBeNull();
          for (const k of [0, 1, 2] as const) {
            let error = Number.NaN;
            let found = Number.NaN;
            for (const closer of [1, 20, 400]) {
              found = difference(vehicle, context, limit, target, k, closer);
              error =
                Math.abs((slope?.[k] ?? Number.NaN) - found) /
                Math.max(1, Math.abs(margin), Math.abs(found));
              if (error < TOLERANCE) break;
            }
            expect
              .soft(error, `${what}, by ${k}: ${slope?.[k]} against ${found}`)
              .toBeLessThan(TOLERANCE);
          }
        }
      }
    }
  });
}

test('every limit was among them', () => {
  expect([...seen].sort()).toEqual(limits.map(limit => limit.id).sort());
});
