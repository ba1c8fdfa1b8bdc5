/**
 * Equal parallel links: the axle keeps its direction and goes on a circle of their length.
 * Derived: dx = L cos a0 − √(L² − (L sin a0 + z)²) towards the frame's pivots; the table in double precision.
 */
import { describe, expect, test } from 'vitest';
import { modelOf } from '../pose/layouts.ts';
import { axleAt, bar, DEG, pair, poseAt, shift, single } from './planar.ts';

const L = 800;
/** Degrees, then dx at z of −150, −100, −50, 50, 100, 150 mm. */
const TABLE: [number, number[]][] = [
  [0, [14.1883, 6.2746, 1.564, 1.564, 6.2746, 14.1883]],
  [-5, [27.7217, 15.1671, 5.9652, -2.801, -2.4712, 0.9935]],
];
const TRAVELS = [-150, -100, -50, 50, 100, 150];

describe.each(TABLE)('links at %d°', (a0, shifts) => {
  const links = (lower: [number, number], upper: [number, number]) => {
    const to = ([x, z]: [number, number]): [number, number] => [
      x + L * Math.cos(a0 * DEG),
      z - L * Math.sin(a0 * DEG),
    ];
    return { lower, upper, lowerTo: to(lower), upperTo: to(upper) };
  };
  const { lower, upper, lowerTo, upperTo } = links([0, 400], [-30, 650]);
  const three = axleAt(
    [0, 500],
    [
      ...pair('lower link', lower, lowerTo, 450),
      single('upper link', upper, upperTo, 60),
      bar([0, -500, 600]),
    ],
  );

  test.each(TRAVELS.map((z, i) => [z, shifts[i] as number]))('at %d mm: %d mm', (z, dx) => {
    const model = modelOf(three);
    const pose = poseAt(model, z);
    const [x] = shift(model, pose);
    // printed with four places of a millimeter
    expect(Math.abs(x - dx)).toBeLessThan(6e-5);
    const exact = L * Math.cos(a0 * DEG) - Math.sqrt(L ** 2 - (L * Math.sin(a0 * DEG) + z) ** 2);
    expect(x).toBeCloseTo(exact, 8);
    expect(pose.yaw).toBeCloseTo(0, 11);
    expect(pose.pitch).toBeCloseTo(0, 11);
  });
});

test('four parallel links and a level track bar of the same length: both circles at once, no bind', () => {
  // (800 − x)² + y² + z² = 800², x² + (800 − y)² + z² = 800²: x = y = 6.2996063 at z = ±100 (two ways)
  const links = [
    ...pair('lower link', [0, 400], [L, 400], 450),
    ...pair('upper link', [-30, 650], [L - 30, 650], 300),
    bar([0, -400, 600], 800),
  ];
  const model = modelOf(axleAt([0, 500], links));
  expect(model.mechanism.exact).toBe(false);
  for (const z of [100, -100]) {
    const pose = poseAt(model, z);
    const [x, y] = shift(model, pose);
    expect(x).toBeCloseTo(6.2996063, 7);
    expect(y).toBeCloseTo(6.2996063, 7);
    expect(pose.yaw).toBeCloseTo(0, 10);
    expect(pose.pitch).toBeCloseTo(0, 10);
  }
});
