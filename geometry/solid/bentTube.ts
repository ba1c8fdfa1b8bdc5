import { segmentPiece } from './piece.ts';
import { firstOf, type Made, problemOfPoint, problemOfSize, solidOf } from './solid.ts';

export interface BentTubeShape {
  /** Points of the center line from the first end on, two or more, in, frame of the body. */
  readonly points: readonly ArrayLike<number>[];
  readonly radius: number;
}

/**
 * A tube along a line with bends, a ball of its radius at each of them: one capsule a straight piece.
 * Where a hit lies is counted along the center line.
 *
 * @example bentTube({ points: [[0, 18, 28], [0, 0, 31], [0, -20, 25]], radius: 0.75 })
 */
export function bentTube({ points, radius }: BentTubeShape): Made {
  const problem = firstOf(
    points.length < 2 ? `points has ${points.length} points; a tube needs 2 or more` : null,
    ...points.map((point, i) => problemOfPoint(`points[${i}]`, point)),
    problemOfSize('radius', radius),
  );
  if (problem !== null) return { problem };
  const at = [0];
  for (let i = 1; i < points.length; i++) {
    const p = points[i - 1] as ArrayLike<number>;
    const q = points[i] as ArrayLike<number>;
    const [x = 0, y = 0, z = 0] = [0, 1, 2].map(k => (q[k] as number) - (p[k] as number));
    at.push((at[i - 1] as number) + Math.hypot(x, y, z));
  }
  const length = at[at.length - 1] as number;
  const share = (i: number) => (length > 0 ? (at[i] as number) / length : 0);
  const pieces = points.slice(1).map((point, i) => {
    const first = points[i] as ArrayLike<number>;
    return segmentPiece(first, point, radius, share(i), share(i + 1));
  });
  return { solid: solidOf('bentTube', pieces) };
}
