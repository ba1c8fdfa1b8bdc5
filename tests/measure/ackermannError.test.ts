/** Ackermann's condition against worked numbers (problems retrieved, answers derived). */
import { expect, test } from 'vitest';
import type { Axle } from '../../geometry/build/build.ts';
import { ackermannOuter } from '../../geometry/measure/ackermannError.ts';
import {
  deg,
  leaning,
  parallelLinks,
  plainAxle,
  rad,
  read,
  readingOf,
  trackBar,
} from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

test.each([
  [10, 9.0928],
  [20, 16.7416],
  [28, 22.1411],
  [30, 23.4171],
  [35, 26.5071],
  [40, 29.4836],
])('wheelbase 2.6, pivots 1.5 apart: inner %d° asks for outer %d°', (inner, outer) => {
  expect(deg(ackermannOuter(rad(inner), 1.5 / 2.6))).toBeCloseTo(outer, 4);
});

test('it goes through straight smoothly: odd to first order, cot identity on both sides', () => {
  const k = 1.5 / 2.6;
  expect(ackermannOuter(0, k)).toBe(0);
  for (const i of [-0.4, -1e-3, 1e-3, 0.7, 2]) {
    expect(1 / Math.tan(ackermannOuter(i, k)) - 1 / Math.tan(i)).toBeCloseTo(k, 9);
  }
});

/** Wheels that stand turned as drawn: the static toe is the whole steer. Kingpins upright, 1600 apart. */
function turnedAsDrawn(left: number, right: number): Axle {
  const axle = leaning(0, 0);
  return {
    ...axle,
    knuckles: axle.knuckles && {
      left: { ...axle.knuckles.left, toe: -rad(left) },
      right: { ...axle.knuckles.right, toe: rad(right) },
    },
  };
}

const WHEELBASE = (2.6 / 1.5) * 1600;
const at = (left: number, right: number) =>
  new Vehicle(turnedAsDrawn(left, right), { wheelbase: WHEELBASE }).at(0, 0);

test('wheels that meet the condition have no error, to the left and to the right', () => {
  expect(deg(read(at(35, 26.5071), 'ackermannError'))).toBeCloseTo(0, 4);
  expect(deg(read(at(-26.5071, -35), 'ackermannError'))).toBeCloseTo(0, 4);
});

test('+ where the outer wheel is turned too far, whichever it is', () => {
  expect(deg(read(at(35, 28.5071), 'ackermannError'))).toBeCloseTo(2, 4);
  expect(deg(read(at(-28.5071, -35), 'ackermannError'))).toBeCloseTo(2, 4);
  expect(deg(read(at(35, 24.5071), 'ackermannError'))).toBeCloseTo(-2, 4);
});

test('parallel steer errs by the whole difference', () => {
  const context = new Vehicle(plainAxle([...parallelLinks(800), trackBar(800)]), {
    wheelbase: 2600,
  }).at(0, 0, rad(20));
  const steer = read(context, 'steer', { side: 'left' });
  expect(read(context, 'steer', { side: 'right' })).toBeCloseTo(steer, 9);
  expect(read(context, 'ackermannError')).toBeCloseTo(
    steer - ackermannOuter(steer, 1400 / 2600),
    9,
  );
});

test('turning circle: inner 35°, wheelbase 2.6, pivots 1.5: radius of the outer wheel 5.82557', () => {
  // 5.82557 m at the outer pivot, no scrub (derived): here the wheel centers are the pivots
  const scale = 1600 / 1.5;
  for (const context of [at(35, 26.5071), at(-26.5071, -35)]) {
    const diameter = read(context, 'turningCircle');
    // the tire is 320 wide; the fourth decimal of the outer angle leaves 2e-5 of the radius
    expect((diameter - 320) / 2 / scale).toBeCloseTo(5.82557, 3);
  }
});

test('no turning circle straight ahead, nor with wheels turned to opposite sides', () => {
  expect(readingOf(at(0, 0), 'turningCircle')).toEqual({
    missing: expect.stringContaining('straight'),
  });
  expect(readingOf(at(-2, 2), 'turningCircle')).toEqual({
    missing: expect.stringContaining('opposite'),
  });
});
