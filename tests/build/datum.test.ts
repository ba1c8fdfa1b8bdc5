import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../geometry/build/build.ts';
import { axleOf, built, edited, linkEnds, refused, sample, type Written } from './sample.ts';

/** Worked out by hand to four decimals; a sum of two rounded products is off by up to one of the last. */
const BY_HAND_in = 1e-4;

function expectPoint(found: Vec3 | undefined, byHand: Vec3): void {
  const off = byHand.map((value, i) => Math.abs(value - (found?.[i] ?? Number.NaN)));
  expect(Math.max(...off), `[${found}] against [${byHand}]`).toBeLessThan(BY_HAND_in);
}

/** The sample with a rear axle: loaded radius 21, its lower link's ends given. */
function withRear(axle: unknown, chassis: unknown): Written {
  const file = sample();
  const [front] = file.axles as Written[];
  const rear = edited(front ?? {}, {
    name: 'rear',
    'tire.loadedRadius': 21,
    'tire.diameter': 43,
    links: [
      { name: 'rear lower', axle: { at: axle }, chassis: { at: chassis } },
      { name: 'rear upper', axle: { at: [-99, 8, 28] }, chassis: { at: [-70, 10, 30] } },
    ],
  });
  return edited(file, { axles: [front, rear] });
}

describe('points from datums', () => {
  test('from a built-in datum, a datum, and another point', () => {
    const file = edited(sample(), {
      datums: [{ name: 'rail bottom', point: [-30, '13 1/2', '22 1/4'] }],
      'axles.0.links.0.axle.at': { from: 'front axle', by: [-2, 17, '-3 1/2'] },
      'axles.0.links.0.chassis.at': { from: 'rail bottom', by: ['-8', '1 1/2', '-3/4'] },
      'axles.0.links.1.chassis.at': { from: 'left lower link.chassis', by: [5, -26, 9] },
    });
    const build = built(file);
    // The front axle's datum is (0, 0, 20): -2, 17, 20 - 3.5.
    expectPoint(linkEnds(build, 'left lower link').axle, [-2, 17, 16.5]);
    // -30 - 8, 13.5 + 1.5, 22.25 - 0.75; on the right the same with y negated.
    expectPoint(linkEnds(build, 'left lower link').chassis, [-38, 15, 21.5]);
    expectPoint(linkEnds(build, 'right lower link').chassis, [-38, -15, 21.5]);
    // -38 + 5, 15 - 26, 21.5 + 9.
    expectPoint(linkEnds(build, 'upper link').chassis, [-33, -11, 30.5]);
  });

  test('x, y and z from three places, and a length at an angle in each plane', () => {
    const file = edited(sample(), {
      datums: [
        { name: 'rail face', point: [0, '13 1/2', 0] },
        {
          name: 'rail end',
          point: { from: ['front axle', 'rail face', 'ground'], by: [10, 1, 25] },
        },
      ],
      'axles.0.links.0.chassis.at': {
        from: 'left lower link.axle',
        length: 40,
        angle: '170 deg',
        plane: 'side',
      },
      'axles.0.links.2.chassis.at': {
        from: 'track bar.axle',
        length: 38,
        angle: '6 deg',
        plane: 'front',
      },
      'axles.0.links.1.chassis.at': {
        from: 'rail end',
        length: 20,
        angle: '180 deg',
        plane: 'plan',
      },
    });
    const build = built(file);
    // cos 170 deg = -0.984808, sin 170 deg = 0.173648; from (-2, 17, 16): -2 - 39.3923, 17, 16 + 6.9459.
    expectPoint(linkEnds(build, 'left lower link').chassis, [-41.3923, 17, 22.9459]);
    // cos 6 deg = 0.994522, sin 6 deg = 0.104528; from (3, -20, 25): 3, -20 + 37.7918, 25 + 3.9721.
    expectPoint(linkEnds(build, 'track bar').chassis, [3, 17.7918, 28.9721]);
    // The rail's end: 0 + 10, 13.5 + 1, 0 + 25 = (10, 14.5, 25); 20 in straight back: x 10 - 20.
    expectPoint(linkEnds(build, 'upper link').chassis, [-10, 14.5, 25]);
  });

  test('rear points from the rear axle', () => {
    const build = built(
      withRear(
        { from: 'rear axle', by: [1, 18, -4] },
        { from: ['rear axle', 'centerline', 'ground'], by: [36, 16, '21 1/2'] },
      ),
    );
    // The rear axle's datum is (-100, 0, 21): -100 + 1, 18, 21 - 4; and -100 + 36, 0 + 16, 0 + 21.5.
    expectPoint(linkEnds(build, 'rear lower', 1).axle, [-99, 18, 17]);
    expectPoint(linkEnds(build, 'rear lower', 1).chassis, [-64, 16, 21.5]);
    expect(axleOf(build, 1).origin).toEqual([-100, 0, 21]);
  });

  test('an entry says which entries it was taped from', () => {
    const build = built(
      edited(sample(), {
        dimensions: [{ name: 'railFace', value: '13 1/2' }],
        datums: [{ name: 'rail', point: [-30, 'railFace', 22] }],
        'axles.0.links.1.chassis.at': { from: 'rail', by: [0, 0, 1] },
      }),
    );
    const used = (path: string) => build.entries.find(entry => entry.path === path)?.uses;
    expect(used('axles["front"].links["upper link"].chassis.at.by[2]')).toEqual([
      'datums["rail"].point[0]',
      'datums["rail"].point[1]',
      'datums["rail"].point[2]',
    ]);
    expect(used('datums["rail"].point[1]')).toEqual(['dimensions["railFace"].value']);
  });

  test('unknown places and circles are told with the nearest name and the way round', () => {
    const file = edited(sample(), {
      datums: [
        { name: 'rail bottom', point: { from: 'rail top', by: [0, 0, -6] } },
        { name: 'rail top', point: { from: 'rail end', by: [1, 0, 0] } },
        { name: 'rail end', point: { from: 'rail bottom', by: [1, 0, 0] } },
      ],
      'axles.0.links.0.axle.at': { from: 'frnt axle', by: [0, 0, 0] },
      'axles.0.links.1.axle.at': { from: 'lower link.axle', by: [0, 0, 0] },
      'axles.0.links.1.chassis.at': { from: 'rail top', by: [0, 0, 0] },
    });
    const lines = refused(file);
    const told = [
      /^datums\["rail end"\]\.point\.from: found "rail bottom": .*circle: rail bottom → rail top → rail end → rail bottom;/,
      /links\["lower link"\]\.axle\.at\.from: found "frnt axle".*"front axle"/,
      /links\["upper link"\]\.axle\.at\.from: .*"left lower link\.axle"/,
    ];
    expect(lines).toEqual(told.map(line => expect.stringMatching(line)));
  });
});

describe('a chassis that was taped before', () => {
  test('raised by the planned change of ride height: chassis points alone', () => {
    const file = edited(sample(), {
      measuredAt: { rideHeightChange: 4 },
      datums: [{ name: 'rail', point: [-30, 15, 18] }],
      'axles.0.links.1.chassis.at': { from: 'rail', by: [-3, -26, 8] },
      'axles.0.links.1.axle.at': { from: 'rail', by: [29, -23, 5] },
      solids: [{ name: 'rail box', box: { center: [-20, 15, 20], size: [80, 3, 6] } }],
    });
    const build = built(file);
    // (-38, 15, 22) and (4, 18, 28) go up by 4; axle points stay.
    expectPoint(linkEnds(build, 'left lower link').chassis, [-38, 15, 26]);
    expectPoint(linkEnds(build, 'left lower link').axle, [-2, 17, 16]);
    expectPoint(linkEnds(build, 'track bar').chassis, [4, 18, 32]);
    // -30 - 3, 15 - 26, 18 + 8, then up by 4, once.
    expectPoint(linkEnds(build, 'upper link').chassis, [-33, -11, 30]);
    // An axle point hangs on where the rail is at ride height: 18 + 4 + 5.
    expectPoint(linkEnds(build, 'upper link').axle, [-1, -8, 27]);
    expect(build.solids[0]?.shape).toMatchObject({ center: [-20, 15, 24] });
    expect(build.warnings.join()).toMatch(/change of ride height of 4 in/);
  });

  test('rake is undone about the Y line through the front wheel centers', () => {
    const file = edited(sample(), {
      measuredAt: { rake: '2 deg', rideHeightChange: 3 },
      solids: [{ name: 'block', box: { center: [-50, 10, 20], size: [4, 4, 4] } }],
    });
    const build = built(file);
    // Ry(-2 deg) about (0, 0, 20): x' = c x - s h, z' = 20 + s x + c h, with h = z - 20,
    // c = cos 2 deg = 0.999391, s = sin 2 deg = 0.0348995; then up by 3.
    // (-38, 15, 22): h = 2: x' = -37.9769 - 0.0698 = -38.0467; z' = 20 - 1.3262 + 1.9988 + 3 = 23.6726.
    expectPoint(linkEnds(build, 'left lower link').chassis, [-38.0467, 15, 23.6726]);
    // (4, 18, 28): h = 8: x' = 3.9976 - 0.2792 = 3.7184; z' = 20 + 0.1396 + 7.9951 + 3 = 31.1347.
    expectPoint(linkEnds(build, 'track bar').chassis, [3.7184, 18, 31.1347]);
    // (-50, 10, 20): h = 0: x' = -49.9695; z' = 20 - 1.7450 + 3 = 21.2550.
    const block = build.solids[0]?.shape;
    if (block?.kind !== 'box') throw new Error('no box');
    expectPoint(block.center, [-49.9695, 10, 21.255]);
    // Its own X pointed forward with the rake on: now (c, 0, s).
    expectPoint(block.axes[0], [0.99939, 0, 0.0349]);
  });

  test('roll is undone before rake, about the line midway between the front wheel centers', () => {
    const file = edited(sample(), {
      measuredAt: { roll: '1 deg', rake: '-1 deg' },
      datums: [{ name: 'right eye', point: { from: 'right lower link.chassis', by: [0, 0, 0] } }],
      'axles.0.links.2.chassis.at': { from: 'right eye', by: [0, 0, 0] },
    });
    const build = built(file);
    // Rx(-1 deg): y' = c y + s h, h' = -s y + c h; then Ry(+1 deg): x' = c x + s h', h'' = -s x + c h'.
    // c = cos 1 deg = 0.9998477, s = sin 1 deg = 0.0174524.
    // (-38, 15, 22), h = 2: y' = 14.9977 + 0.0349 = 15.0326; h' = -0.2618 + 1.9997 = 1.7379;
    // x' = -37.9942 + 0.0303 = -37.9639; h'' = 0.6632 + 1.7376 = 2.4008.
    expectPoint(linkEnds(build, 'left lower link').chassis, [-37.9639, 15.0326, 22.4008]);
    // A mirrored part stays the mirror image of its left one: chassis and tape are symmetric.
    expectPoint(linkEnds(build, 'right lower link').chassis, [-37.9639, -15.0326, 22.4008]);
    // So a point without an offset from the right one lies there, too.
    expectPoint(linkEnds(build, 'track bar').chassis, [-37.9639, -15.0326, 22.4008]);
    // (-33, -11, 30), h = 10: y' = -10.9983 + 0.1745 = -10.8238; h' = 0.1920 + 9.9985 = 10.1905;
    // x' = -32.9950 + 0.1778 = -32.8171; h'' = 0.5759 + 10.1889 = 10.7648.
    expectPoint(linkEnds(build, 'upper link').chassis, [-32.8171, -10.8238, 30.7648]);
  });
});

describe('an axle on the bench', () => {
  const bench = (changes: Record<string, unknown>) =>
    edited(sample(), { 'axles.0.frame': 'bench', ...changes });

  test('points from midway between the wheel centers, one turn about Y', () => {
    const build = built(
      bench({
        'axles.0.turned': '5 deg',
        'axles.0.links.0.axle.at': [-2, 17, -4],
        'axles.0.links.1.axle.at': [-1, -8, 7],
        'axles.0.links.2.axle.at': [3, -20, 5],
      }),
    );
    // Ry(5 deg): x' = c x + s z, z' = -s x + c z; c = 0.996195, s = 0.0871557; then + (0, 0, 20).
    // (-2, 17, -4): x' = -1.9924 - 0.3486 = -2.3410; z' = 0.1743 - 3.9848 = -3.8105.
    expectPoint(linkEnds(build, 'left lower link').axle, [-2.341, 17, 16.1895]);
    expectPoint(linkEnds(build, 'right lower link').axle, [-2.341, -17, 16.1895]);
    // (-1, -8, 7): x' = -0.9962 + 0.6101 = -0.3861; z' = 0.0872 + 6.9734 = 7.0605.
    expectPoint(linkEnds(build, 'upper link').axle, [-0.3861, -8, 27.0605]);
    // (3, -20, 5): x' = 2.9886 + 0.4358 = 3.4244; z' = -0.2615 + 4.9810 = 4.7195.
    expectPoint(linkEnds(build, 'track bar').axle, [3.4244, -20, 24.7195]);
    // Chassis points are no bench's.
    expectPoint(linkEnds(build, 'track bar').chassis, [4, 18, 28]);
  });

  test('the turn sets caster and pinion together', () => {
    const build = built(
      bench({
        'axles.0.turned': '-6 deg',
        'axles.0.steered': true,
        'axles.0.links.0.axle.at': [-2, 17, -4],
        'axles.0.links.1.axle.at': [-1, -8, 7],
        'axles.0.links.2.axle.at': [3, -20, 5],
        'axles.0.knuckles': { sides: 'mirror', kingpin: { lower: [0, 31, -4], upper: [0, 30, 4] } },
        'axles.0.steering': {
          box: { axis: { at: [13, 18, 30], direction: [0, 0, 1] } },
          dragLink: {
            from: { on: 'pitman arm', at: [7, 18, 27] },
            to: { on: 'right knuckle', at: [7, -29, 4] },
          },
          tieRod: {
            from: { on: 'left knuckle', at: [7, 31, -2] },
            to: { on: 'right knuckle', at: [7, -31, -2] },
          },
        },
        'axles.0.driveline': {
          pinion: { joint: [-10, 9, 1], axis: { up: '12 deg' } },
          transferCase: { joint: [-47, 8, 28], axis: { up: '3 deg' } },
        },
      }),
    );
    const { knuckles, driveline, steering } = axleOf(build);
    // Ry(-6 deg): x' = c x - |s| z, z' = |s| x + c z; c = 0.994522, |s| = 0.104528.
    // The kingpin axis stood upright: now its top leans rearward, 6 deg of caster.
    // lower (0, 31, -4): x' = 0.4181, z' = -3.9781; upper (0, 30, 4): x' = -0.4181, z' = 3.9781.
    expectPoint(knuckles?.left.kingpin.lower, [0.4181, 31, 16.0219]);
    expectPoint(knuckles?.right.kingpin.upper, [-0.4181, -30, 23.9781]);
    // The pinion points rearward, 12 deg up: a negative turn drops it by 6 deg to 6 deg up.
    // (-cos 6 deg, 0, sin 6 deg).
    expectPoint(driveline?.pinion.axis, [-0.99452, 0, 0.10453]);
    // (-10, 9, 1): x' = -9.9452 - 0.1045 = -10.0497; z' = -1.0453 + 0.9945 = -0.0508.
    expectPoint(driveline?.pinion.joint, [-10.0497, 9, 19.9492]);
    // The transfer case is on the chassis: (cos 3 deg, 0, sin 3 deg), forward to the front pinion.
    expectPoint(driveline?.transferCase.axis, [0.99863, 0, 0.05234]);
    // (7, 31, -2): x' = 6.9617 + 0.2091 = 7.1707; z' = 0.7317 - 1.9890 = -1.2573.
    expectPoint(steering?.tieRods[0]?.from.at, [7.1707, 31, 18.7427]);
    // The drag link's ends: one on the bench, one on the chassis.
    // (7, -29, 4): x' = 6.9617 - 0.4181 = 6.5435; z' = 0.7317 + 3.9781 = 4.7098.
    expectPoint(steering?.dragLink?.to.at, [6.5435, -29, 24.7098]);
    expectPoint(steering?.dragLink?.from.at, [7, 18, 27]);
  });

  test('offsets turn with the bench; a point may stay in vehicle axes', () => {
    const build = built(
      bench({
        'axles.0.turned': '10 deg',
        'axles.0.links.0.axle.at': [0, 17, -4],
        'axles.0.links.1.axle.at': { from: 'left lower link.axle', by: [0, -25, 11] },
        'axles.0.links.2.axle.at': { from: 'front axle', by: [3, -20, 5], frame: 'vehicle' },
      }),
    );
    // Ry(10 deg): c = 0.984808, s = 0.173648.
    // (0, 17, -4): x' = -0.6946, z' = -3.9392.
    expectPoint(linkEnds(build, 'left lower link').axle, [-0.6946, 17, 16.0608]);
    // The offset (0, -25, 11) turns too: x' = 1.9101, z' = 10.8329; -0.6946 + 1.9101, 17 - 25, 16.0608 + 10.8329.
    expectPoint(linkEnds(build, 'upper link').axle, [1.2155, -8, 26.8937]);
    expectPoint(linkEnds(build, 'track bar').axle, [3, -20, 25]);
  });

  test('a turn without a bench is refused', () => {
    expect(refused(edited(sample(), { 'axles.0.turned': '6 deg' }))).toEqual([
      expect.stringMatching(/^axles\["front"\]\.turned: found "6 deg".*bench/),
    ]);
    const point = { from: 'ground', by: [0, 0, 20], frame: 'bench' };
    expect(refused(edited(sample(), { 'axles.0.links.1.axle.at': point }))).toEqual([
      expect.stringMatching(/upper link"\]\.axle\.at\.frame: found "bench": no bench carries/),
    ]);
  });
});

describe('wheel heights that differ', () => {
  const heights = { left: '20 1/8', right: '19 7/8' };
  // sin roll = 0.25/70 = 0.00357143; cos = 0.99999362.

  test('are leveled: the axle turns, the chassis stays', () => {
    const build = built(edited(sample(), { 'axles.0.wheelHeights': heights }));
    // Rx(-roll) about (0, 0, 20): y' = c y + s h, h' = -s y + c h.
    // (-2, 17, 16), h = -4: y' = 16.9999 - 0.0143 = 16.9856; h' = -0.0607 - 4.0000 = -4.0607.
    expectPoint(linkEnds(build, 'left lower link').axle, [-2, 16.9856, 15.9393]);
    expectPoint(linkEnds(build, 'left lower link').chassis, [-38, 15, 22]);
    expect(build.warnings).toEqual([
      "The front axle's left wheel center was measured 0.25 in higher: its points are turned level by 0.205 deg.",
    ]);
  });

  test('are kept as roll: the chassis turns too', () => {
    const build = built(
      edited(sample(), { 'axles.0.wheelHeights': { ...heights, difference: 'roll' } }),
    );
    expectPoint(linkEnds(build, 'left lower link').axle, [-2, 16.9856, 15.9393]);
    // (4, 18, 28), h = 8: y' = 17.9999 + 0.0286 = 18.0285; h' = -0.0643 + 7.9999 = 7.9357.
    expectPoint(linkEnds(build, 'track bar').chassis, [4, 18.0285, 27.9357]);
    expect(build.warnings.join()).toMatch(/keeps 0\.205 deg of roll/);
  });

  test('of two axles that cannot both be parallel to the vehicle are refused', () => {
    const file = edited(withRear([-99, 18, 17], [-64, 16, 22]), {
      'axles.0.wheelHeights': { ...heights, difference: 'roll' },
    });
    expect(refused(file)).toEqual([
      expect.stringMatching(/^axles\["rear"\]\.wheelHeights: .*both cannot be parallel/),
    ]);
  });

  test('equal heights say nothing, and a mean off the loaded radius is refused', () => {
    const equal = built(edited(sample(), { 'axles.0.wheelHeights': { left: 20, right: 20 } }));
    expect(equal).toEqual({ ...built(sample()), entries: equal.entries });
    expect(refused(edited(sample(), { 'axles.0.wheelHeights': { left: 22, right: 22 } }))).toEqual([
      expect.stringMatching(/wheelHeights: their mean, 22 in, is not the loaded radius, 20 in/),
    ]);
  });
});
