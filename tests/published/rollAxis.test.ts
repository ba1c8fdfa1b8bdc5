/**
 * The symmetrical triangulated four-link: it rolls about the line through the two plan-view apexes.
 * Gillespie's and Milliken's construction (from memory), checked as a null space to 1e-9 (derived, two ways).
 * Apex of a pair: t = ya/(ya − yf), P = Pa + t (Pf − Pa).
 */
import { expect, test } from 'vitest';
import type { Vec3 } from '../../geometry/build/build.ts';
import { rear } from '../pose/families.ts';
import { link, modelOf } from '../pose/layouts.ts';
import { MM } from './planar.ts';

/** A pair by its left frame and axle point, mm. */
const pair = (name: string, frame: Vec3, axle: Vec3) =>
  (['left', 'right'] as const).map(side => {
    const put = ([x, y, z]: Vec3): Vec3 => [x * MM, (side === 'left' ? y : -y) * MM, z * MM];
    return link(`${side} ${name}`, put(axle), put(frame));
  });

const four = (upper: [Vec3, Vec3], lower: [Vec3, Vec3], height: number) =>
  modelOf(
    rear([...pair('upper link', ...upper), ...pair('lower link', ...lower)], {
      origin: [0, 0, height * MM],
      wheelCenters: 1500 * MM,
    }),
  );

const apex = (frame: Vec3, axle: Vec3): Vec3 => {
  const t = axle[1] / (axle[1] - frame[1]);
  return [0, 1, 2].map(
    c => (axle[c] as number) + t * ((frame[c] as number) - (axle[c] as number)),
  ) as unknown as Vec3;
};

const UPPER: [Vec3, Vec3] = [
  [650, 350, 620],
  [30, 80, 680],
];
const LOWER: [Vec3, Vec3] = [
  [800, 300, 400],
  [0, 450, 330],
];

/** Velocity of an axle point along equal and opposite travels. */
const crossing = (model: ReturnType<typeof four>, p: Vec3): number[] =>
  model.ride
    .pointJets('axle', p.map(x => x * MM) as unknown as Vec3)
    .map(jet => ((jet[1] as number) - (jet[2] as number)) / 2);

test('apexes as printed', () => {
  const printed = [
    [apex(...UPPER), [-153.7037, 0, 697.7778]],
    [apex(...LOWER), [2400, 0, 540]],
  ] as const;
  for (const [have, want] of printed) {
    for (const [c, x] of want.entries()) expect(have[c]).toBeCloseTo(x, 4);
  }
});

test.each([430, 470, 520])(
  'both apexes stand still as the axle rolls, wheel centers at %d mm',
  height => {
    const model = four(UPPER, LOWER, height);
    for (const p of [apex(...UPPER), apex(...LOWER)]) {
      for (const v of crossing(model, p)) expect(Math.abs(v)).toBeLessThan(1e-12);
    }
    // axle steer by roll is the slope of that line
    const { yaw, roll, pitch } = model.ride.axleJets();
    const rate = (jet: ArrayLike<number>): number => (jet[1] as number) - (jet[2] as number);
    expect(rate(yaw) / rate(roll)).toBeCloseTo(-0.0617839, 7);
    expect((Math.atan(rate(yaw) / rate(roll)) * 180) / Math.PI).toBeCloseTo(-3.5355, 3);
    expect(rate(pitch)).toBeCloseTo(0, 12);
    // and it crosses the wheel-center plane at 688.2814 mm
    expect(Math.abs(crossing(model, [0, 0, 688.2814])[1] as number)).toBeLessThan(1e-7);
    expect(Math.abs(crossing(model, [0, 0, 698.2814])[1] as number)).toBeGreaterThan(1e-3);
  },
);

test('with parallel lower links the axis is parallel to them', () => {
  const model = four(
    UPPER,
    [
      [800, 450, 400],
      [0, 450, 330],
    ],
    470,
  );
  const { yaw, roll } = model.ride.axleJets();
  const rate = (jet: ArrayLike<number>): number => (jet[1] as number) - (jet[2] as number);
  expect(rate(yaw) / rate(roll)).toBeCloseTo(70 / 800, 10);
  for (const v of crossing(model, apex(...UPPER))) expect(Math.abs(v)).toBeLessThan(1e-12);
});
