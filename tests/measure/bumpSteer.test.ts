/**
 * Drag link against track bar (derived; the column at 100 mm by two methods): pitman held, bars level at ride
 * height, kingpins upright, arm 150 ahead, track bar 800. + here where the drag link is the shorter bar: its
 * frame end and the track bar's stand to the left, the arm points ahead, so a pull to the left turns left.
 */
import { expect, test } from 'vitest';
import type { Vec3 } from '../../geometry/build/build.ts';
import { link, rod } from '../pose/layouts.ts';
import {
  deg,
  LONG,
  parallelLinks,
  plainAxle,
  plainDragLink,
  plainSteering,
  rad,
  read,
  trackBar,
} from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

test.each([
  [700, 0.08555, 0.34571],
  [800, 0, 0],
  [900, -0.06649, -0.26807],
  [1000, -0.11965, -0.48207],
])('drag link %d: %d at ±50, %d at ±100', (length, at50, at100) => {
  const axle = plainAxle([...parallelLinks(LONG), trackBar(800)], {
    steering: plainSteering(plainDragLink(length)),
  });
  const vehicle = new Vehicle(axle);
  for (const sign of [1, -1]) {
    // five decimals are printed
    expect(deg(read(vehicle.at(50 * sign, 50 * sign), 'bumpSteer'))).toBeCloseTo(at50, 5);
    expect(deg(read(vehicle.at(100 * sign, 100 * sign), 'bumpSteer'))).toBeCloseTo(at100, 5);
  }
});

/**
 * Equal parallel bars, the drag link `above` the track bar, rolling about the track bar's axle end, which stands
 * at the middle of the axle here. The right kingpin stands there too, so that arm and bar end alike.
 */
function rolling(above: number): Vehicle {
  const knuckle = (side: 'left' | 'right', y: number) => ({
    side,
    kingpin: { lower: [0, y, 400] as Vec3, upper: [0, y, 600] as Vec3 },
    toe: 0,
    camber: 0,
    shaftJoint: null,
    shaftLimit: null,
    steeringStop: { inward: null, outward: null },
  });
  const z = 500 + above;
  const steering = plainSteering(
    rod('drag link', ['pitman arm', [150, 800, z]], ['right knuckle', [150, 0, z]]),
  );
  const axle = plainAxle([...parallelLinks(LONG), link('track bar', [0, 0, 500], [0, 800, 500])], {
    knuckles: { left: knuckle('left', 700), right: knuckle('right', 0) },
    steering: {
      ...steering,
      tieRods: [
        rod('tie rod', ['left knuckle', [150, 700, 450]], ['right knuckle', [150, 0, 450]]),
      ],
    },
  });
  return new Vehicle(axle);
}

test.each([
  [50, 2, 0.667],
  [50, 5, 1.6712],
  [50, 10, 3.3697],
  [50, -10, -3.3694],
  [100, 2, 1.334],
  [100, 5, 3.3438],
  [100, 10, 6.7516],
  [100, -10, -6.75],
  [0, 10, 0],
])(
  'no bump steer is not no roll steer: drag link %d above, roll %d°: turn %d°',
  (above, roll, turn) => {
    const vehicle = rolling(above);
    const travel = (1600 / 2) * Math.sin(rad(roll));
    const context = vehicle.at(travel, -travel);
    // the published column is the turn about the kingpin axis, to four decimals
    expect(deg(context.pose.knuckleTurn('right') as number)).toBeCloseTo(turn, 4);
    const { pose } = context;
    // and the steer in plan, of a spin axis turned by τ about an axis leaning by the roll (Rodrigues)
    const tau = pose.knuckleTurn('right') as number;
    const steer = Math.atan2(Math.sin(tau), Math.cos(tau) * Math.cos(pose.roll));
    expect(read(context, 'bumpSteer')).toBeCloseTo(steer, 9);
    expect(read(context, 'knuckleSteer')).toBeCloseTo(steer, 9);
  },
);

test('the same steering input at ride height is what it is measured from', () => {
  const vehicle = new Vehicle(plainAxle([...parallelLinks(LONG), trackBar(800)]));
  const turned = vehicle.at(0, 0, 0.4);
  expect(read(turned, 'meanSteer')).toBeGreaterThan(0.3);
  expect(read(turned, 'bumpSteer')).toBe(0);
});
