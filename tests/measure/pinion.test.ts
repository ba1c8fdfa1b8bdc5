/**
 * Pinion and caster of arms rigid to the axle (derived): asin(sin a₀ + z/R) − a₀, nose down and caster gained in
 * bump for a front arm that runs back to the frame.
 */
import { expect, test } from 'vitest';
import type { Axle } from '../../geometry/build/build.ts';
import { link } from '../pose/layouts.ts';
import { deg, LONG, plainAxle, rad, read, trackBar } from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

/**
 * On the left two links from above and below the axle to one frame pivot, on the right one from the axle's
 * center to a pivot beside it: rigid to the axle in pitch, all on one radius with both wheels up.
 */
function rigidArm(radius: number, angle: number): Axle {
  const x = -radius * Math.cos(angle);
  const z = 500 - radius * Math.sin(angle);
  return plainAxle(
    [
      link('left lower link', [0, 500, 400], [x, 500, z]),
      link('left upper link', [0, 500, 600], [x, 500, z]),
      link('right lower link', [0, -500, 500], [x, -500, z]),
      trackBar(LONG),
    ],
    {
      driveline: {
        pinion: {
          joint: [-200, 0, 520],
          axis: [-Math.cos(rad(7)), 0, Math.sin(rad(7))],
          kind: 'single',
          limit: null,
        },
        transferCase: { joint: [-1200, 0, 700], axis: [1, 0, 0], kind: 'single', limit: null },
        slip: null,
        phase: 0,
        tubeOd: null,
        axleRatio: null,
      },
    },
  );
}

test.each([
  [800, 0, 25, 1.7908],
  [800, 0, 100, 7.1808],
  [800, 0, 150, 10.8069],
  [1000, 0, 50, 2.866],
  [1000, 0, 100, 5.7392],
  [1200, 0, 150, 7.1808],
  [1000, -6, -100, -5.8019],
  [1000, -6, -50, -2.8894],
  [1000, -6, 50, 2.8742],
  [1000, -6, 100, 5.7405],
])('arm %d at %d°, travel %d: %d°', (radius, angle, z, change) => {
  const vehicle = new Vehicle(rigidArm(radius, rad(angle)));
  const context = vehicle.at(z, z);
  expect(deg(read(context, 'pinionChange'))).toBeCloseTo(-change, 4);
  expect(deg(read(context, 'pinionAngle'))).toBeCloseTo(7 - change, 4);
  const caster = (c: typeof context): number => deg(read(c, 'caster', { side: 'left' }));
  expect(caster(context) - caster(vehicle.at(0, 0))).toBeCloseTo(change, 4);
});

test('nose up is +, whatever way the pinion points', () => {
  const axle = rigidArm(1000, 0);
  const { driveline } = axle;
  if (!driveline) throw new Error('no driveline');
  const ahead = {
    ...axle,
    driveline: {
      ...driveline,
      pinion: { ...driveline.pinion, axis: [Math.cos(rad(7)), 0, Math.sin(rad(7))] as const },
    },
  };
  const context = new Vehicle(ahead).at(50, 50);
  expect(deg(read(context, 'pinionChange'))).toBeCloseTo(2.866, 4);
});
