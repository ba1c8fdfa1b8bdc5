/**
 * A moving point over a cell: where it is, and its first and pure second derivatives by up to four parameters (left
 * travel, right travel, the third: a knuckle's turn or the steering input, and a rod's roll), all as boxes that hold on
 * the whole cell. (20) to (26) of PROOF.md.
 */
import type { BodyCell } from './axleCell.ts';
import {
  add as addForm,
  addProduct,
  BOX_SIZE,
  type Box,
  copy,
  cross,
  dot,
  exactly,
  type Form,
  makeBox,
  makeForm,
  mostOf,
  multiply,
  plus,
  product,
  RADIUS,
  reciprocal,
  spread,
  spreadOf,
  square,
  times,
  turnBy,
} from './forms.ts';

export interface PointForm {
  value: Box;
  first: readonly [Box, Box, Box, Box];
  second: readonly [Box, Box, Box, Box];
}

/** The parameters by which a cell extends, each with its half-width; 0 for those that it has not. */
export type Halves = readonly [number, number, number, number];

type V3 = readonly [number, number, number];
const PARAMETERS = [0, 1, 2, 3] as const;
/** The rod's roll, which has no linear part of its own: it stands in the radii. */
export const ROLL = 3;

export const makePoint = (): PointForm => ({
  value: makeBox(),
  first: [makeBox(), makeBox(), makeBox(), makeBox()],
  second: [makeBox(), makeBox(), makeBox(), makeBox()],
});

export function stillPoint([x, y, z]: V3): PointForm {
  const out = makePoint();
  exactly(out.value, x, y, z);
  return out;
}

/** (1 − f) A + f B. */
export function mixed(a: PointForm, b: PointForm, f: number): PointForm {
  const out = makePoint();
  const mix = (o: Box, p: Box, q: Box): void => void plus(times(o, p, 1 - f), o, q, f);
  mix(out.value, a.value, b.value);
  for (const k of PARAMETERS) {
    mix(out.first[k], a.first[k], b.first[k]);
    mix(out.second[k], a.second[k], b.second[k]);
  }
  return out;
}

/** a + s b. */
export function summed(a: PointForm, b: PointForm, s = 1): PointForm {
  const out = makePoint();
  plus(out.value, a.value, b.value, s);
  for (const k of PARAMETERS) {
    plus(out.first[k], a.first[k], b.first[k], s);
    plus(out.second[k], a.second[k], b.second[k], s);
  }
  return out;
}

const p = makeBox();
const q = makeBox();
const r = makeBox();
const f = makeForm();
const g = makeForm();

/**
 * (20) A point of a frame that moves as a body does (the axle), seen from the chassis: with ρ = Q y,
 * x = at + ρ, x_j = at_j + ω × ρ + Q y_j, x_jj = at_jj + α × ρ + ω × (ω × ρ) + 2 ω × Q y_j + Q y_jj.
 * `y` counts from the body's own origin.
 */
export function chassisFromBody(body: BodyCell, y: PointForm): PointForm {
  const out = makePoint();
  const rho = makeBox();
  const moved = makeBox();
  turnBy(rho, body.Q, y.value);
  plus(out.value, body.at, rho);
  for (const k of PARAMETERS) {
    if (k >= 2 && isStill(y, k)) continue;
    turnBy(moved, body.Q, y.first[k]);
    turnBy(out.second[k], body.Q, y.second[k]);
    if (k >= 2) {
      copy(out.first[k], moved);
      continue;
    }
    const w = body.spin[k as 0 | 1];
    cross(p, w, rho);
    plus(out.first[k], body.first[k as 0 | 1], p);
    plus(out.first[k], out.first[k], moved);
    plus(out.second[k], out.second[k], body.second[k as 0 | 1]);
    plus(out.second[k], out.second[k], cross(q, w, p));
    plus(out.second[k], out.second[k], cross(q, body.twist[k as 0 | 1], rho));
    plus(out.second[k], out.second[k], cross(q, w, moved), 2);
  }
  return out;
}

/**
 * (21) The other way: with ρ = x − at, y = Qᵀ ρ, y_j = Qᵀ (ρ_j − ω × ρ),
 * y_jj = Qᵀ (ρ_jj − α × ρ − 2 ω × ρ_j + ω × (ω × ρ)).
 */
export function bodyFromChassis(body: BodyCell, x: PointForm): PointForm {
  const out = makePoint();
  const rho = makeBox();
  plus(rho, x.value, body.at, -1);
  turnBy(out.value, body.Q, rho, true);
  for (const k of PARAMETERS) {
    if (k >= 2 && isStill(x, k)) continue;
    if (k >= 2) {
      turnBy(out.first[k], body.Q, x.first[k], true);
      turnBy(out.second[k], body.Q, x.second[k], true);
      continue;
    }
    const w = body.spin[k as 0 | 1];
    const rate = plus(makeBox(), x.first[k], body.first[k as 0 | 1], -1);
    cross(p, w, rho);
    plus(q, rate, p, -1);
    turnBy(out.first[k], body.Q, q, true);
    plus(q, x.second[k], body.second[k as 0 | 1], -1);
    plus(q, q, cross(r, w, p));
    plus(q, q, cross(r, body.twist[k as 0 | 1], rho), -1);
    plus(q, q, cross(r, w, rate), -2);
    turnBy(out.second[k], body.Q, q, true);
  }
  return out;
}

/** A direction fixed in a body (as drawn), seen from the chassis. */
export function directionOfBody(body: BodyCell, drawn: V3): PointForm {
  const still = [makeBox(), makeBox()] as const;
  return chassisFromBody({ ...body, at: still[0], first: still, second: still }, stillPoint(drawn));
}

/** A point fixed in a body (vehicle axes as drawn), seen from the chassis. */
export function pointOfBody(body: BodyCell, drawn: V3): PointForm {
  const y = stillPoint([drawn[0] - body.ref[0], drawn[1] - body.ref[1], drawn[2] - body.ref[2]]);
  return chassisFromBody(body, y);
}

/**
 * (22) u = D/ℓ, ℓ_j = u·D_j, u_j = (D_j − ℓ_j u)/ℓ, ℓ_jj = u·D_jj + u_j·D_j, u_jj = (D_jj − 2 ℓ_j u_j − ℓ_jj u)/ℓ.
 * With a known length: u = D/L throughout.
 */
export function lineForm(a: PointForm, b: PointForm, length: number | null): PointForm {
  const D = summed(b, a, -1);
  if (length !== null) {
    const out = makePoint();
    times(out.value, D.value, 1 / length);
    for (const k of PARAMETERS) {
      times(out.first[k], D.first[k], 1 / length);
      times(out.second[k], D.second[k], 1 / length);
    }
    return out;
  }
  const out = makePoint();
  square(f, D.value);
  const size = Math.sqrt(f[0] as number);
  // √ by its first two derivatives; the least square bounds the second
  const least = (f[0] as number) - spreadOf(f);
  const inverse = makeForm();
  if (!(least > 0)) inverse.fill(Number.NaN);
  else {
    const t = spreadOf(f);
    for (let i = 1; i < 4; i++) inverse[i] = (-0.5 * (f[i] as number)) / size ** 3;
    inverse[0] = 1 / size;
    inverse[4] = (0.5 * (f[4] as number)) / size ** 3 + (0.75 * t * t) / 2 / least ** 2.5;
  }
  product(out.value, inverse, D.value);
  for (const k of PARAMETERS) {
    if (isStill(D, k)) continue;
    const lj = dot(makeForm(), out.value, D.first[k]);
    copy(p, D.first[k]);
    product(q, lj, out.value);
    plus(p, p, q, -1);
    product(out.first[k], inverse, p);
    const l2 = dot(makeForm(), out.value, D.second[k]);
    dot(g, out.first[k], D.first[k]);
    for (let i = 0; i < 5; i++) l2[i] = (l2[i] as number) + (g[i] as number);
    copy(p, D.second[k]);
    product(q, lj, out.first[k]);
    plus(p, p, q, -2);
    product(q, l2, out.value);
    plus(p, p, q, -1);
    product(out.second[k], inverse, p);
  }
  return out;
}

/**
 * (23) A vector carried by the smallest turn of a line from d₀ onto u (steeringSolver.ts, (5)). The turn's rate is
 * Ω_j = g (d₀ + u) × u_j with g = 1/(1 + d₀·u), so
 * w_j = Ω_j × w,  w_jj = Ω'_j × w + Ω_j × (Ω_j × w),  Ω'_j = g (d₀ + u) × u_jj − g² (d₀·u_j) (d₀ + u) × u_j.
 *
 * @param now the vector at the cell's center
 * @param roll of the vector about the line, where that hangs on the parameters
 */
export function carriedBySmallestTurn(
  d0: V3,
  u: PointForm,
  now: V3,
  changes: readonly Form[],
  roll: RollForm | null = null,
): PointForm {
  return carriedBy(smallestTurnForm(d0, u, roll), now, changes);
}

/** The rates of a turn and their derivatives. */
export interface TurnRates {
  spin: readonly Box[];
  twist: readonly Box[];
}

/** (23) The smallest turn of a line, with a roll about it. */
export function smallestTurnForm(d0: V3, u: PointForm, roll: RollForm | null): TurnRates {
  const from = exactly(makeBox(), ...(d0 as [number, number, number]));
  const both = plus(makeBox(), from, u.value);
  dot(f, from, u.value);
  f[0] = (f[0] as number) + 1;
  const inverse = reciprocal(makeForm(), f);
  const spin: Box[] = [];
  const twist: Box[] = [];
  for (const k of PARAMETERS) {
    const w = makeBox();
    const t = makeBox();
    if (!isStill(u, k)) {
      cross(p, both, u.first[k]);
      product(w, inverse, p);
      product(t, inverse, cross(q, both, u.second[k]));
      multiply(g, inverse, inverse);
      multiply(g, g, dot(f, from, u.first[k]));
      product(q, g, p);
      plus(t, t, q, -1);
    }
    if (roll) {
      // the roll about the line adds φ_j u, and φ_jj u + φ_j u_j
      addProduct(w, roll.rate[k], u.value);
      addProduct(t, roll.bend[k], u.value);
      addProduct(t, roll.rate[k], u.first[k]);
    }
    spin.push(w);
    twist.push(t);
  }
  return { spin, twist };
}

/** A vector of constant length that is turned so, from where it is at the cell's center. */
export function carriedBy(
  { spin, twist }: TurnRates,
  now: V3,
  changes: readonly Form[],
): PointForm {
  const out = makePoint();
  movedBy(out.value, now, spin, changes);
  for (const k of PARAMETERS) {
    cross(out.first[k], spin[k] as Box, out.value);
    cross(out.second[k], spin[k] as Box, out.first[k]);
    plus(out.second[k], out.second[k], cross(q, twist[k] as Box, out.value));
  }
  return out;
}

/** Whether a point does not hang on a parameter. */
function isStill(a: PointForm, k: 0 | 1 | 2 | 3): boolean {
  return isNothing(a.first[k]) && isNothing(a.second[k]);
}

function isNothing(a: Box): boolean {
  // NaN is something
  for (let i = 0; i < BOX_SIZE; i++) if (a[i] !== 0) return false;
  return true;
}

/** Rates and second derivatives of a roll about a line. */
export interface RollForm {
  rate: readonly [Form, Form, Form, Form];
  bend: readonly [Form, Form, Form, Form];
}

/** (27) The roll that carries x onto y about a unit direction u, atan2(u·(x × y), x·y − (x·u)(y·u)), as it changes. */
export function rollForm(u: PointForm, x: PointForm, y: PointForm): RollForm {
  const S = innerForm(u, outerForm(x, y));
  const C = sumOf(innerForm(x, y), productOf(innerForm(x, u), innerForm(y, u)), -1);
  const square = makeForm();
  const a = makeForm();
  const b = makeForm();
  multiply(square, C.value, C.value);
  addForm(square, multiply(a, S.value, S.value));
  const inverse = reciprocal(makeForm(), square);
  const rate = [makeForm(), makeForm(), makeForm(), makeForm()] as const;
  const bend = [makeForm(), makeForm(), makeForm(), makeForm()] as const;
  for (const k of PARAMETERS) {
    multiply(rate[k], C.value, S.first[k]);
    addForm(rate[k], multiply(a, S.value, C.first[k]), -1);
    multiply(rate[k], rate[k], inverse);
    multiply(a, C.value, C.first[k]);
    addForm(a, multiply(b, S.value, S.first[k]));
    multiply(a, a, rate[k]);
    multiply(bend[k], C.value, S.second[k]);
    addForm(bend[k], multiply(b, S.value, C.second[k]), -1);
    addForm(bend[k], a, -2);
    multiply(bend[k], bend[k], inverse);
  }
  return { rate, bend };
}

/** The mean of two rolls. */
export function meanRoll(a: RollForm, b: RollForm): RollForm {
  const out: RollForm = {
    rate: [makeForm(), makeForm(), makeForm(), makeForm()],
    bend: [makeForm(), makeForm(), makeForm(), makeForm()],
  };
  for (const k of PARAMETERS) {
    for (const of of [a, b]) {
      addForm(out.rate[k], of.rate[k], 0.5);
      addForm(out.bend[k], of.bend[k], 0.5);
    }
  }
  return out;
}

/** A number with its derivatives. */
export interface NumberForm {
  value: Form;
  first: readonly [Form, Form, Form, Form];
  second: readonly [Form, Form, Form, Form];
}

const makeNumber = (): NumberForm => ({
  value: makeForm(),
  first: [makeForm(), makeForm(), makeForm(), makeForm()],
  second: [makeForm(), makeForm(), makeForm(), makeForm()],
});

export function innerForm(a: PointForm, b: PointForm): NumberForm {
  const out = makeNumber();
  dot(out.value, a.value, b.value);
  for (const k of PARAMETERS) {
    dot(out.first[k], a.first[k], b.value);
    addForm(out.first[k], dot(f, a.value, b.first[k]));
    dot(out.second[k], a.second[k], b.value);
    addForm(out.second[k], dot(f, a.first[k], b.first[k]), 2);
    addForm(out.second[k], dot(f, a.value, b.second[k]));
  }
  return out;
}

function productOf(a: NumberForm, b: NumberForm): NumberForm {
  const out = makeNumber();
  multiply(out.value, a.value, b.value);
  for (const k of PARAMETERS) {
    multiply(out.first[k], a.first[k], b.value);
    addForm(out.first[k], multiply(f, a.value, b.first[k]));
    multiply(out.second[k], a.second[k], b.value);
    addForm(out.second[k], multiply(f, a.first[k], b.first[k]), 2);
    addForm(out.second[k], multiply(f, a.value, b.second[k]));
  }
  return out;
}

function sumOf(a: NumberForm, b: NumberForm, s: number): NumberForm {
  addForm(a.value, b.value, s);
  for (const k of PARAMETERS) {
    addForm(a.first[k], b.first[k], s);
    addForm(a.second[k], b.second[k], s);
  }
  return a;
}

function outerForm(a: PointForm, b: PointForm): PointForm {
  const out = makePoint();
  cross(out.value, a.value, b.value);
  for (const k of PARAMETERS) {
    cross(out.first[k], a.first[k], b.value);
    plus(out.first[k], out.first[k], cross(q, a.value, b.first[k]));
    cross(out.second[k], a.second[k], b.value);
    plus(out.second[k], out.second[k], cross(q, a.first[k], b.first[k]), 2);
    plus(out.second[k], out.second[k], cross(q, a.value, b.second[k]));
  }
  return out;
}

/** A vector of constant length that turns at the given rates, from its center, as the parameters change. */
export function movedBy(
  out: Box,
  [x, y, z]: V3,
  spin: readonly Box[],
  changes: readonly Form[],
): void {
  exactly(out, x, y, z);
  const size = Math.hypot(x, y, z);
  const center = exactly(makeBox(), x, y, z);
  const steady = makeBox();
  for (const [k, w] of spin.entries()) {
    const change = changes[k] as Form;
    exactly(p, w[0] as number, w[1] as number, w[2] as number);
    cross(q, p, center);
    addProduct(steady, change, q);
  }
  for (let i = 3; i < BOX_SIZE; i++) out[i] = steady[i] as number;
  for (let c = 0; c < 3; c++) out[RADIUS + c] = 2 * size + spread(out, c);
  const fixed = [12, 13, 14].map(i => steady[i] as number);
  for (let pass = 0; pass < 4; pass++) {
    const rest = [...fixed];
    for (const [k, w] of spin.entries()) {
      const t = spreadOf(changes[k] as Form);
      if (t === 0) continue;
      cross(p, w, out);
      for (let c = 0; c < 3; c++) rest[c] = (rest[c] as number) + t * spread(p, c);
    }
    for (let c = 0; c < 3; c++) {
      if (!((rest[c] as number) >= (out[RADIUS + c] as number)))
        out[RADIUS + c] = rest[c] as number;
    }
  }
}

/** A turn about a fixed axis by an angle that may hang on the parameters: (24). */
export interface Turning {
  /** At the cell's center. */
  cos: number;
  sin: number;
  /** Change from there; its center is 0. */
  change: Form;
  rate: readonly [Form, Form, Form, Form];
  bend: readonly [Form, Form, Form, Form];
}

export const makeTurning = (cos: number, sin: number): Turning => ({
  cos,
  sin,
  change: makeForm(),
  rate: [makeForm(), makeForm(), makeForm(), makeForm()],
  bend: [makeForm(), makeForm(), makeForm(), makeForm()],
});

/** The third parameter itself as a turn. */
export function turningParameter(angle: number, half: number, sense = 1): Turning {
  const out = makeTurning(Math.cos(sense * angle), Math.sin(sense * angle));
  out.change[3] = sense * half;
  out.rate[2][0] = sense;
  return out;
}

/** Cosine and sine over the cell. */
export function waveOf(cos: Form, sin: Form, { cos: c, sin: s, change }: Turning): void {
  const t = spreadOf(change);
  for (let k = 1; k < 4; k++) {
    cos[k] = -s * (change[k] as number);
    sin[k] = c * (change[k] as number);
  }
  cos[0] = c;
  sin[0] = s;
  // the second derivative of either is 1 at most
  cos[4] = Math.abs(s) * (change[4] as number) + (t * t) / 2;
  sin[4] = Math.abs(c) * (change[4] as number) + (t * t) / 2;
}

/** Foot on the axis, radius and tangent of a point that goes round it. */
export interface ArmVectors {
  c: V3;
  r: V3;
  w: V3;
}

/** (24) P = c + r cos τ + w sin τ with its derivatives by τ itself: `t` and `n`. */
export function arcOf(arm: ArmVectors, turning: Turning): { value: Box; t: Box; n: Box } {
  const cos = makeForm();
  const sin = makeForm();
  waveOf(cos, sin, turning);
  const value = makeBox();
  const t = makeBox();
  const n = makeBox();
  exactly(value, ...(arm.c as [number, number, number]));
  exactly(p, ...(arm.r as [number, number, number]));
  exactly(q, ...(arm.w as [number, number, number]));
  addProduct(n, cos, p);
  addProduct(n, sin, q);
  plus(value, value, n);
  times(n, n, -1);
  addProduct(t, cos, q);
  product(r, sin, p);
  plus(t, t, r, -1);
  return { value, t, n };
}

/** (24) the point by the cell's parameters: P_j = t τ_j, P_jj = n τ_j² + t τ_jj. */
export function pointOnArc(arm: ArmVectors, turning: Turning): PointForm {
  return chained(arcOf(arm, turning), turning);
}

export function chained({ value, t, n }: { value: Box; t: Box; n: Box }, by: Turning): PointForm {
  const out = makePoint();
  copy(out.value, value);
  for (const k of PARAMETERS) {
    if (mostOf(by.rate[k]) === 0 && mostOf(by.bend[k]) === 0) continue;
    product(out.first[k], by.rate[k], t);
    multiply(f, by.rate[k], by.rate[k]);
    product(out.second[k], f, n);
    addProduct(out.second[k], by.bend[k], t);
  }
  return out;
}

/** Times that a turn's form is widened before the cell is given up. */
const ENLARGE = 6;

/** Where the driven end of a rod is, by the turn that carries it. */
export type Curve = (turning: Turning) => { value: Box; t: Box; n: Box } | null;

/**
 * (25) The turn that keeps a rod from S at its length, d = P(τ) − S:
 * d·(t τ_j − S_j) = 0,  d·(t τ_jj + n τ_j² − S_jj) + |t τ_j − S_j|² = 0,
 * on the branch of the center: what (13) says of vectors is said of τ here. Null where that can't be shown.
 *
 * @param changes of the parameters by which S has its derivatives
 */
export function drivenTurning(
  curve: Curve,
  cos: number,
  sin: number,
  S: PointForm,
  changes: readonly Form[],
): Turning | null {
  const out = makeTurning(cos, sin);
  const d = makeBox();
  const inverse = makeForm();
  /** τ_j from the boxes as they are; false where d·t may vanish. */
  const rates = (): { t: Box; n: Box } | null => {
    const at = curve(out);
    if (!at) return null;
    plus(d, at.value, S.value, -1);
    dot(f, d, at.t);
    reciprocal(inverse, f);
    if (!Number.isFinite(inverse[4] as number)) return null;
    for (const k of PARAMETERS) multiply(out.rate[k], inverse, dot(g, d, S.first[k]));
    return at;
  };
  /** The change as the rates have it. */
  const change = (): Form => {
    const form = makeForm();
    for (const k of PARAMETERS) {
      const by = changes[k] as Form;
      const rate = out.rate[k];
      for (let i = 1; i < 4; i++) {
        form[i] = (form[i] as number) + (rate[0] as number) * (by[i] as number);
      }
      form[4] =
        (form[4] as number) +
        Math.abs(rate[0] as number) * (by[4] as number) +
        spreadOf(rate) * spreadOf(by);
    }
    return form;
  };
  // at the center alone first
  const kept = S;
  const S0 = centered(S);
  const linear = ((): Form | null => {
    const at = curve(out);
    if (!at) return null;
    plus(d, at.value, S0.value, -1);
    dot(f, d, at.t);
    const slope = f[0] as number;
    if (!(Math.abs(slope) > 0)) return null;
    for (const k of PARAMETERS) {
      out.rate[k].fill(0);
      out.rate[k][0] = (dot(g, d, S0.first[k])[0] as number) / slope;
    }
    return change();
  })();
  if (!linear) return null;
  const moved = spreadOf(linear);
  copy(out.change, linear);
  out.change[4] = (linear[4] as number) + 0.1 * moved + 1e-10;
  let at: { t: Box; n: Box } | null = null;
  for (let attempt = 0, tightened = 0; ; ) {
    at = rates();
    if (!at) return null;
    const next = change();
    // the linear parts are the center's each time
    let rest = next[4] as number;
    for (let i = 1; i < 4; i++) {
      rest += Math.abs((next[i] as number) - (out.change[i] as number));
    }
    if (!(rest <= (out.change[4] as number))) {
      if (tightened > 0 || attempt++ >= ENLARGE || !Number.isFinite(rest)) return null;
      out.change[4] = Math.max(out.change[4] as number, 1.2 * rest + 1e-10);
      continue;
    }
    if (tightened === 2) break;
    tightened++;
    out.change[4] = rest + 1e-12;
  }
  const { t, n } = at;
  for (const k of PARAMETERS) {
    product(p, out.rate[k], t);
    plus(p, p, kept.first[k], -1);
    const bend = square(makeForm(), p);
    multiply(f, out.rate[k], out.rate[k]);
    product(p, f, n);
    plus(p, p, kept.second[k], -1);
    dot(g, d, p);
    for (let i = 0; i < 4; i++) bend[i] = -(bend[i] as number) - (g[i] as number);
    bend[4] = (bend[4] as number) + (g[4] as number);
    multiply(out.bend[k], inverse, bend);
  }
  return out;
}

/** A point at the cell's center alone. */
function centered(S: PointForm): PointForm {
  const out = makePoint();
  const take = (to: Box, from: Box): void => {
    for (let c = 0; c < 3; c++) to[c] = from[c] as number;
  };
  take(out.value, S.value);
  for (const k of PARAMETERS) {
    take(out.first[k], S.first[k]);
    take(out.second[k], S.second[k]);
  }
  return out;
}

/** The changes of a cell's own parameters. */
export function changesOf(halves: Halves): Form[] {
  return halves.map((h, k) => {
    const form = makeForm();
    // a roll's place is that of the radius
    form[1 + k] = h;
    return form;
  });
}
