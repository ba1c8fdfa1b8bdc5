import { segmentPiece } from './piece.ts';
import { firstOf, type Made, problemOfPoint, problemOfSize, solidOf } from './solid.ts';

export interface SphereShape {
  /** In, frame of the body. */
  readonly center: ArrayLike<number>;
  readonly radius: number;
}

/**
 * A sphere; it has no first end.
 *
 * @example sphere({ center: [0, 0, 20], radius: 6.25 })
 */
export function sphere({ center, radius }: SphereShape): Made {
  const problem = firstOf(problemOfPoint('center', center), problemOfSize('radius', radius));
  if (problem !== null) return { problem };
  return { solid: solidOf('sphere', [segmentPiece(center, center, radius)]) };
}
