/** Twist of bushings: the swing of a link about its bolt, by arcs (derived). */
import { expect, test } from 'vitest';
import type { Axle, Vec3 } from '../../geometry/build/build.ts';
import { anySquare, cross, dot, sub, unit, type V3 } from '../../geometry/vector.ts';
import { radiusArms, rates } from '../pose/families.ts';
import { link } from '../pose/layouts.ts';
import { LONG, parallelLinks, plainAxle, read, readingOf, trackBar } from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

const RATE = 900;

function bushed(bolt: Vec3 | null, more: Partial<Axle> = {}): Axle {
  const made = link('left lower link', [0, 500, 400], [-1000, 500, 400]);
  const bushing = { kind: 'bushing' as const, bolt, rates: rates({ torsional: RATE }) };
  const lower = {
    ...made,
    axle: { ...made.axle, ...bushing },
    chassis: { ...made.chassis, ...bushing },
  };
  const rest = parallelLinks(1000).filter(l => l.name !== lower.name);
  return plainAxle([lower, ...rest, trackBar(LONG)], more);
}

test('a level link of 1000, axle up by z: rate × asin(z/1000) at both ends', () => {
  const vehicle = new Vehicle(bushed([0, 1, 0]));
  for (const z of [-120, 60]) {
    const context = vehicle.at(z, z);
    for (const end of ['axle', 'chassis']) {
      // front end up turns about Y to the left the negative way: the link runs back to its frame
      expect(read(context, 'torsionalMoment', { part: `left lower link.${end}` })).toBeCloseTo(
        RATE * Math.asin(z / 1000) * -1,
        3,
      );
    }
  }
});

test('a bolt that leans: what is seen along it, in a plane square to it', () => {
  const b = unit([0.3, 0.9, 0.25]);
  const [e1, e2] = [anySquare(b), cross(b, anySquare(b))];
  const seen = (u: V3): number => Math.atan2(dot(u, e2), dot(u, e1));
  const context = new Vehicle(bushed(b)).at(110, 110);
  const { pose } = context;
  const line = sub([-1000, 500, 400], pose.point('axle', [0, 500, 400]));
  expect(read(context, 'torsionalMoment', { part: 'left lower link.chassis' })).toBeCloseTo(
    RATE * (seen(line) - seen([-1, 0, 0])),
    6,
  );
});

test('the bolt has no sense of its own', () => {
  const at = (bolt: Vec3): number =>
    read(new Vehicle(bushed(bolt)).at(60, 60), 'torsionalMoment', {
      part: 'left lower link.axle',
    });
  expect(at([0, -1, 0])).toBe(at([0, 1, 0]));
});

test('joints without a torsional rate are no targets, and without a bolt say so', () => {
  const ride = new Vehicle(bushed(null)).at(0, 0);
  expect(readingOf(ride, 'torsionalMoment', { part: 'left lower link.axle' })).toEqual({
    missing: expect.stringContaining('bolt'),
  });
});

test('a radius arm twists its bushings by the turn between arm and bracket', () => {
  const vehicle = new Vehicle(radiusArms({ torsional: RATE }));
  const context = vehicle.at(3, 3);
  const moment = (end: string): number =>
    read(context, 'torsionalMoment', { part: `left radius arm.${end}` });
  const ride = vehicle.at(0, 0);
  expect(read(ride, 'torsionalMoment', { part: 'left radius arm.chassis' })).toBeCloseTo(0, 6);
  // rigid to the axle but for its bushings' give: the frame end turns, the axle ends hardly
  expect(Math.abs(moment('chassis'))).toBeGreaterThan(20 * Math.abs(moment('axle front')));
});
