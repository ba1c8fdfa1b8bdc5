/**
 * Slop against builds whose rod is clocked to one end of its window and to the other, and re-solved as such:
 * the window's ends found here by a bisection on the studs' misalignment.
 */
import { expect, test } from 'vitest';
import type { Axle, Steering, Vec3 } from '../../geometry/build/build.ts';
import { misalignmentAt, type RollJoint } from '../../geometry/measure/linkRoll.ts';
import type { MeasureContext } from '../../geometry/measure/measure.ts';
import { rollingAt, rollingParts } from '../../geometry/measure/rolling.ts';
import { unit } from '../../geometry/vector.ts';
import { longArms } from '../pose/layouts.ts';
import { STEERINGS } from '../pose/steerings.ts';
import { rad, read, readingOf } from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

type Held = 'studs' | 'clocked';

/** A front with studs of 15° at both ends of the named rod, rolled by `at` where it is clocked. */
function withRod(
  kind: string,
  rodName: string,
  held: Held,
  at = 0,
  limit: number | null = 15,
): Axle {
  const make = STEERINGS[kind];
  if (!make) throw new Error(kind);
  const steering: Steering = make();
  const stud = (lean: Vec3) => ({ stud: unit(lean), limit: limit === null ? null : rad(limit) });
  const studded = (rod: Steering['tieRods'][number]) =>
    rod.name === rodName
      ? {
          ...rod,
          from: { ...rod.from, ...stud([0.05, 0, 1]) },
          to: { ...rod.to, ...stud([-0.1, 0.05, 1]) },
          roll: { held, at },
        }
      : rod;
  return {
    ...longArms(),
    steering: {
      ...steering,
      dragLink: steering.dragLink && studded(steering.dragLink),
      tieRods: steering.tieRods.map(studded),
    },
  };
}

const CASES: [kind: string, rod: string][] = [
  ['drag link beside the tie rod', 'tie rod'],
  ['tie rod beside the drag link', 'drag link'],
];

const POSES: [number, number, number][] = [
  [0, 0, 0],
  [2, -1.5, 0.2],
  [-2, 3, -0.4],
];

test.each(CASES)('%s: mean steer from one end of the window to the other', (kind, rodName) => {
  const vehicle = new Vehicle(withRod(kind, rodName, 'studs'));
  for (const [left, right, steer] of POSES) {
    const told = read(vehicle.at(left, right, steer), 'rodSlop', { part: rodName });
    /** The build clocked to a roll: its context, and by how much the worse stud is past its limit. */
    const clocked = (at: number): { context: MeasureContext; excess: number } => {
      const axle = withRod(kind, rodName, 'clocked', at);
      const context = new Vehicle(axle).at(left, right, steer);
      const part = rollingParts(axle).get(rodName);
      if (!part) throw new Error(rodName);
      const { joints } = rollingAt(context.pose, part);
      const excess = Math.max(
        ...joints.map((joint: RollJoint) => misalignmentAt(joint, at) - rad(15)),
      );
      return { context, excess };
    };
    const end = (outward: 1 | -1): number => {
      let [inside, outside] = [0, outward * 0.5];
      expect(clocked(inside).excess).toBeLessThan(0);
      expect(clocked(outside).excess).toBeGreaterThan(0);
      for (let i = 0; i < 45; i++) {
        const middle = (inside + outside) / 2;
        if (clocked(middle).excess < 0) inside = middle;
        else outside = middle;
      }
      return read(clocked(inside).context, 'meanSteer');
    };
    // 45 halvings of half a radian: 1e-14
    expect(told).toBeCloseTo(Math.abs(end(1) - end(-1)), 9);
    expect(told).toBeGreaterThan(1e-3);
  }
});

test.each(CASES)('%s: clocked, it has none', (kind, rodName) => {
  const context = new Vehicle(withRod(kind, rodName, 'clocked')).at(2, -1, 0.1);
  expect(read(context, 'rodSlop', { part: rodName })).toBe(0);
});

test('without a limit of the studs nothing says how far it goes', () => {
  const axle = withRod('drag link beside the tie rod', 'tie rod', 'studs', 0, null);
  expect(readingOf(new Vehicle(axle).at(0, 0), 'rodSlop', { part: 'tie rod' })).toEqual({
    missing: expect.stringContaining('limit'),
  });
});

test('a point on the line lets nothing go by', () => {
  for (const kind of ['drag link to the tie rod', 'tie rod to the drag link']) {
    const vehicle = new Vehicle(withRod(kind, 'tie rod', 'studs'));
    expect(() => read(vehicle.at(0, 0), 'rodSlop', { part: 'tie rod' })).toThrow();
  }
});

test('a ram beside the tie rod moves before it pushes: twice its stand-off times the half window', () => {
  const axle = withRod('drag link to the right knuckle', 'tie rod', 'studs');
  const { steering } = axle;
  if (!steering) throw new Error('no steering');
  // 2 ahead of the tie rod's line, pushing along it: up and down do not count to first order, so stand it above
  const ram = (at: Vec3) => ({
    name: 'ram',
    kind: 'single' as const,
    body: { on: 'axle' as const, at: [at[0] - 14, at[1], at[2]] as Vec3, diameter: null },
    axis: null,
    rod: { on: 'tie rod' as const, at },
    closed: null,
    stroke: null,
    bore: null,
    rodDiameter: null,
  });
  const beside = { ...axle, steering: { ...steering, rams: [ram([6.75, -10, 19.75])] } };
  const ride = new Vehicle(beside).at(0, 0);
  const part = rollingParts(beside).get('tie rod');
  if (!part) throw new Error('no tie rod');
  const { window } = rollingAt(ride.pose, part);
  if (window.kind !== 'arc') throw new Error(window.kind);
  // the tie rod lies along Y: its end 2 above the line goes round by 2 sin φ ahead, 2 (1 − cos φ) down
  const length = (roll: number): number =>
    Math.hypot(14 - 2 * Math.sin(roll), 2 - 2 * Math.cos(roll));
  expect(read(ride, 'ramSlop', { part: 'ram' })).toBeCloseTo(
    Math.abs(length(window.to) - length(window.from)),
    6,
  );
});
