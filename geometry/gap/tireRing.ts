/**
 * Tire and wheel open towards the axle, for parts that reach into the wheel (tie rod, drag link, ram, axle
 * tubes): the tire as a ring from the rim out, the wheel as its barrel and disk. Rings are sectors, each the
 * hull of its corners; corners of outer faces stand out by 1/cos(π/n), so that a ring contains what it stands for.
 */
import type { Tire } from '../build/build.ts';
import { cylinderPiece, type Piece, pointsPiece } from '../solid/piece.ts';
import { type Solid, solidOf } from '../solid/solid.ts';
import { squareTo } from '../solid/support.ts';
import { add, scale, type V3 } from '../vector.ts';
import { ASSUMED } from './partSizes.ts';

/** Sectors: the corners stand out by 0.2 %, 1/32 in on a 40 in tire. */
const SECTORS = 48;

export interface Rim {
  diameter: number;
  width: number;
  offset: number;
}

/** The rim as entered, else one that is assumed. */
export const rimOf = ({ rim, diameter, width }: Tire): Rim =>
  rim ?? {
    diameter: diameter * ASSUMED.rimShare,
    width: width * ASSUMED.rimWidthShare,
    offset: 0,
  };

/** @param axis unit spin axis */
export function tireRing(tire: Tire, center: V3, axis: V3): Solid {
  const { diameter, width, shoulder } = tire;
  const inner = Math.min(diameter / 2 - shoulder - 0.1, rimOf(tire).diameter / 2 + shoulder);
  return solidOf(
    'hull',
    ring(center, axis, width / 2 - shoulder, inner, diameter / 2 - shoulder, shoulder),
  );
}

/**
 * Barrel and disk of a wheel; the disk stands outboard of the hub's face.
 *
 * @param axis unit spin axis
 * @param outboard unit, along the axis away from the vehicle
 */
export function wheelRing(tire: Tire, center: V3, axis: V3, outboard: V3): Solid {
  const rim = rimOf(tire);
  const radius = rim.diameter / 2;
  const pieces = ring(center, axis, rim.width / 2, Math.max(0, radius - ASSUMED.barrel), radius, 0);
  const disk = add(center, scale(outboard, rim.offset + ASSUMED.disk / 2));
  pieces.push(cylinderPiece(disk, axis, ASSUMED.disk / 2, radius));
  return solidOf('hull', pieces);
}

function ring(
  center: V3,
  axis: V3,
  half: number,
  inner: number,
  outer: number,
  radius: number,
): Piece[] {
  const [u, v] = squareTo(axis[0], axis[1], axis[2]);
  const corner = (angle: number, from: number, side: number): number[] =>
    [0, 1, 2].map(
      i =>
        (center[i] as number) +
        side * half * (axis[i] as number) +
        from * (Math.cos(angle) * (u[i] as number) + Math.sin(angle) * (v[i] as number)),
    );
  const out = outer / Math.cos(Math.PI / SECTORS);
  return Array.from({ length: SECTORS }, (_, k) => {
    const points: number[] = [];
    for (const step of [k - 0.5, k + 0.5]) {
      const angle = (2 * Math.PI * step) / SECTORS;
      for (const from of [inner, out]) {
        for (const side of [-1, 1]) points.push(...corner(angle, from, side));
      }
    }
    return pointsPiece(Float64Array.from(points), radius);
  });
}
