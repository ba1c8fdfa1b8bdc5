/** Knuckles with their arms, steering rods, pitman arm and rams. */
import type { Axle, Ram, Rod } from '../build/build.ts';
import { capsule } from '../solid/capsule.ts';
import { cylinder } from '../solid/cylinder.ts';
import { type Piece, segmentPiece } from '../solid/piece.ts';
import { solidOf } from '../solid/solid.ts';
import { add, distance, dot, scale, sub, unit, type V3 } from '../vector.ts';
import type { SharedJoint } from './part.ts';
import { anchor, type PartList } from './partList.ts';
import { ASSUMED, ZONE } from './partSizes.ts';
import { rodSolid } from './rodSolid.ts';
import { telescope } from './telescope.ts';

export function steeringParts(axle: Axle, list: PartList): void {
  if (!axle.steering) return;
  for (const side of ['left', 'right'] as const) knuckle(axle, side, list);
  for (const rod of rodsOf(axle)) steeringRod(axle, rod, list);
  pitmanArm(axle, list);
  for (const ram of axle.steering.rams) {
    if (ram.rod) singleRam(axle, ram, list);
    else doubleRam(axle, ram, list);
  }
}

export const rodsOf = ({ steering: s }: Axle): Rod[] =>
  s ? [...(s.dragLink ? [s.dragLink] : []), ...s.tieRods] : [];

const rodOd = (rod: Rod): number => rod.tube?.od ?? ASSUMED.rodTube;
const endRadius = (rod: Rod): number => (rodOd(rod) * ASSUMED.housingFactor) / 2;

/** The column along the kingpin axis, and an arm from there to each rod's end. */
function knuckle(axle: Axle, side: 'left' | 'right', list: PartList): void {
  const kingpin = axle.knuckles?.[side].kingpin;
  if (!kingpin) return;
  const { lower, upper } = kingpin;
  const body = `${side} knuckle`;
  const middle = scale(add(lower, upper), 0.5);
  const pieces: Piece[] = [segmentPiece(lower, upper, ASSUMED.knuckle)];
  for (const rod of rodsOf(axle)) {
    for (const end of [rod.from, rod.to]) {
      if (end.on !== body) continue;
      const root: V3 = [middle[0], middle[1], Math.min(upper[2], Math.max(lower[2], end.at[2]))];
      const radius = ASSUMED.knuckleArm / 2;
      pieces.push(segmentPiece(root, shortOf(root, end.at, rod, radius), radius));
    }
  }
  // the column turns in the axle's yoke: zones along it, for it is no trouble that it is near
  const reach = Math.max(distance(lower, upper) / 3, 1.6 * ASSUMED.knuckle);
  const joints = [lower, middle, upper].map(
    (at, i): SharedJoint => ({
      name: `${side} kingpin.${['lower', 'middle', 'upper'][i]}`,
      at,
      body: 'axle',
      end: 0,
      housing: (2 * reach) / ZONE,
    }),
  );
  list.put(body, 'knuckle', { kind: 'rigid', body }, solidOf('bentTube', pieces), {
    joints,
    assumed: true,
  });
}

function steeringRod(axle: Axle, rod: Rod, list: PartList): void {
  const points = [rod.from.at, ...rod.through, rod.to.at];
  const radius = endRadius(rod);
  const joint = (key: 'from' | 'to', end: 0 | 1): SharedJoint => ({
    name: `${rod.name}.${key}`,
    at: rod[key].at,
    body: rod[key].on,
    end,
    housing: 2 * radius,
  });
  list.put(
    rod.name,
    rod === axle.steering?.dragLink ? 'dragLink' : 'tieRod',
    { kind: 'rigid', body: rod.name },
    rodSolid(points, rodOd(rod) / 2, [
      { point: 0, radius },
      { point: points.length - 1, radius },
    ]),
    { joints: [joint('from', 0), joint('to', 1)], assumed: rod.tube === null },
  );
}

function pitmanArm(axle: Axle, list: PartList): void {
  const { box, dragLink, pitmanArm: arm } = axle.steering as NonNullable<Axle['steering']>;
  if (!box || !dragLink) return;
  const ball = dragLink.from.on === 'pitman arm' ? dragLink.from.at : dragLink.to.at;
  const { at, direction } = box.axis;
  const root = add(at, scale(direction, dot(sub(ball, at), direction)));
  const radius = (arm?.tube?.od ?? ASSUMED.pitmanArm) / 2;
  list.put(
    'pitman arm',
    'pitmanArm',
    { kind: 'rigid', body: 'pitman arm' },
    capsule({ from: root, to: shortOf(root, ball, dragLink, radius), radius }),
    {
      assumed: !arm?.tube,
      joints: [
        {
          name: 'pitman arm.axis',
          at: root,
          body: 'chassis',
          end: 0,
          housing: 2 * Math.max(radius, ASSUMED.sectorShaft),
        },
      ],
    },
  );
}

/**
 * Where an arm ends: a zone short of the ball that it carries, since the rod's end sits beside the arm on its
 * stud, not in it.
 */
function shortOf(root: V3, ball: V3, rod: Rod, radius: number): V3 {
  const length = distance(root, ball);
  const back = ZONE * endRadius(rod) + radius;
  return length <= back ? root : add(ball, scale(sub(root, ball), back / length));
}

const ramRadii = (ram: Ram): { body: number; rod: number } => ({
  body: (ram.body.diameter ?? (ram.bore ? ram.bore + 0.5 : ASSUMED.ramBody)) / 2,
  rod: (ram.rodDiameter ?? ASSUMED.ramRod) / 2,
});

/** A barrel clamped to the axle, and the rod through it from tie rod to tie rod. */
function doubleRam(axle: Axle, ram: Ram, list: PartList): void {
  const radii = ramRadii(ram);
  const line = ram.axis ?? [0, 1, 0];
  const half = scale(line, (ram.stroke ?? 8) / 2 + 2);
  const of = ram.name;
  list.put(
    `${ram.name} body`,
    'ram',
    { kind: 'rigid', body: 'axle' },
    cylinder({ from: add(ram.body.at, half), to: sub(ram.body.at, half), radius: radii.body }),
    { of, assumed: true },
  );
  const tieRods = axle.steering?.tieRods ?? [];
  const ends = tieRods.map(t => (t.from.on === 'ram rod' ? t.from.at : t.to.at));
  if (!ends[0] || !ends[1]) return;
  list.put(
    `${ram.name} rod`,
    'ram',
    { kind: 'rigid', body: 'ram rod' },
    capsule({ from: ends[0], to: ends[1], radius: radii.rod }),
    { of, assumed: ram.rodDiameter === null },
  );
}

function singleRam(axle: Axle, ram: Ram, list: PartList): void {
  const { rod } = ram;
  if (!rod) return;
  const radii = ramRadii(ram);
  const shortest = ram.closed ?? distance(ram.body.at, rod.at);
  telescope(
    {
      name: ram.name,
      kind: 'ram',
      words: ['body', 'rod'],
      body: { anchor: anchor(ram.body.on, ram.body.at), radius: radii.body, length: null },
      rod: { anchor: anchor(rod.on, rod.at), radius: radii.rod },
      shortest,
      longest: shortest + (ram.stroke ?? 0),
      assumed: { body: true, rod: ram.rodDiameter === null },
    },
    list,
  );
  const held = rodsOf(axle).find(
    each => each.name === rod.on || (rod.on === 'tie rod' && each === axle.steering?.tieRods[0]),
  );
  if (held) ramBracket(ram, held, rod.at, list);
}

/** The tab on a rod by which a ram pushes it, or the clamp around the rod where the ram pushes in its line. */
function ramBracket(ram: Ram, rod: Rod, eye: V3, list: PartList): void {
  const points = [rod.from.at, ...rod.through, rod.to.at];
  const { foot, along } = nearestOn(points, eye);
  const radius = rodOd(rod) / 2;
  const clamps = distance(foot, eye) < radius + ASSUMED.eye;
  const tab = ASSUMED.ramBracket;
  const half = scale(along, radius);
  const solid = clamps
    ? cylinder({ from: sub(foot, half), to: add(foot, half), radius: radius + tab })
    : capsule({
        from: foot,
        to: add(eye, scale(unit(sub(foot, eye)), ZONE * ASSUMED.eye + tab)),
        radius: tab,
      });
  list.put(
    `${ram.name} ${clamps ? 'clamp' : 'tab'}`,
    'ramBracket',
    { kind: 'rigid', body: rod.name },
    solid,
    { of: ram.name, assumed: true },
  );
}

/** The point of a polyline nearest to a point, and the direction of the line there. */
function nearestOn(points: readonly V3[], at: V3): { foot: V3; along: V3 } {
  let best = Number.POSITIVE_INFINITY;
  let found: { foot: V3; along: V3 } = { foot: at, along: [0, 1, 0] };
  for (let i = 1; i < points.length; i++) {
    const p = points[i - 1] as V3;
    const line = sub(points[i] as V3, p);
    const share = Math.max(0, Math.min(1, dot(sub(at, p), line) / dot(line, line)));
    const foot = add(p, scale(line, share));
    const off = distance(foot, at);
    if (off >= best) continue;
    best = off;
    found = { foot, along: unit(line) };
  }
  return found;
}
