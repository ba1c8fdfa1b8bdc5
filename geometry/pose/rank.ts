/**
 * Which motions a layout leaves free: singular values of the lengths' derivatives by (x, y, yaw, pitch) at
 * held travels, angles scaled by half the track so that all four are inches at the wheels.
 */
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { ElasticAxle } from './elasticAxle.ts';
import { factorize, solveFactored } from './elasticAxle.ts';
import type { ExactAxle } from './exactAxle.ts';

/** x, y, yaw, pitch, all scaled to inches. */
export type Direction = [number, number, number, number];

export interface Rank {
  /** Singular values, largest first. */
  values: number[];
  /** The direction of each, in that order: x, y, yaw, pitch, all scaled to inches. */
  directions: Direction[];
  /** Share of each length in the combination that vanishes with the least value; by length, 0 to 1. */
  lengthShares: number[];
}

/** J of unit lengths by (x, y, yaw·W/2, pitch·W/2) at a placed axle, N × 4 by rows. */
export function lengthRows(axle: ExactAxle | ElasticAxle, m: Mechanism): Float64Array {
  const { axlePoints, chassisPoints, names } = m.lengths;
  const { R, o } = axle;
  const half = m.wheelCenters / 2;
  const J = new Float64Array(4 * names.length);
  for (let i = 0; i < names.length; i++) {
    const a = axlePoints.subarray(3 * i, 3 * i + 3);
    const rho = [0, 1, 2].map(
      c =>
        (R[3 * c] as number) * (a[0] as number) +
        (R[3 * c + 1] as number) * (a[1] as number) +
        (R[3 * c + 2] as number) * (a[2] as number),
    );
    const d = [0, 1, 2].map(
      c => (o[c] as number) + (rho[c] as number) - (chassisPoints[3 * i + c] as number),
    );
    const length = Math.hypot(...d);
    const u = d.map(x => x / length);
    const pitched = [0, 1, 2].map(
      c => (a[2] as number) * (R[3 * c] as number) - (a[0] as number) * (R[3 * c + 2] as number),
    );
    J[4 * i] = u[0] as number;
    J[4 * i + 1] = u[1] as number;
    J[4 * i + 2] =
      ((u[1] as number) * (rho[0] as number) - (u[0] as number) * (rho[1] as number)) / half;
    J[4 * i + 3] = pitched.reduce((sum, p, c) => sum + p * (u[c] as number), 0) / half;
  }
  return J;
}

/** Rank of an axle whose members are lengths only, at its placed pose. */
export function rankOfLengths(axle: ExactAxle | ElasticAxle, m: Mechanism): Rank {
  const J = lengthRows(axle, m);
  const N = m.lengths.names.length;
  // one-sided Jacobi on the columns: accurate also for tiny singular values
  const { values, vectors, columns } = singular(J, N, 4);
  const least = values.length - 1;
  const left = Array.from({ length: N }, (_, r) => Math.abs(columns[4 * r + least] as number));
  const norm = Math.hypot(...left) || 1;
  return {
    values,
    directions: columnsOf(vectors),
    lengthShares: leftShares(
      J,
      N,
      left.map(x => x / norm),
      values,
    ),
  };
}

/**
 * Where the least value is so small that its left vector is only noise, the shares are those of the vector
 * orthogonal to the other columns, found from the lengths themselves (N = 4 only).
 */
function leftShares(J: Float64Array, N: number, left: number[], values: number[]): number[] {
  const smallest = values.at(-1) ?? 0;
  if (N !== 4 || smallest > 1e-12 * (values[0] ?? 1)) return left;
  const transposed = new Float64Array(16);
  for (let r = 0; r < 4; r++)
    for (let c = 0; c < 4; c++) transposed[4 * c + r] = J[4 * r + c] as number;
  const { vectors, values: v } = singular(transposed, 4, 4);
  return [0, 1, 2, 3].map(r => Math.abs(vectors[4 * r + v.length - 1] as number));
}

/** Rank of an axle on bodies and giving joints: the energy's stiffness, condensed to the axle's four. */
export function rankOfStiffness(axle: ElasticAxle): Rank {
  axle.evaluate();
  const n = axle.n;
  const H = axle.hessian;
  const inner = n - 4;
  const S = new Float64Array(16);
  for (let r = 0; r < 4; r++) for (let c = 0; c < 4; c++) S[4 * r + c] = H[r * n + c] as number;
  if (inner > 0) {
    const B = new Float64Array(inner * inner);
    for (let r = 0; r < inner; r++) {
      for (let c = 0; c < inner; c++) B[r * inner + c] = H[(r + 4) * n + c + 4] as number;
    }
    const factor = new Float64Array(inner * inner);
    if (!factorize(B, factor, inner)) {
      return { values: [1, 1, 1, 0], directions: [], lengthShares: [] };
    }
    for (let c = 0; c < 4; c++) {
      const column = Float64Array.from({ length: inner }, (_, k) => H[(k + 4) * n + c] as number);
      solveFactored(factor, inner, column);
      for (let r = 0; r < 4; r++) {
        let sum = 0;
        for (let k = 0; k < inner; k++) sum += (H[r * n + k + 4] as number) * (column[k] as number);
        S[4 * r + c] = (S[4 * r + c] as number) - sum;
      }
    }
  }
  const half = axle.W / 2;
  const unit = [1, 1, 1 / half, 1 / half];
  for (let r = 0; r < 4; r++) {
    for (let c = 0; c < 4; c++) {
      S[4 * r + c] = (S[4 * r + c] as number) * (unit[r] as number) * (unit[c] as number);
    }
  }
  const { values, vectors } = singular(S, 4, 4);
  return {
    values,
    directions: columnsOf(vectors),
    lengthShares: [],
  };
}

/** One-sided Jacobi: singular values (largest first), right vectors, and the turned columns A V. */
function singular(
  A: Float64Array,
  rows: number,
  n: number,
): { values: number[]; vectors: Float64Array; columns: Float64Array } {
  const U = Float64Array.from(A);
  const V = new Float64Array(n * n);
  for (let i = 0; i < n; i++) V[i * n + i] = 1;
  const turn = (
    M: Float64Array,
    count: number,
    p: number,
    q: number,
    c: number,
    s: number,
  ): void => {
    for (let r = 0; r < count; r++) {
      const x = M[r * n + p] as number;
      const y = M[r * n + q] as number;
      M[r * n + p] = c * x - s * y;
      M[r * n + q] = s * x + c * y;
    }
  };
  for (let sweep = 0; sweep < 60; sweep++) {
    let worst = 0;
    for (let p = 0; p < n - 1; p++) {
      for (let q = p + 1; q < n; q++) {
        let a = 0;
        let b = 0;
        let g = 0;
        for (let r = 0; r < rows; r++) {
          const x = U[r * n + p] as number;
          const y = U[r * n + q] as number;
          a += x * x;
          b += y * y;
          g += x * y;
        }
        if (g === 0) continue;
        worst = Math.max(worst, Math.abs(g) / Math.sqrt(a * b || 1));
        const zeta = (b - a) / (2 * g);
        const t = (zeta >= 0 ? 1 : -1) / (Math.abs(zeta) + Math.sqrt(1 + zeta * zeta));
        const c = 1 / Math.sqrt(1 + t * t);
        turn(U, rows, p, q, c, c * t);
        turn(V, n, p, q, c, c * t);
      }
    }
    if (worst < 1e-15) break;
  }
  const size = Array.from({ length: n }, (_, c) => {
    let sum = 0;
    for (let r = 0; r < rows; r++) sum += (U[r * n + c] as number) ** 2;
    return Math.sqrt(sum);
  });
  const order = size.map((_, i) => i).sort((i, j) => (size[j] as number) - (size[i] as number));
  const sorted = (M: Float64Array, count: number): Float64Array => {
    const out = new Float64Array(count * n);
    for (let r = 0; r < count; r++) {
      for (const [c, from] of order.entries()) out[r * n + c] = M[r * n + from] as number;
    }
    return out;
  };
  return {
    values: order.map(i => size[i] as number),
    vectors: sorted(V, n),
    columns: sorted(U, rows),
  };
}

const columnsOf = (vectors: Float64Array): Direction[] =>
  [0, 1, 2, 3].map(c => [0, 1, 2, 3].map(r => vectors[4 * r + c] as number) as Direction);

/** The motions whose values are under `least` of the largest, in words; '' where there is none. */
export function motionsInWords(rank: Rank, least: number): string {
  if (rank.directions.length === 0) return 'a radius arm can roll about its own line';
  const bound = least * (rank.values[0] ?? 0);
  const free = rank.directions.filter((_, i) => !((rank.values[i] as number) > bound));
  const motions = apart(free).map(direction => {
    const size = Math.max(...direction.map(Math.abs));
    return MOTIONS.filter((_, i) => Math.abs(direction[i] as number) > 0.2 * size).join(
      ' together with ',
    );
  });
  return motions.length ? `the axle is free to move ${motions.join('; and ')}` : '';
}

const MOTIONS = [
  'fore and aft',
  'sideways',
  'in yaw (one wheel ahead of the other)',
  'in pitch (pinion up and down)',
];

/** Several free motions mix as they like: combined so that each has a part of its own (row reduction). */
function apart(directions: readonly Direction[]): Direction[] {
  const rows = directions.map(direction => [...direction] as Direction);
  const done = new Set<number>();
  for (const row of rows) {
    const sizes = row.map((x, c) => (done.has(c) ? 0 : Math.abs(x)));
    const c = sizes.indexOf(Math.max(...sizes));
    done.add(c);
    for (const other of rows) {
      if (other === row) continue;
      const f = (other[c] as number) / (row[c] as number);
      for (let k = 0; k < 4; k++) other[k] = (other[k] as number) - f * (row[k] as number);
    }
  }
  return rows;
}
