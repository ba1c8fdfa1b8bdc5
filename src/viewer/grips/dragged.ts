/** How far a pointer has dragged something along an axis or in a plane. Vehicle axes, in. */
import { cross, dot, norm, scale, sub, type V3 } from '../../../geometry/vector.ts';

/** What a pointer points at: a line from the eye. */
export interface Ray {
  from: V3;
  /** Unit. */
  way: V3;
}

/** Under this sine between sight and axis no pull along the axis can be told, rad. */
const LEAST_SINE = 0.02;

/**
 * Place on an axis that is nearest to the ray: its distance from `at` along `axis`; null where the axis is seen from
 * its end. Closed form of the common perpendicular of two lines.
 *
 * @param axis unit
 */
export function onAxis({ from, way }: Ray, at: V3, axis: V3): number | null {
  const square = cross(axis, way);
  const sine = norm(square);
  if (sine < LEAST_SINE) return null;
  const between = sub(from, at);
  return dot(cross(between, way), square) / (sine * sine);
}

/** Where the ray meets the plane through `at` that is square to `normal` (unit); null where it runs along it. */
export function onPlane({ from, way }: Ray, at: V3, normal: V3): V3 | null {
  const slope = dot(way, normal);
  if (Math.abs(slope) < LEAST_SINE) return null;
  const t = dot(sub(at, from), normal) / slope;
  const [x, y, z] = scale(way, t);
  return [from[0] + x, from[1] + y, from[2] + z];
}

/** The body's axes (unit, square to each other) that something is dragged along. */
export type Axes = readonly [V3, V3, V3];

/** What is taken hold of: one axis, or the point itself, which goes in the plane that is seen most squarely. */
export type Held = 0 | 1 | 2 | 'point';

/**
 * A drag from the place where the hand took hold.
 *
 * @param begin ray of the pointer there
 * @returns how far for a later ray, along each axis; null where that can't be told
 */
export function drag(held: Held, begin: Ray, at: V3, axes: Axes): (now: Ray) => V3 | null {
  if (held !== 'point') {
    const start = onAxis(begin, at, axes[held]);
    return now => {
      const end = onAxis(now, at, axes[held]);
      if (start === null || end === null) return null;
      return [0, 1, 2].map(axis => (axis === held ? end - start : 0)) as unknown as V3;
    };
  }
  const across = facing(begin.way, axes);
  const start = onPlane(begin, at, axes[across]);
  return now => {
    const end = onPlane(now, at, axes[across]);
    if (start === null || end === null) return null;
    const by = sub(end, start);
    return [0, 1, 2].map(axis => (axis === across ? 0 : dot(by, axes[axis as 0]))) as unknown as V3;
  };
}

/** The axis that is seen most from its end. */
function facing(way: V3, axes: Axes): 0 | 1 | 2 {
  const share = (axis: 0 | 1 | 2): number => Math.abs(dot(way, axes[axis]));
  return ([1, 2] as const).reduce<0 | 1 | 2>((a, b) => (share(b) > share(a) ? b : a), 0);
}
