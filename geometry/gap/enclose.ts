/**
 * Enclosing the solution of F(q, s) = 0 over a cell of parameters s: where it lies, and its first and pure
 * second derivatives by each parameter, all as intervals that hold on the whole cell.
 *
 * With A = ∂F/∂q over the box of q (center q₀, radii r) and the cell, Y the inverse of A's center:
 *   (1) E = |Y| rad A,  T = (I − E)⁻¹. If T is finite and nonnegative, every matrix in A is regular (a strictly
 *       diagonally dominant M-matrix argument: Neumaier, Interval Methods for Systems of Equations, §4.1; from
 *       memory), so for each s at most one q in the box solves F = 0.
 *   (2) A q_j = −F_j: |q_j − q̃| ≤ T |Y| (rad F_j + rad A |q̃|), q̃ = −Y mid F_j.
 *   (3) The solution that starts at the cell's center stays in the box on the way to any s if
 *       Σ_j h_j sup |q_j| ≤ r, since it moves at most that far (h_j half-widths of the cell). Else r is enlarged.
 *   (4) A q_jj = −F_jj, where F_jj is taken with q moving at its first derivatives only; bounded as (2).
 */
import { secondAt, type Taylor, type TaylorForms, taylorForms } from './taylor.ts';

/** A system of n equations over an arithmetic; parameters come as intervals with their own derivatives. */
export interface System {
  /** Number of unknowns and of equations. */
  n: number;
  /**
   * F in an arithmetic. `by` says whose derivatives it carries: those by the unknowns (parameters are intervals
   * then), or those by the parameters.
   */
  residual(
    forms: TaylorForms,
    unknown: Taylor[],
    parameters: Taylor[],
    by: 'unknown' | 'parameter',
  ): Taylor[];
}

/** Times that the box is enlarged before the cell is given up (it is split then). */
const ENLARGE = 6;
/** First guess of the radii against what the rates at the center move. */
const GUESS = 1.15;

/**
 * Encloses the unknowns over a cell.
 *
 * @param center the solution at the cell's center
 * @param cell center and half-width of each parameter
 * @returns one Taylor an unknown, by the parameters; null where (1) or (3) can't be shown
 */
export function enclose(
  system: System,
  center: ArrayLike<number>,
  cell: readonly { center: number; half: number }[],
): Taylor[] | null {
  const { n } = system;
  const p = cell.length;
  const byUnknown = formsFor(n);
  const byParameter = formsFor(p);
  const still = cell.map(c => byUnknown.k.interval(c.center, c.half));
  const fixed = cell.map(c => byUnknown.k.interval(c.center, 0));
  const moving = cell.map((c, j) => byParameter.k.parameter(j, c.center, c.half));
  const movingAtCenter = cell.map((c, j) => byParameter.k.parameter(j, c.center, 0));

  const jacobian = (radii: ArrayLike<number>, at: Taylor[]): Taylor[] =>
    system.residual(
      byUnknown,
      Array.from({ length: n }, (_, i) => {
        const q = byUnknown.k.interval(center[i] as number, radii[i] as number);
        q[2 + 2 * i] = 1;
        return q;
      }),
      at,
      'unknown',
    );
  const boxed = (radii: ArrayLike<number>): Taylor[] =>
    Array.from({ length: n }, (_, i) =>
      byParameter.k.interval(center[i] as number, radii[i] as number),
    );
  // rates at the center: the guess of the radii
  const zero = new Float64Array(n);
  const first = linear(jacobian(zero, fixed), n);
  if (!first) return null;
  const atCenter = system.residual(byParameter, boxed(zero), movingAtCenter, 'parameter');
  let radii = new Float64Array(n);
  for (let j = 0; j < p; j++) {
    const rate = solve(first, atCenter, 2 + 2 * j, n);
    for (let i = 0; i < n; i++) {
      radii[i] =
        (radii[i] as number) + GUESS * (cell[j]?.half ?? 0) * Math.abs(rate.center[i] as number);
    }
  }
  for (let i = 0; i < n; i++) radii[i] = (radii[i] as number) + 1e-9;

  for (let attempt = 0, tightened = false; attempt <= ENLARGE; attempt++) {
    const A = linear(jacobian(radii, still), n);
    if (!A) return null;
    const q = boxed(radii);
    const F = system.residual(byParameter, q, moving, 'parameter');
    const moved = new Float64Array(n);
    for (let j = 0; j < p; j++) {
      const rate = solve(A, F, 2 + 2 * j, n);
      for (let i = 0; i < n; i++) {
        const c = rate.center[i] as number;
        const r = rate.radius[i] as number;
        (q[i] as Taylor)[2 + 2 * j] = c;
        (q[i] as Taylor)[3 + 2 * j] = r;
        moved[i] = (moved[i] as number) + (cell[j]?.half ?? 0) * (Math.abs(c) + r);
      }
    }
    let stays = true;
    for (let i = 0; i < n; i++) if (!((moved[i] as number) <= (radii[i] as number))) stays = false;
    if (!stays) {
      if (tightened) return null;
      const next = new Float64Array(n);
      for (let i = 0; i < n; i++) {
        next[i] = Math.max(radii[i] as number, 1.1 * (moved[i] as number) + 1e-9);
        if (!Number.isFinite(next[i] as number)) return null;
      }
      radii = next;
      continue;
    }
    if (!tightened) {
      // once with the radii that (3) itself gives
      tightened = true;
      radii = moved.map(x => x + 1e-10);
      attempt--;
      continue;
    }
    const G = system.residual(byParameter, q, moving, 'parameter');
    for (let j = 0; j < p; j++) {
      const bend = solve(A, G, secondAt(p, j), n);
      for (let i = 0; i < n; i++) {
        (q[i] as Taylor)[secondAt(p, j)] = bend.center[i] as number;
        (q[i] as Taylor)[secondAt(p, j) + 1] = bend.radius[i] as number;
      }
    }
    return q;
  }
  return null;
}

interface Linear {
  /** Inverse of the center, its entries' sizes, radii of A, and T |Y|, all n × n by rows. */
  Y: Float64Array;
  radius: Float64Array;
  bound: Float64Array;
}

/** (1): what bounds the solutions of A x = b; null where A may be singular. */
function linear(F: readonly Taylor[], n: number): Linear | null {
  const center = new Float64Array(n * n);
  const radius = new Float64Array(n * n);
  for (let r = 0; r < n; r++) {
    for (let c = 0; c < n; c++) {
      center[r * n + c] = (F[r] as Taylor)[2 + 2 * c] as number;
      radius[r * n + c] = (F[r] as Taylor)[3 + 2 * c] as number;
    }
  }
  const Y = inverse(center, n);
  if (!Y) return null;
  const size = Y.map(Math.abs);
  const E = multiply(size, radius, n);
  for (let i = 0; i < n * n; i++) E[i] = -(E[i] as number);
  for (let i = 0; i < n; i++) E[i * n + i] = (E[i * n + i] as number) + 1;
  const T = inverse(E, n);
  if (!T) return null;
  for (const t of T) if (!(t >= -1e-12 && Number.isFinite(t))) return null;
  return {
    Y,
    radius,
    bound: multiply(
      T.map(t => Math.max(0, t)),
      size,
      n,
    ),
  };
}

/** (2) or (4): center and radius of the solutions of A x = −b, b the entries at `at` of F. */
function solve(
  A: Linear,
  F: readonly Taylor[],
  at: number,
  n: number,
): { center: Float64Array; radius: Float64Array } {
  const center = new Float64Array(n);
  for (let r = 0; r < n; r++) {
    let sum = 0;
    for (let c = 0; c < n; c++)
      sum -= (A.Y[r * n + c] as number) * ((F[c] as Taylor)[at] as number);
    center[r] = sum;
  }
  const slack = new Float64Array(n);
  for (let r = 0; r < n; r++) {
    let sum = (F[r] as Taylor)[at + 1] as number;
    for (let c = 0; c < n; c++)
      sum += (A.radius[r * n + c] as number) * Math.abs(center[c] as number);
    slack[r] = sum;
  }
  const radius = new Float64Array(n);
  for (let r = 0; r < n; r++) {
    let sum = 0;
    for (let c = 0; c < n; c++) sum += (A.bound[r * n + c] as number) * (slack[c] as number);
    radius[r] = sum;
  }
  return { center, radius };
}

function multiply(A: Float64Array, B: Float64Array, n: number): Float64Array {
  const out = new Float64Array(n * n);
  for (let r = 0; r < n; r++) {
    for (let k = 0; k < n; k++) {
      const a = A[r * n + k] as number;
      if (a === 0) continue;
      for (let c = 0; c < n; c++) {
        out[r * n + c] = (out[r * n + c] as number) + a * (B[k * n + c] as number);
      }
    }
  }
  return out;
}

/** Gauss–Jordan with partial pivoting; null where a pivot vanishes or is no number. */
function inverse(A: Float64Array, n: number): Float64Array | null {
  const M = Float64Array.from(A);
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i++) out[i * n + i] = 1;
  for (let c = 0; c < n; c++) {
    let p = c;
    for (let r = c + 1; r < n; r++) {
      if (Math.abs(M[r * n + c] as number) > Math.abs(M[p * n + c] as number)) p = r;
    }
    const pivot = M[p * n + c] as number;
    if (!(Math.abs(pivot) > 0)) return null;
    for (let k = 0; k < n; k++) {
      const m = M[c * n + k] as number;
      M[c * n + k] = (M[p * n + k] as number) / pivot;
      if (p !== c) M[p * n + k] = m;
      const o = out[c * n + k] as number;
      out[c * n + k] = (out[p * n + k] as number) / pivot;
      if (p !== c) out[p * n + k] = o;
    }
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const f = M[r * n + c] as number;
      if (f === 0) continue;
      for (let k = 0; k < n; k++) {
        M[r * n + k] = (M[r * n + k] as number) - f * (M[c * n + k] as number);
        out[r * n + k] = (out[r * n + k] as number) - f * (out[c * n + k] as number);
      }
    }
  }
  return out;
}

const made = new Map<number, TaylorForms>();

/** Arithmetic for m parameters, made once. */
export function formsFor(m: number): TaylorForms {
  let forms = made.get(m);
  if (!forms) {
    forms = taylorForms(m);
    made.set(m, forms);
  }
  return forms;
}
