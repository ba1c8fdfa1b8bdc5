/** Random axles for property tests: plausible ones near the families, and wild ones that nobody would weld. */
import fc from 'fast-check';
import type { Axle, Link, Ram, RodEnd, Steering, Vec3 } from '../../geometry/build/build.ts';
import { FAMILIES, radiusArm, rates, rear } from './families.ts';
import { front, link } from './layouts.ts';
import { STEERINGS } from './steerings.ts';

const STEPS = 2 ** 20;

/** A number in ±size, evenly spread: `fc.double` would draw mostly tiny ones and the ends. */
export const number = (size: number): fc.Arbitrary<number> =>
  fc.noBias(fc.integer({ min: -STEPS, max: STEPS })).map(i => (size * i) / STEPS);

const within = (least: number, most: number): fc.Arbitrary<number> =>
  number(1).map(x => least + ((x + 1) / 2) * (most - least));

const shift = (size: number): fc.Arbitrary<Vec3> =>
  fc.tuple(number(size), number(size), number(size));

const moved = (p: Vec3, by: Vec3): Vec3 => [p[0] + by[0], p[1] + by[1], p[2] + by[2]];

/** Null but for one case in so many. */
const oneIn = <T>(many: number, given: fc.Arbitrary<T>): fc.Arbitrary<T | null> =>
  fc.oneof({ weight: many - 1, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: given });

/** Rods may be written from either end. */
const turnedRound = (steering: Steering | null, which: number): Steering | null =>
  steering && {
    ...steering,
    tieRods: steering.tieRods.map((rod, i) =>
      (which >> i) & 1 ? { ...rod, from: rod.to, to: rod.from } : rod,
    ),
  };

/**
 * An axle of one of the families (or of a kind of steering) with every point moved by up to 1.5 in, some
 * free lengths given, and other rates.
 */
export const plausible: fc.Arbitrary<Axle> = fc
  .record({
    family: fc.constantFrom(...Object.keys(FAMILIES)),
    shifts: fc.array(shift(1.5), { minLength: 24, maxLength: 24 }),
    given: oneIn(2, fc.tuple(fc.nat(7), number(0.5))),
    rate: within(5000, 80_000),
    steering: fc.constantFrom(...Object.keys(STEERINGS)),
    reversed: fc.nat(3),
  })
  .map(({ family, shifts, given, rate, steering, reversed }) => {
    const axle = (FAMILIES[family] as () => Axle)();
    const at = (i: number): Vec3 => shifts[i % shifts.length] as Vec3;
    const links = axle.links.map((l, i): Link => {
      const where = (e: Link['axle'], n: number): Link['axle'] =>
        e.shared === null ? { ...e, at: moved(e.at, at(n)) } : e;
      const drawn = { ...l, axle: where(l.axle, 2 * i), chassis: where(l.chassis, 2 * i + 1) };
      const { axle: a, chassis: c } = drawn;
      const length = Math.hypot(a.at[0] - c.at[0], a.at[1] - c.at[1], a.at[2] - c.at[2]);
      return {
        ...drawn,
        rate: l.rate === null ? null : (l.rate + rate) / 2,
        length: given && given[0] === i ? length + given[1] : null,
      };
    });
    const s = axle.steered
      ? turnedRound((STEERINGS[steering] as () => Steering)(), reversed)
      : null;
    return {
      ...axle,
      links,
      steering: s && {
        ...s,
        tieRods: s.tieRods.map((rod, i) => ({
          ...rod,
          from: { ...rod.from, at: moved(rod.from.at, at(18 + i)) },
          to: { ...rod.to, at: moved(rod.to.at, at(21 + i)) },
        })),
      },
    };
  });

/** Coordinates with a taste for zeros, repeats and round numbers, so that degenerate axles are met. */
const coordinate = fc.oneof(
  { weight: 12, arbitrary: number(45) },
  { weight: 3, arbitrary: fc.integer({ min: -6, max: 6 }).map(i => 5 * i) },
  { weight: 1, arbitrary: fc.constantFrom(0, 1e-9, 20, 35.5, 1e3, -1e5) },
);
const anywhere: fc.Arbitrary<Vec3> = fc.tuple(coordinate, coordinate, coordinate);
const direction: fc.Arbitrary<Vec3> = shift(1).map(v => {
  const size = Math.hypot(...v);
  return size > 1e-3 ? [v[0] / size, v[1] / size, v[2] / size] : [0, 0, 1];
});

const wildLink = (i: number): fc.Arbitrary<Link> =>
  fc
    .record({
      axle: anywhere,
      chassis: anywhere,
      length: oneIn(30, within(0.01, 90)),
      rate: oneIn(2, fc.constantFrom(500, 2e4, 2e4, 2e4, 1e6, 1e6, 1e9)),
      shared: fc.constantFrom(null, null, null, 'ball'),
    })
    .map(({ axle, chassis, length, rate, shared }) => {
      const made = link(`link ${i}`, axle, chassis, { length, rate });
      return shared ? { ...made, axle: { ...made.axle, shared } } : made;
    });

const wildEnd = (...on: RodEnd['on'][]): fc.Arbitrary<RodEnd> =>
  fc.record({
    on: fc.constantFrom(...on),
    at: anywhere,
    stud: fc.constant(null),
    limit: fc.constant(null),
  });

const wildRod = (name: string, from: fc.Arbitrary<RodEnd>, to: fc.Arbitrary<RodEnd>) =>
  fc.record({
    name: fc.constant(name),
    from,
    to,
    length: oneIn(20, within(0.01, 90)),
    tube: fc.constant(null),
    through: fc.constant<Vec3[]>([]),
    roll: fc.record({ held: fc.constant('clocked' as const), at: number(3) }),
  });

const knuckleEnd = (side: 'left' | 'right') => wildEnd(`${side} knuckle`);
const wildBox = fc.record({
  axis: fc.record({ at: anywhere, direction }),
  ratio: fc.constant(16),
  sweep: fc.constant(null),
  wheelsLeft: fc.constantFrom(null, null, 1 as const, -1 as const),
});

const wildSteering: fc.Arbitrary<Steering> = fc.oneof(
  fc.record({
    box: wildBox,
    pitmanArm: fc.constant(null),
    dragLink: wildRod(
      'drag link',
      wildEnd('pitman arm'),
      wildEnd('left knuckle', 'right knuckle', 'tie rod'),
    ),
    tieRods: wildRod(
      'tie rod',
      wildEnd('left knuckle', 'right knuckle', 'drag link'),
      wildEnd('left knuckle', 'right knuckle'),
    ).map(rod => [rod]),
    rams: fc.constant<Ram[]>([]),
  }),
  fc.record({
    box: fc.constant(null),
    pitmanArm: fc.constant(null),
    dragLink: fc.constant(null),
    tieRods: fc.tuple(
      wildRod('left tie rod', wildEnd('ram rod'), knuckleEnd('left')),
      wildRod('right tie rod', wildEnd('ram rod'), knuckleEnd('right')),
    ),
    rams: fc.record({ at: anywhere, axis: direction }).map(({ at, axis }) => [
      {
        name: 'ram',
        kind: 'double' as const,
        body: { on: 'axle' as const, at, diameter: null },
        axis,
        rod: null,
        closed: null,
        stroke: null,
        bore: null,
        rodDiameter: null,
      },
    ]),
  }),
);

/** Any number of links anywhere, radius arms with joints anywhere, any steering. */
export const wild: fc.Arbitrary<Axle> = fc
  .record({
    links: fc
      .constantFrom(0, 1, 3, 4, 4, 4, 4, 5, 5, 6, 7, 8)
      .chain(n => fc.tuple(...Array.from({ length: n }, (_, i) => wildLink(i)))),
    arms: fc.constantFrom(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 2),
    joints: fc.array(anywhere, { minLength: 9, maxLength: 9 }),
    conical: fc.constantFrom(null, 1, 4e4, 4e4),
    radial: fc.constantFrom(null, 4e4, 4e4, 4e4, 1e9),
    ball: fc.constantFrom(null, 1, 3e4, 3e4, 3e4, 1e9),
    steering: oneIn(2, wildSteering),
    track: within(0.5, 120),
  })
  .map(({ links, arms, joints, conical, radial, ball, steering, track }) => {
    const radiusArms = Array.from({ length: arms }, (_, k) => {
      const arm = radiusArm(k === 0 ? 'left' : 'right', { conical, radial });
      const at = (e: typeof arm.chassis, i: number) => ({ ...e, at: joints[3 * k + i] as Vec3 });
      return {
        ...arm,
        name: `arm ${k}`,
        axle: [at(arm.axle[0], 0), at(arm.axle[1], 1)] as typeof arm.axle,
        chassis: at(arm.chassis, 2),
      };
    });
    const common = {
      radiusArms,
      wheelCenters: track,
      sharedJoints: [
        {
          name: 'ball',
          on: 'axle' as const,
          at: [0, 0, 25] as Vec3,
          bolt: null,
          rates: rates({ radial: ball }),
        },
      ],
    };
    return steering ? front([...links], { ...common, steering }) : rear([...links], common);
  });
