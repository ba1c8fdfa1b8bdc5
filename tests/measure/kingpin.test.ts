/** Caster and kingpin inclination: projected angles of the axis as drawn, and as the axle moves (derived). */
import { expect, test } from 'vitest';
import { longArms } from '../pose/layouts.ts';
import { deg, leaning, rad, read } from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

const SIDES = ['left', 'right'] as const;

test('as drawn both are the projected angles of the axis, alike on both sides', () => {
  const ride = new Vehicle(leaning(6, 10)).at(0, 0);
  for (const side of SIDES) {
    expect(deg(read(ride, 'caster', { side }))).toBeCloseTo(6, 12);
    expect(deg(read(ride, 'kingpinInclination', { side }))).toBeCloseTo(10, 12);
  }
});

test('the worked front: joints (0.42, 30.8, 16) and (−0.42, 29.6, 24)', () => {
  const ride = new Vehicle(longArms()).at(0, 0);
  for (const side of SIDES) {
    expect(read(ride, 'caster', { side })).toBeCloseTo(Math.atan(0.84 / 8), 12);
    expect(read(ride, 'kingpinInclination', { side })).toBeCloseTo(Math.atan(1.2 / 8), 12);
  }
});

test('a pure roll leaves both alone where caster is zero, and an upright axis has neither', () => {
  const context = new Vehicle(leaning(0, 10)).at(100, -100);
  for (const side of SIDES) {
    // the arcs of links 1e8 long turn the axle by up to 1e-7
    expect(deg(read(context, 'kingpinInclination', { side }))).toBeCloseTo(10, 6);
    expect(read(context, 'caster', { side })).toBeCloseTo(0, 6);
  }
});

test('steering turns neither: the axis rides on the axle', () => {
  const vehicle = new Vehicle(leaning(6, 10));
  for (const id of ['caster', 'kingpinInclination']) {
    for (const side of SIDES) {
      expect(read(vehicle.at(40, -30, rad(20)), id, { side })).toBe(
        read(vehicle.at(40, -30), id, { side }),
      );
    }
  }
});
