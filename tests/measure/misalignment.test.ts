/** Misalignment and roll windows of whole links: closed forms (derived), and what holds a link's roll. */
import { expect, test } from 'vitest';
import type { Axle, JointEnd, Link, Vec3 } from '../../geometry/build/build.ts';
import type { MeasureContext } from '../../geometry/measure/measure.ts';
import { rollingOf } from '../../geometry/measure/rolling.ts';
import { cross, dot, reject, sub, unit } from '../../geometry/vector.ts';
import { radiusArms } from '../pose/families.ts';
import { link } from '../pose/layouts.ts';
import {
  deg,
  LONG,
  parallelLinks,
  plainAxle,
  rad,
  read,
  readingOf,
  trackBar,
} from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

const BOLT: Vec3 = [0, 1, 0];

/** The left lower link of 1000, level, with these joints; the rest swings on long arcs. */
function withJoints(axle: Partial<JointEnd>, chassis: Partial<JointEnd>, length = 1000): Axle {
  const made = link('left lower link', [0, 500, 400], [-length, 500, 400]);
  const lower: Link = {
    ...made,
    axle: { ...made.axle, ...axle },
    chassis: { ...made.chassis, ...chassis },
  };
  const rest = parallelLinks(LONG).filter(l => l.name !== lower.name);
  return plainAxle([lower, ...rest, trackBar(LONG)]);
}

const joint = (end: 'axle' | 'chassis') => ({ part: `left lower link.${end}` });
const part = { part: 'left lower link' };

/**
 * What both bolts make with the link's line, from the pose's own numbers: their lean along the line, and the
 * turn about it from the chassis bolt's projection to the axle bolt's. Bores drawn square to the line stay so.
 */
function bolts(context: MeasureContext): { axle: number; chassis: number; turn: number } {
  const { pose } = context;
  const u = unit(sub([-1000, 500, 400], pose.point('axle', [0, 500, 400])));
  const [a, c] = [pose.direction('axle', BOLT), BOLT];
  const [across, other] = [reject(a, u), reject(c, u)];
  return {
    axle: Math.asin(dot(a, u)),
    chassis: Math.asin(dot(c, u)),
    turn: Math.atan2(dot(u, cross(other, across)), dot(other, across)),
  };
}

test('crossed up, both ends alike and free: each share is alike, about half of the turn', () => {
  const limit = rad(20);
  const axle = withJoints({ bolt: BOLT, limit }, { bolt: BOLT, limit });
  const context = new Vehicle(axle).at(120, -120);
  const values = [joint('axle'), joint('chassis')].map(j => read(context, 'misalignment', j));
  expect(values[0]).toBeCloseTo(values[1] as number, 9);
  // cos μ = cos α cos(turned): with both turns adding up to the whole
  const { axle: a, chassis: c, turn } = bolts(context);
  const turned = (i: 0 | 1, lean: number): number =>
    Math.acos(Math.cos(values[i] as number) / Math.cos(lean));
  expect(turned(0, a) + turned(1, c)).toBeCloseTo(Math.abs(turn), 9);
  expect(Math.abs(deg(turn))).toBeGreaterThan(8);
});

test('unequal limits share by their limits', () => {
  const axle = withJoints({ bolt: BOLT, limit: rad(10) }, { bolt: BOLT, limit: rad(30) });
  const context = new Vehicle(axle).at(120, -120);
  expect(read(context, 'misalignment', joint('axle')) / rad(10)).toBeCloseTo(
    read(context, 'misalignment', joint('chassis')) / rad(30),
    9,
  );
});

test('a bushing at one end holds the roll: the rod end takes it all', () => {
  const limit = rad(30);
  const axle = withJoints(
    { kind: 'bushing', bolt: BOLT, limit: rad(10), holdsRoll: true },
    { bolt: BOLT, limit },
  );
  const vehicle = new Vehicle(axle);
  const context = vehicle.at(120, -120);
  const { axle: lean, chassis, turn } = bolts(context);
  // the bushing has but the lean of its bolt along the line, which no roll takes away
  expect(read(context, 'misalignment', joint('axle'))).toBeCloseTo(Math.abs(lean), 9);
  expect(read(context, 'misalignment', joint('chassis'))).toBeCloseTo(
    Math.acos(Math.cos(chassis) * Math.cos(turn)),
    9,
  );
  expect(Math.abs(deg(turn))).toBeGreaterThan(8);
  expect(read(context, 'linkRollWindow', part)).toBe(0);
  expect(read(context, 'misalignmentFreeRoll', joint('chassis'))).toBe(
    read(context, 'misalignment', joint('chassis')),
  );
});

test('an anti-roll washer keeps the clocking that it was set to', () => {
  const clocking = rad(6);
  const axle = withJoints({ bolt: BOLT, holdsRoll: true, clocking }, { bolt: BOLT });
  const ride = new Vehicle(axle).at(0, 0);
  expect(deg(read(ride, 'misalignment', joint('axle')))).toBeCloseTo(6, 9);
  expect(deg(read(ride, 'misalignment', joint('chassis')))).toBeCloseTo(0, 9);
});

test('two bushings share the twist; one without a bolt axis goes with its bracket', () => {
  const bushing = { kind: 'bushing' as const, bolt: BOLT, holdsRoll: true };
  const both = new Vehicle(withJoints(bushing, bushing)).at(120, -120);
  const { axle: a, chassis: c, turn } = bolts(both);
  const half = (lean: number): number => Math.acos(Math.cos(lean) * Math.cos(turn / 2));
  expect(read(both, 'misalignment', joint('axle'))).toBeCloseTo(half(a), 9);
  expect(read(both, 'misalignment', joint('chassis'))).toBeCloseTo(half(c), 9);
  const unknown = new Vehicle(withJoints({ holdsRoll: true }, { bolt: BOLT })).at(120, -120);
  const known = new Vehicle(withJoints(bushing, { bolt: BOLT })).at(120, -120);
  // the same to second order of roll and slope
  expect(deg(read(unknown, 'misalignment', joint('chassis')))).toBeCloseTo(
    deg(read(known, 'misalignment', joint('chassis'))),
    1,
  );
  expect(rollingOf(unknown, 'left lower link').held).not.toBeNull();
});

test('windows: clocking both ends apart narrows what is left; too far is empty', () => {
  const at = (clocking: number) =>
    new Vehicle(
      withJoints(
        { bolt: BOLT, limit: rad(15), clocking: rad(clocking) },
        { bolt: BOLT, limit: rad(15) },
      ),
    ).at(0, 0);
  expect(deg(read(at(0), 'linkRollWindow', part))).toBeCloseTo(30, 9);
  expect(deg(read(at(10), 'linkRollWindow', part))).toBeCloseTo(20, 9);
  expect(deg(read(at(-10), 'linkRollWindow', part))).toBeCloseTo(20, 9);
  expect(deg(read(at(10), 'misalignment', joint('axle')))).toBeCloseTo(5, 9);
  expect(deg(read(at(10), 'misalignmentFreeRoll', joint('axle')))).toBeCloseTo(15, 9);
  expect(read(at(40), 'linkRollWindow', part)).toBe(0);
  expect(readingOf(at(40), 'misalignmentFreeRoll', joint('axle'))).toEqual({
    missing: expect.stringContaining('no roll'),
  });
  // the clocked bore turns right-handed about the line from axle to chassis
  const window = rollingOf(at(10), 'left lower link').window as { from: number; to: number };
  expect(deg(window.from)).toBeCloseTo(-15, 9);
  expect(deg(window.to)).toBeCloseTo(5, 9);
});

test('a bore drawn the other way round is the same bore', () => {
  const value = (bore: Vec3): number =>
    read(
      new Vehicle(withJoints({ bolt: BOLT, bore, limit: rad(20) }, {})).at(60, -60),
      'misalignment',
      joint('axle'),
    );
  expect(value([0, -1, 0])).toBeCloseTo(value([0, 1, 0]), 12);
});

test('no limit: no window to tell of', () => {
  const ride = new Vehicle(withJoints({ bolt: BOLT }, { bolt: BOLT })).at(50, -50);
  for (const reading of [
    readingOf(ride, 'linkRollWindow', part),
    readingOf(ride, 'misalignmentFreeRoll', joint('axle')),
  ]) {
    expect(reading).toEqual({ missing: expect.stringContaining('limit') });
  }
  expect(read(ride, 'misalignment', joint('axle'))).toBeGreaterThan(0);
});

test('joints of a radius arm: none as drawn, the angle between bolt and bore as the arm goes', () => {
  const vehicle = new Vehicle(radiusArms());
  const target = { part: 'left radius arm.chassis' };
  expect(read(vehicle.at(0, 0), 'misalignment', target)).toBeCloseTo(0, 9);
  const context = vehicle.at(3, -3);
  const bolt = vehicle.axle.radiusArms[0]?.chassis.bolt as Vec3;
  const cos = dot(context.pose.direction('left radius arm', bolt), bolt);
  expect(read(context, 'misalignment', target)).toBeCloseTo(Math.acos(cos), 9);
});
