/**
 * Intervals with derivatives: a number over a cell of parameters, as center and radius, with its first and
 * its pure second derivative by each of m parameters, each as center and radius over the whole cell.
 * (Interval automatic differentiation: Moore, Kearfott and Cloud, Introduction to Interval Analysis; from memory.)
 *
 * Layout of 2 + 4 m numbers: value center, radius; then for each parameter first derivative center, radius;
 * then for each parameter second derivative center, radius.
 *
 * Rounding is not directed: it is of the order 1e-12 in here, and `proof.ts` takes ROUNDING_in off each bound.
 * Where an operation has no value on the whole interval the radius becomes infinite or NaN, which proves nothing.
 */
import { type Arithmetic, vectors } from '../pose/arithmetic.ts';

export type Taylor = Float64Array;

export interface TaylorArithmetic extends Arithmetic<Taylor> {
  /** Number of parameters. */
  m: number;
  /** A number known to lie within `radius` of `center`, with no derivatives. */
  interval(center: number, radius: number): Taylor;
  /** The parameter j itself over its cell. */
  parameter(j: number, center: number, radius: number): Taylor;
  /** cos and sin of an angle given whole. */
  cosineOf(angle: Taylor): Taylor;
  sineOf(angle: Taylor): Taylor;
  /** f(a) from enclosures of f, f′ and f″ over a's interval: center, radius each. */
  composed(
    a: Taylor,
    f: readonly [number, number],
    f1: readonly [number, number],
    f2: readonly [number, number],
  ): Taylor;
}

/** The arithmetic for m parameters. */
export function taylor(m: number): TaylorArithmetic {
  const size = 2 + 4 * m;
  const second = 2 + 2 * m;
  const make = (): Taylor => new Float64Array(size);

  const constant = (value: number): Taylor => {
    const r = make();
    r[0] = value;
    return r;
  };
  const interval = (center: number, radius: number): Taylor => {
    const r = make();
    r[0] = center;
    r[1] = radius;
    return r;
  };
  const parameter = (j: number, center: number, radius: number): Taylor => {
    const r = interval(center, radius);
    r[2 + 2 * j] = 1;
    return r;
  };
  const plus = (a: Taylor, b: Taylor): Taylor => {
    const r = make();
    for (let i = 0; i < size; i++) r[i] = (a[i] as number) + (b[i] as number);
    return r;
  };
  const minus = (a: Taylor, b: Taylor): Taylor => {
    const r = make();
    for (let i = 0; i < size; i += 2) {
      r[i] = (a[i] as number) - (b[i] as number);
      r[i + 1] = (a[i + 1] as number) + (b[i + 1] as number);
    }
    return r;
  };
  const times = (a: Taylor, s: number): Taylor => {
    const r = make();
    const w = Math.abs(s);
    for (let i = 0; i < size; i += 2) {
      r[i] = (a[i] as number) * s;
      r[i + 1] = (a[i + 1] as number) * w;
    }
    return r;
  };
  const shifted = (a: Taylor, s: number): Taylor => {
    const r = Float64Array.from(a);
    r[0] = (r[0] as number) + s;
    return r;
  };
  /** r[at] += factor · a[i] · b[k], as intervals. */
  const addProduct = (
    r: Taylor,
    at: number,
    a: Taylor,
    i: number,
    b: Taylor,
    k: number,
    factor: number,
  ): void => {
    const ac = a[i] as number;
    const ar = a[i + 1] as number;
    const bc = b[k] as number;
    const br = b[k + 1] as number;
    r[at] = (r[at] as number) + factor * ac * bc;
    r[at + 1] = (r[at + 1] as number) + factor * (Math.abs(ac) * br + Math.abs(bc) * ar + ar * br);
  };
  const product = (a: Taylor, b: Taylor): Taylor => {
    const r = make();
    addProduct(r, 0, a, 0, b, 0, 1);
    for (let j = 0; j < m; j++) {
      const f = 2 + 2 * j;
      const s = second + 2 * j;
      addProduct(r, f, a, 0, b, f, 1);
      addProduct(r, f, a, f, b, 0, 1);
      addProduct(r, s, a, 0, b, s, 1);
      addProduct(r, s, a, s, b, 0, 1);
      addProduct(r, s, a, f, b, f, 2);
    }
    return r;
  };
  /** f(a) from enclosures of f, f′ and f″ over a's interval: center, radius each. */
  const composed = (
    a: Taylor,
    f: readonly [number, number],
    f1: readonly [number, number],
    f2: readonly [number, number],
  ): Taylor => {
    const r = make();
    const [d, e] = [Float64Array.from(f1), Float64Array.from(f2)];
    r[0] = f[0];
    r[1] = f[1];
    const square = new Float64Array(2);
    for (let j = 0; j < m; j++) {
      const i = 2 + 2 * j;
      const s = second + 2 * j;
      addProduct(r, i, a, i, d, 0, 1);
      // the square of an interval is not the product of two: center c² + r²/2 with radius 2|c|r + r²/2
      const c = a[i] as number;
      const w = a[i + 1] as number;
      square[0] = c * c + (w * w) / 2;
      square[1] = 2 * Math.abs(c) * w + (w * w) / 2;
      addProduct(r, s, a, s, d, 0, 1);
      addProduct(r, s, square, 0, e, 0, 1);
    }
    return r;
  };
  const between = (low: number, high: number): [number, number] => [
    (low + high) / 2,
    Math.abs(high - low) / 2,
  ];
  const root = (a: Taylor): Taylor => {
    const low = (a[0] as number) - (a[1] as number);
    const high = (a[0] as number) + (a[1] as number);
    // not positive on the whole interval: NaN from Math.sqrt, or an infinite radius at zero
    const [p, q] = [Math.sqrt(low), Math.sqrt(high)];
    return composed(
      a,
      between(p, q),
      between(0.5 / q, 0.5 / p),
      between(-0.25 / p ** 3, -0.25 / q ** 3),
    );
  };
  const reciprocal = (a: Taylor): Taylor => {
    const low = (a[0] as number) - (a[1] as number);
    const high = (a[0] as number) + (a[1] as number);
    if (!(low * high > 0)) return composed(a, [NaN, NaN], [NaN, NaN], [NaN, NaN]);
    const [p, q] = [1 / low, 1 / high];
    return composed(a, between(q, p), between(-p * p, -q * q), between(2 * q ** 3, 2 * p ** 3));
  };
  /** Enclosure of c cos δ − s sin δ for |δ − d| ≤ r: by the mean value, and at most 1 in size. */
  const wave = (c: number, s: number, d: number, r: number): [number, number] => {
    const at = c * Math.cos(d) - s * Math.sin(d);
    const slope = Math.abs(s * Math.cos(d) + c * Math.sin(d));
    return [at, Math.min(slope * r + (r * r) / 2, 2)];
  };
  const cosine = (change: Taylor, c: number, s: number): Taylor => {
    const [d, r] = [change[0] as number, change[1] as number];
    const f = wave(c, s, d, r);
    const f1 = wave(-s, c, d, r);
    return composed(change, f, f1, [-f[0], f[1]]);
  };
  const sine = (change: Taylor, c: number, s: number): Taylor => {
    // sin(φ + δ) = s cos δ + c sin δ
    const [d, r] = [change[0] as number, change[1] as number];
    const f = wave(s, -c, d, r);
    const f1 = wave(c, s, d, r);
    return composed(change, f, f1, [-f[0], f[1]]);
  };
  return {
    m,
    constant,
    interval,
    parameter,
    plus,
    minus,
    times,
    shifted,
    product,
    root,
    reciprocal,
    cosine,
    sine,
    composed,
    cosineOf: angle => cosine(angle, 1, 0),
    sineOf: angle => sine(angle, 1, 0),
  };
}

/** An arithmetic with its vectors. */
export function taylorForms(m: number) {
  const k = taylor(m);
  return { k, v: vectors(k) };
}

export type TaylorForms = ReturnType<typeof taylorForms>;

/** Largest size of the first derivative by parameter j. */
export const firstSize = (a: Taylor, j: number): number =>
  Math.abs(a[2 + 2 * j] as number) + (a[3 + 2 * j] as number);

/** Center and radius of the second derivative by parameter j stand from here on. */
export const secondAt = (m: number, j: number): number => 2 + 2 * m + 2 * j;
