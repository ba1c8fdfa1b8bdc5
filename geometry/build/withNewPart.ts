/**
 * Parts as they are added by hand: a place and size that can stand there, every number of it assumed until it is
 * moved or typed. Where they are put is a rule of thumb, no source: they are there to be moved.
 */
import { pathSteps } from './address.ts';
import type { Axle, Build, Vec3 } from './build.ts';
import { appliedFile, type Edit, type Edited, withField, withPart } from './edit.ts';
import { LISTED, type ListedPart, type NewPart, type SinglePart } from './newParts.ts';
import { newRam, newSteering } from './newSteering.ts';
import { PointPen } from './pointPen.ts';
import type { BuildFile } from './schema/file.ts';
import { proposeDriveline, proposeHousing } from './start/driveline.ts';
import { placeIn } from './start/placeIn.ts';
import { guess, tube } from './start/value.ts';

/**
 * The file with a part more.
 *
 * @param build that was read from it, with the axle that gets the part
 */
export function withNewPart(edited: Edited, part: NewPart, build: Build, axle: Axle): Edit {
  const file = appliedFile(edited) as unknown as BuildFile;
  if ('name' in part) {
    const list = LISTED[part.kind][2];
    const to = list === null ? 'solids' : `axles.${axle.name}.${list}`;
    const pen = new PointPen(build, file, axle);
    const made =
      part.kind === 'ram'
        ? newRam(part.name, part.ends, build, file, axle)
        : { name: part.name, ...listedPart(part.kind, axle, pen) };
    return withPart(edited, to, made);
  }
  const fields =
    part.kind === 'steering'
      ? newSteering(part.layout, build, file, axle)
      : { [part.kind]: singlePart(part.kind, build, file, axle) };
  const steps = pathSteps(file, `axles["${axle.name}"]`) ?? [];
  return Object.entries(fields).reduce<Edit>(
    (edit, [key, value]) =>
      edit.ok ? withField({ ...edited, file: edit.file }, [...steps, key], value) : edit,
    { ok: true, file: edited.file },
  );
}

function singlePart(kind: SinglePart, build: Build, file: BuildFile, axle: Axle): object {
  const place = placeIn(build, axle);
  switch (kind) {
    case 'housing':
      return proposeHousing(place);
    case 'driveline':
      // the transfer case stands in the middle of the vehicle
      return proposeDriveline(place, Math.round(0.42 * build.wheelbase));
    case 'swayBar':
      return newSwayBar(axle, new PointPen(build, file, axle));
  }
}

/** Links run away from the end of the vehicle that the axle is at. */
const toMiddle = ({ name }: Axle): 1 | -1 => (name === 'front' ? -1 : 1);

/** A bar beyond the axle, arms long enough for its travel, end links straight down. */
function newSwayBar(axle: Axle, pen: PointPen): object {
  const [x, , z] = axle.origin;
  const beyond = -toMiddle(axle);
  const y = 0.26 * axle.wheelCenters;
  return {
    axis: { at: pen.point([x + 18 * beyond, 0, z + 17], 'chassis'), direction: [0, 1, 0] },
    arms: [{ sides: 'mirror', tip: pen.point([x + 2 * beyond, y, z + 17], 'chassis') }],
    endLinks: [{ sides: 'mirror', axle: pen.point([x + 2 * beyond, y, z + 3], 'axle') }],
    tube: tube('1 1/8'),
  };
}

function listedPart(kind: Exclude<ListedPart, 'ram'>, axle: Axle, pen: PointPen): object {
  const [x, , z] = axle.origin;
  const out = axle.wheelCenters / 4;
  const way = toMiddle(axle);
  const on = (at: Vec3): object => pen.point(at, 'axle');
  const frame = (at: Vec3): object => pen.point(at, 'chassis');
  const sides = 'mirror';
  switch (kind) {
    case 'box': {
      const size = [4, 4, 4].map(each => pen.length(each));
      return { box: { center: frame([x, 0, z + 22]), size } };
    }
    case 'axleBox': {
      const size = [4, 4, 4].map(each => pen.length(each));
      return { on: 'axle', axle: axle.name, box: { center: on([x, 0, z + 6]), size } };
    }
    case 'tube': {
      const ends = { from: frame([x - 6, 0, z + 22]), to: frame([x + 6, 0, z + 22]) };
      return { capsule: { ...ends, radius: pen.length(0.75, 0.25) } };
    }
    case 'link':
      return {
        axle: { at: on([x, out / 2, z + 4]) },
        chassis: { at: frame([x + 34 * way, out / 2, z + 5]) },
        tube: tube('2'),
      };
    case 'trackBar':
      return {
        kind: 'track bar',
        axle: { at: on([x - 5 * way, -1.4 * out, z + 4.5]) },
        chassis: { at: frame([x - 4 * way, 0.85 * out, z + 7.5]) },
        tube: tube('1 1/2'),
      };
    case 'joint':
      return {
        kind: 'rodEnd',
        bolt: [0, 1, 0].map(value => ({ value, from: 'assumed', tolerance: 0.05 })),
        limit: guess('30 deg', '3 deg'),
        housing: guess('2 1/4 in', '1/4 in'),
      };
    case 'shock':
      return {
        sides,
        axle: on([x + 6 * way, 1.3 * out, z + 3]),
        chassis: frame([x + 6 * way, 1.1 * out, z + 24]),
        shortest: pen.length(14),
        longest: pen.length(28),
      };
    case 'coil':
      return {
        sides,
        axle: on([x, 1.1 * out, z + 3.5]),
        chassis: frame([x, 1.1 * out, z + 17.5]),
        free: pen.length(20, 2),
        rate: guess('200 lbf/in', '40 lbf/in'),
        diameter: guess('4 1/2 in', '3/4 in'),
      };
    case 'strap':
      return {
        sides,
        axle: on([x, 1.2 * out, z + 2]),
        chassis: frame([x, 1.2 * out, z + 16]),
        length: pen.length(22),
      };
    case 'bumpStop':
      return {
        sides,
        kind: 'rubber',
        pad: { on: 'axle', at: on([x, 1.1 * out, z + 3]) },
        strike: { on: 'chassis', at: frame([x, 1.1 * out, z + 14]) },
        contactHeight: pen.length(3),
        solidHeight: pen.length(1),
      };
    case 'brakeHose':
      return {
        sides,
        from: { on: 'left knuckle', at: on([x - 3.5, 1.6 * out, z + 5]) },
        to: { on: 'chassis', at: frame([x - 9, 0.9 * out, z + 16]) },
        length: pen.length(26),
        leastBendRadius: guess('2 1/2 in', '1/2 in'),
        diameter: guess('1/2 in', '1/8 in'),
      };
    case 'line':
      return {
        from: { on: 'axle', at: on([x, 6, z + 4]) },
        to: { on: 'chassis', at: frame([x, 6, z + 16]) },
        length: pen.length(26),
      };
  }
}
