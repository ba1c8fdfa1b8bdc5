/**
 * Numbers and vectors over a cell of parameters as first-order forms: a center, a linear part in the cell's own
 * coordinates δ (each from −1 to 1), and a radius for all the rest,
 *   x(δ) = center + Σ_k linear_k δ_k + e,  |e| ≤ radius.
 * What varies linearly cancels where it should, so that radii are of second order in the cell's size. (Affine
 * arithmetic with fixed symbols: Stolfi and de Figueiredo; Taylor models of order one: Makino and Berz; from memory.)
 *
 * Layout: a form is [center, three linear parts, radius]; a box is the same for three components, by threes. Results
 * are written to `out`, which may not be one of the operands unless it is said so; nothing is allocated.
 *
 * Rounding is not directed: it is of the order 1e-13 in here, and the proof takes ROUNDING_in off each bound.
 * A radius that is infinite or NaN stays, and proves nothing.
 */

/** A vector of forms, 15 numbers: centers 0–2, linear parts 3–11, radii 12–14. */
export type Box = number[];
/** A form, 5 numbers. */
export type Form = number[];

export const BOX_SIZE = 15;
export const SYMBOLS = 3;
const FORM_SIZE = 5;
/** Where the radii begin. */
export const RADIUS = 12;

// plain arrays of doubles: typed arrays of this size lie outside the heap, and cost ten times as much to make.
// Filled with a fraction first, so that the engine takes them for doubles from the start.
const NO_BOX: Box = Array.from({ length: BOX_SIZE }, () => 0.5).fill(0);
const NO_FORM: Form = Array.from({ length: FORM_SIZE }, () => 0.5).fill(0);

export const makeBox = (): Box => NO_BOX.slice();
export const makeForm = (): Form => NO_FORM.slice();

/** Copies a box or a form. */
export function copy(out: number[], a: readonly number[]): void {
  for (let i = 0; i < a.length; i++) out[i] = a[i] as number;
}

/** A box without extent. */
export function exactly(out: Box, x: number, y: number, z: number): Box {
  out.fill(0);
  out[0] = x;
  out[1] = y;
  out[2] = z;
  return out;
}

/** out = a + s b; `out` may be a or b. */
export function plus(out: Box, a: Box, b: Box, s = 1): Box {
  const w = Math.abs(s);
  for (let c = 0; c < RADIUS; c++) out[c] = (a[c] as number) + s * (b[c] as number);
  for (let c = RADIUS; c < BOX_SIZE; c++) out[c] = (a[c] as number) + w * (b[c] as number);
  return out;
}

/** out = s a for a plain number; `out` may be a. */
export function times(out: Box, a: Box, s: number): Box {
  const w = Math.abs(s);
  for (let c = 0; c < RADIUS; c++) out[c] = s * (a[c] as number);
  for (let c = RADIUS; c < BOX_SIZE; c++) out[c] = w * (a[c] as number);
  return out;
}

/** How far component c of a box goes from its center. */
export const spread = (a: Box, c: number): number =>
  Math.abs(a[3 + c] as number) +
  Math.abs(a[6 + c] as number) +
  Math.abs(a[9 + c] as number) +
  (a[12 + c] as number);

/** Largest size of component c. */
export const most = (a: Box, c: number): number => Math.abs(a[c] as number) + spread(a, c);

/** Largest length of a vector in a box. */
export const longest = (a: Box): number => Math.hypot(most(a, 0), most(a, 1), most(a, 2));

/** How far a form goes from its center. */
export const spreadOf = (a: Form): number =>
  Math.abs(a[1] as number) + Math.abs(a[2] as number) + Math.abs(a[3] as number) + (a[4] as number);

/** Largest size of a form. */
export const mostOf = (a: Form): number => Math.abs(a[0] as number) + spreadOf(a);

/** out = s a for a form s. */
export function product(out: Box, s: Form, a: Box): Box {
  out.fill(0);
  return addProduct(out, s, a);
}

/** out += s a for a form s. */
export function addProduct(out: Box, s: Form, a: Box): Box {
  const m = s[0] as number;
  const s1 = s[1] as number;
  const s2 = s[2] as number;
  const s3 = s[3] as number;
  const sr = s[4] as number;
  const size = Math.abs(m);
  const t = Math.abs(s1) + Math.abs(s2) + Math.abs(s3) + sr;
  for (let c = 0; c < 3; c++) {
    const x = a[c] as number;
    const x1 = a[3 + c] as number;
    const x2 = a[6 + c] as number;
    const x3 = a[9 + c] as number;
    const xr = a[12 + c] as number;
    out[c] = (out[c] as number) + m * x;
    out[3 + c] = (out[3 + c] as number) + m * x1 + s1 * x;
    out[6 + c] = (out[6 + c] as number) + m * x2 + s2 * x;
    out[9 + c] = (out[9 + c] as number) + m * x3 + s3 * x;
    out[12 + c] =
      (out[12 + c] as number) +
      size * xr +
      Math.abs(x) * sr +
      t * (Math.abs(x1) + Math.abs(x2) + Math.abs(x3) + xr);
  }
  return out;
}

/** out = a × b. */
export function cross(out: Box, a: Box, b: Box): Box {
  for (let c = 0; c < 3; c++) {
    const i = c === 2 ? 0 : c + 1;
    const k = c === 0 ? 2 : c - 1;
    const ai = a[i] as number;
    const ak = a[k] as number;
    const bi = b[i] as number;
    const bk = b[k] as number;
    const ai1 = a[3 + i] as number;
    const ai2 = a[6 + i] as number;
    const ai3 = a[9 + i] as number;
    const air = a[12 + i] as number;
    const ak1 = a[3 + k] as number;
    const ak2 = a[6 + k] as number;
    const ak3 = a[9 + k] as number;
    const akr = a[12 + k] as number;
    const bi1 = b[3 + i] as number;
    const bi2 = b[6 + i] as number;
    const bi3 = b[9 + i] as number;
    const bir = b[12 + i] as number;
    const bk1 = b[3 + k] as number;
    const bk2 = b[6 + k] as number;
    const bk3 = b[9 + k] as number;
    const bkr = b[12 + k] as number;
    out[c] = ai * bk - ak * bi;
    out[3 + c] = ai * bk1 + bk * ai1 - ak * bi1 - bi * ak1;
    out[6 + c] = ai * bk2 + bk * ai2 - ak * bi2 - bi * ak2;
    out[9 + c] = ai * bk3 + bk * ai3 - ak * bi3 - bi * ak3;
    out[12 + c] =
      Math.abs(ai) * bkr +
      Math.abs(bk) * air +
      Math.abs(ak) * bir +
      Math.abs(bi) * akr +
      (Math.abs(ai1) + Math.abs(ai2) + Math.abs(ai3) + air) *
        (Math.abs(bk1) + Math.abs(bk2) + Math.abs(bk3) + bkr) +
      (Math.abs(ak1) + Math.abs(ak2) + Math.abs(ak3) + akr) *
        (Math.abs(bi1) + Math.abs(bi2) + Math.abs(bi3) + bir);
  }
  return out;
}

/** out = a · b. */
export function dot(out: Form, a: Box, b: Box): Form {
  out.fill(0);
  for (let c = 0; c < 3; c++) {
    const x = a[c] as number;
    const y = b[c] as number;
    const x1 = a[3 + c] as number;
    const x2 = a[6 + c] as number;
    const x3 = a[9 + c] as number;
    const xr = a[12 + c] as number;
    const y1 = b[3 + c] as number;
    const y2 = b[6 + c] as number;
    const y3 = b[9 + c] as number;
    const yr = b[12 + c] as number;
    out[0] = (out[0] as number) + x * y;
    out[1] = (out[1] as number) + x * y1 + y * x1;
    out[2] = (out[2] as number) + x * y2 + y * x2;
    out[3] = (out[3] as number) + x * y3 + y * x3;
    out[4] =
      (out[4] as number) +
      Math.abs(x) * yr +
      Math.abs(y) * xr +
      (Math.abs(x1) + Math.abs(x2) + Math.abs(x3) + xr) *
        (Math.abs(y1) + Math.abs(y2) + Math.abs(y3) + yr);
  }
  return out;
}

/** out = |a|². The center is that of a, squared. */
export function square(out: Form, a: Box): Form {
  out.fill(0);
  for (let c = 0; c < 3; c++) {
    const x = a[c] as number;
    const t = spread(a, c);
    out[0] = (out[0] as number) + x * x;
    for (let k = 1; k <= SYMBOLS; k++) {
      out[k] = (out[k] as number) + 2 * x * (a[3 * k + c] as number);
    }
    out[4] = (out[4] as number) + 2 * Math.abs(x) * (a[12 + c] as number) + t * t;
  }
  return out;
}

/** out = M a for plain M (nine numbers by rows). */
export function turn(out: Box, M: ArrayLike<number>, a: Box): Box {
  for (let r = 0; r < 3; r++) {
    const p = M[3 * r] as number;
    const q = M[3 * r + 1] as number;
    const s = M[3 * r + 2] as number;
    for (let k = 0; k < RADIUS; k += 3) {
      out[k + r] = p * (a[k] as number) + q * (a[k + 1] as number) + s * (a[k + 2] as number);
    }
    out[RADIUS + r] =
      Math.abs(p) * (a[12] as number) +
      Math.abs(q) * (a[13] as number) +
      Math.abs(s) * (a[14] as number);
  }
  return out;
}

/** A turn as a form by entry: nine centers by rows, three times nine linear parts, nine radii. */
export type TurnForm = Float64Array;
export const TURN_SIZE = 45;

const row = makeBox();
const entry = makeForm();

/** out = M a, or Mᵀ a where `back`. */
export function turnBy(out: Box, M: TurnForm, a: Box, back = false): Box {
  for (let r = 0; r < 3; r++) {
    for (let k = 0; k < 5; k++) {
      for (let c = 0; c < 3; c++) {
        row[3 * k + c] = M[9 * k + (back ? 3 * c + r : 3 * r + c)] as number;
      }
    }
    dot(entry, row, a);
    for (let k = 0; k < 5; k++) out[3 * k + r] = entry[k] as number;
  }
  return out;
}

/** out = a b; `out` may be one of them. */
export function multiply(out: Form, a: Form, b: Form): Form {
  const x = a[0] as number;
  const y = b[0] as number;
  const r =
    Math.abs(x) * (b[4] as number) + Math.abs(y) * (a[4] as number) + spreadOf(a) * spreadOf(b);
  const one = x * (b[1] as number) + y * (a[1] as number);
  const two = x * (b[2] as number) + y * (a[2] as number);
  const three = x * (b[3] as number) + y * (a[3] as number);
  out[0] = x * y;
  out[1] = one;
  out[2] = two;
  out[3] = three;
  out[4] = r;
  return out;
}

/** out += s a; `out` may be a. */
export function add(out: Form, a: Form, s = 1): Form {
  for (let k = 0; k < 4; k++) out[k] = (out[k] as number) + s * (a[k] as number);
  out[4] = (out[4] as number) + Math.abs(s) * (a[4] as number);
  return out;
}

/** out = f(a) from f, f′ at the center and a bound of |f″| over all of a; `out` may be a. */
export function composed(out: Form, a: Form, f: number, f1: number, f2: number): Form {
  const t = spreadOf(a);
  const r = Math.abs(f1) * (a[4] as number) + (f2 * t * t) / 2;
  for (let k = 1; k < 4; k++) out[k] = f1 * (a[k] as number);
  out[0] = f;
  out[4] = r;
  return out;
}

/** out = 1/a; NaN where a may be zero. `out` may be a. */
export function reciprocal(out: Form, a: Form): Form {
  const x = a[0] as number;
  const least = Math.abs(x) - spreadOf(a);
  if (!(least > 0)) return out.fill(Number.NaN);
  return composed(out, a, 1 / x, -1 / (x * x), 2 / least ** 3);
}

/** out = one component of a box. */
export function component(out: Form, a: Box, c: number): Form {
  for (let k = 0; k < FORM_SIZE; k++) out[k] = a[3 * k + c] as number;
  return out;
}
