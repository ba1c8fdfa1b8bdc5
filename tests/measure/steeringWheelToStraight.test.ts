/** The definition itself: turned so much further, the wheels point again where they did at ride height. */
import { expect, test } from 'vitest';
import { longArms } from '../pose/layouts.ts';
import { STEERINGS } from '../pose/steerings.ts';
import {
  parallelLinks,
  plainAxle,
  plainDragLink,
  plainSteering,
  read,
  readingOf,
  trackBar,
} from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

const boxed = Object.keys(STEERINGS).filter(name => name !== 'double-ended ram');

test.each(boxed)('mean steer is again its ride value: %s', name => {
  const make = STEERINGS[name];
  if (!make) throw new Error(name);
  const vehicle = new Vehicle({ ...longArms(), steering: make() });
  for (const [left, right, steer] of [
    [5, 5, 0],
    [4, -3, 0.25],
    [-3, 2, -0.4],
  ] as const) {
    const context = vehicle.at(left, right, steer);
    const added = read(context, 'steeringWheelToStraight') / 16;
    const after = vehicle.at(left, right, steer + added);
    expect(read(after, 'meanSteer')).toBeCloseTo(read(vehicle.at(0, 0, steer), 'meanSteer'), 11);
  }
});

test('none at ride height, and none where the bars are equal and parallel', () => {
  expect(read(new Vehicle(longArms()).at(0, 0, 0.3), 'steeringWheelToStraight')).toBeCloseTo(0, 9);
  const equal = plainAxle([...parallelLinks(1e8), trackBar(800)], {
    steering: plainSteering(plainDragLink(800)),
  });
  expect(read(new Vehicle(equal).at(90, 90), 'steeringWheelToStraight')).toBeCloseTo(0, 6);
});

test('a bump steer to the left is steered against to the right', () => {
  const context = new Vehicle(longArms()).at(-5, 5);
  expect(read(context, 'bumpSteer')).toBeGreaterThan(0.01);
  expect(read(context, 'steeringWheelToStraight')).toBeLessThan(-0.1);
});

test('what is missing is named', () => {
  const { steering, ...axle } = longArms();
  if (!steering?.box) throw new Error('no box');
  const noRatio = { ...axle, steering: { ...steering, box: { ...steering.box, ratio: null } } };
  expect(readingOf(new Vehicle(noRatio).at(2, 2), 'steeringWheelToStraight')).toEqual({
    missing: expect.stringContaining('ratio'),
  });
});
