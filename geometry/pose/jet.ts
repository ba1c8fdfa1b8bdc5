/**
 * Jets: a number with its first and second derivatives by left travel, right travel and steering input.
 * Truncated Taylor arithmetic (forward mode of automatic differentiation, second order; see Griewank and
 * Walther, Evaluating Derivatives, ch. 13; from memory). Exact to rounding: no step size.
 *
 * Layout: 0 value; 1 l, 2 r, 3 s; 4 ll, 5 lr, 6 ls, 7 rr, 8 rs, 9 ss (second derivatives, not halved).
 */
import { type Arithmetic, type NineOf, type Three, vectors } from './arithmetic.ts';

/** Ten numbers. A plain array: engines make one several times quicker than a typed one of this size. */
export type Jet = number[];
export type Jet3 = Three<Jet>;

/** Place of the second derivative by parameters j and k, 0 left, 1 right, 2 steering. */
export const SECOND: readonly (readonly number[])[] = [
  [4, 5, 6],
  [5, 7, 8],
  [6, 8, 9],
];

type Ten = [number, number, number, number, number, number, number, number, number, number];

export function constant(value: number): Jet {
  return [value, 0, 0, 0, 0, 0, 0, 0, 0, 0];
}

export function plus(first: Jet, second: Jet): Jet {
  const a = first as Ten;
  const b = second as Ten;
  return [
    a[0] + b[0],
    a[1] + b[1],
    a[2] + b[2],
    a[3] + b[3],
    a[4] + b[4],
    a[5] + b[5],
    a[6] + b[6],
    a[7] + b[7],
    a[8] + b[8],
    a[9] + b[9],
  ];
}

export function minus(first: Jet, second: Jet): Jet {
  const a = first as Ten;
  const b = second as Ten;
  return [
    a[0] - b[0],
    a[1] - b[1],
    a[2] - b[2],
    a[3] - b[3],
    a[4] - b[4],
    a[5] - b[5],
    a[6] - b[6],
    a[7] - b[7],
    a[8] - b[8],
    a[9] - b[9],
  ];
}

export function times(jet: Jet, s: number): Jet {
  const a = jet as Ten;
  return [
    a[0] * s,
    a[1] * s,
    a[2] * s,
    a[3] * s,
    a[4] * s,
    a[5] * s,
    a[6] * s,
    a[7] * s,
    a[8] * s,
    a[9] * s,
  ];
}

/** a plus a plain number. */
export function shifted(jet: Jet, s: number): Jet {
  const a = jet as Ten;
  return [a[0] + s, a[1], a[2], a[3], a[4], a[5], a[6], a[7], a[8], a[9]];
}

/** Product: Leibniz to second order. */
export function product(first: Jet, second: Jet): Jet {
  const a = first as Ten;
  const b = second as Ten;
  const a0 = a[0];
  const a1 = a[1];
  const a2 = a[2];
  const a3 = a[3];
  const b0 = b[0];
  const b1 = b[1];
  const b2 = b[2];
  const b3 = b[3];
  return [
    a0 * b0,
    a0 * b1 + a1 * b0,
    a0 * b2 + a2 * b0,
    a0 * b3 + a3 * b0,
    a0 * b[4] + a[4] * b0 + 2 * a1 * b1,
    a0 * b[5] + a[5] * b0 + a1 * b2 + a2 * b1,
    a0 * b[6] + a[6] * b0 + a1 * b3 + a3 * b1,
    a0 * b[7] + a[7] * b0 + 2 * a2 * b2,
    a0 * b[8] + a[8] * b0 + a2 * b3 + a3 * b2,
    a0 * b[9] + a[9] * b0 + 2 * a3 * b3,
  ];
}

/** f(a), given f and its first two derivatives at the value of a (chain rule). */
export function composed(jet: Jet, f: number, f1: number, f2: number): Jet {
  const a = jet as Ten;
  const l = a[1];
  const r = a[2];
  const s = a[3];
  return [
    f,
    f1 * l,
    f1 * r,
    f1 * s,
    f1 * a[4] + f2 * l * l,
    f1 * a[5] + f2 * l * r,
    f1 * a[6] + f2 * l * s,
    f1 * a[7] + f2 * r * r,
    f1 * a[8] + f2 * r * s,
    f1 * a[9] + f2 * s * s,
  ];
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
