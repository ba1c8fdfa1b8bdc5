import { numbers } from './numbers.ts';

/** What the search for one pair starts from: the place of the last result. Made by `pairStart`. */
export interface PairStart {
  /** Direction from b to a in the common frame at the last pose; zero before the first. */
  readonly direction: Float64Array;
  /** Nearest pieces, −1 for none. */
  pieceA: number;
  pieceB: number;
  /** Nearest triangles, −1 for none. */
  triangleA: number;
  triangleB: number;
}

/** A start for one pair of solids, to be handed to `DistanceSolver.run` at one pose after the other. */
export function pairStart(): PairStart {
  return { direction: numbers(3), pieceA: -1, pieceB: -1, triangleA: -1, triangleB: -1 };
}
