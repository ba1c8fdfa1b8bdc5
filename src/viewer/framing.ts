/**
 * Where the camera stands: which way it looks, how much it sees, and where in the picture its aim lies. Vehicle
 * axes, in; fov in degrees.
 */
import { add, cross, dot, norm, scale, sub, unit, type V3 } from '../../geometry/vector.ts';

export type ViewName = 'corner' | 'front' | 'side' | 'top';

/** A rectangle of the picture, px from its top left. */
export interface Free {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

export interface Size {
  width: number;
  height: number;
}

export interface Framing {
  /** What the camera turns about. */
  target: V3;
  /** Unit, from the target to the camera. */
  direction: V3;
  /** Of the picture, at the target, in. */
  height: number;
  fov: number;
  /** Where the target lies off the picture's middle, px right and down. */
  shift: readonly [number, number];
}

/** From front passenger and above: the driver is on the right. */
const CORNER: V3 = unit([250, -78, 98]);
export const CORNER_FOV = 17;
/** Nearly parallel: straight-on views measure the same near and far to half a percent. */
export const STRAIGHT_FOV = 1.2;

/** Unit, from the axle to the camera. A rear axle is looked at from behind, where the frame leaves it open. */
export function directionOf(view: ViewName, axle: 'front' | 'rear', driver: 'left' | 'right'): V3 {
  switch (view) {
    case 'corner': {
      const [x, y, z] = CORNER;
      const way = axle === 'front' ? 1 : -1;
      return [x * way, driver === 'left' ? y : -y, z];
    }
    case 'front':
      // as the driver sits: from behind, driver side left where the driver sits left
      return [-1, 0, 0];
    case 'side':
      return [0, driver === 'left' ? 1 : -1, 0];
    case 'top':
      // a hair behind, so that up in the picture is forward
      return unit([-1e-4, 0, 1]);
  }
}

/** Right and up of a picture that is taken from a direction, with Z up. */
export function axesOf(direction: V3): { right: V3; up: V3 } {
  const right = unit(cross([0, 0, 1], direction));
  const sure: V3 = norm(right) === 0 ? [0, -1, 0] : right;
  return { right: sure, up: cross(direction, sure) };
}

export const distanceOf = ({ height, fov }: Pick<Framing, 'height' | 'fov'>): number =>
  height / (2 * Math.tan((fov * Math.PI) / 360));

/** Share of the free rectangle that is filled. */
const FILL = 0.97;

/** Frames points within a free rectangle of the picture. */
export function fit(
  points: readonly V3[],
  target: V3,
  direction: V3,
  fov: number,
  size: Size,
  free: Free,
): Framing {
  const { right, up } = axesOf(direction);
  const wide = Math.max(40, free.right - free.left);
  const tall = Math.max(40, free.bottom - free.top);
  let height = 100;
  let box = { x: 0, y: 0 };
  // nearer points are seen larger, by how near the camera is: a few rounds settle it
  for (let round = 0; round < 6; round++) {
    const away = distanceOf({ height, fov });
    let [left, rightmost, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
    for (const point of points) {
      const from = sub(point, target);
      const larger = away / Math.max(0.2 * away, away - dot(from, direction));
      const x = dot(from, right) * larger;
      const y = dot(from, up) * larger;
      left = Math.min(left, x);
      rightmost = Math.max(rightmost, x);
      low = Math.min(low, y);
      high = Math.max(high, y);
    }
    const scaled = FILL * Math.min(wide / (rightmost - left), tall / (high - low));
    height = size.height / scaled;
    box = { x: ((left + rightmost) / 2) * scaled, y: ((low + high) / 2) * scaled };
  }
  const shift: [number, number] = [
    (free.left + free.right) / 2 - size.width / 2 - box.x,
    (free.top + free.bottom) / 2 - size.height / 2 + box.y,
  ];
  return { target, direction, height, fov, shift };
}

/** Between two framings, `t` from 0 to 1: directions by the shortest turn, sizes by their ratio. */
export function between(a: Framing, b: Framing, t: number): Framing {
  const mix = (p: number, q: number): number => p + t * (q - p);
  const ratio = (p: number, q: number): number => p * (q / p) ** t;
  const tan = (fov: number): number => Math.tan((fov * Math.PI) / 360);
  return {
    target: add(a.target, scale(sub(b.target, a.target), t)),
    direction: turnedBetween(a.direction, b.direction, t),
    height: ratio(a.height, b.height),
    fov: (360 / Math.PI) * Math.atan(ratio(tan(a.fov), tan(b.fov))),
    shift: [mix(a.shift[0], b.shift[0]), mix(a.shift[1], b.shift[1])],
  };
}

function turnedBetween(a: V3, b: V3, t: number): V3 {
  const mixed = add(scale(a, 1 - t), scale(b, t));
  // opposite directions: go over the top
  if (norm(mixed) < 0.05) return unit(add(mixed, [0, 0, 1]));
  return unit(mixed);
}

export const easeOut = (t: number): number => 1 - (1 - t) ** 3;

/** Corners of a box. */
export function corners(low: V3, high: V3): V3[] {
  return [0, 1, 2, 3, 4, 5, 6, 7].map(
    (k): V3 => [k & 1 ? high[0] : low[0], k & 2 ? high[1] : low[1], k & 4 ? high[2] : low[2]],
  );
}
