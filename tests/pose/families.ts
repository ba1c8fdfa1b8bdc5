/** Families of axles: exact and over-constrained, with shared joints and radius arms, steered and not. */
import type { Axle, JointEnd, Link, RadiusArm, Rates, Vec3 } from '../../geometry/build/build.ts';
import { end, front, link, longArms, shortArms } from './layouts.ts';
import { STEERINGS } from './steerings.ts';

export const rates = (more: Partial<Rates> = {}): Rates => ({
  radial: null,
  axial: null,
  torsional: null,
  conical: null,
  bracket: null,
  ...more,
});

/** A rear axle without steering, 112 in behind the front one. */
export function rear(links: Link[], more: Partial<Axle> = {}): Axle {
  return front(links, {
    name: 'rear',
    steered: false,
    origin: [-112, 0, 20],
    knuckles: null,
    steering: null,
    ...more,
  });
}

/** Lower links and triangulated upper links. */
export const triangulated = (): Axle =>
  rear([
    link('left lower link', [-111, 19, 16.5], [-78, 15, 21]),
    link('right lower link', [-111, -19, 16.5], [-78, -15, 21]),
    link('left upper link', [-111.5, 5, 27], [-86, 17, 29]),
    link('right upper link', [-111.5, -5, 27], [-86, -17, 29]),
  ]);

/** The upper links meet in one ball on the axle; it gives where it has a rate, and then there is a track bar. */
export function wishbone(rate: number | null): Axle {
  const at: Vec3 = [-111.5, 0, 27.5];
  const ball = { shared: 'upper ball' };
  const made = (side: string, y: number): Link => {
    const upper = link(`${side} upper link`, at, [-86, y, 29], { rate: rate && 30_000 });
    return { ...upper, axle: { ...upper.axle, ...ball } };
  };
  const links = [
    link('left lower link', [-111, 19, 16.5], [-78, 15, 21], { rate: 20_000 }),
    link('right lower link', [-111, -19, 16.5], [-78, -15, 21], { rate: 20_000 }),
    made('left', 17),
    made('right', -17),
  ];
  if (rate) links.push(link('track bar', [-116, -20, 25], [-116, 18, 27], { rate: 24_000 }));
  return rear(links, {
    sharedJoints: [
      { name: 'upper ball', on: 'axle', at, bolt: null, rates: rates({ radial: rate }) },
    ],
  });
}

/** Lower links that meet in a giving joint on the chassis, upper links and a track bar. */
export function chassisWishbone(): Axle {
  const at: Vec3 = [-80, 1, 20.5];
  const made = (side: string, y: number): Link => {
    const lower = link(`${side} lower link`, [-111, y, 16.5], at, { rate: 30_000 });
    return { ...lower, chassis: { ...lower.chassis, shared: 'lower ball' } };
  };
  return rear(
    [
      made('left', 19),
      made('right', -19),
      link('left upper link', [-111.5, 15, 27], [-88, 14, 29], { rate: 15_000 }),
      link('right upper link', [-111.5, -15, 27], [-88, -14, 29], { rate: 15_000 }),
      link('track bar', [-116, -20, 25], [-116, 18, 27], { rate: 24_000 }),
    ],
    {
      sharedJoints: [
        { name: 'lower ball', on: 'chassis', at, bolt: null, rates: rates({ radial: 25_000 }) },
      ],
    },
  );
}

/** A radius arm of a front axle: bushings ahead of and behind the axle, one joint on the chassis. */
export function radiusArm(side: 'left' | 'right', more: Partial<Rates> = {}): RadiusArm {
  const s = side === 'left' ? 1 : -1;
  const name = `${side} radius arm`;
  // across the arm's plane, tilted a little as drilled brackets are
  const bolt: Vec3 = [0.06 * s, Math.sqrt(1 - 0.0036 - 0.01), -0.1];
  const bushing = (place: string, at: Vec3): JointEnd =>
    end(`${name}.${place}`, at, {
      kind: 'bushing',
      bolt,
      rates: rates({ radial: 20_000, axial: 6_000, conical: 40_000, ...more }),
    });
  return {
    name,
    kind: 'radius arm',
    axle: [bushing('axle front', [3.5, s * 17, 19]), bushing('axle rear', [-4, s * 16.5, 18])],
    chassis: bushing('chassis', [-33, s * 15, 23]),
    tube: null,
    through: [],
  };
}

/** Two radius arms and a track bar. */
export const radiusArms = (more: Partial<Rates> = {}): Axle =>
  front([link('track bar', [3.5, -20.5, 25], [4, 18, 27.75], { rate: 24_000 })], {
    radiusArms: [radiusArm('left', more), radiusArm('right', more)],
  });

/** One radius arm, a link on the other side, an upper link and a track bar. */
export const oneRadiusArm = (): Axle =>
  front(
    [
      link('right lower link', [-1.5, -17.5, 16.5], [-34, -15.5, 22], { rate: 18_000 }),
      link('upper link', [-1, -8, 27], [-30, -11, 30.25], { rate: 14_000 }),
      link('track bar', [3.5, -20.5, 25], [4, 18, 27.75], { rate: 24_000 }),
    ],
    { radiusArms: [radiusArm('left')] },
  );

/** Four links, a middle link and two track bars: seven lengths. */
export const sevenLengths = (): Axle => {
  const axle = shortArms();
  return {
    ...axle,
    links: [
      ...axle.links,
      link('middle link', [-1, 1, 26], [-21, 2, 28.5], { rate: 9_000 }),
      link('rear track bar', [-5, 20, 24], [-5.5, -17, 26.5], { rate: 15_000 }),
    ],
  };
};

/** Five lengths whose rates come from bushings, tubes and brackets in series. */
export const bushedArms = (): Axle => {
  const axle = shortArms();
  const bushed = (e: JointEnd, bolt: Vec3): JointEnd => ({
    ...e,
    kind: 'bushing',
    bolt,
    rates: rates({ radial: 30_000, axial: 5_000, torsional: 900, bracket: 200_000 }),
  });
  return {
    ...axle,
    links: axle.links.map(l => {
      const bolt: Vec3 = l.kind === 'track bar' ? [1, 0, 0] : [0.28, 0.96, 0];
      return {
        ...l,
        rate: null,
        tube: { od: 1.75, wall: 0.25 },
        axle: bushed(l.axle, bolt),
        chassis: bushed(l.chassis, bolt),
      };
    }),
  };
};

/** A link's free length given: longer (or shorter) than drawn by so much. */
export const adjusted = (axle: Axle, name: string, by: number): Axle => ({
  ...axle,
  links: axle.links.map(l =>
    l.name === name
      ? { ...l, length: by + Math.hypot(...[0, 1, 2].map(c => gap(l, c as 0 | 1 | 2))) }
      : l,
  ),
});

const gap = (l: Link, c: 0 | 1 | 2): number => l.chassis.at[c] - l.axle.at[c];

/** Every family once, and the long arms once with each kind of steering. */
export const FAMILIES: Record<string, () => Axle> = {
  'three links and track bar': longArms,
  'four links and track bar on bushings': shortArms,
  'four links and track bar, rates in series': bushedArms,
  'triangulated four links': triangulated,
  'wishbone on a rigid ball': () => wishbone(null),
  'wishbone on a ball that gives': () => wishbone(35_000),
  'wishbone on a chassis joint that gives': chassisWishbone,
  'two radius arms and track bar': radiusArms,
  'one radius arm, two links and track bar': oneRadiusArm,
  'seven lengths': sevenLengths,
  'upper link 3/8 longer': () => adjusted(longArms(), 'upper link', 0.375),
  'bushed upper link 1/8 shorter': () => adjusted(shortArms(), 'left upper link', -0.125),
  ...Object.fromEntries(
    Object.entries(STEERINGS).map(([name, steering]) => [
      `three links, ${name}`,
      () => ({ ...longArms(), steering: steering() }),
    ]),
  ),
};
