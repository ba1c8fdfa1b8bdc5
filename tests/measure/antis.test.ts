/**
 * Anti-squat, anti-dive, anti-lift against 100 · share · tan φ · L/h, φ at the ground contact from the ground
 * to the side-view center (Gillespie ch. 7, Milliken ch. 17, from memory; derived).
 */
import { expect, test } from 'vitest';
import type { Axle, Vec3 } from '../../geometry/build/build.ts';
import { rear } from '../pose/families.ts';
import { link } from '../pose/layouts.ts';
import { parallelLinks, plainAxle, rad, read, readingOf, trackBar } from './closedForms.ts';
import { Vehicle, weights } from './vehicles.ts';

const mirrored = ([x, y, z]: Vec3): Vec3 => [x, -y, z];

/** A rear axle whose links all aim at one point `ahead` of its center and `up` over the ground. */
function aimed(wheelbase: number, ahead: number, up: number): Axle {
  const target = (axle: Vec3, share: number): Vec3 => [
    axle[0] + share * (ahead - wheelbase - axle[0]),
    axle[1],
    axle[2] + share * (up - axle[2]),
  ];
  const lower: Vec3 = [-wheelbase, 500, 320];
  const upper: Vec3 = [-wheelbase + 20, 0, 640];
  return rear(
    [
      link('left lower link', lower, target(lower, 0.4)),
      link('right lower link', mirrored(lower), mirrored(target(lower, 0.4))),
      link('upper link', upper, target(upper, 0.3)),
      trackBar(900, 0, [-wheelbase - 50, -450, 560]),
    ],
    {
      origin: [-wheelbase, 0, 400],
      wheelCenters: 1600,
      tire: { diameter: 800, width: 300, loadedRadius: 400, shoulder: 50, give: 0, rim: null },
    },
  );
}

const massAt = (z: number, more: Parameters<typeof weights>[0] = {}) =>
  weights({ centerOfGravity: [-1300, 0, z], brakeShareFront: 0.6, driveShareFront: 0, ...more });

test.each([
  [2000, 500],
  [1500, 700],
  [-3000, 300],
])('rear, center %d ahead and %d up: anti-squat and anti-lift', (ahead, up) => {
  const [L, h] = [2800, 750];
  const vehicle = new Vehicle(aimed(L, ahead, up), { wheelbase: L, weights: massAt(h) });
  const ride = vehicle.at(0, 0);
  const tan = up / ahead;
  expect(100 * read(ride, 'antiSquat')).toBeCloseTo((100 * tan * L) / h, 6);
  expect(100 * read(ride, 'brakeAntiLift')).toBeCloseTo((40 * tan * L) / h, 6);
  // not the formula of a differential held by the frame, with φ from the wheel center
  expect(100 * read(ride, 'antiSquat')).not.toBeCloseTo((100 * ((up - 400) / ahead) * L) / h, 0);
});

test('parallel links: tan φ is their slope; 0.0875, L 2600, h 750 give 30.33 %', () => {
  const L = 2600;
  const angle = Math.atan(0.0875);
  const ahead = parallelLinks(800, angle).map(l => ({
    ...l,
    // the same links run forward, up to the frame, on a rear axle
    axle: { ...l.axle, at: [l.axle.at[0] - L, l.axle.at[1], l.axle.at[2]] as Vec3 },
    chassis: {
      ...l.chassis,
      at: [-l.chassis.at[0] - L, l.chassis.at[1], 2 * l.axle.at[2] - l.chassis.at[2]] as Vec3,
    },
  }));
  const axle = rear([...ahead, trackBar(900, 0, [-L - 50, -450, 500])], {
    origin: [-L, 0, 500],
    wheelCenters: 1600,
    tire: { diameter: 1000, width: 300, loadedRadius: 500, shoulder: 50, give: 0, rim: null },
  });
  const ride = new Vehicle(axle, { wheelbase: L, weights: massAt(750) }).at(0, 0);
  expect(100 * read(ride, 'antiSquat')).toBeCloseTo(30.33, 2);
});

test('front: 25 % at a 60 % share, L 2550, h 600 is φ = 5.599°', () => {
  // home-builder page citing Adams, Chassis Engineering (retrieved): 5.6°
  const L = 2550;
  const front = parallelLinks(800, -rad(5.599));
  const axle = plainAxle([...front, trackBar(900, 0)]);
  const ride = new Vehicle(axle, { wheelbase: L, weights: massAt(600) }).at(0, 0);
  expect(100 * read(ride, 'brakeAntiDive')).toBeCloseTo(25, 2);
  // drive at this axle alone pulls the front down by the same angle
  const driven = new Vehicle(axle, {
    wheelbase: L,
    weights: massAt(600, { driveShareFront: 1 }),
  }).at(0, 0);
  expect(100 * read(driven, 'driveAntiLift')).toBeCloseTo(25 / 0.6, 2);
});

test('crossed up each wheel has its own: by its own travel, links of one side alone where they are rigid', () => {
  // virtual work by differences, over ±0.5 of crossed travel: error of its square times a third derivative
  const L = 2800;
  const vehicle = new Vehicle(aimed(L, 2000, 500), { wheelbase: L, weights: massAt(750) });
  const at = (d: number) => vehicle.pose(60 + d, -40 - d);
  for (const side of ['left', 'right'] as const) {
    const y = side === 'left' ? 800 : -800;
    const foot: Vec3 = [-L, y, 0];
    const forward = at(0.5).point('axle', foot)[0] - at(-0.5).point('axle', foot)[0];
    const s = side === 'left' ? forward : -forward;
    const context = vehicle.at(60, -40);
    expect(read(context, 'antiSquatCrossed', { side })).toBeCloseTo((-s * L) / 750, 6);
    expect(read(context, 'brakeAntiLiftCrossed', { side })).toBeCloseTo((-0.4 * s * L) / 750, 6);
  }
});

test('what is missing is named', () => {
  const axle = plainAxle([...parallelLinks(800), trackBar(900, 0)]);
  const reason = (more: object): unknown =>
    readingOf(new Vehicle(axle, more).at(0, 0), 'brakeAntiDive');
  expect(reason({ weights: null })).toEqual({ missing: expect.stringContaining('weights') });
  expect(reason({ weights: weights({ brakeShareFront: null }) })).toEqual({
    missing: expect.stringContaining('brake'),
  });
  expect(reason({ weights: weights({ centerOfGravity: null }) })).toEqual({
    missing: expect.stringContaining('center of gravity'),
  });
});
