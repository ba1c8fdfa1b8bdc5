/**
 * Following the branch: from one solved pose to another in steps that Newton's theorem vouches for. A step
 * that fails is halved; where even the shortest fails, the branch has ended, or it is undecided.
 */
import { MOST_FAILURES, PATH_END_in, PATH_STEP_in, PROGRESS } from '../tolerances.ts';
import { ElasticAxle } from './elasticAxle.ts';
import {
  BEYOND_FOLD,
  type ExactAxle,
  SOLVED,
  type SolveCode,
  TOO_FAR,
  TOO_STEEP,
} from './exactAxle.ts';

export type AxleSolver = ExactAxle | ElasticAxle;

/** Where a path got to: `at` is 1 at its end; `stopped` where the caller's own condition ended it. */
export interface Followed {
  code: SolveCode;
  at: number;
  stopped: boolean;
}

/**
 * Follows a straight path of travels. On success the solver stands at the end; else at the last solved pose.
 *
 * @param longest longest step, in of travel; tests halve it
 * @param ends tells after a solved step that the path must not go on
 */
export function follow(
  solver: AxleSolver,
  from: readonly [number, number],
  to: readonly [number, number],
  longest = PATH_STEP_in,
  ends?: () => boolean,
): Followed {
  const dl = to[0] - from[0];
  const dr = to[1] - from[1];
  const length = Math.max(Math.abs(dl), Math.abs(dr));
  return followPath(
    solver,
    t => (t === 1 ? solver.solve(to[0], to[1]) : solver.solve(from[0] + t * dl, from[1] + t * dr)),
    length,
    longest,
    ends,
  );
}

/**
 * Follows any path `solveAt(t)`, t from 0 (where the solver stands, solved) to 1; `length` is its size in
 * inches. Starts are carried on along the last step.
 */
export function followPath(
  solver: AxleSolver,
  solveAt: (t: number) => SolveCode,
  length: number,
  longest = PATH_STEP_in,
  ends?: () => boolean,
): Followed {
  const state = solver.state;
  const good = Float64Array.from(state);
  const before = Float64Array.from(state);
  let t = 0;
  let tBefore = 0;
  const most = length > 0 ? Math.min(1, longest / length) : 1;
  const least = length > 0 ? PATH_END_in / length : 1;
  let step = most;
  let code: SolveCode = SOLVED;
  if (length === 0) return { code: solveAt(1), at: 1, stopped: false };
  let failures = 0;
  let countedFrom = 0;
  while (t < 1) {
    const next = 1 - t - step < 1e-12 ? 1 : t + step;
    if (t > tBefore) {
      const f = (next - t) / (t - tBefore);
      for (let i = 0; i < state.length; i++) {
        state[i] = (good[i] as number) + f * ((good[i] as number) - (before[i] as number));
      }
      if (solver instanceof ElasticAxle) solver.tidy();
    }
    code = solveAt(next);
    if (code === SOLVED) {
      before.set(good);
      good.set(state);
      tBefore = t;
      t = next;
      step = Math.min(most, step * 2);
      if (t - countedFrom >= PROGRESS) {
        failures = 0;
        countedFrom = t;
      }
      if (ends?.()) return { code, at: t, stopped: true };
      continue;
    }
    state.set(good);
    const gaveUp = ++failures === MOST_FAILURES;
    if (step <= least || code === TOO_STEEP || gaveUp) {
      // stand at the last solved pose again
      const why = gaveUp ? TOO_FAR : code;
      if (solveAt(t) !== SOLVED) return { code: BEYOND_FOLD, at: t, stopped: false };
      return { code: why, at: t, stopped: false };
    }
    step /= 2;
  }
  return { code: SOLVED, at: 1, stopped: false };
}
