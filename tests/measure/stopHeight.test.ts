/** Bump stops and lines: the definition on axles that only rise, and by plane geometry (derived). */
import { expect, test } from 'vitest';
import type { BumpStop, Line } from '../../geometry/build/build.ts';
import { unit } from '../../geometry/vector.ts';
import { LONG, parallelLinks, plainAxle, rad, read, readingOf, trackBar } from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

const stop = (name: string, more: Partial<BumpStop>): BumpStop => ({
  name,
  side: 'left',
  kind: 'rubber',
  pad: { on: 'axle', at: [10, 500, 600] },
  strike: { on: 'chassis', at: [10, 500, 720], normal: [0, 0, -1], radius: null },
  contactHeight: 40,
  solidHeight: 0,
  curve: [],
  ...more,
});

const line = (name: string, more: Partial<Line>): Line => ({
  name,
  from: { on: 'left knuckle', at: [0, 650, 500] },
  to: { on: 'chassis', at: [0, 400, 700] },
  length: 400,
  leastBendRadius: null,
  diameter: null,
  ...more,
});

const links = [...parallelLinks(LONG), trackBar(LONG)];

test('the height over a level plane falls with the travel, whichever body the pad is on', () => {
  const stops = [
    stop('pad on the axle', {}),
    stop('pad on the frame', {
      pad: { on: 'chassis', at: [10, 500, 720] },
      strike: { on: 'axle', at: [10, 500, 600], normal: [0, 0, 1], radius: null },
    }),
    stop('leaning plane', {
      strike: { on: 'chassis', at: [10, 500, 720], normal: unit([0.6, 0, -0.8]), radius: null },
    }),
  ];
  const vehicle = new Vehicle(plainAxle(links, { bumpStops: stops }));
  for (const z of [-50, 0, 90, 130]) {
    const height = (part: string): number => read(vehicle.at(z, z), 'stopHeight', { part });
    expect(height('pad on the axle')).toBeCloseTo(120 - z, 6);
    expect(height('pad on the frame')).toBeCloseTo(120 - z, 6);
    expect(height('leaning plane')).toBeCloseTo(0.8 * (120 - z), 3);
  }
});

test('a pad on a rolling axle: the height above its own wheel', () => {
  const vehicle = new Vehicle(plainAxle(links, { bumpStops: [stop('pad on the axle', {})] }));
  const { pose, ...context } = { pose: vehicle.pose(80, -80), vehicle };
  // 500 from the middle and 100 over the wheel centers, about which the axle rolls
  const rise = 500 * Math.sin(pose.roll) + 100 * Math.cos(pose.roll) - 100;
  expect(
    read(context.vehicle.contextOf(pose), 'stopHeight', { part: 'pad on the axle' }),
  ).toBeCloseTo(120 - rise, 3);
});

test('slack of a hose: its length less the chord, as the knuckle turns too', () => {
  const vehicle = new Vehicle(plainAxle(links, { lines: [line('hose', {})] }));
  expect(read(vehicle.at(0, 0), 'lineSlack', { part: 'hose' })).toBeCloseTo(
    400 - Math.hypot(250, 200),
    9,
  );
  const fixed = line('hose', { from: { on: 'axle', at: [0, 650, 500] } });
  const rising = new Vehicle(plainAxle(links, { lines: [fixed] })).at(70, 70);
  expect(read(rising, 'lineSlack', { part: 'hose' })).toBeCloseTo(400 - Math.hypot(250, 130), 3);
  const context = vehicle.at(0, 0, rad(25));
  const turn = context.pose.knuckleTurn('left') as number;
  // 50 inboard of the kingpin at y = 700
  const end = [50 * Math.sin(turn), 700 - 50 * Math.cos(turn), 500] as const;
  expect(read(context, 'lineSlack', { part: 'hose' })).toBeCloseTo(
    400 - Math.hypot(end[0], end[1] - 400, 200),
    9,
  );
});

test('a hose on a body that a pose does not place says so', () => {
  const on = line('hose', { to: { on: 'upper link', at: [-200, 0, 650] } });
  const ride = new Vehicle(plainAxle(links, { lines: [on] })).at(0, 0);
  expect(readingOf(ride, 'lineSlack', { part: 'hose' })).toEqual({
    missing: expect.stringContaining('upper link'),
  });
});
