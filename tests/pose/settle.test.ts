import { describe, expect, test } from 'vitest';
import type { Axle, Link, Vec3 } from '../../geometry/build/build.ts';
import type { Problem } from '../../geometry/build/problem.ts';
import { assemble } from '../../geometry/mechanism/assemble.ts';
import { settle } from '../../geometry/pose/model.ts';
import { adjusted, FAMILIES, radiusArm, radiusArms, rear, triangulated } from './families.ts';
import { front, frontSteering, link, longArms, modelOf, rod, shortArms } from './layouts.ts';
import { STEERINGS } from './steerings.ts';
import { distance, Elastic, isExact, lengthsOf, residual } from './witness.ts';

function refusal(axle: Axle): Problem {
  const assembly = assemble(axle);
  if (!assembly.ok) throw new Error(`refused before it was settled: ${assembly.problems[0]?.path}`);
  const settled = settle(assembly.mechanism);
  if (settled.ok) throw new Error('not refused');
  const [problem] = settled.problems;
  if (!problem || settled.problems.length !== 1) throw new Error('not one problem');
  return problem;
}

const lowers = (): Link[] => longArms().links.slice(0, 2);
const trackBar = (): Link => longArms().links[3] as Link;
const upper = (): Link => longArms().links[2] as Link;

describe('a motion that nothing holds is named', () => {
  test.each([
    ['no links', [], /nothing locates the axle/],
    ['no upper link', [...lowers(), trackBar()], /pitch \(pinion up and down\)/],
    ['no track bar', [...lowers(), upper()], /sideways/],
    [
      'one lower link in the middle',
      [link('lower link', [-1.5, 0, 16.5], [-38, 0, 22]), upper(), trackBar()],
      /yaw/,
    ],
    [
      'two lower links alone',
      lowers(),
      /free to move sideways; and in pitch|in pitch \(.*\); and sideways/,
    ],
  ] as [string, Link[], RegExp][])('%s', (_, links, motion) => {
    const problem = refusal(front(links));
    expect(problem.path).toBe('axles["front"].links');
    expect(problem.found).toBe(`${links.length} lengths that locate the axle`);
    expect(problem.message).toMatch(motion);
  });

  test('four links that are all parallel', () => {
    const links = [
      ...lowers(),
      link('left upper link', [-1, 15, 27], [-37.5, 13, 32.5]),
      link('right upper link', [-1, -15, 27], [-37.5, -13, 32.5]),
    ].map((l, i): Link => {
      const by: Vec3 = [-36.5, 0, 5.5];
      const at = l.axle.at;
      return {
        ...l,
        name: `link ${i}`,
        chassis: { ...l.chassis, at: [at[0] + by[0], at[1], at[2] + by[2]] },
      };
    });
    const problem = refusal(front(links));
    expect(problem.message).toMatch(/free to move sideways at ride height/);
    expect(problem.wanted).not.toBe('');
  });

  test('links that all meet the axle’s own line leave it free to turn about it', () => {
    const to = (name: string, y: number, chassis: Vec3): Link => link(name, [0, y, 20], chassis);
    const problem = refusal(
      front([
        to('a', 17, [-30, 15, 21]),
        to('b', -17, [-30, -15, 21]),
        to('c', 10, [-25, 14, 26]),
        to('d', -12, [3, 18, 24]),
      ]),
    );
    expect(problem.message).toMatch(/free to move in pitch \(pinion up and down\) at ride height/);
  });

  test('five lengths may be as free as four', () => {
    const lower = (y: number): Link => link(`lower link ${y}`, [-1.5, y, 16.5], [-38, y, 22]);
    const five = [lower(17.5), lower(12), lower(-12), lower(-17.5), trackBar()];
    expect(refusal(front(five)).message).toMatch(/pitch/);
  });

  test('a radius arm whose joints are in line rolls about its own line', () => {
    const arm = radiusArm('left', { conical: null });
    const inLine = (t: number): Vec3 => [3.5 - 36.5 * t, 17 - 2 * t, 19 + 4 * t];
    const straight = {
      ...arm,
      axle: [
        { ...arm.axle[0], at: inLine(0) },
        { ...arm.axle[1], at: inLine(0.2) },
      ] as typeof arm.axle,
      chassis: { ...arm.chassis, at: inLine(1) },
    };
    const axle = { ...radiusArms(), radiusArms: [straight, radiusArm('right')] };
    expect(refusal(axle).message).toMatch(/a radius arm can roll about its own line/);
    // its bushings' conical rates hold it
    const held = (e: typeof arm.chassis) => ({ ...e, rates: { ...e.rates, conical: 40_000 } });
    const firm = {
      ...straight,
      axle: [held(straight.axle[0]), held(straight.axle[1])] as typeof arm.axle,
    };
    expect(modelOf({ ...axle, radiusArms: [firm, radiusArm('right')] }).pose(3, -3).status).toBe(
      'solved',
    );
  });

  test('radius arms without a track bar', () => {
    // on stiff bushings: sideways only their axial and conical rates are left, six orders under
    const soft = { radial: 1e9, axial: 1e-2, conical: 1e-3 };
    const problem = refusal({ ...radiusArms(soft), links: [] });
    expect(problem.path).toBe('axles["front"].links');
    expect(problem.message).toMatch(/sideways/);
  });

  test('a link of no length, or with no number, is refused without a NaN', () => {
    for (const at of [
      [-38, 15.5, 22],
      [Number.NaN, 0, 0],
      [Infinity, 0, 0],
    ] as Vec3[]) {
      const axle = front([
        link('left lower link', at, [-38, 15.5, 22]),
        ...longArms().links.slice(1),
      ]);
      const problem = refusal(axle);
      expect(JSON.stringify(problem)).not.toMatch(/NaN|undefined|null/);
      expect(problem.message).toMatch(/left lower link/);
    }
  });
});

describe('rank', () => {
  test('is four for every family, and the least value is well off', () => {
    for (const [name, make] of Object.entries(FAMILIES)) {
      const { rank } = modelOf(make());
      expect(rank.values.length, name).toBe(4);
      expect((rank.values[3] as number) / (rank.values[0] as number), name).toBeGreaterThan(0.01);
    }
  });

  test('is refused under 1e-6 of the largest value, and kept above', () => {
    // the upper link as far above the lower ones' plane as decides: its moment about them is what holds pitch
    const at = (h: number): Axle =>
      front([
        link('left lower link', [-1.5, 17.5, 16.5], [-38, 17.5, 16.5]),
        link('right lower link', [-1.5, -17.5, 16.5], [-38, -17.5, 16.5]),
        link('upper link', [-1.5, 0, 16.5 + h], [-38, 0, 16.5 + h]),
        link('track bar', [3.5, -20.5, 25], [4, 18, 25]),
      ]);
    // least value ≈ h √(2/3) / 35.5 of about √3
    expect(refusal(at(5e-5)).message).toMatch(/pitch/);
    const least = modelOf(at(5e-4)).rank.values[3] as number;
    // the bar's own height over the center, 5 in, takes off less than 1 %
    expect(least / ((5e-4 * Math.sqrt(2 / 3)) / 35.5)).toBeCloseTo(1, 1.5);
  });
});

describe('given lengths', () => {
  const changes: [string, Axle, string, number][] = [
    ['longer upper link', longArms(), 'upper link', 0.5],
    ['shorter upper link', longArms(), 'upper link', -0.75],
    ['longer track bar', longArms(), 'track bar', 1],
    ['shorter lower link', triangulated(), 'left lower link', -0.5],
    ['bushed upper link', shortArms(), 'left upper link', 0.25],
  ];

  test.each(changes)('%s: ride is the pose that they give', (_, axle, name, by) => {
    const given = adjusted(axle, name, by);
    const model = modelOf(given);
    const { ride } = model;
    expect(ride.input).toEqual({ left: 0, right: 0, steer: 0 });
    expect(residual(given, ride)).toBeLessThan(1e-9);
    // both wheels stand as drawn: shifted, turned and pitched, not raised
    expect(ride.axle.o[2]).toBe(axle.origin[2]);
    expect(ride.roll).toBe(0);
    const moved = [0, 1].map(c => (ride.axle.o[c] as number) - (axle.origin[c] as number));
    expect(Math.hypot(...moved, 35 * ride.yaw, 10 * ride.pitch)).toBeGreaterThan(Math.abs(by) / 10);
    // and pose 0/0 is that pose
    const again = model.pose(0, 0).pose;
    expect(again?.axle.o[0]).toBeCloseTo(ride.axle.o[0] as number, 10);
    expect(again?.pitch).toBeCloseTo(ride.pitch, 12);
    if (!isExact(axle)) {
      const problem = new Elastic(given, 0, 0);
      const start = new Float64Array(problem.count);
      start.set([axle.origin[0], axle.origin[1]]);
      const q = problem.minimize(start);
      expect(ride.axle.o[0]).toBeCloseTo(q[0] as number, 7);
      expect(ride.pitch).toBeCloseTo(q[3] as number, 8);
      // it is in bind at ride height
      const stretches = lengthsOf(given, ride).links.map(l => l.now - l.free);
      expect(Math.max(...stretches.map(Math.abs))).toBeGreaterThan(0.01);
    }
  });

  test('closed form: a longer upper link turns a planar axle about its lower pins', () => {
    // parallel level links: the lower pins stay (their links are not turned), the axle pitches about them
    const axle = front([
      link('left lower link', [0, 17.5, 16], [-38, 17.5, 16]),
      link('right lower link', [0, -17.5, 16], [-38, -17.5, 16]),
      link('upper link', [0, 0, 28], [-33, 0, 28]),
      link('track bar', [3.5, -20.5, 20], [3.5, 1e7, 20]),
    ]);
    const model = modelOf(adjusted(axle, 'upper link', 1));
    // unknown pitch p: wheel centers stay at z = 20, so the lower pins go to z = 20 − 4 cos p
    const pitch = model.ride.pitch;
    const z = 20 - 4 * Math.cos(pitch);
    const x = -38 + Math.sqrt(38 ** 2 - (z - 16) ** 2);
    const top: Vec3 = [x + 12 * Math.sin(pitch), 0, z + 12 * Math.cos(pitch)];
    // the bar of 1e7 in adds 1e-7 × (shift)²/2
    expect(distance(top, [-33, 0, 28])).toBeCloseTo(34, 6);
    expect(pitch).toBeGreaterThan(1 / 12.5);
  });

  test('a given length equal to the drawn one changes nothing but rounding', () => {
    const axle = longArms();
    const same = modelOf(adjusted(axle, 'upper link', 0)).ride;
    expect(same.axle.o[0]).toBeCloseTo(axle.origin[0], 12);
    expect(same.pitch).toBeCloseTo(0, 12);
  });

  test('lengths that part are refused, with the link and how far it went', () => {
    for (const [axle, name, by] of [
      [longArms(), 'upper link', 40],
      [longArms(), 'track bar', -30],
      [triangulated(), 'left upper link', -20],
    ] as const) {
      const problem = refusal(adjusted(axle, name, by));
      expect(problem.path).toBe(`axles["${axle.name}"].links["${name}"].length`);
      expect(problem.found).toContain(name);
      expect(problem.message).toMatch(/part after \d+ % of the change/);
    }
  });

  test('a bushed link given a length far off is refused, not stretched', () => {
    const problem = refusal(adjusted(shortArms(), 'track bar', -25));
    expect(problem.path).toBe('axles["front"].links["track bar"].length');
    expect(problem.message).toMatch(/more than a quarter|part after/);
  });

  test('an absurd length is refused soon', () => {
    for (const axle of [longArms(), shortArms(), radiusArms()]) {
      const name = 'track bar';
      expect(refusal(adjusted(axle, name, 1e7)).path).toContain(name);
    }
  });

  test('every pose is of the given length', () => {
    const given = adjusted(longArms(), 'upper link', -0.75);
    const model = modelOf(given);
    for (const [l, r] of [
      [5, 5],
      [-6, 4],
      [0, -8],
    ] as const) {
      const { pose } = model.pose(l, r);
      expect(pose && residual(given, pose)).toBeLessThan(1e-9);
    }
  });
});

describe('steering that cannot be used is refused', () => {
  test('a linkage at its dead point as drawn', () => {
    const steering = frontSteering();
    // the drag link along the pitman arm: it is pushed square to itself
    const deadPitman = {
      ...steering,
      box: {
        ...steering.box,
        axis: { at: [7.25 + 0.25, 18 + 47.5, 27.25 + 3.5], direction: [0, 0, 1] },
      },
    } as typeof steering;
    expect(refusal({ ...longArms(), steering: deadPitman })).toMatchObject({
      path: 'axles["front"].steering.box.axis',
      message: 'which way is left is undecided',
    });
    // the drag link through the kingpin axis of the knuckle: it pushes without turning
    const deadKnuckle = {
      ...steering,
      dragLink: rod(
        'drag link',
        ['pitman arm', [7.25, 18, 27.25]],
        ['right knuckle', [0, -30.2, 20]],
      ),
    };
    expect(refusal({ ...longArms(), steering: deadKnuckle }).message).toMatch(/undecided/);
  });

  test('a sense that the drawn linkage contradicts', () => {
    for (const wheelsLeft of [1, -1] as const) {
      const steering = frontSteering();
      const axle = {
        ...longArms(),
        steering: { ...steering, box: steering.box && { ...steering.box, wheelsLeft } },
      };
      // the arm points back from the box and the drag link goes to the right: about +Z the ball goes right
      if (wheelsLeft === -1) expect(modelOf(axle).pose(0, 0, 0.3).status).toBe('solved');
      else {
        expect(refusal(axle)).toMatchObject({
          path: 'axles["front"].steering.box.wheelsLeft',
          found: '"+"',
          wanted: '"-"',
        });
      }
    }
  });

  test.each(Object.keys(STEERINGS))('rods out of reach at ride height: %s', name => {
    const steering = STEERINGS[name]?.();
    if (!steering) throw new Error('no such steering');
    const tieRods = steering.tieRods.map((r, i) => (i === 0 ? { ...r, length: 5 } : r));
    const problem = refusal({ ...longArms(), steering: { ...steering, tieRods } });
    expect(problem.path).toMatch(/^axles\["front"\]\.steering/);
    expect(`${problem.path} ${problem.message}`).toMatch(/tie rod|undecided/);
  });
});

test('a rear axle without steering settles without any', () => {
  const model = modelOf(rear(triangulated().links));
  expect(model.steering).toBeNull();
  expect(model.ride.turn).toBeNull();
});
