/** Knuckles with hub and brake, steering rods, the pitman arm and the rams. */
import type { Axle, Ram } from '../../../geometry/build/build.ts';
import type { Part } from '../../../geometry/gap/part.ts';
import { ASSUMED } from '../../../geometry/gap/partSizes.ts';
import { rodsOf } from '../../../geometry/gap/steeringParts.ts';
import { type Rim, rimOf } from '../../../geometry/gap/tireRing.ts';
import { add, cross, distance, dot, scale, sub, unit, type V3 } from '../../../geometry/vector.ts';
import { cutBack, tieRodEnd } from './joints.ts';
import { drawer, type Palette, square } from './shape.ts';

const Z: V3 = [0, 0, 1];

const segmentOf = (data: Float64Array): [V3, V3] => [
  [data[0] as number, data[1] as number, data[2] as number],
  [data[3] as number, data[4] as number, data[5] as number],
];

function knuckleFrom({ kind, name }: Part, axle: Axle) {
  const side = name.startsWith('left') ? 'left' : 'right';
  const kingpin = kind === 'knuckle' && axle.knuckles?.[side].kingpin;
  return (
    kingpin && {
      side,
      kingpin,
      ends: endsOn(axle, `${side} knuckle`),
      wheel: { origin: axle.origin, wheelCenters: axle.wheelCenters, rim: rimOf(axle.tire) },
    }
  );
}

export const drawKnuckle = drawer(knuckleFrom, (part, from, palette) => {
  const { side, kingpin, ends, wheel } = from;
  const { lower, upper } = kingpin;
  const metal = palette.in('knuckle');
  const k = unit(sub(upper, lower));
  const height = distance(lower, upper);
  const middle = scale(add(lower, upper), 0.5);
  const r = ASSUMED.knuckle;
  metal.turned(
    lower,
    k,
    [
      [0.2, 0.55 * r],
      [0.7, 0.8 * r],
      [0.3 * height, 0.72 * r],
      [0.7 * height, 0.72 * r],
      [height - 0.7, 0.8 * r],
      [height - 0.2, 0.55 * r],
    ],
    20,
  );
  for (const [ball, way] of [
    [lower, -1],
    [upper, 1],
  ] as const) {
    const studded = palette.in('rodEnd');
    studded.drum(add(ball, scale(k, 0.75 * way)), k, 0.95, 0.7, 18, 0.2);
    palette.in('bright').drum(add(ball, scale(k, 1.3 * way)), k, 0.5, 0.55, 6);
  }
  for (const piece of part.solid.pieces.slice(1)) {
    const [root, tip] = segmentOf(piece.data);
    const length = distance(root, tip);
    if (length < 0.2) continue;
    metal.turned(
      root,
      unit(sub(tip, root)),
      [
        [0, piece.radius * 1.5],
        [0.4 * length, piece.radius * 1.1],
        [length, piece.radius * 0.95],
        [length + piece.radius * 0.6, piece.radius * 0.7],
        [length + piece.radius, 0],
      ],
      16,
    );
  }
  for (const { od, at, stud } of ends) {
    // the boss that the stud goes through
    const root = nearest(
      part.solid.pieces.slice(1).map(piece => segmentOf(piece.data)[1]),
      at,
    );
    if (!root) continue;
    const arm = armSide(stud, at, root);
    const boss = add(at, scale(stud, arm * 1.5 * od));
    metal.drum(boss, stud, 0.72 * od, 0.9 * od, 18, 0.15);
    metal.bar(root, boss, ASSUMED.knuckleArm * 0.42, ASSUMED.knuckleArm * 0.36, 14);
  }
  drawHub(wheel, side === 'left' ? 1 : -1, middle, palette);
});

interface WheelPlace {
  origin: V3;
  wheelCenters: number;
  rim: Rim;
}

/** Hub and brake disk, on the wheel's own axis. */
function drawHub(
  { origin, wheelCenters, rim }: WheelPlace,
  out: 1 | -1,
  from: V3,
  palette: Palette,
): void {
  const center: V3 = [origin[0], (out * wheelCenters) / 2, origin[2]];
  const y: V3 = [0, out, 0];
  const inner = Math.abs(from[1]);
  const face = Math.abs(center[1]) + rim.offset;
  const root: V3 = [center[0], out * inner, center[2]];
  const length = Math.max(1, face - inner);
  palette.in('knuckle').turned(
    root,
    y,
    [
      [0, 3],
      [0.45 * length, 2.7],
      [0.55 * length, 2.3],
    ],
    22,
  );
  drawBrake(rim, palette, add(root, scale(y, 0.62 * length)), y);
  palette
    .in('bright')
    .bar(add(root, scale(y, 0.5 * length)), add(root, scale(y, length)), 2.4, 2.2, 20);
}

/** A vented disk behind the wheel. */
export function drawBrake(rim: Rim, palette: Palette, at: V3, outboard: V3): void {
  const radius = Math.max(4, rim.diameter / 2 - 2.6);
  const disk = palette.in('disk');
  for (const side of [-1, 1]) {
    disk.ring(
      add(at, scale(outboard, 0.38 * side)),
      outboard,
      radius,
      0.55 * radius,
      0.3,
      36,
      0.05,
    );
  }
  palette.in('housing').ring(at, outboard, radius - 0.25, 0.5 * radius, 0.46, 36, 0.02);
  palette.in('knuckle').drum(at, outboard, 0.56 * radius, 1.1, 26, 0.1);
}

function rodFrom({ name }: Part, axle: Axle) {
  const rod = rodsOf(axle).find(each => each.name === name);
  return rod && { rod, arms: [rod.from, rod.to].map(({ on, at }) => armOf(axle, on, at)) };
}

export const drawRod = drawer(rodFrom, (_part, { rod, arms }, palette) => {
  const od = rod.tube?.od ?? ASSUMED.rodTube;
  const points = [rod.from.at, ...rod.through, rod.to.at];
  palette.in('steering').tube(cutBack(points, 2.7 * od, 2.7 * od), od / 2, 18);
  for (const [i, end] of [rod.from, rod.to].entries()) {
    const next = points[i === 0 ? 1 : points.length - 2] as V3;
    const inward = unit(sub(next, end.at));
    const stud = square(end.stud ?? Z, inward, square(Z, inward, [1, 0, 0]));
    const arm = arms[i];
    tieRodEnd(palette, end.at, inward, stud, arm ? armSide(stud, end.at, arm) : 1, od);
  }
});

/** Where the arm comes from that carries a rod's end; null where another rod or a ram does. */
function armOf(axle: Axle, on: string, at: V3): V3 | null {
  if (on === 'pitman arm') return axle.steering?.box?.axis.at ?? null;
  const side = on === 'left knuckle' ? 'left' : on === 'right knuckle' ? 'right' : null;
  const kingpin = side && axle.knuckles?.[side].kingpin;
  if (!kingpin) return null;
  const { lower, upper } = kingpin;
  const height = Math.min(upper[2], Math.max(lower[2], at[2]));
  return [(lower[0] + upper[0]) / 2, (lower[1] + upper[1]) / 2, height + 0.01];
}

/** Which way along its stud an end meets the arm. */
function armSide(stud: V3, at: V3, root: V3): 1 | -1 {
  const along = dot(sub(root, at), stud);
  return along < -0.4 ? -1 : 1;
}

/** Rods' ends on a body, with the diameter of the rod. */
const endsOn = (axle: Axle, body: string): { od: number; at: V3; stud: V3 }[] =>
  rodsOf(axle).flatMap(({ from, to, tube }) =>
    [from, to]
      .filter(({ on }) => on === body)
      .map(({ at, stud }) => ({ od: tube?.od ?? ASSUMED.rodTube, at, stud: stud ?? Z })),
  );

function nearest(points: readonly V3[], at: V3): V3 | null {
  let found: V3 | null = null;
  for (const point of points) {
    if (!found || distance(point, at) < distance(found, at)) found = point;
  }
  return found;
}

function pitmanFrom({ kind, solid }: Part, { steering }: Axle) {
  const [piece] = solid.pieces;
  const { box, dragLink: link } = steering ?? {};
  return kind === 'pitmanArm' && box && link && piece ? { box, link, piece } : null;
}

export const drawPitmanArm = drawer(pitmanFrom, (_part, { box, link, piece }, palette) => {
  const ball = link.from.on === 'pitman arm' ? link.from : link.to;
  const od = link.tube?.od ?? ASSUMED.rodTube;
  const [root] = segmentOf(piece.data);
  const axis = box.axis.direction;
  const stud = ball.stud ?? axis;
  const boss = add(ball.at, scale(stud, armSide(stud, ball.at, box.axis.at) * 1.5 * od));
  const metal = palette.in('steering');
  metal.drum(root, axis, ASSUMED.sectorShaft, 1.6, 22, 0.15);
  metal.drum(boss, stud, 0.75 * od, 0.9 * od, 18, 0.12);
  const along = unit(sub(boss, root));
  const y = square(axis, along, [0, 1, 0]);
  const half: V3 = [distance(root, boss) / 2, 0.42, piece.radius * 0.8];
  metal.block(scale(add(root, boss), 0.5), [along, y, cross(along, y)], half);
  palette.in('bright').drum(add(root, scale(axis, -1)), axis, 0.75, 0.6, 6);
  palette
    .in('bright')
    .bar(root, add(root, scale(axis, distance(root, box.axis.at) > 3 ? 3 : 2)), 0.8);
});

const bodyRadius = (ram: Ram): number =>
  (ram.body.diameter ?? (ram.bore ? ram.bore + 0.5 : ASSUMED.ramBody)) / 2;

const ramFrom = ({ kind, name }: Part, { steering }: Axle) =>
  (kind === 'ram' || kind === 'ramBracket') &&
  steering?.rams.find(each => name.startsWith(each.name));

export const drawRam = drawer(ramFrom, (part, ram, palette) => {
  const radius = bodyRadius(ram);
  const rod = (ram.rodDiameter ?? ASSUMED.ramRod) / 2;
  if (part.kind === 'ramBracket') {
    for (const piece of part.solid.pieces) {
      const [a, b] = segmentOf(piece.data);
      palette.in('ram').capsule(a, b, piece.radius, 14);
    }
    return;
  }
  if (!ram.rod) {
    const d = part.solid.pieces[0]?.data;
    if (d && part.name.endsWith(' rod')) {
      const [a, b] = segmentOf(d);
      palette.in('bright').bar(a, b, rod, rod, 20);
      return;
    }
    const line = ram.axis ?? [0, 1, 0];
    const half = (ram.stroke ?? 8) / 2 + 2;
    barrel(palette, add(ram.body.at, scale(line, -half)), line, 2 * half, radius, true);
    return;
  }
  const isRod = part.name.endsWith(' rod');
  const [eye, along] = heldLine(part.solid.pieces);
  const end = farEnd(part.solid.pieces);
  if (!eye || !end) return;
  drawEye(palette, eye, along, ASSUMED.eye, 'ram');
  if (isRod) palette.in('bright').bar(add(eye, scale(along, 0.6)), end, rod, rod, 18);
  else
    barrel(
      palette,
      add(eye, scale(along, 0.7)),
      along,
      distance(eye, end) - 0.7 + radius,
      radius,
      false,
    );
});

/** A cylinder with its caps and ports. */
function barrel(
  p: Palette,
  from: V3,
  along: V3,
  length: number,
  radius: number,
  isDouble: boolean,
): void {
  const body = p.in('ram');
  body.bar(from, add(from, scale(along, length)), 0.94 * radius, 0.94 * radius, 22);
  const caps = isDouble ? [0.55, length - 0.55] : [0.45, length - 0.6];
  for (const by of caps) body.drum(add(from, scale(along, by)), along, radius, 1.1, 22, 0.12);
  const up = square(Z, along, [1, 0, 0]);
  for (const by of caps) {
    const at = add(from, scale(along, by));
    p.in('bright').bar(
      add(at, scale(up, 0.8 * radius)),
      add(at, scale(up, radius + 0.5)),
      0.3,
      0.26,
      6,
    );
  }
}

/** An eye with a bushing, across the line that it pulls along. */
export function drawEye(
  p: Palette,
  at: V3,
  along: V3,
  radius: number,
  look: 'ram' | 'shock',
): void {
  const across = square([0, 1, 0], along, [1, 0, 0]);
  p.in(look).ring(at, across, radius, 0.6 * radius, 1.35 * radius, 20, 0.06);
  p.in('bushing').drum(at, across, 0.66 * radius, 1.6 * radius, 16, 0.08);
  p.in('bright').drum(at, across, 0.34 * radius, 2.3 * radius, 12);
}

/** Eye and direction of a half of a shock or ram, from its solid: an eye, then the tube. */
export function heldLine(pieces: readonly { data: Float64Array }[]): [V3, V3] | [null, null] {
  const [eye, tube] = pieces;
  if (!eye || !tube) return [null, null];
  const at = segmentOf(eye.data)[0];
  const end = segmentOf(tube.data)[1];
  return [at, unit(sub(end, at))];
}

export function farEnd(pieces: readonly { data: Float64Array }[]): V3 | null {
  const tube = pieces[1];
  return tube ? segmentOf(tube.data)[1] : null;
}
