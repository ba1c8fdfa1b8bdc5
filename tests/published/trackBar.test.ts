/**
 * A track bar alone. Derived: the axle goes aside by √(L² − z0²) − √(L² − (z0 + z)²) towards the frame's end,
 * z0 the height of the axle's end over the frame's. Roll center: the inclined bar's crossing of the center
 * plane (a rule of builders, retrieved; the number derived), carried along the roll axis.
 */
import { describe, expect, test } from 'vitest';
import { link, modelOf } from '../pose/layouts.ts';
import { axleAt, FAR, MM, pair, poseAt, shift, single } from './planar.ts';

/** Links so long that the axle goes straight up; a bar with its axle's end z0 over the frame's. */
const onBar = (L: number, z0 = 0) =>
  modelOf(
    axleAt(
      [0, 500],
      [
        ...pair('lower link', [0, 400], [FAR / MM, 400], 450),
        single('upper link', [0, 650], [FAR / MM, 650], 60),
        link(
          'track bar',
          [-100 * MM, -400 * MM, 600 * MM],
          [-100 * MM, (-400 + Math.sqrt(L * L - z0 * z0)) * MM, (600 - z0) * MM],
        ),
      ],
    ),
  );

const TRAVELS = [25, 50, 75, 100, 125, 150, 200];
const LEVEL: [number, number[]][] = [
  [700, [0.4466, 1.788, 4.0295, 7.1797, 11.2511, 16.2603, 29.1796]],
  [800, [0.3907, 1.564, 3.5234, 6.2746, 9.826, 14.1883, 25.4033]],
  [900, [0.3473, 1.39, 3.1304, 5.5728, 8.7228, 12.588, 22.5036]],
];

describe.each(LEVEL)('level, %d mm', (L, shifts) => {
  test.each(TRAVELS.map((z, i) => [z, shifts[i] as number]))('±%d mm: %d mm aside', (z, aside) => {
    const model = onBar(L);
    for (const way of [z, -z]) {
      const pose = poseAt(model, way);
      const [, y] = shift(model, pose);
      expect(Math.abs(y - aside)).toBeLessThan(6e-5); // printed with four places
      expect(y).toBeCloseTo(L - Math.sqrt(L * L - z * z), 7);
      expect(pose.yaw).toBeCloseTo(0, 7); // the links' own length leaves y/1e7
    }
  });
});

test.each([
  [-100, -1.2525],
  [-50, -2.1907],
  [50, 5.3454],
  [100, 13.9101],
])('800 mm, axle’s end 60 mm higher: at %d mm %d mm aside', (z, aside) => {
  const model = onBar(800, 60);
  const [, y] = shift(model, poseAt(model, z));
  expect(Math.abs(y - aside)).toBeLessThan(6e-5);
});

test('z²/2L is 0.4 % low at 100 mm on 800 mm', () => {
  const model = onBar(800);
  const [, y] = shift(model, poseAt(model, 100));
  expect(6.25 / y).toBeCloseTo(0.996, 3);
});

test('an axle with an inclined bar rolls about where the bar crosses the center plane', () => {
  // frame end y −500, z 650; axle end y 450, z 560: the line is at z 602.6316 where y is 0
  const x = -80;
  const axle = axleAt(
    [0, 450],
    [
      ...pair('lower link', [0, 330], [900, 420], 400, 330),
      single('upper link', [20, 690], [700, 720]),
      link('track bar', [x * MM, 450 * MM, 560 * MM], [x * MM, -500 * MM, 650 * MM]),
    ],
  );
  const model = modelOf(axle);
  const velocity = (z: number): number[] =>
    model.ride
      .pointJets('axle', [x * MM, 0, z * MM])
      .map(jet => (jet[1] as number) - (jet[2] as number));
  // it stands still as the wheels go up and down against each other; printed with four places
  for (const v of velocity(602.6316)) expect(Math.abs(v)).toBeLessThan(1e-7);
  const [, aside = 0] = velocity(612.6316);
  expect(Math.abs(aside)).toBeGreaterThan(1e-2);
});
