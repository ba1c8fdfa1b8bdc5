/**
 * How an axle moves over a whole cell of travels: where its bodies are, and bounds of their first and pure second
 * derivatives by left and right travel that hold at every pose of the cell. PROOF.md derives it, (10) to (19).
 *
 * Every body turns: with ω_j the rate of its turn by travel j, a vector v fixed in it has
 *   (10) v_j = ω_j × v,  v_jj = α_jj × v + ω_j × (ω_j × v),  α_jj = ∂ω_j/∂j.
 * The axle has ω_j = ψ_j ez + θ_j ey + φ_j ex with ex = Rz eX, ey = Rz Rx eY, φ_j = ±1/(W cos φ), and o_j = (x_j, y_j, ½).
 * Its conditions (lengths; for an elastic axle forces and moments in balance) are F = 0, F_j = A u_j + B_j = 0,
 * F_jj = A u_jj + C_j = 0, with u the rates that are unknown and C_j of first derivatives only.
 *   (11) All vectors of the conditions are assumed to stay within boxes about their values at the cell's center.
 *   (12) Y = A⁻¹ at the center, E = |Y| rad A. A vector r > 0 with E r + |Y| s < r, s > 0, shows that every A in the boxes
 *        is regular, and that |u_j − ũ_j| ≤ r where s = rad B_j + rad A |ũ_j|, ũ_j = −Y mid B_j.
 *   (13) A vector that starts at its center moves by at most Σ_j h_j sup |v_j|, h the half-widths. Where that is within
 *        (11), the branch that starts at the center's pose can't leave the boxes in the cell, and (12) holds on all of it.
 *        Else the boxes are enlarged, at most ENLARGE times; then once tightened to (13).
 *   (14) u_jj from C_j in the same way.
 */
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { AxleNumbers } from '../pose/pose.ts';
import { AxleConditions } from './axleConditions.ts';
import {
  type Box,
  cross,
  exactly,
  longest,
  makeBox,
  RADIUS,
  spread,
  TURN_SIZE,
  type TurnForm,
  turn,
} from './forms.ts';
import { LinearBound } from './linearBound.ts';

/** A rigid body over a cell. A point x (vehicle axes as drawn) is at `at` + Q (x − ref). */
export interface BodyCell {
  ref: readonly [number, number, number];
  at: Box;
  /** By travel: derivatives of `at`, rate of the turn and its derivative. */
  first: readonly [Box, Box];
  second: readonly [Box, Box];
  spin: readonly [Box, Box];
  twist: readonly [Box, Box];
  /** Turn from drawn. */
  Q: TurnForm;
}

export interface AxleCell {
  half: readonly [number, number];
  axle: BodyCell;
  arms: BodyCell[];
  /** Giving shared joints. */
  points: BodyCell[];
}

/** Times that the boxes are enlarged before the cell is given up (it is split then). */
const ENLARGE = 6;
/** First guess of the boxes' radii, as a share of what the rates at the center move. */
const GUESS = 0.08;

/** Encloses the motion of one axle over cells of travel. It owns its scratch: make one a mechanism. */
export class AxleEnclosure {
  readonly #m: Mechanism;
  readonly #c: AxleConditions;
  readonly #linear: LinearBound;

  constructor(m: Mechanism) {
    this.#m = m;
    this.#c = new AxleConditions(m);
    this.#linear = new LinearBound(this.#c.n);
  }

  /**
   * The motion over the cell about a solved pose.
   *
   * @param halves half-widths of the cell by left and right travel, in
   * @returns null where (12) or (13) can't be shown
   */
  over(axle: AxleNumbers, halves: readonly [number, number]): AxleCell | null {
    const c = this.#c;
    const linear = this.#linear;
    c.center(axle, halves);
    c.shrink();
    c.assemble();
    if (!linear.invert(c.A, c.columns)) return null;
    for (const j of [0, 1] as const) {
      c.firstRest(j);
      linear.middle(c.rest, c.u[j]);
    }
    c.guess(GUESS);
    let tightened = false;
    for (let attempt = 0; attempt <= ENLARGE; ) {
      c.assemble();
      linear.setForms(c.A, c.columns);
      for (const j of [0, 1] as const) {
        c.firstRest(j);
        if (!linear.solve(c.rest, c.u[j])) return null;
      }
      const stays = c.move();
      if (!stays) {
        // what held in the wider boxes holds in the tighter ones: only the first round may fail
        if (tightened) return null;
        if (!c.enlarge()) return null;
        attempt++;
        continue;
      }
      c.tighten();
      if (tightened) break;
      tightened = true;
    }
    if (!tightened) return null;
    for (const j of [0, 1] as const) {
      c.secondRest(j);
      if (!linear.solve(c.rest, c.uu[j])) return null;
    }
    return this.#read(halves);
  }

  #read(halves: readonly [number, number]): AxleCell {
    const c = this.#c;
    const axle = c.axleBody(this.#m.origin as [number, number, number]);
    return { half: halves, axle, arms: c.armBodies(), points: c.pointBodies(axle) };
  }
}

/** A turn over the cell, from that at its center: each column is a vector fixed in the body. */
export function boundTurn(
  Q: ArrayLike<number>,
  spin: readonly Box[],
  halves: readonly number[],
): TurnForm {
  const out = new Float64Array(TURN_SIZE);
  const column = makeBox();
  const box = makeBox();
  for (let k = 0; k < 3; k++) {
    exactly(column, Q[k] as number, Q[3 + k] as number, Q[6 + k] as number);
    movedRadius(box, column, spin, halves);
    for (let part = 0; part < 5; part++) {
      for (let r = 0; r < 3; r++) out[9 * part + 3 * r + k] = box[3 * part + r] as number;
    }
  }
  return out;
}

const rate = makeBox();

/**
 * The form of a vector fixed in a turning body, from its center at v: (13) with v_j = ω_j × v, begun from the length
 * of the vector, which does not change. `out` may be v.
 */
export function movedRadius(
  out: Box,
  v: Box,
  spin: readonly Box[],
  halves: readonly number[],
): void {
  exactly(out, v[0] as number, v[1] as number, v[2] as number);
  const size = Math.hypot(out[0] as number, out[1] as number, out[2] as number);
  for (const [j, w] of spin.entries()) {
    const h = halves[j] as number;
    const [x, y, z] = [out[0] as number, out[1] as number, out[2] as number];
    out[3 + 3 * j] = h * ((w[1] as number) * z - (w[2] as number) * y);
    out[4 + 3 * j] = h * ((w[2] as number) * x - (w[0] as number) * z);
    out[5 + 3 * j] = h * ((w[0] as number) * y - (w[1] as number) * x);
  }
  let ball = 0;
  for (const [j, w] of spin.entries()) ball += (halves[j] as number) * longest(w) * size;
  // within the ball about the center, the rest is the ball and the linear part at most
  ball = Math.min(ball, 2 * size);
  for (let c = 0; c < 3; c++) out[RADIUS + c] = ball + spread(out, c);
  for (let pass = 0; pass < 3; pass++) {
    const rest = [0, 0, 0];
    for (const [j, w] of spin.entries()) {
      cross(rate, w, out);
      for (let c = 0; c < 3; c++) {
        rest[c] = (rest[c] as number) + (halves[j] as number) * spread(rate, c);
      }
    }
    // NaN and infinity stay
    for (let c = 0; c < 3; c++) {
      if (!((rest[c] as number) >= (out[RADIUS + c] as number))) {
        out[RADIUS + c] = rest[c] as number;
      }
    }
  }
}

/** Where a vector of the drawn body points at the cell's center. */
export const turned = (out: Box, Q: TurnForm, x: number, y: number, z: number): Box => {
  exactly(scratch, x, y, z);
  return turn(out, Q, scratch);
};
const scratch = makeBox();
