/** Mechanical trail and scrub radius by plane geometry (derived, computed apart from this project; mm). */
import { expect, test } from 'vitest';
import type { Axle, Vec3 } from '../../geometry/build/build.ts';
import { LONG, leaning, parallelLinks, plainAxle, rad, read, trackBar } from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

test('axis through (y 700, z 300), inclination 8°, wheel plane at 800: scrub 57.838', () => {
  const knuckle = (side: 'left' | 'right') => {
    const out = side === 'left' ? 1 : -1;
    const at = (z: number): Vec3 => [0, out * (700 - (z - 300) * Math.tan(rad(8))), z];
    return {
      side,
      kingpin: { lower: at(300), upper: at(600) },
      toe: 0,
      camber: 0,
      shaftJoint: null,
      shaftLimit: null,
      steeringStop: { inward: null, outward: null },
    };
  };
  const axle: Axle = plainAxle([...parallelLinks(LONG), trackBar(LONG)], {
    knuckles: { left: knuckle('left'), right: knuckle('right') },
  });
  const ride = new Vehicle(axle).at(0, 0);
  for (const side of ['left', 'right'] as const) {
    expect(read(ride, 'scrubRadius', { side })).toBeCloseTo(57.838, 3);
    expect(read(ride, 'mechanicalTrail', { side })).toBeCloseTo(0, 9);
  }
});

test('axis through the wheel center, radius 450, caster 6°: trail 47.297', () => {
  const axle = leaning(6, 0);
  const ride = new Vehicle({ ...axle, tire: { ...axle.tire, loadedRadius: 450 } }).at(0, 0);
  for (const side of ['left', 'right'] as const) {
    expect(read(ride, 'mechanicalTrail', { side })).toBeCloseTo(47.297, 3);
    expect(read(ride, 'scrubRadius', { side })).toBeCloseTo(0, 9);
  }
});

test('a wheel turned by τ about an upright axis: its trace turns with it, trail and scrub stay', () => {
  const axle = plainAxle([...parallelLinks(LONG), trackBar(LONG)]);
  const vehicle = new Vehicle(axle);
  for (const input of [-0.5, 0.35]) {
    const context = vehicle.at(0, 0, input);
    for (const side of ['left', 'right'] as const) {
      // kingpin 100 inboard of the wheel center, which goes round it
      expect(read(context, 'scrubRadius', { side })).toBeCloseTo(100, 9);
      expect(read(context, 'mechanicalTrail', { side })).toBeCloseTo(0, 9);
    }
  }
});

test('a cambered wheel touches where its plane meets the ground: scrub changes by r tan γ', () => {
  const axle = plainAxle([...parallelLinks(LONG), trackBar(LONG)]);
  const cambered = {
    ...axle,
    knuckles: axle.knuckles && {
      left: { ...axle.knuckles.left, camber: rad(2) },
      right: { ...axle.knuckles.right, camber: rad(2) },
    },
  };
  const ride = new Vehicle(cambered).at(0, 0);
  for (const side of ['left', 'right'] as const) {
    expect(read(ride, 'scrubRadius', { side })).toBeCloseTo(100 - 500 * Math.tan(rad(2)), 9);
  }
});
