/** Outer meshes: against closed forms of volume, and by what they hold and how near they stay. */
import { describe, expect, test } from 'vitest';
import { box } from '../../geometry/solid/box.ts';
import { capsule } from '../../geometry/solid/capsule.ts';
import { hull } from '../../geometry/solid/hull.ts';
import { mesh } from '../../geometry/solid/mesh.ts';
import { outerMesh } from '../../geometry/solid/outerMesh.ts';
import { placement } from '../../geometry/solid/placement.ts';
import { readStl } from '../../geometry/solid/readStl.ts';
import type { Made, Solid } from '../../geometry/solid/solid.ts';
import { sphere } from '../../geometry/solid/sphere.ts';
import { writeStl } from '../../geometry/solid/writeStl.ts';
import { turnsAround, volumeOf } from './enclosed.ts';

const solidOf = (made: Made): Solid => {
  if ('problem' in made) throw new Error(made.problem);
  return made.solid;
};

const UP = [1, 0, 0, 0, 1, 0, 0, 0, 1];
const shifted = (x: number, y = 0, z = 0) => placement(UP, [x, y, z]);

describe('a ball that moves along a line sweeps a capsule', () => {
  const ball = solidOf(sphere({ center: [1, 2, 3], radius: 1.5 }));
  // every 0.02 in: scallops between them are 0.02²/(8 · 1.5) = 3e-5 in deep
  const placements = Array.from({ length: 301 }, (_, k) => shifted(0.02 * k, 0.01 * k));
  const length = Math.hypot(6, 3);

  test.each([0.4, 0.2, 0.1])('with a step of %s in', step => {
    const { tolerance, ...swept } = outerMesh(ball, placements, { step, reach: 0 });
    expect(tolerance).toBeCloseTo(step * Math.sqrt(3), 12);
    // f is sharp there: the mesh stands at c = h √3 / 2 around it, and its flat triangles cut inside by h²/8r at most
    const r = 1.5 + (step * Math.sqrt(3)) / 2;
    const wanted = Math.PI * r * r * length + (4 / 3) * Math.PI * r ** 3;
    const volume = volumeOf(swept);
    expect(volume).toBeLessThan(wanted * 1.001);
    expect(volume).toBeGreaterThan(wanted * (1 - (3 * step ** 2) / (2 * r * r)));
  });
});

test('a box that moves along its axis sweeps a longer one, all within the tolerance', () => {
  const block = solidOf(
    box({ center: [0, 0, 0], half: [1, 2, 0.5], axes: [1, 0, 0, 0, 1, 0, 0, 0, 1] }),
  );
  const placements = Array.from({ length: 41 }, (_, k) => shifted(0.1 * k));
  const step = 0.15;
  // neighbors are 0.1 apart: half of that is held as well
  const { tolerance, ...swept } = outerMesh(block, placements, { step, reach: 0.05 });
  const { positions } = swept;
  let [least, most] = [Number.POSITIVE_INFINITY, 0];
  for (let i = 0; i < positions.length; i += 3) {
    const [x = 0, y = 0, z = 0] = positions.subarray(i, i + 3);
    const off = Math.hypot(
      Math.max(0, -1 - x, x - 5),
      Math.max(0, Math.abs(y) - 2),
      Math.max(0, Math.abs(z) - 0.5),
    );
    most = Math.max(most, off);
    least = Math.min(least, off);
  }
  expect(most).toBeLessThan(tolerance);
  expect(least).toBeGreaterThan(0.05);
  // corners of what it sweeps, and the middle of one between two placements
  for (const corner of [
    [-1, -2, -0.5],
    [5, 2, 0.5],
    [2.05, 2, 0.5],
  ] as const) {
    expect(turnsAround(swept, corner)).toBeCloseTo(1, 6);
  }
  expect(turnsAround(swept, [6, 0, 0])).toBeCloseTo(0, 6);
});

test('hulls and meshes are swept too; the mesh closes and its corners go round from outside', () => {
  const points: [number, number, number][] = [
    [0, 0, 0],
    [2, 0, 0],
    [0, 2, 0],
    [0, 0, 2],
  ];
  const wedge = solidOf(hull({ points, radius: 0.1 }));
  const surface = solidOf(
    mesh({
      positions: Float64Array.from(points.flat()),
      triangles: Uint32Array.from([0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3]),
    }),
  );
  for (const solid of [wedge, surface]) {
    const swept = outerMesh(solid, [shifted(0), shifted(0.2)], { step: 0.2, reach: 0.1 });
    // a closed mesh reads as one, and its volume is positive only where its corners go round rightly
    const made = mesh(swept);
    expect('solid' in made && made.solid.mesh?.closed).toBe(true);
    expect(volumeOf(swept)).toBeGreaterThan((2 ** 3 / 6) * 1.2);
    for (const point of points) expect(turnsAround(swept, point)).toBeCloseTo(1, 6);
  }
});

test('with more points than allowed the step is longer, and the tolerance says so', () => {
  const rod = solidOf(capsule({ from: [0, 0, 0], to: [10, 0, 0], radius: 1 }));
  const swept = outerMesh(rod, [shifted(0)], { step: 0.05, reach: 0, mostPoints: 20_000 });
  expect(swept.tolerance).toBeGreaterThan(0.05 * Math.sqrt(3) * 1.5);
  expect(turnsAround(swept, [10.99, 0, 0])).toBeCloseTo(1, 6);
});

test('written as STL and read again it is the same, to single precision', () => {
  const rod = solidOf(capsule({ from: [0, 0, 0], to: [10, 0, 0], radius: 1 }));
  const swept = outerMesh(rod, [shifted(0)], { step: 0.3, reach: 0 });
  const bytes = writeStl(swept, 'solid or not', 25.4);
  expect(String.fromCharCode(...bytes.subarray(0, 21))).toBe('axlewalk solid or not');
  const read = readStl(bytes);
  if ('problem' in read) throw new Error(read.problem);
  const count = swept.triangles.length;
  let worst = 0;
  expect(read.mesh.triangles).toHaveLength(count);
  for (let i = 0; i < count; i++) {
    const [v, w] = [swept.triangles[i] as number, read.mesh.triangles[i] as number];
    for (let axis = 0; axis < 3; axis++) {
      const wanted = 25.4 * (swept.positions[3 * v + axis] as number);
      worst = Math.max(worst, Math.abs((read.mesh.positions[3 * w + axis] as number) - wanted));
    }
  }
  // single precision: 24 bits of numbers up to 300
  expect(worst).toBeLessThan(2e-5);
});
