/**
 * A convex piece: a core that is grown by a radius. Every shape but a mesh is a union of such pieces.
 *
 * A rounded core keeps the search for distances on few vertices: a capsule is a segment, a tire a flat
 * cylinder, each grown by its radius, and the distance of two pieces is that of their cores less both
 * radii. Flat arrays, so that a worker can be sent them.
 *
 * Numbers of `data`, in the frame of the body, in:
 *
 *     segment    first end (3), second end (3)
 *     box        center (3), its three unit axes (9), half sizes along them (3)
 *     cylinder   center (3), unit axis (3), half length, radius (flat ends)
 *     points     three numbers a point, `count` of them; the core is their convex hull
 */
import { type Numbers, numbers } from './numbers.ts';
import { carryPoint, type Placement, turnVector } from './placement.ts';

export const SEGMENT = 0;
export const BOX = 1;
export const CYLINDER = 2;
export const POINTS = 3;
export type Core = typeof SEGMENT | typeof BOX | typeof CYLINDER | typeof POINTS;

export interface Piece {
  readonly core: Core;
  /** Radius by which the core is grown, in. */
  radius: number;
  readonly data: Float64Array;
  /** How many points the core has; 0 for the other cores. */
  count: number;
  /**
   * Center and radius of a sphere around the piece, its own radius included. For points three more
   * numbers: half sizes of the box around them, axes of the body, with the same center.
   */
  readonly bound: Float64Array;
  /** Center and radius of the largest ball inside the piece; for points some ball inside it. */
  readonly inner: Float64Array;
  /**
   * Where along the part (0 to 1 from its first end) the piece begins and ends; both −1 for a piece of
   * a part that has no first end.
   */
  readonly from: number;
  readonly to: number;
}

/** Places that a placed core needs at most. */
export const PLACED_SIZE = 15;

export function segmentPiece(
  first: ArrayLike<number>,
  second: ArrayLike<number>,
  radius: number,
  from = -1,
  to = -1,
): Piece {
  const data = numbers(6);
  for (let i = 0; i < 3; i++) {
    data[i] = first[i] as number;
    data[3 + i] = second[i] as number;
  }
  return bounded({
    core: SEGMENT,
    radius,
    data,
    count: 0,
    bound: numbers(7),
    inner: numbers(4),
    from,
    to,
  });
}

/** `axes`: three rows, the unit axes of the box in the frame of the body. */
export function boxPiece(
  center: ArrayLike<number>,
  axes: ArrayLike<number>,
  half: ArrayLike<number>,
  radius = 0,
): Piece {
  const data = numbers(15);
  for (let i = 0; i < 3; i++) data[i] = center[i] as number;
  for (let i = 0; i < 9; i++) data[3 + i] = axes[i] as number;
  for (let i = 0; i < 3; i++) data[12 + i] = half[i] as number;
  return bounded({
    core: BOX,
    radius,
    data,
    count: 0,
    bound: numbers(7),
    inner: numbers(4),
    from: -1,
    to: -1,
  });
}

export function cylinderPiece(
  center: ArrayLike<number>,
  axis: ArrayLike<number>,
  halfLength: number,
  coreRadius: number,
  radius = 0,
  from = -1,
  to = -1,
): Piece {
  const data = numbers(8);
  for (let i = 0; i < 3; i++) {
    data[i] = center[i] as number;
    data[3 + i] = axis[i] as number;
  }
  data[6] = halfLength;
  data[7] = coreRadius;
  return bounded({
    core: CYLINDER,
    radius,
    data,
    count: 0,
    bound: numbers(7),
    inner: numbers(4),
    from,
    to,
  });
}

/** A hull of points. The array is kept, not copied: it may be filled anew (then call `bounded`). */
export function pointsPiece(data: Float64Array, radius = 0): Piece {
  const count = Math.floor(data.length / 3);
  return bounded({
    core: POINTS,
    radius,
    data,
    count,
    bound: numbers(7),
    inner: numbers(4),
    from: -1,
    to: -1,
  });
}

/** Computes the sphere around `piece` anew, after its numbers have changed, and returns the piece. */
export function bounded(piece: Piece): Piece {
  const d = piece.data as Numbers;
  const bound = piece.bound;
  if (piece.core === SEGMENT) {
    bound[0] = (d[0] + d[3]) / 2;
    bound[1] = (d[1] + d[4]) / 2;
    bound[2] = (d[2] + d[5]) / 2;
    bound[3] = Math.hypot(d[3] - d[0], d[4] - d[1], d[5] - d[2]) / 2 + piece.radius;
  } else if (piece.core === BOX) {
    bound.set(d.subarray(0, 3));
    bound[3] = Math.hypot(d[12], d[13], d[14]) + piece.radius;
  } else if (piece.core === CYLINDER) {
    bound.set(d.subarray(0, 3));
    bound[3] = Math.hypot(d[6], d[7]) + piece.radius;
  } else {
    boundPoints(piece);
    return piece;
  }
  const { inner } = piece;
  inner.set(bound.subarray(0, 3));
  let within = 0;
  if (piece.core === BOX) within = Math.min(d[12], d[13], d[14]);
  if (piece.core === CYLINDER) within = Math.min(d[6], d[7]);
  inner[3] = within + piece.radius;
  return piece;
}

/** The middle of the points' extent in each axis, and the farthest point from there. */
function boundPoints(piece: Piece): void {
  const { data, count, bound } = piece;
  for (let axis = 0; axis < 3; axis++) {
    let least = Infinity;
    let most = -Infinity;
    for (let i = axis; i < 3 * count; i += 3) {
      const each = data[i] as number;
      if (each < least) least = each;
      if (each > most) most = each;
    }
    bound[axis] = count > 0 ? (least + most) / 2 : 0;
    bound[4 + axis] = count > 0 ? (most - least) / 2 : 0;
  }
  const [x = 0, y = 0, z = 0] = bound;
  let farthest = 0;
  for (let i = 0; i < 3 * count; i += 3) {
    const dx = (data[i] as number) - x;
    const dy = (data[i + 1] as number) - y;
    const dz = (data[i + 2] as number) - z;
    farthest = Math.max(farthest, Math.hypot(dx, dy, dz));
  }
  bound[3] = farthest + piece.radius;
  // the mean is inside the hull; hull.ts puts a larger ball in its place
  piece.inner.fill(0);
  for (let i = 0; i < 3 * count; i++) {
    piece.inner[i % 3] = (piece.inner[i % 3] as number) + (data[i] as number) / count;
  }
  piece.inner[3] = piece.radius;
}

/**
 * Writes the core's numbers in the common frame to `out`, in the layout of `data`. Points stay where
 * they are: a direction is turned into their frame instead.
 */
export function placeCore(piece: Piece, place: Placement, out: Float64Array): void {
  const { core, data } = piece;
  if (core === POINTS) return;
  carryPoint(place, data, 0, out, 0);
  if (core === SEGMENT) {
    carryPoint(place, data, 3, out, 3);
  } else if (core === CYLINDER) {
    turnVector(place, data, 3, out, 3);
    out[6] = data[6] as number;
    out[7] = data[7] as number;
  } else {
    turnVector(place, data, 3, out, 3);
    turnVector(place, data, 6, out, 6);
    turnVector(place, data, 9, out, 9);
    out[12] = data[12] as number;
    out[13] = data[13] as number;
    out[14] = data[14] as number;
  }
}
