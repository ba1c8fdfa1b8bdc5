/** Lengths, shares of strokes and motion ratios: plane trigonometry (derived); wheel rate = rate × ratio². */
import { expect, test } from 'vitest';
import type { Axle, Shock } from '../../geometry/build/build.ts';
import { rod } from '../pose/layouts.ts';
import {
  LONG,
  parallelLinks,
  plainAxle,
  plainSteering,
  rad,
  read,
  readingOf,
  trackBar,
} from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

/** A shock from (x, y, 400) on the axle, leaning in and back by these runs over a rise of 500. */
const shock = (name: string, y: number, inward: number, back: number): Shock => ({
  name,
  side: y === 0 ? null : y > 0 ? 'left' : 'right',
  axle: [0, y, 400],
  chassis: [-back, y - Math.sign(y) * inward, 900],
  shortest: 400,
  longest: 700,
  bodyEnd: 'chassis',
  body: { od: null, length: null },
  shaft: { od: null },
  reservoir: null,
});

const axleWith = (shocks: Shock[], more: Partial<Axle> = {}): Axle =>
  plainAxle([...parallelLinks(LONG), trackBar(LONG)], {
    shocks,
    coils: shocks.map(({ name, side, axle, chassis }) => ({
      name: `${name} coil`,
      side,
      axle,
      chassis,
      free: 600,
      rate: 30,
      wire: null,
      turns: null,
      diameter: null,
      solid: null,
    })),
    ...more,
  });

test('length by Pythagoras, share of the stroke from the longest down', () => {
  const context = new Vehicle(axleWith([shock('left shock', 600, 120, 90)])).at(60, 60);
  const length = Math.hypot(120, 90, 440);
  expect(read(context, 'shockLength', { part: 'left shock' })).toBeCloseTo(length, 4);
  expect(read(context, 'coilLength', { part: 'left shock coil' })).toBeCloseTo(length, 4);
  expect(read(context, 'shockStrokeShare', { part: 'left shock' })).toBeCloseTo(
    (700 - length) / 300,
    6,
  );
});

test('both wheels: cosine of the lean; crossed: times the spacing over the track of the wheels', () => {
  const ride = new Vehicle(
    axleWith([shock('left shock', 600, 150, 0), shock('right shock', -450, 0, 0)]),
  ).at(0, 0);
  const cos = 500 / Math.hypot(500, 150);
  const ratio = (id: string, part: string): number => read(ride, id, { part });
  expect(ratio('shockMotionRatio', 'left shock')).toBeCloseTo(cos, 9);
  expect(ratio('coilMotionRatio', 'left shock coil')).toBeCloseTo(cos, 9);
  expect(ratio('shockMotionRatio', 'right shock')).toBeCloseTo(1, 9);
  // upright, 450 from the middle, wheels 1600 apart: 2 × 450/1600 of its own wheel's travel
  expect(ratio('shockMotionRatioCrossed', 'right shock')).toBeCloseTo(900 / 1600, 9);
  expect(ratio('coilMotionRatioCrossed', 'right shock coil')).toBeCloseTo(900 / 1600, 9);
});

test('crossed: moment about the roll axis, for a leaning one', () => {
  const ride = new Vehicle(axleWith([shock('left shock', 600, 150, 0)])).at(0, 0);
  // dL = u · (dφ X × r), r from the roll center: the level track bar, 500 up, in the middle
  const size = Math.hypot(500, 150);
  const [uy, uz] = [150 / size, -500 / size];
  const [ry, rz] = [600, -100];
  const byRoll = uy * -rz + uz * ry;
  expect(read(ride, 'shockMotionRatioCrossed', { part: 'left shock' })).toBeCloseTo(
    (-byRoll * 2) / 1600,
    6,
  );
});

test('in the middle of the vehicle there is no own side', () => {
  const ride = new Vehicle(axleWith([shock('middle shock', 0, 0, 0)])).at(0, 0);
  expect(readingOf(ride, 'shockMotionRatioCrossed', { part: 'middle shock' })).toEqual({
    missing: expect.stringContaining('side'),
  });
  expect(read(ride, 'shockMotionRatio', { part: 'middle shock' })).toBeCloseTo(1, 9);
});

test('ram stroke of an arm of 150 turned 35° each way by a long ram: 2 r sin δ = 172.073', () => {
  const ram = {
    name: 'ram',
    kind: 'single' as const,
    body: { on: 'axle' as const, at: [150, 700 - 1e5, 450] as const, diameter: null },
    axis: null,
    rod: { on: 'left knuckle' as const, at: [150, 700, 450] as const },
    closed: 1e5 - 100,
    stroke: 200,
    bore: null,
    rodDiameter: null,
  };
  const axle = axleWith([], {
    steering: {
      ...plainSteering(
        rod('drag link', ['pitman arm', [150, 2300, 500]], ['right knuckle', [150, -700, 500]]),
      ),
      rams: [ram],
    },
  });
  const vehicle = new Vehicle(axle);
  const turned = (wanted: number) => {
    let input = rad(wanted);
    for (let i = 0; i < 30; i++) {
      const turn = vehicle.pose(0, 0, input).knuckleTurn('left') as number;
      input -= turn - rad(wanted);
    }
    return vehicle.at(0, 0, input);
  };
  const [left, right] = [turned(35), turned(-35)];
  const length = (c: typeof left): number => read(c, 'ramLength', { part: 'ram' });
  // the end goes 35 % of the way round its circle: off the ram's line by r (1 − cos δ), 27² / 2e5 = 0.004
  expect(length(left) - length(right)).toBeCloseTo(172.073, 1);
  expect(read(vehicle.at(0, 0), 'ramStrokeShare', { part: 'ram' })).toBeCloseTo(0.5, 9);
  expect(
    read(left, 'ramStrokeShare', { part: 'ram' }) - read(right, 'ramStrokeShare', { part: 'ram' }),
  ).toBeCloseTo(172.073 / 200, 3);
});
