import { segmentPiece } from './piece.ts';
import { firstOf, type Made, problemOfPoint, problemOfSize, solidOf } from './solid.ts';

export interface CapsuleShape {
  /** First end of the axis, in, frame of the body. */
  readonly from: ArrayLike<number>;
  readonly to: ArrayLike<number>;
  readonly radius: number;
}

/**
 * A tube with round ends: all points within `radius` of the line from `from` to `to`. Both may be the
 * same point.
 *
 * @example capsule({ from: [0, 0, 0], to: [36, 0, 4], radius: 1 })
 */
export function capsule({ from, to, radius }: CapsuleShape): Made {
  const problem = firstOf(
    problemOfPoint('from', from),
    problemOfPoint('to', to),
    problemOfSize('radius', radius),
  );
  if (problem !== null) return { problem };
  return { solid: solidOf('capsule', [segmentPiece(from, to, radius, 0, 1)]) };
}
