/** The coarse cycle: a grid of travels over the range, each with its steering inputs. */
import type { Pose } from '../pose/pose.ts';
import { inside } from './edge.ts';
import type { Range } from './range.ts';
import type { End, Reach, SteerInterval } from './reach.ts';

export interface GridSize {
  left: number;
  right: number;
  steer: number;
}

export const COARSE: GridSize = { left: 11, right: 11, steer: 5 };
/** While a hand moves a point: both locks and straight ahead. */
export const GLANCE: GridSize = { ...COARSE, steer: 3 };

/** One place of the grid: the pose straight ahead, what it can be steered, and the poses of that. */
export interface Place {
  left: number;
  right: number;
  /** Null where the place lies outside the range. */
  straight: Pose | null;
  /** The stop of travel that is nearest here. */
  nearest: End | null;
  interval: SteerInterval | null;
  /** Shares of the steering interval, −1 to 1, and their poses. */
  steered: { share: number; pose: Pose }[];
}

export interface Grid {
  size: GridSize;
  left: Float64Array;
  right: Float64Array;
  /** Row by row of right travel, left travel running. */
  places: Place[];
  counts: { solved: number; unreachable: number; undecided: number };
}

/** Shares of the steering interval that n inputs sample: ends and straight ahead among them where n is odd. */
export function steerShares(n: number): number[] {
  if (n <= 1) return [0];
  return Array.from({ length: n }, (_, i) => -1 + (2 * i) / (n - 1));
}

/** Solves the grid over the range's bounding box; places outside the range stay without a pose. */
export function coarseGrid(range: Range, reach: Reach, size: GridSize = COARSE): Grid {
  const steps = gridSteps(range, reach, size);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** The same a place at a time. */
export function* gridSteps(
  range: Range,
  reach: Reach,
  size: GridSize = COARSE,
): Generator<void, Grid> {
  const bounds = (pick: 'left' | 'right', n: number): Float64Array => {
    const values = range.edge.map(p => p[pick]);
    const least = Math.min(...values);
    const most = Math.max(...values);
    return Float64Array.from({ length: n }, (_, i) =>
      n === 1 ? 0 : least + ((most - least) * i) / (n - 1),
    );
  };
  const lefts = bounds('left', size.left);
  const rights = bounds('right', size.right);
  const shares = reach.model.mechanism.steering ? steerShares(size.steer) : [0];
  const places: Place[] = new Array(size.left * size.right);
  let last: SteerInterval | null = null;
  const counts = { solved: 0, unreachable: 0, undecided: 0 };
  for (let r = 0; r < size.right; r++) {
    for (let k = 0; k < size.left; k++) {
      const c = r % 2 === 0 ? k : size.left - 1 - k;
      const left = lefts[c] as number;
      const right = rights[r] as number;
      const place: Place = {
        left,
        right,
        straight: null,
        nearest: null,
        interval: null,
        steered: [],
      };
      places[r * size.left + c] = place;
      if (!inside(range.edge, left, right)) continue;
      const { pose, margin, nearest } = reach.travel(left, right);
      // a hole in the range
      if (pose && margin < 0) continue;
      if (!pose) {
        counts.unreachable++;
        continue;
      }
      place.straight = pose;
      place.nearest = nearest;
      place.interval = reach.steering(pose, last);
      last = place.interval ?? last;
      if (!place.interval) continue;
      for (const share of shares) {
        const at = reach.steered(pose, place.interval, share);
        if (at) place.steered.push({ share, pose: at });
        counts[at ? 'solved' : 'undecided']++;
      }
      yield;
    }
  }
  return { size, left: lefts, right: rights, places, counts };
}
