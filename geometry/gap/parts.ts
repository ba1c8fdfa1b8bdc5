/** The parts of one axle, and of the chassis about it: each with its solid from its own dimensions. */
import type { Axle, Build, Solid as DrawnSolid, JointEnd, Rod, Shape } from '../build/build.ts';
import { bentTube } from '../solid/bentTube.ts';
import { box } from '../solid/box.ts';
import { capsule } from '../solid/capsule.ts';
import { cylinder } from '../solid/cylinder.ts';
import { hull } from '../solid/hull.ts';
import { type Piece, segmentPiece } from '../solid/piece.ts';
import { type Made, type Solid, solidOf } from '../solid/solid.ts';
import { sphere } from '../solid/sphere.ts';
import { tire } from '../solid/tire.ts';
import { add, distance, dot, norm, scale, sub, unit, type V3 } from '../vector.ts';
import type { Anchor, Part, PartKind, SharedJoint } from './part.ts';
import { tireRing } from './tireRing.ts';

/** Radius of the zone about a shared joint, as a part of its housing's radius. */
export const ZONE = 1.25;

/** Sizes taken where the build gives none, in. Common practice, no source. */
const ASSUMED = {
  linkTube: 2,
  rodTube: 1.5,
  axleTube: 3,
  /** A joint's housing against its tube. */
  housingFactor: 1.25,
  knuckleArm: 1.5,
  pitmanArm: 1.5,
  ramBody: 2.5,
  ramRod: 1,
  shockBody: 2.25,
  shockShaft: 0.75,
  /** A shock's body and a ram's body as shares of the shortest length. */
  bodyShare: 0.85,
  reservoirRadius: 1.2,
  coilDiameter: 5.5,
  wire: 0.625,
  bumpRadius: 1.25,
  driveshaftTube: 3,
  swayBar: 1.25,
};

/** A solid that a mesh file makes, or what is wrong with the file. */
export type MeshReader = (shape: Extract<Shape, { kind: 'mesh' }>) => Made;

export interface PartsProblem {
  part: string;
  problem: string;
}

/** All parts of an axle with those of the chassis, and what could not be made. */
export function partsOf(
  build: Build,
  axle: Axle,
  readMesh: MeshReader,
): { parts: Part[]; problems: PartsProblem[] } {
  const parts: Part[] = [];
  const problems: PartsProblem[] = [];
  const put = (
    name: string,
    kind: PartKind,
    motion: Part['motion'],
    made: Made | Solid,
    more: Partial<Part> = {},
  ): void => {
    const solid = 'problem' in made ? null : 'solid' in made ? made.solid : made;
    if (!solid) {
      problems.push({ part: name, problem: (made as { problem: string }).problem });
      return;
    }
    parts.push({
      name,
      kind,
      motion,
      solid,
      open: null,
      joints: [],
      isNew: false,
      mayBeCut: false,
      give: 0,
      ...more,
    });
  };

  for (const link of axle.links) {
    const od = link.tube?.od ?? ASSUMED.linkTube;
    put(
      link.name,
      link.kind === 'track bar' ? 'trackBar' : 'link',
      { kind: 'ends', from: on('axle', link.axle.at), to: on('chassis', link.chassis.at) },
      rodSolid([link.axle.at, ...link.through, link.chassis.at], od / 2, [
        housingOf(link.axle, od),
        housingOf(link.chassis, od),
      ]),
      {
        joints: [jointOf(link.axle, 'axle', 0, od), jointOf(link.chassis, 'chassis', 1, od)],
      },
    );
  }
  for (const arm of axle.radiusArms) {
    const od = arm.tube?.od ?? ASSUMED.linkTube;
    const [a, b] = arm.axle;
    // the nearer axle end hangs on the body of the arm by its own short piece
    const far = distance(a.at, arm.chassis.at) >= distance(b.at, arm.chassis.at) ? a : b;
    const near = far === a ? b : a;
    put(
      arm.name,
      'radiusArm',
      { kind: 'rigid', body: arm.name },
      rodSolid([far.at, near.at, ...arm.through, arm.chassis.at], od / 2, [
        housingOf(far, od),
        housingOf(arm.chassis, od),
      ]),
      {
        joints: [
          jointOf(far, 'axle', 0, od),
          jointOf(near, 'axle', 0, od),
          jointOf(arm.chassis, 'chassis', 1, od),
        ],
      },
    );
  }
  housing(axle, put);
  steering(axle, put);
  wheels(axle, put);
  springs(axle, put);
  if (axle.driveline) {
    const { pinion, transferCase, tubeOd } = axle.driveline;
    const od = tubeOd ?? ASSUMED.driveshaftTube;
    put(
      'driveshaft',
      'driveshaft',
      { kind: 'ends', from: on('axle', pinion.joint), to: on('chassis', transferCase.joint) },
      rodSolid([pinion.joint, transferCase.joint], od / 2, [0, 0]),
      {
        joints: [
          { name: 'driveshaft.pinion', at: pinion.joint, body: 'axle', end: 0, housing: od + 1 },
          {
            name: 'driveshaft.transfer case',
            at: transferCase.joint,
            body: 'chassis',
            end: 1,
            housing: od + 1,
          },
        ],
      },
    );
  }
  swayBar(axle, put);
  for (const drawn of build.solids) {
    if (drawn.on !== 'chassis' && drawn.axle !== axle.name) continue;
    put(drawn.name, 'drawn', motionOf(axle, drawn), shapeSolid(drawn.shape, readMesh), {
      isNew: drawn.isNew,
      mayBeCut: drawn.mayBeCut,
      give: drawn.give,
    });
  }
  return { parts, problems };
}

type Put = (
  name: string,
  kind: PartKind,
  motion: Part['motion'],
  made: Made | Solid,
  more?: Partial<Part>,
) => void;

const on = (body: string, at: V3): Anchor => ({ on: body, at });

const housingOf = (end: JointEnd, od: number): number =>
  (end.housing ?? od * ASSUMED.housingFactor) / 2;

const jointOf = (end: JointEnd, body: string, at: 0 | 1, od: number): SharedJoint => ({
  name: end.name,
  at: end.at,
  body,
  end: at,
  housing: 2 * housingOf(end, od),
});

/** A tube along points, with a ball of the joint's housing at each end that has one. */
export function rodSolid(
  points: readonly V3[],
  radius: number,
  housings: readonly [number, number],
): Solid {
  const at = [0];
  for (let i = 1; i < points.length; i++) {
    at.push((at[i - 1] as number) + distance(points[i - 1] as V3, points[i] as V3));
  }
  const total = at.at(-1) as number;
  const share = (i: number): number => (at[i] as number) / total;
  const pieces: Piece[] = [];
  for (let i = 1; i < points.length; i++) {
    pieces.push(segmentPiece(points[i - 1] as V3, points[i] as V3, radius, share(i - 1), share(i)));
  }
  const first = points[0] as V3;
  const last = points.at(-1) as V3;
  if (housings[0] > radius) pieces.push(segmentPiece(first, first, housings[0], 0, 0));
  if (housings[1] > radius) pieces.push(segmentPiece(last, last, housings[1], 1, 1));
  return solidOf('bentTube', pieces);
}

function housing(axle: Axle, put: Put): void {
  const body = { kind: 'rigid', body: 'axle' } as const;
  const od = axle.housing.tubeOd ?? ASSUMED.axleTube;
  // a tube ends inboard of the knuckle: at the steered axle's yokes, at the other's wheels
  const kingpin = axle.knuckles?.left.kingpin;
  const outer = kingpin
    ? Math.min(kingpin.lower[1], kingpin.upper[1]) - 4
    : axle.wheelCenters / 2 - axle.tire.width / 2;
  const [x, , z] = axle.origin;
  put(
    'axle tubes',
    'housing',
    body,
    capsule({ from: [x, outer, z], to: [x, -outer, z], radius: od / 2 }),
  );
  const differential = axle.housing.differential;
  if (!differential) return;
  put('differential', 'differential', body, sphere(differential));
  if (differential.cover)
    put('differential cover', 'differential', body, sphere(differential.cover));
}

function steering(axle: Axle, put: Put): void {
  const { steering: s, knuckles } = axle;
  if (!s || !knuckles) return;
  for (const side of ['left', 'right'] as const) {
    const { lower, upper } = knuckles[side].kingpin;
    const body = `${side} knuckle`;
    const middle = scale(add(lower, upper), 0.5);
    const arms: Piece[] = [segmentPiece(lower, upper, 1.75)];
    // steering arms from the kingpin to each rod's end
    for (const rod of rodsOf(axle)) {
      for (const end of [rod.from, rod.to]) {
        if (end.on !== body) continue;
        const root: V3 = [middle[0], middle[1], Math.min(upper[2], Math.max(lower[2], end.at[2]))];
        arms.push(
          segmentPiece(
            root,
            shortOf(root, end.at, rod, ASSUMED.knuckleArm / 2),
            ASSUMED.knuckleArm / 2,
          ),
        );
      }
    }
    put(`${side} knuckle`, 'knuckle', { kind: 'rigid', body }, solidOf('bentTube', arms));
  }
  for (const rod of rodsOf(axle)) {
    const isDrag = rod === s.dragLink;
    const od = rod.tube?.od ?? ASSUMED.rodTube;
    const ball = (od * ASSUMED.housingFactor) / 2;
    put(
      rod.name,
      isDrag ? 'dragLink' : 'tieRod',
      { kind: 'rigid', body: rod.name },
      rodSolid([rod.from.at, ...rod.through, rod.to.at], od / 2, [ball, ball]),
      {
        joints: [
          {
            name: `${rod.name}.from`,
            at: rod.from.at,
            body: rod.from.on,
            end: 0,
            housing: 2 * ball,
          },
          { name: `${rod.name}.to`, at: rod.to.at, body: rod.to.on, end: 1, housing: 2 * ball },
        ],
      },
    );
  }
  if (s.box && s.dragLink) {
    const ball = s.dragLink.from.on === 'pitman arm' ? s.dragLink.from.at : s.dragLink.to.at;
    const { at, direction } = s.box.axis;
    const root = add(at, scale(direction, dot(sub(ball, at), direction)));
    const radius = (s.pitmanArm?.tube?.od ?? ASSUMED.pitmanArm) / 2;
    put(
      'pitman arm',
      'pitmanArm',
      { kind: 'rigid', body: 'pitman arm' },
      capsule({ from: root, to: shortOf(root, ball, s.dragLink, radius), radius }),
    );
  }
  for (const ram of s.rams) rams(axle, ram, put);
}

/**
 * Where an arm ends: a zone short of the ball that it carries, since the rod's end sits beside the arm on its
 * stud, not in it.
 */
function shortOf(root: V3, ball: V3, rod: Rod, radius: number): V3 {
  const length = distance(root, ball);
  const back = ((rod.tube?.od ?? ASSUMED.rodTube) * ASSUMED.housingFactor * ZONE) / 2 + radius;
  return length <= back ? root : add(ball, scale(sub(root, ball), back / length));
}

const rodsOf = (axle: Axle): Rod[] => {
  const s = axle.steering;
  return s ? [...(s.dragLink ? [s.dragLink] : []), ...s.tieRods] : [];
};

function rams(axle: Axle, ram: NonNullable<Axle['steering']>['rams'][0], put: Put): void {
  const bodyRadius = (ram.body.diameter ?? (ram.bore ? ram.bore + 0.5 : ASSUMED.ramBody)) / 2;
  const rodRadius = (ram.rodDiameter ?? ASSUMED.ramRod) / 2;
  if (!ram.rod) {
    const line = ram.axis ?? [0, 1, 0];
    const half = (ram.stroke ?? 8) / 2 + 2;
    const barrel = {
      from: add(ram.body.at, scale(line, half)),
      to: sub(ram.body.at, scale(line, half)),
    };
    put(
      `${ram.name} body`,
      'ram',
      { kind: 'rigid', body: 'axle' },
      cylinder({ ...barrel, radius: bodyRadius }),
    );
    const ends = axle.steering?.tieRods.map(t => (t.from.on === 'ram rod' ? t.from.at : t.to.at));
    if (ends?.[0] && ends[1]) {
      put(
        `${ram.name} rod`,
        'ram',
        { kind: 'rigid', body: 'ram rod' },
        capsule({ from: ends[0], to: ends[1], radius: rodRadius }),
      );
    }
    return;
  }
  const a = on(ram.body.on, ram.body.at);
  const b = on(ram.rod.on, ram.rod.at);
  telescope(ram.name, 'ram', a, b, ram.closed, bodyRadius, rodRadius, null, put);
}

/** A body held at `a` and a rod held at `b`, each pointing at the other's eye. */
function telescope(
  name: string,
  kind: PartKind,
  a: Anchor,
  b: Anchor,
  shortest: number | null,
  bodyRadius: number,
  rodRadius: number,
  bodyLength: number | null,
  put: Put,
): void {
  const length = distance(a.at, b.at);
  const along = unit(sub(b.at, a.at));
  const body = Math.min(bodyLength ?? (shortest ?? length) * ASSUMED.bodyShare, length);
  const words = kind === 'ram' ? (['body', 'rod'] as const) : (['body', 'shaft'] as const);
  const eye = 2 * Math.max(0.75, rodRadius);
  // a body's round end would stand out past its eye: the tube begins a radius further in
  const start = Math.min(bodyRadius, body / 2);
  put(
    `${name} ${words[0]}`,
    kind,
    { kind: 'aim', at: a, towards: b },
    capsule({
      from: add(a.at, scale(along, start)),
      to: add(a.at, scale(along, Math.max(start, body - bodyRadius))),
      radius: bodyRadius,
    }),
    {
      joints: [
        {
          name: `${name}.${kind === 'ram' ? 'body' : 'eye'}`,
          at: a.at,
          body: a.on,
          end: 0,
          housing: Math.max(eye, 2 * bodyRadius),
        },
      ],
    },
  );
  // the rod reaches into the body: its free part at full length is what can be seen
  const visible = Math.max(1, length - body);
  put(
    `${name} ${words[1]}`,
    kind,
    { kind: 'aim', at: b, towards: a },
    capsule({ from: b.at, to: sub(b.at, scale(along, visible)), radius: rodRadius }),
    {
      joints: [
        {
          name: `${name}.${kind === 'ram' ? 'rod' : 'shaft'}`,
          at: b.at,
          body: b.on,
          end: 0,
          housing: eye,
        },
      ],
    },
  );
}

function wheels(axle: Axle, put: Put): void {
  for (const side of ['left', 'right'] as const) {
    const knuckle = axle.knuckles?.[side];
    const out = side === 'left' ? 1 : -1;
    const body = axle.steered ? `${side} knuckle` : 'axle';
    const [x, , z] = axle.origin;
    const center: V3 = [x, (out * axle.wheelCenters) / 2, z];
    const steer = -out * (knuckle?.toe ?? 0);
    const camber = knuckle?.camber ?? 0;
    const axis: V3 = [
      -Math.sin(steer) * Math.cos(camber),
      Math.cos(steer) * Math.cos(camber),
      -out * Math.sin(camber),
    ];
    const { diameter, width, shoulder, give } = axle.tire;
    put(
      `${side} tire`,
      'tire',
      { kind: 'rigid', body },
      tire({ center, axis, diameter, width, shoulder }),
      { give, open: tireRing(axle.tire, center, axis) },
    );
  }
}

function springs(axle: Axle, put: Put): void {
  for (const shock of axle.shocks) {
    const [a, b] =
      shock.bodyEnd === 'axle'
        ? [on('axle', shock.axle), on('chassis', shock.chassis)]
        : [on('chassis', shock.chassis), on('axle', shock.axle)];
    const bodyRadius = (shock.body.od ?? ASSUMED.shockBody) / 2;
    telescope(
      shock.name,
      'shock',
      a,
      b,
      shock.shortest,
      bodyRadius,
      (shock.shaft.od ?? ASSUMED.shockShaft) / 2,
      shock.body.length,
      put,
    );
    const reservoir = shock.reservoir;
    if (!reservoir) continue;
    put(
      `${shock.name} reservoir`,
      'reservoir',
      reservoir.on === 'body'
        ? { kind: 'aim', at: a, towards: b }
        : { kind: 'rigid', body: 'chassis' },
      capsule({ from: reservoir.from, to: reservoir.to, radius: reservoir.radius }),
    );
  }
  for (const coil of axle.coils) {
    const radius = ((coil.diameter ?? ASSUMED.coilDiameter) + (coil.wire ?? ASSUMED.wire)) / 2;
    const along = sub(coil.chassis, coil.axle);
    const inset = Math.min(0.45, radius / norm(along));
    // the tube that the turns fill; its round ends stay between the seats as drawn
    put(
      coil.name,
      'coil',
      { kind: 'ends', from: on('axle', coil.axle), to: on('chassis', coil.chassis) },
      capsule({
        from: add(coil.axle, scale(along, inset)),
        to: sub(coil.chassis, scale(along, inset)),
        radius,
      }),
      {
        joints: [
          { name: `${coil.name}.axle`, at: coil.axle, body: 'axle', end: 0, housing: 2 * radius },
          {
            name: `${coil.name}.chassis`,
            at: coil.chassis,
            body: 'chassis',
            end: 1,
            housing: 2 * radius,
          },
        ],
      },
    );
  }
  for (const stop of axle.bumpStops) {
    // the pad's side as a short post, ending at the pad
    const normal = stop.strike.normal;
    const height = Math.max(0.5, stop.contactHeight - stop.solidHeight);
    put(
      stop.name,
      'bumpStop',
      { kind: 'rigid', body: stop.pad.on },
      cylinder({
        from: stop.pad.at,
        to: add(stop.pad.at, scale(normal, height)),
        radius: ASSUMED.bumpRadius,
      }),
    );
  }
}

function swayBar(axle: Axle, put: Put): void {
  const bar = axle.swayBar;
  if (!bar) return;
  const radius = (bar.tubeOd ?? ASSUMED.swayBar) / 2;
  const [first, second] = bar.arms;
  if (!first || !second) return;
  const foot = (tip: V3): V3 =>
    add(bar.axis.at, scale(bar.axis.direction, dot(sub(tip, bar.axis.at), bar.axis.direction)));
  put(
    'sway bar',
    'swayBar',
    { kind: 'rigid', body: 'chassis' },
    capsule({ from: foot(first.tip), to: foot(second.tip), radius }),
  );
}

/** Body that a drawn solid rides on: a body of the mechanism, or a part that moves on its own ends. */
function motionOf(axle: Axle, drawn: DrawnSolid): Part['motion'] {
  const link = axle.links.find(l => l.name === drawn.on);
  if (link) {
    return { kind: 'ends', from: on('axle', link.axle.at), to: on('chassis', link.chassis.at) };
  }
  const match = /^(.*) (body|shaft|rod)$/.exec(drawn.on);
  const shock = axle.shocks.find(s => s.name === match?.[1]);
  if (shock && match) {
    const axleEnd = on('axle', shock.axle);
    const chassisEnd = on('chassis', shock.chassis);
    const held = (match[2] === 'body') === (shock.bodyEnd === 'axle') ? axleEnd : chassisEnd;
    return { kind: 'aim', at: held, towards: held === axleEnd ? chassisEnd : axleEnd };
  }
  const ram = axle.steering?.rams.find(r => r.name === match?.[1]);
  if (ram?.rod && match) {
    const a = on(ram.body.on, ram.body.at);
    const b = on(ram.rod.on, ram.rod.at);
    return match[2] === 'body'
      ? { kind: 'aim', at: a, towards: b }
      : { kind: 'aim', at: b, towards: a };
  }
  if (drawn.on === 'driveshaft' && axle.driveline) {
    const { pinion, transferCase } = axle.driveline;
    return { kind: 'ends', from: on('axle', pinion.joint), to: on('chassis', transferCase.joint) };
  }
  return { kind: 'rigid', body: drawn.on };
}

function shapeSolid(shape: Shape, readMesh: MeshReader): Made {
  switch (shape.kind) {
    case 'sphere':
      return sphere(shape);
    case 'capsule':
      return capsule(shape);
    case 'bentTube':
      return bentTube(shape);
    case 'cylinder':
      return cylinder(shape);
    case 'box':
      return box({
        center: shape.center,
        half: scale(shape.size, 0.5),
        axes: shape.axes.flatMap(row => [...row]),
      });
    case 'hull':
      return hull(shape);
    case 'mesh':
      return readMesh(shape);
  }
}
