/** An axle changed as a whole: mirrored, moved, scaled, its parts in another order. */
import type {
  Axle,
  JointEnd,
  Link,
  RadiusArm,
  Rod,
  RodEnd,
  Vec3,
} from '../../geometry/build/build.ts';

interface Change {
  point: (p: Vec3) => Vec3;
  direction: (v: Vec3) => Vec3;
  /** Names of bodies and parts. */
  name: (n: string) => string;
  /** Lengths. */
  length: (x: number) => number;
  /** Torsional rates, in·lbf/rad. */
  torsion: (k: number) => number;
  /** Angles about a line or an axis that is itself changed. */
  turn: (angle: number) => number;
}

const SAME: Change = {
  point: p => p,
  direction: v => v,
  name: n => n,
  length: x => x,
  torsion: k => k,
  turn: a => a,
};

const orNull = <T>(f: (x: T) => T, x: T | null): T | null => (x === null ? null : f(x));

function changed(axle: Axle, partial: Partial<Change>): Axle {
  const c = { ...SAME, ...partial };
  const joint = (e: JointEnd): JointEnd => ({
    ...e,
    name: c.name(e.name),
    at: c.point(e.at),
    bolt: orNull(c.direction, e.bolt),
    rates: { ...e.rates, conical: orNull(c.torsion, e.rates.conical) },
  });
  const link = (l: Link): Link => ({
    ...l,
    name: c.name(l.name),
    axle: joint(l.axle),
    chassis: joint(l.chassis),
    length: orNull(c.length, l.length),
    modulus: l.modulus / c.length(1),
    tube: l.tube && {
      od: c.length(l.tube.od),
      wall: orNull(c.length, l.tube.wall),
    },
  });
  const arm = (a: RadiusArm): RadiusArm => ({
    ...a,
    name: c.name(a.name),
    axle: [joint(a.axle[0]), joint(a.axle[1])],
    chassis: joint(a.chassis),
  });
  const rodEnd = (e: RodEnd): RodEnd => ({
    ...e,
    on: c.name(e.on) as RodEnd['on'],
    at: c.point(e.at),
  });
  const rod = (r: Rod): Rod => ({
    ...r,
    name: c.name(r.name),
    from: rodEnd(r.from),
    to: rodEnd(r.to),
    length: orNull(c.length, r.length),
    roll: { ...r.roll, at: c.turn(r.roll.at) },
  });
  const knuckles = axle.knuckles && {
    left: axle.knuckles[c.name('left') as 'left' | 'right'],
    right: axle.knuckles[c.name('right') as 'left' | 'right'],
  };
  const kingpin = (side: 'left' | 'right') => {
    const k = (knuckles as NonNullable<Axle['knuckles']>)[side];
    const { lower, upper } = k.kingpin;
    return { ...k, side, kingpin: { lower: c.point(lower), upper: c.point(upper) } };
  };
  const { steering } = axle;
  return {
    ...axle,
    wheelCenters: c.length(axle.wheelCenters),
    origin: c.point(axle.origin),
    links: axle.links.map(link),
    radiusArms: axle.radiusArms.map(arm),
    sharedJoints: axle.sharedJoints.map(j => ({ ...j, name: c.name(j.name), at: c.point(j.at) })),
    knuckles: knuckles && { left: kingpin('left'), right: kingpin('right') },
    steering: steering && {
      ...steering,
      box: steering.box && {
        ...steering.box,
        axis: {
          at: c.point(steering.box.axis.at),
          direction: c.direction(steering.box.axis.direction),
        },
      },
      dragLink: orNull(rod, steering.dragLink),
      tieRods: steering.tieRods.map(rod),
      rams: steering.rams.map(ram => ({
        ...ram,
        body: { ...ram.body, at: c.point(ram.body.at) },
        axis: orNull(c.direction, ram.axis),
      })),
    },
  };
}

const across = (v: Vec3): Vec3 => [v[0], -v[1], v[2]];
export const otherSide = (name: string): string =>
  name.replace(/\b(left|right)\b/, side => (side === 'left' ? 'right' : 'left'));

/** Left and right changed over, names with them. */
export const mirrored = (axle: Axle): Axle =>
  changed(axle, { point: across, direction: across, name: otherSide, turn: a => -a });

export const movedBy = (axle: Axle, by: Vec3): Axle =>
  changed(axle, { point: p => [p[0] + by[0], p[1] + by[1], p[2] + by[2]] });

/** The same axle s times as large; rates of springs stay, those against tilt grow with s². */
export const scaledBy = (axle: Axle, s: number): Axle =>
  changed(axle, {
    point: p => [p[0] * s, p[1] * s, p[2] * s],
    length: x => x * s,
    torsion: k => k * s * s,
  });

/** Links, arms and joints listed the other way round. */
export const reversed = (axle: Axle): Axle => ({
  ...axle,
  links: [...axle.links].reverse(),
  radiusArms: [...axle.radiusArms].reverse(),
  sharedJoints: [...axle.sharedJoints].reverse(),
});

/** Every rod written from its other end. */
export const rodsTurnedRound = (axle: Axle): Axle => {
  const round = (r: Rod): Rod => ({
    ...r,
    from: r.to,
    to: r.from,
    roll: { ...r.roll, at: -r.roll.at },
  });
  return {
    ...axle,
    steering: axle.steering && {
      ...axle.steering,
      dragLink: axle.steering.dragLink && round(axle.steering.dragLink),
      tieRods: axle.steering.tieRods.map(round),
    },
  };
};
