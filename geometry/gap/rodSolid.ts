/** Tubes with the housings of their joints, as solids. */
import { type Piece, segmentPiece } from '../solid/piece.ts';
import { type Solid, solidOf } from '../solid/solid.ts';
import { distance, type V3 } from '../vector.ts';

/** A joint's housing: a ball about one of the tube's points. */
export interface Housing {
  /** Index of the point. */
  point: number;
  radius: number;
}

/**
 * A tube along points, with a ball of the joint's housing wherever that is wider than the tube. Where a hit lies is
 * counted along the center line.
 */
export function rodSolid(
  points: readonly V3[],
  radius: number,
  housings: readonly Housing[],
): Solid {
  const at = [0];
  for (let i = 1; i < points.length; i++) {
    at.push((at[i - 1] as number) + distance(points[i - 1] as V3, points[i] as V3));
  }
  const total = at.at(-1) as number;
  const share = (i: number): number => (at[i] as number) / total;
  const pieces: Piece[] = [];
  for (let i = 1; i < points.length; i++) {
    pieces.push(segmentPiece(points[i - 1] as V3, points[i] as V3, radius, share(i - 1), share(i)));
  }
  for (const { point, radius: wide } of housings) {
    const center = points[point] as V3;
    if (wide > radius) {
      pieces.push(segmentPiece(center, center, wide, share(point), share(point)));
    }
  }
  return solidOf('bentTube', pieces);
}
