/**
 * Side-view instant center against crossing link lines (Gillespie, Milliken, from memory). That construction
 * holds where the track bar is level: an inclined one moves the axle sideways as it rises.
 */
import { expect, test } from 'vitest';
import type { Axle, Vec3 } from '../../geometry/build/build.ts';
import { rear } from '../pose/families.ts';
import { link } from '../pose/layouts.ts';
import {
  parallelLinks,
  plainAxle,
  rad,
  read,
  readingOf,
  slopeOfMeasure,
  trackBar,
} from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

/** Lower links as a pair, an upper one in the middle, a level track bar; rear, links run forward. */
function threeLinks(lower: [axle: Vec3, chassis: Vec3], upper: [axle: Vec3, chassis: Vec3]): Axle {
  const mirrored = ([x, y, z]: Vec3): Vec3 => [x, -y, z];
  return rear(
    [
      link('left lower link', ...lower),
      link('right lower link', mirrored(lower[0]), mirrored(lower[1])),
      link('upper link', ...upper),
      trackBar(900, 0, [-2850, -450, 560]),
    ],
    {
      origin: [-2800, 0, 400],
      wheelCenters: 1600,
      tire: { diameter: 800, width: 300, loadedRadius: 400, shoulder: 50, give: 0, rim: null },
    },
  );
}

const crossing = (a: [Vec3, Vec3], b: [Vec3, Vec3]): [x: number, z: number] => {
  const slope = ([p, q]: [Vec3, Vec3]): number => (q[2] - p[2]) / (q[0] - p[0]);
  const [m, n] = [slope(a), slope(b)];
  const x = (b[0][2] - a[0][2] + m * a[0][0] - n * b[0][0]) / (m - n);
  return [x, a[0][2] + m * (x - a[0][0])];
};

test.each<[[Vec3, Vec3], [Vec3, Vec3]]>([
  [
    [
      [-2800, 500, 330],
      [-1950, 500, 420],
    ],
    [
      [-2780, 0, 640],
      [-2100, 0, 610],
    ],
  ],
  [
    [
      [-2810, 480, 300],
      [-2000, 480, 300],
    ],
    [
      [-2790, 0, 650],
      [-2200, 0, 560],
    ],
  ],
  [
    [
      [-2810, 480, 300],
      [-2000, 480, 390],
    ],
    [
      [-2790, 0, 650],
      [-2200, 0, 745],
    ],
  ],
])('where the lines of lower and upper links cross (%#)', (lower, upper) => {
  const ride = new Vehicle(threeLinks(lower, upper)).at(0, 0);
  const [x, z] = crossing(lower, upper);
  const size = Math.max(1, Math.abs(x), Math.abs(z));
  // 1e-9 of the size: the residual of the pose over the link's length
  expect(read(ride, 'sideViewCenterX') / size).toBeCloseTo(x / size, 9);
  expect(read(ride, 'sideViewCenterZ') / size).toBeCloseTo(z / size, 9);
});

test('it moves with the axle: links cross elsewhere at another height', () => {
  const lower: [Vec3, Vec3] = [
    [-2800, 500, 330],
    [-1950, 500, 420],
  ];
  const upper: [Vec3, Vec3] = [
    [-2780, 0, 640],
    [-2100, 0, 610],
  ];
  const vehicle = new Vehicle(threeLinks(lower, upper));
  const context = vehicle.at(80, 80);
  // the level bar is not level here: a longer one leaves the construction good to its slope squared
  const now = (p: Vec3): Vec3 => context.pose.point('axle', p);
  const [x] = crossing([now(lower[0]), lower[1]], [now(upper[0]), upper[1]]);
  expect(read(context, 'sideViewCenterX') / x).toBeCloseTo(1, 1);
  expect(x).not.toBeCloseTo(crossing(lower, upper)[0], 0);
});

test('parallel links have none, and say so', () => {
  const ride = new Vehicle(plainAxle([...parallelLinks(900, rad(5)), trackBar(800)])).at(0, 0);
  for (const id of ['sideViewCenterX', 'sideViewCenterZ']) {
    expect(readingOf(ride, id)).toEqual({ missing: expect.stringContaining('at infinity') });
    expect(slopeOfMeasure(ride, id)).toBeNull();
  }
});
