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
import type { Hollow } from './part.ts';
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

/** A solid that is open towards the axle, with its hollow. */
export interface Open {
  open: Solid;
  hollow: Hollow;
}

/** @param outboard unit, along the spin axis away from the vehicle */
export function tireRing(tire: Tire, center: V3, outboard: V3): Open {
  const { diameter, width, shoulder } = tire;
  const outer = diameter / 2 - shoulder;
  const inner = Math.min(outer - 0.1, rimOf(tire).diameter / 2 + shoulder);
  return {
    open: solidOf('hull', ring(center, outboard, width / 2 - shoulder, inner, outer, shoulder)),
    hollow: {
      mouth: add(center, scale(outboard, -width / 2)),
      axis: outboard,
      radius: inner * FLAT - shoulder,
      depth: null,
    },
  };
}

/**
 * Barrel and disk of a wheel; the disk stands outboard of the hub's face.
 *
 * @param outboard unit, along the spin axis away from the vehicle
 */
export function wheelRing(tire: Tire, center: V3, outboard: V3): Open {
  const rim = rimOf(tire);
  const radius = rim.diameter / 2;
  const inner = Math.max(0, radius - ASSUMED.barrel);
  const pieces = ring(center, outboard, rim.width / 2, inner, radius, 0);
  const disk = add(center, scale(outboard, rim.offset + ASSUMED.disk / 2));
  pieces.push(cylinderPiece(disk, outboard, ASSUMED.disk / 2, radius));
  return {
    open: solidOf('hull', pieces),
    hollow: {
      mouth: add(center, scale(outboard, -rim.width / 2)),
      axis: outboard,
      radius: inner * FLAT,
      depth: rim.width / 2 + rim.offset,
    },
  };
}

/** The middle of a sector's inner face lies nearer to the axis than its corners. */
const FLAT = Math.cos(Math.PI / SECTORS);

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
