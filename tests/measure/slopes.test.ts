/**
 * Slopes of every measure against central differences of re-solved poses, on exact and compliant layouts and
 * with every kind of steering.
 *
 * The fourth-order formula (8 (f₁ − f₋₁) − (f₂ − f₋₂)) / 12h: with h = 0.02 in (0.004 rad of pitman) its own
 * error is h⁴ f⁗′/30, under 1e-8 where nothing is near a kink, and rounding of solved poses (1e-12) over h is
 * 1e-10. 1e-6 of the slope, and of the value, leaves room for measures that bend quickly. Some measures have
 * kinks (the easiest roll of a link goes from one rule to another): where one lies between the five poses, they
 * are drawn closer, to 1/20 and 1/400 of h; there rounding over h is 1e-12/5e-5 = 2e-8.
 */
import { expect, test } from 'vitest';
import type { Axle } from '../../geometry/build/build.ts';
import { measures } from '../../geometry/measure/list.ts';
import type { Measure, MeasureContext, Target } from '../../geometry/measure/measure.ts';
import { FAMILIES } from '../pose/families.ts';
import { equipped, Vehicle } from './vehicles.ts';

const TOLERANCE = 1e-6;

const POSES: [left: number, right: number, lock: number][] = [
  [1, 1, 0],
  [2.5, -1.5, 0.3],
  [-3, 3.5, -0.7],
  [3, 2, 0.6],
];

/** Poses around one, drawn `closer`, solved once for all measures: by parameter k, n steps of h away. */
class Stencil {
  readonly #vehicle: Vehicle;
  readonly #at: MeasureContext;
  readonly #made = new Map<string, MeasureContext>();

  constructor(vehicle: Vehicle, at: MeasureContext) {
    this.#vehicle = vehicle;
    this.#at = at;
  }

  #step(k: number, closer: number): number {
    const inRad = this.#at.axle.steering?.box !== null;
    return (k === 2 && inRad ? 0.004 : 0.02) / closer;
  }

  #context(k: number, n: number, closer: number): MeasureContext {
    const key = `${k} ${n} ${closer}`;
    let made = this.#made.get(key);
    if (!made) {
      const { left, right, steer } = this.#at.pose.input;
      const to: [number, number, number] = [left, right, steer];
      to[k as 0 | 1 | 2] += n * this.#step(k, closer);
      made = this.#vehicle.near(this.#at.pose, ...to);
      this.#made.set(key, made);
    }
    return made;
  }

  difference(measure: Measure, target: Target, k: number, closer: number): number {
    if (k === 2 && !this.#at.axle.steered) return 0;
    const value = (n: number): number => {
      const reading = measure.value(this.#context(k, n, closer), target);
      return typeof reading === 'number' ? reading : Number.NaN;
    };
    return (8 * (value(1) - value(-1)) - (value(2) - value(-2))) / (12 * this.#step(k, closer));
  }
}

/** Measures that may have a value and no slope at these poses, with the kink that they have there. */
const KINKED: Record<string, string> = {
  misalignmentFreeRoll: "straight ahead both ends of a symmetric rod's window are alike",
};

for (const [name, make] of Object.entries(FAMILIES)) {
  test(`slopes: ${name}`, () => {
    const axle: Axle = equipped(make());
    const vehicle = new Vehicle(axle);
    const most = axle.steering === null ? 0 : axle.steering.box ? 0.4 : 2;
    for (const [left, right, lock] of POSES) {
      const context = vehicle.at(left, right, lock * most);
      const stencil = new Stencil(vehicle, context);
      for (const measure of measures) {
        for (const target of measure.targets(axle, vehicle.build)) {
          const what = `${measure.id} ${target.part ?? target.side ?? ''} at ${left}/${right}/${lock}`;
          const value = measure.value(context, target);
          const slope = measure.slope(context, target);
          if (typeof value !== 'number') {
            expect(slope, what).toBeNull();
            continue;
          }
          expect(Number.isFinite(value), what).toBe(true);
          if (!slope) {
            expect.soft(Object.keys(KINKED), `no slope: ${what}`).toContain(measure.id);
            continue;
          }
          for (const k of [0, 1, 2] as const) {
            let error = Number.NaN;
            let found = Number.NaN;
            for (const closer of [1, 20, 400]) {
              found = stencil.difference(measure, target, k, closer);
              error = Math.abs(slope[k] - found) / Math.max(1, Math.abs(value), Math.abs(found));
              if (error < TOLERANCE) break;
            }
            expect
              .soft(error, `${what}, by ${k}: ${slope[k]} against ${found}`)
              .toBeLessThan(TOLERANCE);
          }
        }
      }
    }
  }, 60_000);
}
