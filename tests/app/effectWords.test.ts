import { expect, test } from 'vitest';
import type { Axle } from '../../geometry/build/build.ts';
import { effectWords } from '../../src/app/words/effectWords.ts';

const none = { stretch_in: 0, stretchOf: null, force_lbf: 0, forceOf: null };
const shop = { driverSide: 'left', unit: 'in' } as const;
const axle = { name: 'front' } as Axle;

test('what a length does is told with its sides and ways, and what stays is told too', () => {
  const words = effectWords(shop, axle, {
    shift_in: [0.375, -0.0625, 0],
    yaw_deg: 0.2,
    pinion_deg: -0.6,
    wheels_deg: { left: 1.2, right: 0.01 },
    bind: {
      before: none,
      after: { stretch_in: -0.0125, stretchOf: 'left link', force_lbf: 640, forceOf: 'track bar' },
    },
  });
  expect(words).toEqual([
    ['Axle', '3/8 in forward, 1/16 in toward the passenger side'],
    ['Seen from above', '0.2° to the left'],
    ['Pinion', '0.6° further down'],
    ['Wheels', 'driver 1.2° to the left'],
    ['Bind', '0.013 in at the driver link, 640 lbf at the track bar'],
  ]);
  const still = effectWords(shop, axle, {
    shift_in: [0.001, 0, 0],
    yaw_deg: 0,
    pinion_deg: null,
    wheels_deg: { left: 0, right: 0 },
    bind: { before: none, after: none },
  });
  expect(still).toEqual([
    ['Axle', 'stays where it is'],
    ['Seen from above', 'not turned'],
    ['Bind', 'none'],
  ]);
});
