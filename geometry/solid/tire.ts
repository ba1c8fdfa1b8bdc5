import { cylinderPiece } from './piece.ts';
import { firstOf, type Made, problemOfPoint, problemOfSize, solidOf } from './solid.ts';

export interface TireShape {
  /** In, frame of the body. */
  readonly center: ArrayLike<number>;
  /** Direction of the spin axis in the frame of the body; its length does not matter. */
  readonly axis: ArrayLike<number>;
  /** Measured, unloaded diameter, in. */
  readonly diameter: number;
  /** Measured section width, in. */
  readonly width: number;
  /** Radius of the shoulders, in: 0 is a plain cylinder; at most half the width and half the diameter. */
  readonly shoulder: number;
}

/**
 * A tire: a cylinder with rounded shoulders, which is a flat cylinder, smaller by the shoulder radius
 * all around, grown by it. It has no first end.
 *
 * @example tire({ center: [0, 35.5, 20], axis: [0, 1, 0], diameter: 41.4, width: 13.5, shoulder: 2 })
 */
export function tire({ center, axis, diameter, width, shoulder }: TireShape): Made {
  const wrong = firstOf(
    problemOfPoint('center', center),
    problemOfPoint('axis', axis),
    problemOfSize('diameter', diameter),
    problemOfSize('width', width),
    shoulder === 0 ? null : problemOfSize('shoulder', shoulder),
  );
  if (wrong !== null) return { problem: wrong };
  const [x = 0, y = 0, z = 0] = [axis[0], axis[1], axis[2]];
  const length = Math.hypot(x, y, z);
  const most = Math.min(width, diameter) / 2;
  const problem = firstOf(
    problemOfSize('the length of axis', length),
    shoulder > most
      ? `shoulder is ${shoulder}; at most half the width and half the diameter, ${most}, fits`
      : null,
  );
  if (problem !== null) return { problem };
  const unit = [x / length, y / length, z / length];
  const piece = cylinderPiece(
    center,
    unit,
    width / 2 - shoulder,
    diameter / 2 - shoulder,
    shoulder,
  );
  return { solid: solidOf('tire', [piece]) };
}
