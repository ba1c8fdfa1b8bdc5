/**
 * Jets: a number with its first and second derivatives by left travel, right travel and steering input.
 * Truncated Taylor arithmetic (forward mode of automatic differentiation, second order; see Griewank and
 * Walther, Evaluating Derivatives, ch. 13; from memory). Exact to rounding: no step size.
 *
 * Layout: 0 value; 1 l, 2 r, 3 s; 4 ll, 5 lr, 6 ls, 7 rr, 8 rs, 9 ss (second derivatives, not halved).
 */
export type Jet = Float64Array;
export type Jet3 = [Jet, Jet, Jet];

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

export const constant3 = (v: ArrayLike<number>): Jet3 => [
  constant(v[0] as number),
  constant(v[1] as number),
  constant(v[2] as number),
];
export const plus3 = (a: Jet3, b: Jet3): Jet3 => [
  plus(a[0], b[0]),
  plus(a[1], b[1]),
  plus(a[2], b[2]),
];
export const minus3 = (a: Jet3, b: Jet3): Jet3 => [
  minus(a[0], b[0]),
  minus(a[1], b[1]),
  minus(a[2], b[2]),
];
export const times3 = (a: Jet3, s: number): Jet3 => [
  times(a[0], s),
  times(a[1], s),
  times(a[2], s),
];
export const product3 = (a: Jet, b: Jet3): Jet3 => [
  product(a, b[0]),
  product(a, b[1]),
  product(a, b[2]),
];
export const inner = (a: Jet3, b: Jet3): Jet =>
  plus(plus(product(a[0], b[0]), product(a[1], b[1])), product(a[2], b[2]));
export const outer = (a: Jet3, b: Jet3): Jet3 => [
  minus(product(a[1], b[2]), product(a[2], b[1])),
  minus(product(a[2], b[0]), product(a[0], b[2])),
  minus(product(a[0], b[1]), product(a[1], b[0])),
];

/** Nine jets by rows: a turn and its derivatives. */
export type Turn = Jet[];

/** M v for a turn of jets and a plain vector. */
export const turnPlain = (M: Turn, v: ArrayLike<number>): Jet3 =>
  [0, 1, 2].map(r =>
    plus(
      plus(times(M[3 * r] as Jet, v[0] as number), times(M[3 * r + 1] as Jet, v[1] as number)),
      times(M[3 * r + 2] as Jet, v[2] as number),
    ),
  ) as Jet3;

/** M v for jets. */
export const turnJets = (M: Turn, v: Jet3): Jet3 =>
  [0, 1, 2].map(r => inner([M[3 * r] as Jet, M[3 * r + 1] as Jet, M[3 * r + 2] as Jet], v)) as Jet3;

/** Mᵀ v for jets. */
export const turnBack = (M: Turn, v: Jet3): Jet3 =>
  [0, 1, 2].map(c => inner([M[c] as Jet, M[c + 3] as Jet, M[c + 6] as Jet], v)) as Jet3;

/** A column of a turn. */
export const columnOf = (M: Turn, c: number): Jet3 => [
  M[c] as Jet,
  M[c + 3] as Jet,
  M[c + 6] as Jet,
];

/** A B for two turns. */
export function turnProduct(A: Turn, B: Turn): Turn {
  const out: Turn = new Array(9);
  for (let c = 0; c < 3; c++) {
    const column = turnJets(A, columnOf(B, c));
    for (let r = 0; r < 3; r++) out[3 * r + c] = column[r] as Jet;
  }
  return out;
}

/** Turn about a fixed unit axis by an angle given as cosine and sine (Rodrigues). */
export function turnAbout(axis: ArrayLike<number>, cos: Jet, sin: Jet): Turn {
  const k = [axis[0] as number, axis[1] as number, axis[2] as number] as const;
  const versed = shifted(times(cos, -1), 1);
  const skew = [
    [0, -k[2], k[1]],
    [k[2], 0, -k[0]],
    [-k[1], k[0], 0],
  ];
  const out: Turn = [];
  for (let r = 0; r < 3; r++) {
    for (let c = 0; c < 3; c++) {
      let e = plus(
        times(versed, (k[r] as number) * (k[c] as number)),
        times(sin, skew[r]?.[c] ?? 0),
      );
      if (r === c) e = plus(e, cos);
      out.push(e);
    }
  }
  return out;
}

/** cos and sin of an angle whose cosine and sine now are c, s and whose change is the jet. */
export const cosine = (angle: Jet, c: number, s: number): Jet => composed(angle, c, -s, -c);
export const sine = (angle: Jet, c: number, s: number): Jet => composed(angle, s, c, -s);
