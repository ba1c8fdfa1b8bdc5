import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bentTube } from '../../geometry/solid/bentTube.ts';
import { box } from '../../geometry/solid/box.ts';
import { capsule } from '../../geometry/solid/capsule.ts';
import { cylinder } from '../../geometry/solid/cylinder.ts';
import { DistanceSolver } from '../../geometry/solid/distance.ts';
import { hull } from '../../geometry/solid/hull.ts';
import { type Placement, placement, unmoved } from '../../geometry/solid/placement.ts';
import { type Made, moveRod, type Solid } from '../../geometry/solid/solid.ts';
import { sphere } from '../../geometry/solid/sphere.ts';
import { tire } from '../../geometry/solid/tire.ts';
import { solidIn } from './made.ts';

const solver = new DistanceSolver();
const here = unmoved();

function gapOf(a: Made, b: Made, placeB: Placement = here) {
  solver.run(solidIn(a), here, solidIn(b), placeB);
  const gap = solver.result();
  if (gap === null) throw new Error('beyond');
  return gap;
}

const at = (x: number, y: number, z: number) => placement([1, 0, 0, 0, 1, 0, 0, 0, 1], [x, y, z]);

describe('gaps in closed form', () => {
  // by hand
  const rod = capsule({ from: [0, 0, 0], to: [10, 0, 0], radius: 1 });
  const wheel = tire({ center: [0, 0, 0], axis: [0, 2, 0], diameter: 40, width: 12, shoulder: 2 });
  const roller = tire({ center: [0, 0, 0], axis: [0, 1, 0], diameter: 20, width: 60, shoulder: 2 });
  const block = box({ center: [0, 0, 0], half: [3, 2, 1] });
  const can = cylinder({ from: [0, 0, 0], to: [0, 0, 4], radius: 2 });
  const ball = sphere({ center: [0, 0, 0], radius: 1 });
  const wedge = hull({
    points: [
      [0, 0, 0],
      [4, 0, 0],
      [0, 4, 0],
      [0, 0, 4],
    ],
  });
  const cases: [string, Made, Made, Placement, number][] = [
    ['balls, apart', ball, ball, at(3, 4, 0), 3],
    ['balls, one center', ball, ball, here, -2],
    [
      'crossing rods that touch',
      rod,
      capsule({ from: [5, -3, 2], to: [5, 3, 2], radius: 1 }),
      here,
      0,
    ],
    ['rods on one line', rod, rod, at(4, 0, 0), -2],
    ['boxes, face to face', block, block, at(6.5, 1, 0), 0.5],
    ['boxes, corner to corner', block, block, at(7, 6, 4), 3],
    ['boxes, faces that touch', block, block, at(0, 4, 0.5), 0],
    ['boxes, one in the other: the way out is the shortest', block, block, here, -2],
    ['box overlapped by a quarter', block, block, at(5.75, 0, 0), -0.25],
    ['ball over a corner of a box', ball, block, at(-4, -4, -3), 2],
    ['ball in a box', ball, block, at(0, 0, 0.25), -1.75],
    ['cylinders on one axis, end to end', can, can, at(0, 0, 5), 1],
    ['cylinders side by side', can, can, at(3, 4, 1), 1],
    ['a cylinder in itself', can, can, here, -4],
    [
      'rod through a cylinder, along its axis',
      can,
      capsule({ from: [0, 0, -9], to: [0, 0, 9], radius: 0.5 }),
      here,
      -2.5,
    ],
    ['tire over a flat bar', wheel, box({ center: [0, 0, 30], half: [5, 5, 1] }), here, 9],
    [
      'tire and a box at its shoulder',
      wheel,
      box({ center: [0, 10, 25], half: [1, 1, 1] }),
      here,
      Math.hypot(5, 6) - 2,
    ],
    ['tire and tire, tread to tread', wheel, wheel, at(0, 3, 41), 1],
    ['tire and tire, side by side', wheel, wheel, at(3, 13, 0), 1],
    // wider than high, so that they come apart sideways: a ring of directions is equally short, or nearly so
    ['rollers on one axis', roller, roller, here, -20],
    ['rollers a thousandth off one axis', roller, roller, at(0.001, 0, 0), -19.999],
    ['rollers on parallel axes', roller, roller, at(1, 5, 2), Math.sqrt(5) - 20],
    ['rollers that come apart at their ends', roller, roller, at(3, 55, 0), -5],
    ['hull and ball over its slanted face', wedge, ball, at(4, 4, 4), 8 / Math.sqrt(3) - 1],
    ['hull and ball at its corner', wedge, ball, at(7, 0, 0), 2],
  ];
  it.each(cases)('%s', (_, a, b, placeB, want) => {
    const found = gapOf(a, b, placeB);
    // bounds of the search meet within 1e-9
    expect(Math.abs(found.gap - want)).toBeLessThan(2e-9);
    expect(Math.abs(gapOf(b, a, inverseOf(placeB)).gap - want)).toBeLessThan(2e-9);
  });

  it('say where along each part they lie', () => {
    expect(gapOf(rod, sphere({ center: [2.5, 4, 0], radius: 1 }))).toMatchObject({
      alongA: 0.25,
      alongB: null,
    });
    const bent = bentTube({
      points: [
        [0, 0, 0],
        [6, 0, 0],
        [6, 4, 0],
      ],
      radius: 0.5,
    });
    const found = gapOf(bent, sphere({ center: [9, 2, 0], radius: 1 }));
    expect(found.gap).toBeCloseTo(1.5, 14);
    // 6 in and half of 4 in, of 10 in
    expect(found.alongA).toBeCloseTo(0.8, 14);
    expect(gapOf(can, box({ center: [5, 0, 3], half: [1, 9, 0.25] })).alongA).toBeGreaterThan(0.68);
    expect(gapOf(block, wheel, at(0, 40, 0))).toMatchObject({ alongA: null, alongB: null });
  });
});

/** Of a shift. */
function inverseOf(place: Placement): Placement {
  return at(-(place[9] as number), -(place[10] as number), -(place[11] as number));
}

describe('shapes', () => {
  it.each([
    [sphere({ center: [0, 0, 0], radius: 0 }), 'radius is 0; it must be above 0'],
    [
      sphere({ center: [0, Number.NaN, 0], radius: 1 }),
      'center[1] is NaN; it must be a finite number',
    ],
    [sphere({ center: [0, 0], radius: 1 }), 'center has 2 numbers; a point has 3'],
    [capsule({ from: [0, 0, 0], to: [1, 0, 0], radius: -1 }), 'radius is -1; it must be above 0'],
    [
      capsule({ from: [0, 0, 0], to: [1e7, 0, 0], radius: 1 }),
      'to[0] is 10000000; at most 1000000 in from the origin is possible',
    ],
    [bentTube({ points: [[0, 0, 0]], radius: 1 }), 'points has 1 points; a tube needs 2 or more'],
    [box({ center: [0, 0, 0], half: [1, 0, 1] }), 'half[1] is 0; it must be above 0'],
    [
      box({ center: [0, 0, 0], half: [1, 1, 1], axes: [1, 0, 0, 0, 1, 0, 0, 0, 2] }),
      'the axes of the box are not square to each other and of length 1',
    ],
    [
      box({ center: [0, 0, 0], half: [1, 1, 1], axes: [1, 0, 0, 0, 1, 0, 0, 0, -1] }),
      'the axes of the box are left-handed; they must be right-handed',
    ],
    [
      cylinder({ from: [1, 2, 3], to: [1, 2, 3], radius: 1 }),
      'the length from `from` to `to` is 0; it must be above 0',
    ],
    [
      tire({ center: [0, 0, 0], axis: [0, 0, 0], diameter: 40, width: 12, shoulder: 2 }),
      'the length of axis is 0; it must be above 0',
    ],
    [
      tire({ center: [0, 0, 0], axis: [0, 1, 0], diameter: 40, width: 12, shoulder: 7 }),
      'shoulder is 7; at most half the width and half the diameter, 6, fits',
    ],
    [
      tire({
        center: [0, 0, 0],
        axis: [0, 1, 0],
        diameter: Number.POSITIVE_INFINITY,
        width: 12,
        shoulder: 2,
      }),
      'diameter is Infinity; it must be a finite length',
    ],
    [
      hull({
        points: [
          [0, 0, 0],
          [1, 0, 0],
        ],
      }),
      'points has 2 points; a hull needs 3 or more',
    ],
    [
      hull({
        points: [
          [1, 2, 3],
          [1, 2, 3],
          [1, 2, 3],
        ],
      }),
      'points are all the same point; a hull needs an extent',
    ],
  ])('with a bad number say which: %#', (made, problem) => {
    expect(made).toEqual({ problem });
  });

  it('lie in the spheres around them', () => {
    const solid = solidIn(
      bentTube({
        points: [
          [0, 0, 0],
          [6, 0, 0],
          [6, 4, 0],
        ],
        radius: 0.5,
      }),
    );
    expect(solid.pieces.map(({ from, to }) => [from, to])).toEqual([
      [0, 0.6],
      [0.6, 1],
    ]);
    for (const { bound } of solid.pieces) {
      const away = Math.hypot(
        ...[0, 1, 2].map(i => (bound[i] as number) - (solid.bound[i] as number)),
      );
      expect(away + (bound[3] as number)).toBeLessThan((solid.bound[3] as number) + 1e-12);
    }
  });

  it('survive being sent to a worker', () => {
    const solids = [
      tire({ center: [0, 0, 0], axis: [0, 1, 0], diameter: 40, width: 12, shoulder: 2 }),
      box({ center: [0, 0, 30], half: [5, 5, 1] }),
    ].map(each => structuredClone(solidIn(each))) as [Solid, Solid];
    solver.run(solids[0], here, solids[1], here);
    expect(solver.gap).toBeCloseTo(9, 9);
  });

  it('a rod is moved in place', () => {
    const rod = solidIn(
      bentTube({
        points: [
          [0, 0, 0],
          [6, 0, 0],
          [6, 4, 0],
        ],
        radius: 0.5,
      }),
    );
    moveRod(rod, [0, 0, 1, 6, 0, 1, 6, 4, 1]);
    const ball = solidIn(sphere({ center: [0, 0, 0], radius: 1 }));
    moveRod(ball, [3, 0, 4]);
    solver.run(rod, here, ball, here);
    expect(solver.gap).toBeCloseTo(1.5, 14);
    expect(rod.bound[2]).toBeCloseTo(1, 14);
    expect([...ball.bound]).toEqual([3, 0, 4, 1]);
  });

  it('a hull keeps its corners alone, and knows its largest ball', () => {
    const points: number[][] = [];
    for (let i = 0; i <= 4; i++) {
      for (let j = 0; j <= 4; j++) {
        for (let k = 0; k <= 4; k++) points.push([i, 2 * j, 3 * k]);
      }
    }
    const piece = solidIn(hull({ points })).pieces[0];
    expect(piece?.count).toBe(8);
    expect(piece?.inner[3]).toBeCloseTo(2, 7);
    expect(piece?.inner[0]).toBeCloseTo(2, 6);
    const flat = solidIn(
      hull({
        points: [
          [0, 0, 0],
          [2, 0, 0],
          [2, 2, 0],
          [0, 2, 0],
          [1, 1, 0],
        ],
        radius: 0.25,
      }),
    );
    expect(flat.pieces[0]?.count).toBe(4);
    expect(flat.pieces[0]?.inner[3]).toBeCloseTo(0.25, 9);
  });
});

describe('whatever the numbers', () => {
  const coordinate = fc.oneof(
    { weight: 10, arbitrary: fc.integer({ min: -3, max: 3 }) },
    { weight: 10, arbitrary: fc.double({ min: -1e3, max: 1e3, noNaN: true }) },
    { weight: 5, arbitrary: fc.constantFrom(0, -0, 1e-12, -1e-7, 1e5) },
    { weight: 1, arbitrary: fc.double() },
  );
  const size = fc.oneof(
    { weight: 10, arbitrary: fc.integer({ min: 1, max: 4 }) },
    { weight: 10, arbitrary: fc.double({ min: 1e-6, max: 50, noNaN: true }) },
    { weight: 1, arbitrary: fc.double() },
  );
  const point = fc.tuple(coordinate, coordinate, coordinate);
  const shape: fc.Arbitrary<Made> = fc.oneof(
    fc.record({ center: point, radius: size }).map(sphere),
    fc.record({ from: point, to: point, radius: size }).map(capsule),
    fc
      .record({ points: fc.array(point, { minLength: 1, maxLength: 5 }), radius: size })
      .map(bentTube),
    fc.record({ center: point, half: fc.tuple(size, size, size) }).map(box),
    fc.record({ from: point, to: point, radius: size }).map(cylinder),
    fc
      .record({ center: point, axis: point, diameter: size, width: size, shoulder: size })
      .map(tire),
    fc.record({ points: fc.array(point, { minLength: 2, maxLength: 8 }), radius: size }).map(hull),
  );

  it('there is a message or a finite gap, never NaN and nothing thrown', () => {
    let gaps = 0;
    fc.assert(
      fc.property(shape, shape, point, (a, b, shift) => {
        if ('problem' in a || 'problem' in b) return;
        if (!shift.every(each => Math.abs(each) < 1e6)) return;
        solver.run(a.solid, here, b.solid, at(...shift));
        gaps++;
        const numbers = [solver.gap, ...solver.pointA, ...solver.pointB, ...solver.normal];
        expect(numbers.every(Number.isFinite), `${numbers}`).toBe(true);
      }),
      { seed: 1, numRuns: 3000 },
    );
    expect(gaps).toBeGreaterThan(500);
  });
});
