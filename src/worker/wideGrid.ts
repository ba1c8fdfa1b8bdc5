/**
 * The grid of the refined map: over the range and one place beyond its edge, so that lines between colors run up to
 * the edge without guessing. Beyond the edge a stop is past its end; the links go on, and so do the gaps.
 */
import { inside } from '../../geometry/cycle/edge.ts';
import { steerShares } from '../../geometry/cycle/grid.ts';
import type { Range } from '../../geometry/cycle/range.ts';
import type { Reach, SteerInterval } from '../../geometry/cycle/reach.ts';
import type { Pose } from '../../geometry/pose/pose.ts';

export interface WidePlace {
  /** Straight ahead; null far outside the range, and where there is no pose. */
  straight: Pose | null;
  steered: { pose: Pose }[];
}

export interface WideGrid {
  left: Float64Array;
  right: Float64Array;
  /** 1 at places of the range. */
  inside: Uint8Array;
  /** Row by row of right travel, left travel running. */
  places: WidePlace[];
}

/**
 * Solves the grid a place at a time; what is yielded counts rows that are whole.
 *
 * @param size places along each travel
 * @param turns steering inputs at each place
 * @param over edges that the grid spans, where that is more than the range
 */
export function* wideGrid(
  range: Range,
  reach: Reach,
  size: number,
  turns: number,
  over: Range['edge'] = range.edge,
): Generator<number, WideGrid> {
  const left = axisOf(
    over.map(p => p.left),
    size,
  );
  const right = axisOf(
    over.map(p => p.right),
    size,
  );
  const grid: WideGrid = {
    left,
    right,
    inside: new Uint8Array(size * size),
    places: Array.from({ length: size * size }, () => ({ straight: null, steered: [] })),
  };
  for (let r = 0; r < size; r++) {
    for (let l = 0; l < size; l++) {
      const isIn = inside(range.edge, left[l] as number, right[r] as number);
      grid.inside[r * size + l] = isIn ? 1 : 0;
    }
  }
  const shares = reach.axle.steered ? steerShares(turns) : [0];
  let last: SteerInterval | null = null;
  for (let r = 0; r < size; r++) {
    for (let l = 0; l < size; l++) {
      const k = r * size + l;
      if (!isBeside(grid.inside, size, l, r)) continue;
      const place = grid.places[k] as WidePlace;
      const { pose, margin } = reach.travel(left[l] as number, right[r] as number);
      // a hole in the range
      if (!pose || (grid.inside[k] === 1 && margin < 0)) {
        grid.inside[k] = 0;
        continue;
      }
      place.straight = pose;
      const interval = reach.steering(pose, last);
      if (!interval) continue;
      last = interval;
      for (const share of shares) {
        const at = reach.steered(pose, interval, share);
        if (at) place.steered.push({ pose: at });
      }
      yield r;
    }
  }
  return grid;
}

/** Even places from the least to the greatest value, and one more on either side. */
function axisOf(values: readonly number[], size: number): Float64Array {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  return Float64Array.from(
    { length: size },
    (_, i) => least + ((most - least) * (i - 1)) / (size - 3),
  );
}

/** True at a place of the range and next to one. */
function isBeside(isIn: Uint8Array, size: number, l: number, r: number): boolean {
  for (let y = Math.max(0, r - 1); y <= Math.min(size - 1, r + 1); y++) {
    for (let x = Math.max(0, l - 1); x <= Math.min(size - 1, l + 1); x++) {
      if (isIn[y * size + x] === 1) return true;
    }
  }
  return false;
}
