/** The interval of steering at poses of the axle, against a fine sampling, and against what the stops say. */
import { describe, expect, test } from 'vitest';
import type { Axle } from '../../geometry/build/build.ts';
import type { OpenedAxle } from '../../geometry/cycle/openAxle.ts';
import { Reach, type SteerInterval } from '../../geometry/cycle/reach.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { distance } from '../../geometry/vector.ts';
import { longArms } from '../pose/layouts.ts';
import { STEERINGS } from '../pose/steerings.ts';
import { example, opened } from './made.ts';

const degrees = Math.PI / 180;

const reachOf = ({ build, axle, model }: OpenedAxle): Reach => new Reach(build, axle, model);

/** Whether the stops of steering allow a pose: from the knuckles' turns and the parts' points alone. */
function allows(axle: Axle, pose: Pose): boolean {
  const turns = { left: pose.knuckleTurn('left') ?? 0, right: pose.knuckleTurn('right') ?? 0 };
  const within = (side: 'left' | 'right'): boolean => {
    const { inward, outward } = axle.knuckles?.[side].steeringStop ?? {
      inward: null,
      outward: null,
    };
    // turning left is inward for the left wheel
    const turn = side === 'left' ? turns.left : -turns.right;
    return (inward === null || turn <= inward) && (outward === null || -turn <= outward);
  };
  const sweep = axle.steering?.box?.sweep;
  const { steer } = pose.input;
  const rams = (axle.steering?.rams ?? []).every(ram => {
    if (ram.stroke === null) return true;
    if (!ram.rod) return Math.abs(steer) <= ram.stroke / 2;
    if (ram.closed === null) return true;
    const length = distance(
      pose.point(ram.body.on, ram.body.at),
      pose.point(ram.rod.on, ram.rod.at),
    );
    return length >= ram.closed && length <= ram.closed + ram.stroke;
  });
  return (
    within('left') &&
    within('right') &&
    rams &&
    (!sweep || (steer >= sweep[0] && steer <= sweep[1]))
  );
}

const stopped = (axle: Axle, inward: number | null, outward: number | null = null): Axle => ({
  ...axle,
  knuckles: axle.knuckles && {
    left: { ...axle.knuckles.left, steeringStop: { inward, outward } },
    right: { ...axle.knuckles.right, steeringStop: { inward, outward } },
  },
});

const kinds: [string, () => OpenedAxle][] = [
  ...Object.entries(STEERINGS).map(([name, steering]): [string, () => OpenedAxle] => [
    name,
    () => opened(stopped({ ...longArms(), steering: steering() }, 30 * degrees, 28 * degrees)),
  ]),
  ['box, stops and assist ram of an example', () => example('long-arm-front')],
  ['a ram on the frame', () => example('hung-tie-rod-front')],
];

describe.each(kinds)('%s', (_, make) => {
  const axle = make();
  const reach = reachOf(axle);
  const inches = axle.model.mechanism.steering?.unit === 'in';
  // 0.05 degrees of pitman, 0.005 in of ram
  const step = inches ? 0.005 : 0.05 * degrees;

  test.each([
    [0, 0],
    [4, 4],
    [-4.5, -4.5],
    [5, -6],
    [-6, 5],
  ])('at %f / %f', (left, right) => {
    const straight = axle.model.pose(left, right).pose as Pose;
    const { least, greatest } = reach.steering(straight) as SteerInterval;
    for (const [way, end] of [
      [1, greatest],
      [-1, least],
    ] as const) {
      let last = 0;
      for (let n = 1; n * step < 6; n++) {
        const pose = axle.model.atSteer(straight, way * n * step).pose;
        if (!pose || !allows(axle.axle, pose)) break;
        last = way * n * step;
      }
      // the end lies within the step after the last one that is allowed
      expect(Math.abs(end.value)).toBeGreaterThanOrEqual(Math.abs(last) - 1e-9);
      expect(Math.abs(end.value)).toBeLessThan(Math.abs(last) + step + 1e-9);
      const at = axle.model.atSteer(straight, end.value).pose as Pose;
      if (end.by === 'steeringStop') {
        const turn = Math.abs(at.knuckleTurn(end.side as 'left' | 'right') ?? 0);
        const stop = axle.axle.knuckles?.[end.side as 'left' | 'right'].steeringStop;
        const inner = (end.side === 'left') === way > 0;
        // ends are found to 1e-10 of input; knuckles turn at most a few times as fast
        expect(turn).toBeCloseTo((inner ? stop?.inward : stop?.outward) ?? 0, 9);
      }
    }
  });

  test('beside a neighbor it is found alike', () => {
    let near: SteerInterval | null = null;
    for (let t = -5; t <= 5; t += 0.25) {
      const straight = axle.model.pose(t, -0.5 * t).pose as Pose;
      const alone = reach.steering(straight) as SteerInterval;
      near = reach.steering(straight, near) as SteerInterval;
      for (const end of ['least', 'greatest'] as const) {
        // both are within 1e-10 of the end
        expect(Math.abs(near[end].value - alone[end].value)).toBeLessThan(2e-10);
        expect(near[end].by).toBe(alone[end].by);
      }
    }
  });

  test('shares run from full right by straight ahead to full left', () => {
    const interval = reach.steering(axle.model.ride) as SteerInterval;
    const at = (share: number) => reach.steered(axle.model.ride, interval, share)?.input.steer;
    expect(at(-1)).toBe(interval.least.value);
    expect(at(0)).toBe(0);
    expect(at(1)).toBe(interval.greatest.value);
    expect(at(0.5)).toBeCloseTo(interval.greatest.value / 2, 12);
  });
});

test('without any stop the steering goes to an assumed end, or to where a rod runs out of reach', () => {
  const reach = reachOf(opened(longArms()));
  const { least, greatest } = reach.steering(reach.model.ride) as SteerInterval;
  for (const end of [least, greatest]) {
    expect(['assumedTravel', 'noPose']).toContain(end.by);
    if (end.by === 'noPose') {
      const beyond = end.value + Math.sign(end.value) * 1e-3;
      expect(reach.model.atSteer(reach.model.ride, beyond).pose).toBeNull();
    }
  }
});

test('where the stops do not allow straight ahead, the shares run over what they allow', () => {
  // a tie rod 1 in too long turns the passenger wheel past its stop as drawn
  const axle = longArms();
  const steering = axle.steering;
  const [tie] = steering?.tieRods ?? [];
  if (!steering || !tie) throw new Error('the axle steers');
  const longer = { ...tie, length: distance(tie.from.at, tie.to.at) + 1 };
  const turned = opened(
    stopped({ ...axle, steering: { ...steering, tieRods: [longer] } }, 6 * degrees, 30 * degrees),
  );
  const reach = reachOf(turned);
  expect(reach.allowsStraight(turned.model.ride)).toBe(false);
  const interval = reach.steering(turned.model.ride) as SteerInterval;
  expect(interval.least.value * interval.greatest.value).toBeGreaterThan(0);
  for (const share of [-1, -0.3, 0, 0.6, 1]) {
    const pose = reach.steered(turned.model.ride, interval, share) as Pose;
    expect(allows(turned.axle, pose), `share ${share}`).toBe(true);
  }
});

test('an axle that does not steer has one input, straight ahead', () => {
  const axle = example('triangulated-rear');
  const { least, greatest } = reachOf(axle).steering(axle.model.ride) as SteerInterval;
  expect([least.value, greatest.value]).toEqual([0, 0]);
});
