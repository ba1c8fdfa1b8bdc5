import { boxPiece } from './piece.ts';
import { placement, problemOfPlacement } from './placement.ts';
import { firstOf, type Made, problemOfPoint, problemOfSize, solidOf } from './solid.ts';

export interface BoxShape {
  /** In, frame of the body. */
  readonly center: ArrayLike<number>;
  /** Half of its length along each of its own axes, in. */
  readonly half: ArrayLike<number>;
  /** Its own axes in the frame of the body, one a row, right-handed; those of the body unless given. */
  readonly axes?: ArrayLike<number>;
}

/**
 * A box with sharp edges; it has no first end.
 *
 * @example box({ center: [-20, 15, 24], half: [40, 1.5, 3] })
 */
export function box({ center, half, axes = [1, 0, 0, 0, 1, 0, 0, 0, 1] }: BoxShape): Made {
  const problem = firstOf(
    problemOfPoint('center', center),
    problemOfPoint('half', half),
    ...[0, 1, 2].map(i => problemOfSize(`half[${i}]`, half[i] as number)),
    axes.length === 9 ? null : `axes has ${axes.length} numbers; three axes have 9`,
  );
  if (problem !== null) return { problem };
  const turned = problemOfPlacement(placement(axes, [0, 0, 0]));
  if (turned !== null) return { problem: turned.replace('of the placement', 'of the box') };
  return { solid: solidOf('box', [boxPiece(center, axes, half)]) };
}
