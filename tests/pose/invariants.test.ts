import { describe, expect, test } from 'vitest';
import type { Axle, Vec3 } from '../../geometry/build/build.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { mirrored, movedBy, otherSide, reversed, rodsTurnedRound, scaledBy } from './changes.ts';
import { FAMILIES } from './families.ts';
import { modelOf } from './layouts.ts';
import { lock } from './steerings.ts';
import { distance, dot, pointsOf, residual } from './witness.ts';

/** Left, right, share of lock. */
const POSES: [number, number, number][] = [
  [0, 0, 0],
  [5, 5, 0.7],
  [-6, -6, -0.4],
  [7, -5, 0.8],
  [-4, 8, -0.9],
  [2.5, -8, 0],
];

const families = Object.entries(FAMILIES).map(([name, make]) => ({ name, make }));

function posesOf(axle: Axle, change = (l: number, r: number, s: number) => [l, r, s]): Pose[] {
  const model = modelOf(axle);
  return POSES.map(([l, r, share]) => {
    const [left, right, steer] = change(l, r, share * lock(axle.steering)) as [
      number,
      number,
      number,
    ];
    const { pose, status, part } = model.pose(left, right, steer);
    if (!pose) throw new Error(`${status} at ${left}, ${right}, ${steer}: ${part}`);
    return pose;
  });
}

/** Two solves of one pose differ by what Newton leaves: step²/length, 1e-11 in, times the condition (≤ 20). */
const SOLVED_in = 1e-9;

function same(
  a: Map<string, Vec3>,
  b: Map<string, Vec3>,
  map: (p: Vec3) => Vec3,
  name = (n: string) => n,
) {
  expect(a.size).toBe(b.size);
  for (const [key, p] of a) {
    const other = b.get(name(key));
    expect(other, key).toBeDefined();
    expect(distance(map(p), other as Vec3), key).toBeLessThan(SOLVED_in);
  }
}

describe.each(families)('$name', ({ make }) => {
  test('lengths, recomputed from the points, hold', () => {
    const axle = make();
    for (const pose of posesOf(axle)) expect(residual(axle, pose)).toBeLessThan(1e-9);
  });

  test('every body is turned by a rotation, and moves as one', () => {
    const axle = make();
    for (const pose of posesOf(axle)) {
      const bodies = new Set(pose.mechanism.named.map(({ on }) => on));
      for (const on of bodies) {
        const [x, y, z] = (
          [
            [1, 0, 0],
            [0, 1, 0],
            [0, 0, 1],
          ] as Vec3[]
        ).map(v => pose.direction(on, v)) as [Vec3, Vec3, Vec3];
        const gram = [dot(x, x) - 1, dot(y, y) - 1, dot(z, z) - 1, dot(x, y), dot(y, z), dot(z, x)];
        // a few products of rotations: each leaves some 1e-16
        for (const g of gram) expect(Math.abs(g), on).toBeLessThan(1e-13);
        const volume = dot(x, [
          y[1] * z[2] - y[2] * z[1],
          y[2] * z[0] - y[0] * z[2],
          y[0] * z[1] - y[1] * z[0],
        ]);
        expect(volume, on).toBeCloseTo(1, 12);
        const p = pose.point(on, [3, -4, 12]);
        expect(distance(p, pose.point(on, [0, 0, 0])), on).toBeCloseTo(13, 12);
      }
    }
  });

  test('the wheel centers of the housing rise by the travels', () => {
    const axle = make();
    for (const pose of posesOf(axle)) {
      const [x, y, z] = axle.origin;
      for (const [side, s] of [
        ['left', 1],
        ['right', -1],
      ] as const) {
        const center: Vec3 = [x, y + (s * axle.wheelCenters) / 2, z];
        // made from the travels in closed form: rounding of some 30 in
        expect(pose.point('axle', center)[2] - z).toBeCloseTo(pose.input[side], 12);
      }
    }
  });

  test('mirrored: the same poses with left and right changed over', () => {
    const axle = make();
    const poses = posesOf(axle);
    const others = posesOf(mirrored(axle), (l, r, s) => [r, l, -s]);
    for (const [i, pose] of poses.entries()) {
      same(pointsOf(pose), pointsOf(others[i] as Pose), p => [p[0], -p[1], p[2]], otherSide);
    }
  });

  test('moved: the same poses elsewhere', () => {
    const axle = make();
    const by: Vec3 = [37, -11, 5];
    const others = posesOf(movedBy(axle, by));
    for (const [i, pose] of posesOf(axle).entries()) {
      same(pointsOf(pose), pointsOf(others[i] as Pose), p => [
        p[0] + by[0],
        p[1] + by[1],
        p[2] + by[2],
      ]);
    }
  });

  test('scaled: in other units the same poses', () => {
    const axle = make();
    const s = 2.54;
    const others = posesOf(scaledBy(axle, s), (l, r, steer) => [
      l * s,
      r * s,
      axle.steering?.box ? steer : steer * s,
    ]);
    for (const [i, pose] of posesOf(axle).entries()) {
      same(pointsOf(pose), pointsOf(others[i] as Pose), p => [p[0] * s, p[1] * s, p[2] * s]);
    }
  });

  test('parts in another order, rods written from their other ends: the same poses', () => {
    const axle = make();
    const other = rodsTurnedRound(reversed(axle));
    const others = posesOf(other).map(pose => pointsOf(pose));
    for (const [i, pose] of posesOf(axle).entries()) {
      // a rod's `from` is its `to` when it is written from its other end
      same(
        pointsOf(pose),
        others[i] as Map<string, Vec3>,
        p => p,
        name =>
          /(drag link|tie rod)\.(from|to)$/.test(name)
            ? name.replace(/(from|to)$/, end => (end === 'from' ? 'to' : 'from'))
            : name,
      );
    }
  });
});
