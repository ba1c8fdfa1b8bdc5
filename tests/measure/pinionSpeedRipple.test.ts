/**
 * Ripple of the pinion's speed against published tables of Hooke's joint, and against the exact chain of two
 * joints turned step by step here, trunnion by trunnion.
 */
import { expect, test } from 'vitest';
import { cross, dot, scale, turned, unit, type V3 } from '../../geometry/vector.ts';
import { rad, read, readingOf, slopeOfMeasure } from './closedForms.ts';
import { type ShaftAngles, withShaft } from './driveline.ts';
import { Vehicle } from './vehicles.ts';

const rippleOf = (angles: ShaftAngles): number =>
  read(new Vehicle(withShaft(angles)).at(0, 0), 'pinionSpeedRipple');

const oneJoint = (angle: number): ShaftAngles => ({
  pinion: angle,
  transferCase: 0,
  kinds: ['single', 'double cardan'],
});

test('one joint: published extremes', () => {
  // 500 rpm, 30°: 433.013 to 577.350 (problem retrieved, answers derived)
  expect(500 * rippleOf(oneJoint(30))).toBeCloseTo(577.35 - 433.013, 2);
  // 100 rad/s, 25°: 90.6308 to 110.3378 (the same)
  expect(100 * rippleOf(oneJoint(25))).toBeCloseTo(110.3378 - 90.6308, 3);
  // a fluctuation of 12.5 % is 20.0404° (from the exact quadratic)
  expect(100 * rippleOf(oneJoint(20.0404))).toBeCloseTo(12.5, 3);
  // peak to peak sin² b / cos b (web engineering page, retrieved)
  for (const b of [1, 8, 33]) {
    expect(rippleOf(oneJoint(b))).toBeCloseTo(Math.sin(rad(b)) ** 2 / Math.cos(rad(b)), 12);
  }
});

test('the single joint may be at either end', () => {
  expect(rippleOf({ pinion: 0, transferCase: 30, kinds: ['double cardan', 'single'] })).toBeCloseTo(
    rippleOf(oneJoint(30)),
    12,
  );
});

test('two joints in phase, bends in one plane: out/in between cos b₂/cos b₁ and its inverse', () => {
  expect(rippleOf({ pinion: 10, transferCase: 10 })).toBeCloseTo(0, 9);
  // bent the other way too: a Z is as even as a W
  expect(rippleOf({ pinion: -10, transferCase: 10 })).toBeCloseTo(0, 9);
  // two numbers of six decimals
  expect(rippleOf({ pinion: 8, transferCase: 10 })).toBeCloseTo(1.005545 - 0.994486, 5);
  expect(rippleOf({ pinion: 12, transferCase: 6 })).toBeCloseTo(1.01674 - 0.983536, 5);
});

test('wrongly phased by a quarter turn they multiply: 20° and 20°, 500 rpm, least 441.5', () => {
  const least = 500 * Math.cos(rad(20)) ** 2;
  expect(least).toBeCloseTo(441.5, 1);
  const ripple = rippleOf({ pinion: 20, transferCase: 20, phase: 90 });
  expect(500 * ripple).toBeCloseTo(500 ** 2 / least - least, 9);
  // bends square to each other ask for that phase
  expect(rippleOf({ pinion: 20, transferCase: 20, phase: 90, twist: 90 })).toBeCloseTo(0, 9);
});

test('a double cardan at both ends has none', () => {
  expect(
    rippleOf({ pinion: 20, transferCase: 14, kinds: ['double cardan', 'double cardan'] }),
  ).toBe(0);
});

/** Greatest less least of pinion speed over transfer-case speed, turned step by step. */
function turnedThrough({ pinion, transferCase, twist = 0, phase = 0 }: ShaftAngles): number {
  const { driveline } = withShaft({ pinion, transferCase, twist, phase });
  if (!driveline) throw new Error('no driveline');
  const input = driveline.transferCase.axis;
  const output = scale(driveline.pinion.axis, -1);
  const toCase: V3 = [-1, 0, 0];
  /** Angle of the pinion's flange for a turn of the transfer case's, by the crosses' trunnions. */
  const through = (turn: number): number => {
    const start = unit(cross(input, [0.3, 0.2, 1]));
    const trunnion = turned(start, input, Math.cos(turn), Math.sin(turn));
    // the shaft's trunnion is square to the shaft and to the flange's
    const onShaft = unit(cross(trunnion, toCase));
    const yoke = turned(onShaft, toCase, Math.cos(rad(phase)), Math.sin(rad(phase)));
    const out = unit(cross(yoke, output));
    const zero = unit(cross(output, [0.3, 0.2, 1]));
    return Math.atan2(dot(output, cross(zero, out)), dot(zero, out));
  };
  const steps = 20_000;
  let [least, greatest] = [Infinity, -Infinity];
  for (let i = 0; i < steps; i++) {
    const at = (2 * Math.PI * i) / steps;
    const h = 1e-4;
    let moved = through(at + h) - through(at - h);
    moved -= 2 * Math.PI * Math.round(moved / (2 * Math.PI));
    const ratio = Math.abs(moved) / (2 * h);
    least = Math.min(least, ratio);
    greatest = Math.max(greatest, ratio);
  }
  return greatest - least;
}

test.each<ShaftAngles>([
  { pinion: 12, transferCase: 7 },
  { pinion: 12, transferCase: 7, twist: 35 },
  { pinion: 9, transferCase: 14, twist: -20, phase: 15 },
  { pinion: 9, transferCase: 14, twist: 20, phase: 15 },
  { pinion: 25, transferCase: 24, phase: 40, twist: 10 },
])('the exact chain, turned: %o', angles => {
  // central differences over ±1e-4 rad and 20,000 steps a turn: 1e-8 and 1e-7
  expect(rippleOf(angles)).toBeCloseTo(turnedThrough(angles), 6);
});

test('where it is even it has a kink, and a joint at a right angle does not turn', () => {
  const even = new Vehicle(withShaft({ pinion: 10, transferCase: 10 })).at(0, 0);
  expect(slopeOfMeasure(even, 'pinionSpeedRipple')).toBeNull();
  const locked = new Vehicle(withShaft({ pinion: 90, transferCase: 0 })).at(0, 0);
  expect(readingOf(locked, 'pinionSpeedRipple')).toEqual({
    missing: expect.stringContaining('90'),
  });
});
