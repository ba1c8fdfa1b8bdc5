/** A mesh file as a drawn part: which body it rides on, in what unit it is, and where it lies. */
import {
  add,
  cross,
  distance,
  dot,
  norm,
  scale as scaled,
  sub,
  turned,
  unit as unitOf,
} from '../vector.ts';
import type { AxleName, Vec3 } from './build.ts';

/** How the number of inches in one of the file's units is written. */
export const MESH_UNITS = {
  mm: '1/25.4',
  cm: '1/2.54',
  m: '1/0.0254',
  in: 1,
  ft: 12,
} as const;
export type MeshUnit = keyof typeof MESH_UNITS;

/** An axis of the file. */
export const FILE_AXES = ['+x', '-x', '+y', '-y', '+z', '-z'] as const;
export type FileAxis = (typeof FILE_AXES)[number];

export interface MeshPlace {
  /** Where the file's origin lies, as other points of the build are typed. */
  at: readonly [number | string, number | string, number | string];
  /** Where the file's own X axis points, and its own Z axis. */
  forward: Vec3;
  up: Vec3;
}

export interface MeshPart {
  name: string;
  /** Body that it rides on. */
  on: string;
  /** Null for the chassis. */
  axle: AxleName | null;
  file: string;
  size: number;
  /** 64 hexadecimal digits; null where it could not be taken. */
  sha256: string | null;
  unit: MeshUnit;
  place: MeshPlace;
  isNew: boolean;
  mayBeCut: boolean;
}

/** The solid as the file has it; what says no more than the default is left out. */
export function meshPart(part: MeshPart): { name: string } & Record<string, unknown> {
  const { name, on, axle, file, size, sha256, unit, place, isNew, mayBeCut } = part;
  const isAt = place.at.some(each => Number(each) !== 0);
  const isTurned = distance(place.forward, [1, 0, 0]) + distance(place.up, [0, 0, 1]) > 0;
  return {
    name,
    ...(on === 'chassis' ? {} : { on, ...(axle === null ? {} : { axle }) }),
    ...(isNew ? { new: true } : {}),
    ...(mayBeCut ? { mayBeCut: true } : {}),
    mesh: {
      file,
      ...(unit === 'in' ? {} : { scale: MESH_UNITS[unit] }),
      ...(isAt ? { at: place.at } : {}),
      ...(isTurned ? { forward: place.forward, up: place.up } : {}),
      size,
      ...(sha256 === null ? {} : { sha256 }),
    },
  };
}

const axisOf = (axis: FileAxis): Vec3 => {
  const sign = axis.startsWith('-') ? -1 : 1;
  const index = 'xyz'.indexOf(axis.slice(1));
  return [0, 1, 2].map(i => (i === index ? sign : 0)) as unknown as Vec3;
};

/**
 * Where the file's own X and Z axes point, given which of its axes point forward and up on the vehicle; null where those
 * lie along one line.
 *
 * @example attitudeOf('+z', '+y') // of a file whose Y is up and whose Z is forward
 */
export function attitudeOf(
  forward: FileAxis,
  up: FileAxis,
): Pick<MeshPlace, 'forward' | 'up'> | null {
  const [f, u] = [axisOf(forward), axisOf(up)];
  if (dot(f, u) !== 0) return null;
  const left = cross(u, f);
  // columns of the turn from the file's axes into the vehicle's
  const column = (i: 0 | 2): Vec3 => [f[i] + 0, left[i] + 0, u[i] + 0];
  return { forward: column(0), up: column(2) };
}

/** One place, found in the file and on the vehicle. */
export interface PointPair {
  /** In the file's unit and axes. */
  inFile: Vec3;
  /** in, as other points of the build are typed. */
  onVehicle: Vec3;
}

export type Placed =
  | {
      ok: true;
      at: Vec3;
      forward: Vec3;
      up: Vec3;
      /** How far the worst of the three is off, in. */
      off: number;
      /** How many times as far apart the points are in the file as on the vehicle; 1 where the unit is right. */
      stretch: number;
    }
  | { ok: false; message: string };

/** Points whose triangle is this much flatter than it is wide do not settle a turn about its long side. */
const FLAT = 0.01;

/**
 * The place of a mesh of which three points are known. The file's triangle is laid on the vehicle's: planes on each
 * other, middles on each other, and in the plane turned so that the squares of what is left are least (the angle
 * whose tangent is Σ n·(p × q) / Σ p·q, from setting the derivative of that sum to zero).
 *
 * @param inches in one of the file's units
 */
export function placedByPoints(
  pairs: readonly [PointPair, PointPair, PointPair],
  inches: number,
): Placed {
  const p = pairs.map(({ inFile }) => scaled(inFile, inches));
  const q = pairs.map(({ onVehicle }) => onVehicle);
  const [from, to] = [frameOf(p), frameOf(q)];
  if (!from) return { ok: false, message: 'the three points in the file lie along one line' };
  if (!to) return { ok: false, message: 'the three points on the vehicle lie along one line' };
  const laid = (v: Vec3): Vec3 =>
    [0, 1, 2].reduce<Vec3>(
      (sum, k) => add(sum, scaled(to.axes[k] as Vec3, dot(from.axes[k] as Vec3, v))),
      [0, 0, 0],
    );
  const normal = to.axes[2];
  let [sine, cosine] = [0, 0];
  p.forEach((each, i) => {
    const a = laid(sub(each, from.middle));
    const b = sub(q[i] as Vec3, to.middle);
    sine += dot(normal, cross(a, b));
    cosine += dot(a, b);
  });
  const length = Math.hypot(sine, cosine);
  const turn = (v: Vec3): Vec3 => turned(laid(v), normal, cosine / length, sine / length);
  const at = sub(to.middle, turn(from.middle));
  const offs = p.map((each, i) => distance(add(turn(each), at), q[i] as Vec3));
  return {
    ok: true,
    at,
    forward: turn([1, 0, 0]),
    up: turn([0, 0, 1]),
    off: Math.max(...offs),
    stretch: around(p) / around(q),
  };
}

/** Middle of three points and axes along their first side, in their plane and square to it; null on one line. */
function frameOf(points: readonly Vec3[]): { middle: Vec3; axes: [Vec3, Vec3, Vec3] } | null {
  const [a, b, c] = points as [Vec3, Vec3, Vec3];
  const normal = cross(sub(b, a), sub(c, a));
  const side = around(points);
  if (!(norm(normal) > FLAT * side * side)) return null;
  const x = unitOf(sub(b, a));
  const z = unitOf(normal);
  return { middle: scaled(add(add(a, b), c), 1 / 3), axes: [x, cross(z, x), z] };
}

const around = ([a, b, c]: readonly Vec3[]): number =>
  distance(a as Vec3, b as Vec3) + distance(b as Vec3, c as Vec3) + distance(c as Vec3, a as Vec3);
