import { cylinderPiece } from './piece.ts';
import { firstOf, type Made, problemOfPoint, problemOfSize, solidOf } from './solid.ts';

export interface CylinderShape {
  /** Center of the first flat end, in, frame of the body. */
  readonly from: ArrayLike<number>;
  readonly to: ArrayLike<number>;
  readonly radius: number;
}

/**
 * A cylinder with flat ends.
 *
 * @example cylinder({ from: [0, 17.5, 24], to: [0, 17.5, 27], radius: 1.5 })
 */
export function cylinder({ from, to, radius }: CylinderShape): Made {
  const wrong = firstOf(
    problemOfPoint('from', from),
    problemOfPoint('to', to),
    problemOfSize('radius', radius),
  );
  if (wrong !== null) return { problem: wrong };
  const line = [0, 1, 2].map(i => (to[i] as number) - (from[i] as number));
  const length = Math.hypot(line[0] as number, line[1] as number, line[2] as number);
  const problem = problemOfSize('the length from `from` to `to`', length);
  if (problem !== null) return { problem };
  const center = [0, 1, 2].map(i => ((from[i] as number) + (to[i] as number)) / 2);
  const axis = line.map(each => each / length);
  return { solid: solidOf('cylinder', [cylinderPiece(center, axis, length / 2, radius, 0, 0, 1)]) };
}
