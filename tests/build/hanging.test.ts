import { expect, test } from 'vitest';
import { followers } from '../../geometry/build/hanging.ts';
import { built, edited, sample } from './sample.ts';

test('what is taped from a datum follows it, and what is taped from that', () => {
  const { entries } = built(
    edited(sample(), {
      datums: [{ name: 'hole', sides: 'mirror', point: [-30, 13, 30] }],
      'axles.0.links.0.chassis.at': { from: 'hole', by: [0, 1, -6] },
      solids: [
        {
          name: 'tab',
          box: { center: { from: 'left lower link.chassis', by: [0, 0, 2] }, size: [4, 1, 4] },
        },
      ],
    }),
  );
  const moving = [0, 1, 2].map(i => `datums["hole"].point[${i}]`);
  const points = new Set(followers(entries, moving).map(path => path.replace(/\[\d\]$/, '')));
  expect([...points]).toEqual([
    'axles["front"].links["lower link"].chassis.at.by',
    'solids["tab"].box.center.by',
  ]);
  expect(followers(entries, ['axles["front"].links["upper link"].axle.at[0]'])).toEqual([]);
});
