/**
 * Jets: a number with its first and second derivatives by left travel, right travel and steering input.
 * Truncated Taylor arithmetic (forward mode of automatic differentiation, second order; see Griewank and
 * Walther, Evaluating Derivatives, ch. 13; from memory). Exact to rounding: no step size.
 *
 * Layout: 0 value; 1 l, 2 r, 3 s; 4 ll, 5 lr, 6 ls, 7 rr, 8 rs, 9 ss (second derivatives, not halved).
 */
import { type Arithmetic, type NineOf, type Three, vectors } from './arithmetic.ts';

export type Jet = Float64Array;
export type Jet3 = Three<Jet>;

export const JET_SIZE = 10;

/** Place of the second derivative by parameters j and k, 0 left, 1 right, 2 steering. */
export const SECOND: readonly (readonly number[])[] = [
  [4, 5, 6],
  [5, 7, 8],
  [6, 8, 9],
];

export function constant(value: number): Jet {
  const r = new Float64Array(JET_SIZE);
  r[0] = value;
  return r;
}

export function plus(a: Jet, b: Jet): Jet {
  const r = new Float64Array(JET_SIZE);
  for (let i = 0; i < JET_SIZE; i++) r[i] = (a[i] as number) + (b[i] as number);
  return r;
}

export function minus(a: Jet, b: Jet): Jet {
  const r = new Float64Array(JET_SIZE);
  for (let i = 0; i < JET_SIZE; i++) r[i] = (a[i] as number) - (b[i] as number);
  return r;
}

export function times(a: Jet, s: number): Jet {
  const r = new Float64Array(JET_SIZE);
  for (let i = 0; i < JET_SIZE; i++) r[i] = (a[i] as number) * s;
  return r;
}

/** a plus a plain number. */
export function shifted(a: Jet, s: number): Jet {
  const r = Float64Array.from(a);
  r[0] = (r[0] as number) + s;
  return r;
}

/** Product: Leibniz to second order. */
export function product(a: Jet, b: Jet): Jet {
  const r = new Float64Array(JET_SIZE);
  const [a0, a1, a2, a3] = a as unknown as [number, number, number, number];
  const [b0, b1, b2, b3] = b as unknown as [number, number, number, number];
  r[0] = a0 * b0;
  r[1] = a0 * b1 + a1 * b0;
  r[2] = a0 * b2 + a2 * b0;
  r[3] = a0 * b3 + a3 * b0;
  r[4] = a0 * (b[4] as number) + (a[4] as number) * b0 + 2 * a1 * b1;
  r[5] = a0 * (b[5] as number) + (a[5] as number) * b0 + a1 * b2 + a2 * b1;
  r[6] = a0 * (b[6] as number) + (a[6] as number) * b0 + a1 * b3 + a3 * b1;
  r[7] = a0 * (b[7] as number) + (a[7] as number) * b0 + 2 * a2 * b2;
  r[8] = a0 * (b[8] as number) + (a[8] as number) * b0 + a2 * b3 + a3 * b2;
  r[9] = a0 * (b[9] as number) + (a[9] as number) * b0 + 2 * a3 * b3;
  return r;
}

/** f(a), given f and its first two derivatives at the value of a (chain rule). */
export function composed(a: Jet, f: number, f1: number, f2: number): Jet {
  const r = new Float64Array(JET_SIZE);
  r[0] = f;
  for (let j = 0; j < 3; j++) {
    r[1 + j] = f1 * (a[1 + j] as number);
    for (let k = j; k < 3; k++) {
      const at = SECOND[j]?.[k] as number;
      r[at] = f1 * (a[at] as number) + f2 * (a[1 + j] as number) * (a[1 + k] as number);
    }
  }
  return r;
}

/** Square root of a positive jet. */
export function root(a: Jet): Jet {
  const f = Math.sqrt(a[0] as number);
  return composed(a, f, 0.5 / f, -0.25 / (f * f * f));
}

/** 1/a. */
export function reciprocal(a: Jet): Jet {
  const f = 1 / (a[0] as number);
  return composed(a, f, -f * f, 2 * f * f * f);
}

/** cos and sin of an angle whose cosine and sine now are c, s and whose change is the jet (of value zero). */
export const cosine = (change: Jet, c: number, s: number): Jet => composed(change, c, -s, -c);
export const sine = (change: Jet, c: number, s: number): Jet => composed(change, s, c, -s);

/** Nine jets by rows: a turn and its derivatives. */
export type Turn = NineOf<Jet>;

/** Jets as the arithmetic of the kinematics. */
export const jets: Arithmetic<Jet> = {
  constant,
  plus,
  minus,
  times,
  shifted,
  product,
  root,
  reciprocal,
  cosine,
  sine,
};

export const jetVectors = vectors(jets);
export const {
  constant3,
  plus3,
  minus3,
  times3,
  product3,
  inner,
  outer,
  turnPlain,
  turnBack,
  columnOf,
  turnProduct,
  turnAbout,
} = jetVectors;
/** M v for jets. */
export const turnJets = jetVectors.turnVector;
