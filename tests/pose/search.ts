/** Solutions of the equations by least squares from many starts: what is not found so is not there. */
import type { Axle } from '../../geometry/build/build.ts';
import { real } from './complex.ts';
import type { Equations } from './equations.ts';
import { solveLinear } from './witness.ts';

/** Numbers from −1 to 1 that are the same in each run (a linear congruence; Numerical Recipes, from memory). */
export function noise(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 31 - 1;
  };
}

export interface Found {
  /** Least size of the residual over all starts, in: (|d|² − L²)/2L, the error of a length. */
  residual: number;
  /** Distance of the closest solution from the first start: in, angles times half the track; null: none. */
  nearest: number | null;
}

/**
 * Levenberg and Marquardt on the lengths of an exact axle, from around `base` (x, y, yaw, pitch and turns).
 *
 * @param spread how far the starts lie about the base: in, rad
 */
export function search(
  equations: Equations,
  base: readonly number[],
  parameters: readonly number[],
  starts: number,
  spread: readonly [number, number],
  seed = 1,
): Found {
  const { axle } = equations;
  const random = noise(seed);
  const lengths = lengthsOf(axle, equations);
  const open = (q: readonly number[]): number[] =>
    equations
      .residual(q.map(real), parameters.map(real))
      .map((r, i) => r.re / (lengths[i] as number));
  const slopes = (q: readonly number[]): number[][] => {
    const h = 1e-40;
    const columns = q.map((_, k) =>
      equations
        .residual(
          q.map((re, i) => ({ re, im: i === k ? h : 0 })),
          parameters.map(real),
        )
        .map((r, i) => r.im / h / (lengths[i] as number)),
    );
    return lengths.map((_, r) => columns.map(column => column[r] as number));
  };
  const sum = (r: number[]): number => r.reduce((s, x) => s + x * x, 0);
  let residual = Infinity;
  let nearest: number | null = null;
  for (let start = 0; start < starts; start++) {
    let q = base.map((x, i) => x + (start ? random() * spread[i < 2 ? 0 : 1] : 0));
    let r = open(q);
    let damping = 1e-3;
    for (let step = 0; step < 60 && sum(r) > 1e-26; step++) {
      const J = slopes(q);
      const A = q.map((_, i) =>
        q.map(
          (__, j) =>
            J.reduce((s, row) => s + (row[i] as number) * (row[j] as number), 0) *
            (i === j ? 1 + damping : 1),
        ),
      );
      const g = q.map(
        (_, i) => -J.reduce((s, row, k) => s + (row[i] as number) * (r[k] as number), 0),
      );
      const change = solveLinear(A, g);
      const next = q.map((x, i) => x + (change[i] as number));
      const nextOpen = open(next);
      if (sum(nextOpen) < sum(r)) {
        q = next;
        r = nextOpen;
        damping = Math.max(1e-12, damping / 8);
      } else {
        damping *= 8;
        if (damping > 1e12) break;
      }
    }
    const worst = Math.max(...r.map(Math.abs));
    residual = Math.min(residual, worst);
    if (worst < 1e-9) {
      const away = Math.max(
        ...q.map((x, i) => Math.abs(x - (base[i] as number)) * (i < 2 ? 1 : axle.wheelCenters / 2)),
      );
      nearest = nearest === null ? away : Math.min(nearest, away);
    }
  }
  return { residual, nearest };
}

/** Length of each equation, to make its residual an error in inches. */
const lengthsOf = (axle: Axle, equations: Equations): number[] =>
  [
    ...axle.links.map(l => ({ length: l.length, a: l.axle.at, b: l.chassis.at })),
    ...equations.rods.map(r => ({ length: r.length, a: r.from.at, b: r.to.at })),
  ].map(({ length, a, b }) => length ?? Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]));
