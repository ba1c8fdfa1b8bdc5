/**
 * Camber on steer: a wheel upright and straight as drawn, turned about a kingpin axis whose caster and
 * inclination are projected angles. Exact values by Rodrigues' formula, computed apart from this project
 * (derived; Dixon and Reimpell give the small-angle form, from memory). Steer is not the turn about the axis.
 */
import { expect, test } from 'vitest';
import type { MeasureContext } from '../../geometry/measure/measure.ts';
import { deg, leaning, measureOf, rad, read, slopeOfMeasure } from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

/** The pose at ride height at which the left wheel's steer is this, by Newton on the steering input. */
function turnedTo(vehicle: Vehicle, degrees: number): MeasureContext {
  let input = rad(degrees);
  const target = { part: null, side: 'left' } as const;
  for (let i = 0; i < 20; i++) {
    const context = vehicle.at(0, 0, input);
    const error = (measureOf('steer').value(context, target) as number) - rad(degrees);
    if (Math.abs(error) < 1e-13) return context;
    input -= error / (slopeOfMeasure(context, 'steer', { side: 'left' })?.[2] as number);
  }
  throw new Error('no such steer');
}

test.each([
  [6, 0, 20, 2.0588],
  [6, 0, -20, -2.0588],
  [6, 0, 30, 3.0082],
  [6, 0, -30, -3.0082],
  [0, 10, 20, 0.6098],
  [0, 10, -20, 0.6098],
  [0, 10, 30, 1.3561],
  [6, 10, -30, -1.6528],
  [6, 10, -20, -1.4469],
  [6, 10, 20, 2.678],
  [6, 10, 30, 4.3856],
])(
  'caster %d°, inclination %d°, steer %d°: camber of the left wheel %d°',
  (caster, inclination, steer, camber) => {
    const context = turnedTo(new Vehicle(leaning(caster, inclination)), steer);
    // four decimals are printed
    expect(deg(read(context, 'camber', { side: 'left' }))).toBeCloseTo(camber, 4);
  },
);

test.each([
  [30, 30.7628],
  [-30, -30.5107],
])('caster 6°, inclination 10°: steer %d° takes a turn of %d° about the axis', (steer, turn) => {
  const { pose } = turnedTo(new Vehicle(leaning(6, 10)), steer);
  expect(deg(pose.knuckleTurn('left') as number)).toBeCloseTo(turn, 4);
});

test("caster gauge: (camber change over ±20°)/(2 sin 20°) is near the axis' caster", () => {
  const vehicle = new Vehicle(leaning(6, 10));
  const at = (steer: number): number => read(turnedTo(vehicle, steer), 'camber', { side: 'left' });
  // 6.030° (derived; the method of SAE 850219)
  expect(deg((at(20) - at(-20)) / (2 * Math.sin(rad(20))))).toBeCloseTo(6.03, 3);
});

test('crossing up is no camber: it is taken against the ground line of the axle', () => {
  const context = new Vehicle(leaning(0, 0)).at(120, -120);
  expect(Math.abs(context.pose.roll)).toBeGreaterThan(0.1);
  // the arcs of links 1e8 long turn the axle by 1e-8
  expect(read(context, 'camber', { side: 'left' })).toBeCloseTo(0, 7);
  expect(read(context, 'camber', { side: 'right' })).toBeCloseTo(0, 7);
});

test('static camber stands as drawn, + top outboard on both sides', () => {
  const axle = leaning(6, 10);
  const cambered = {
    ...axle,
    knuckles: axle.knuckles && {
      left: { ...axle.knuckles.left, camber: rad(0.75), toe: rad(1) },
      right: { ...axle.knuckles.right, camber: rad(-1.25), toe: rad(-0.5) },
    },
  };
  const ride = new Vehicle(cambered).at(0, 0);
  expect(deg(read(ride, 'camber', { side: 'left' }))).toBeCloseTo(0.75, 12);
  expect(deg(read(ride, 'camber', { side: 'right' }))).toBeCloseTo(-1.25, 12);
  expect(deg(read(ride, 'toe', { side: 'left' }))).toBeCloseTo(1, 12);
  expect(deg(read(ride, 'toe', { side: 'right' }))).toBeCloseTo(-0.5, 12);
});
