/**
 * An axle on exactly four lengths: Newton in the four unknowns that the two travels leave open.
 *
 * R = Rz(yaw) · Rx(roll) · Ry(pitch), origin o midway between the wheel centers (design: frames and signs).
 * With left and right travel l, r and track W:
 *   (1) sin roll = (l − r) / W            (2) o_z = o_z,drawn + (l + r) / 2        both exact.
 * Unknown: o_x, o_y, u = tan(yaw/2), v = tan(pitch/2), so that no trigonometry is left in the loop.
 * For length i with axle point a, chassis point C, free length L:
 *   (3) ρ = R a,  d = o + ρ − C,  g = (|d|² − L²) / 2 = 0
 *   (4) row of the Jacobian of g by (o_x, o_y, yaw, pitch): d·eX, d·eY, d·(ez × ρ), d·(a_z R eX − a_x R eZ)
 * The last is d·(ey' × ρ) with the pitch axis ey' = Rz Rx eY, written out.
 * A form with |d| − L in place of (3) was left: it costs a root a length and Newton gains nothing from it.
 */
import type { Mechanism } from '../mechanism/mechanism.ts';
import { CONTRACTION, MOST_STEPS, STEP_END_in } from '../tolerances.ts';

/** Numbers that a solver's `solve` gives back; words are made of them at the border. */
export const SOLVED = 0;
/** The start was too far away for Newton's theorem to vouch for the root: take smaller steps. */
export const TOO_FAR = 1;
/** The Jacobian's sign changed, or it vanished: beyond a fold of the branch. */
export const BEYOND_FOLD = 2;
/** The wheel centers can't be that far apart in height. */
export const TOO_STEEP = 3;
export type SolveCode = typeof SOLVED | typeof TOO_FAR | typeof BEYOND_FOLD | typeof TOO_STEEP;

/** Numbers an axle state holds: x, y, tan(yaw/2), tan(pitch/2). */
export const STATE_SIZE = 4;

export class ExactAxle {
  readonly W: number;
  readonly zDrawn: number;
  /** x, y, tan(yaw/2), tan(pitch/2): the start of `solve` and its result. */
  readonly state = new Float64Array(STATE_SIZE);
  /** Rows of R, chassisFromAxle, after `solve`. */
  readonly R = new Float64Array(9);
  /** Origin of the axle frame in vehicle axes, after `solve`. */
  readonly o = new Float64Array(3);
  /** sin and cos of yaw, roll, pitch, after `solve`. */
  sinYaw = 0;
  cosYaw = 1;
  sinRoll = 0;
  cosRoll = 1;
  sinPitch = 0;
  cosPitch = 1;
  /** Newton steps of the last `solve`, and of all so far. */
  steps = 0;
  totalSteps = 0;
  /** Sign of det J at ride height; 0 until `settleSign`. */
  sign = 0;
  /** Determinant of the Jacobian of (3) at the last step, rows divided by nothing. */
  det = 0;
  readonly #J = new Float64Array(16);
  readonly #g = new Float64Array(4);
  readonly #axle = new Float64Array(12);
  readonly #chassis = new Float64Array(12);
  /** Row i of J belongs to length order[i]. */
  readonly #order: readonly [number, number, number, number];
  readonly #half: number;
  readonly #squares = new Float64Array(4);

  constructor(mechanism: Mechanism, free: Float64Array = mechanism.lengths.free) {
    this.W = mechanism.wheelCenters;
    this.#half = this.W / 2;
    this.zDrawn = mechanism.origin[2];
    const { axlePoints, chassisPoints } = mechanism.lengths;
    // rows of J as drawn, to find the order in which they pivot well
    const J = new Float64Array(16);
    for (let i = 0; i < 4; i++) {
      const [ax, ay, az] = [0, 1, 2].map(k => axlePoints[3 * i + k] as number) as [
        number,
        number,
        number,
      ];
      const [dx, dy, dz] = [0, 1, 2].map(
        k =>
          (mechanism.origin[k] as number) +
          (axlePoints[3 * i + k] as number) -
          (chassisPoints[3 * i + k] as number),
      ) as [number, number, number];
      J.set([dx, dy, dy * ax - dx * ay, dx * az - dz * ax], 4 * i);
    }
    this.#order = pivotOrder(J);
    for (const [to, from] of this.#order.entries()) {
      this.#axle.set(axlePoints.subarray(3 * from, 3 * from + 3), 3 * to);
      this.#chassis.set(chassisPoints.subarray(3 * from, 3 * from + 3), 3 * to);
    }
    this.setFree(free);
    this.state[0] = mechanism.origin[0];
    this.state[1] = mechanism.origin[1];
  }

  /** Puts other free lengths in place, four of them, in. */
  setFree(free: Float64Array): void {
    for (const [to, from] of this.#order.entries()) this.#squares[to] = (free[from] ?? 0) ** 2;
  }

  /** Takes the determinant's sign at the present pose as that of the branch. */
  settleSign(): void {
    this.sign = Math.sign(this.det);
  }

  /**
   * Solves the pose at these travels, in, from `state` on. On any code but SOLVED the state is where the
   * iteration stood, and the caller puts a good one back.
   */
  solve(left: number, right: number): SolveCode {
    const sinRoll = (left - right) / this.W;
    const cos2 = 1 - sinRoll * sinRoll;
    if (!(cos2 > 0)) return TOO_STEEP;
    const cosRoll = Math.sqrt(cos2);
    const z = this.zDrawn + (left + right) / 2;
    const a = this.#axle;
    const C = this.#chassis;
    const squares = this.#squares;
    const J = this.#J;
    const g = this.#g;
    const s = this.state;
    let x = s[0] as number;
    let y = s[1] as number;
    let u = s[2] as number;
    let v = s[3] as number;
    let before = Infinity;
    let code: SolveCode = TOO_FAR;
    let step = 0;
    while (step < MOST_STEPS) {
      step++;
      const hu = 1 / (1 + u * u);
      const hv = 1 / (1 + v * v);
      const cy = (1 - u * u) * hu;
      const sy = 2 * u * hu;
      const cp = (1 - v * v) * hv;
      const sp = 2 * v * hv;
      // columns of R: (x0 x1 x2), (y0 y1 y2), (z0 z1 z2)
      const k0 = sy * sinRoll;
      const k1 = -cy * sinRoll;
      const x0 = cp * cy - sp * k0;
      const x1 = cp * sy - sp * k1;
      const x2 = -sp * cosRoll;
      const y0 = -sy * cosRoll;
      const y1 = cy * cosRoll;
      const z0 = sp * cy + cp * k0;
      const z1 = sp * sy + cp * k1;
      const z2 = cp * cosRoll;
      for (let i = 0, j = 0, m = 0; i < 4; i++, j += 3, m += 4) {
        const ax = a[j] as number;
        const ay = a[j + 1] as number;
        const az = a[j + 2] as number;
        const r0 = x0 * ax + y0 * ay + z0 * az;
        const r1 = x1 * ax + y1 * ay + z1 * az;
        const d0 = x + r0 - (C[j] as number);
        const d1 = y + r1 - (C[j + 1] as number);
        const d2 = z + x2 * ax + sinRoll * ay + z2 * az - (C[j + 2] as number);
        g[i] = 0.5 * ((squares[i] as number) - d0 * d0 - d1 * d1 - d2 * d2);
        J[m] = d0;
        J[m + 1] = d1;
        J[m + 2] = d1 * r0 - d0 * r1;
        J[m + 3] = d0 * (az * x0 - ax * z0) + d1 * (az * x1 - ax * z1) + d2 * (az * x2 - ax * z2);
      }
      const det = solve4(J, g);
      const dx = g[0] as number;
      const dy = g[1] as number;
      const dyaw = g[2] as number;
      const dpitch = g[3] as number;
      const h = this.#half;
      const moved = dx * dx + dy * dy + h * h * (dyaw * dyaw + dpitch * dpitch);
      if (!(moved < before * CONTRACTION_SQUARED)) {
        // the second step tells whether the start was near enough; NaN ends here too
        code = det === 0 ? BEYOND_FOLD : TOO_FAR;
        break;
      }
      x += dx;
      y += dy;
      u += 0.5 * dyaw * (1 + u * u);
      v += 0.5 * dpitch * (1 + v * v);
      if (moved <= END_SQUARED) {
        this.det = det;
        code = this.sign !== 0 && det * this.sign <= 0 ? BEYOND_FOLD : SOLVED;
        break;
      }
      before = moved;
    }
    this.steps = step;
    this.totalSteps += step;
    s[0] = x;
    s[1] = y;
    s[2] = u;
    s[3] = v;
    if (code !== SOLVED) return code;
    const hu = 1 / (1 + u * u);
    const hv = 1 / (1 + v * v);
    const cy = (1 - u * u) * hu;
    const sy = 2 * u * hu;
    const cp = (1 - v * v) * hv;
    const sp = 2 * v * hv;
    const k0 = sy * sinRoll;
    const k1 = -cy * sinRoll;
    const R = this.R;
    R[0] = cp * cy - sp * k0;
    R[3] = cp * sy - sp * k1;
    R[6] = -sp * cosRoll;
    R[1] = -sy * cosRoll;
    R[4] = cy * cosRoll;
    R[7] = sinRoll;
    R[2] = sp * cy + cp * k0;
    R[5] = sp * sy + cp * k1;
    R[8] = cp * cosRoll;
    const o = this.o;
    o[0] = x;
    o[1] = y;
    o[2] = z;
    this.sinYaw = sy;
    this.cosYaw = cy;
    this.sinRoll = sinRoll;
    this.cosRoll = cosRoll;
    this.sinPitch = sp;
    this.cosPitch = cp;
    return SOLVED;
  }
}

const CONTRACTION_SQUARED = CONTRACTION * CONTRACTION;
const END_SQUARED = STEP_END_in * STEP_END_in;

/**
 * Solves the 4 × 4 system J x = g (x left in `g`) and gives back det J; 0 if it is singular. Elimination in
 * the order of the rows, written out: the rows come in an order that pivots well at ride height. A pivot
 * that has shrunk to under SMALL_PIVOT of its row's size sends the system to the pivoted form.
 */
export function solve4(J: Float64Array, g: Float64Array): number {
  const a0 = J[0] as number;
  const a1 = J[1] as number;
  const a2 = J[2] as number;
  const a3 = J[3] as number;
  const ia = 1 / a0;
  const fb = (J[4] as number) * ia;
  const fc = (J[8] as number) * ia;
  const fd = (J[12] as number) * ia;
  const b1 = (J[5] as number) - fb * a1;
  const b2 = (J[6] as number) - fb * a2;
  const b3 = (J[7] as number) - fb * a3;
  const ib = 1 / b1;
  const gc = ((J[9] as number) - fc * a1) * ib;
  const gd = ((J[13] as number) - fd * a1) * ib;
  const c2 = (J[10] as number) - fc * a2 - gc * b2;
  const c3 = (J[11] as number) - fc * a3 - gc * b3;
  const ic = 1 / c2;
  const hd = ((J[14] as number) - fd * a2 - gd * b2) * ic;
  const d3 = (J[15] as number) - fd * a3 - gd * b3 - hd * c3;
  if (
    !(Math.abs(a0) > SMALL_PIVOT * (Math.abs(a1) + 1)) ||
    !(
      Math.abs(b1) * LARGEST_FACTOR >
      Math.abs((J[9] as number) - fc * a1) + Math.abs((J[13] as number) - fd * a1)
    ) ||
    !(Math.abs(hd) < LARGEST_FACTOR)
  ) {
    return solve4Pivoted(J, g);
  }
  const ga = g[0] as number;
  const gb = (g[1] as number) - fb * ga;
  const gg = (g[2] as number) - fc * ga - gc * gb;
  const w = ((g[3] as number) - fd * ga - gd * gb - hd * gg) / d3;
  const v = (gg - c3 * w) * ic;
  const u = (gb - b2 * v - b3 * w) * ib;
  g[0] = (ga - a1 * u - a2 * v - a3 * w) * ia;
  g[1] = u;
  g[2] = v;
  g[3] = w;
  return a0 * b1 * c2 * d3;
}

/** Bounds on pivots and elimination factors: past them four of sixteen digits could be lost. */
const SMALL_PIVOT = 1e-4;
const LARGEST_FACTOR = 1e4;

/**
 * Order of the four rows in which elimination without pivoting goes best at this Jacobian: that of partial
 * pivoting.
 */
export function pivotOrder(J: Float64Array): [number, number, number, number] {
  const M = Float64Array.from(J);
  const order: [number, number, number, number] = [0, 1, 2, 3];
  for (let c = 0; c < 3; c++) {
    let p = c;
    for (let r = c + 1; r < 4; r++) {
      if (Math.abs(M[r * 4 + c] as number) > Math.abs(M[p * 4 + c] as number)) p = r;
    }
    const swap = order[c] as number;
    order[c] = order[p] as number;
    order[p] = swap;
    for (let k = 0; k < 4; k++) {
      const held = M[c * 4 + k] as number;
      M[c * 4 + k] = M[p * 4 + k] as number;
      M[p * 4 + k] = held;
    }
    const pivot = M[c * 5] as number;
    if (pivot === 0) continue;
    for (let r = c + 1; r < 4; r++) {
      const f = (M[r * 4 + c] as number) / pivot;
      for (let k = c; k < 4; k++) {
        M[r * 4 + k] = (M[r * 4 + k] as number) - f * (M[c * 4 + k] as number);
      }
    }
  }
  return order;
}

/** Gaussian elimination with partial pivoting: J x = g, x left in `g`, J destroyed; det J, 0 if singular. */
export function solve4Pivoted(J: Float64Array, g: Float64Array): number {
  let det = 1;
  for (let c = 0; c < 3; c++) {
    let p = c;
    let best = Math.abs(J[c * 4 + c] as number);
    for (let r = c + 1; r < 4; r++) {
      const candidate = Math.abs(J[r * 4 + c] as number);
      if (candidate > best) {
        best = candidate;
        p = r;
      }
    }
    if (!(best > 0)) return 0;
    if (p !== c) {
      det = -det;
      for (let k = c; k < 4; k++) {
        const swap = J[c * 4 + k] as number;
        J[c * 4 + k] = J[p * 4 + k] as number;
        J[p * 4 + k] = swap;
      }
      const swap = g[c] as number;
      g[c] = g[p] as number;
      g[p] = swap;
    }
    const pivot = J[c * 5] as number;
    const inverse = 1 / pivot;
    det *= pivot;
    const gc = g[c] as number;
    for (let r = c + 1; r < 4; r++) {
      const f = (J[r * 4 + c] as number) * inverse;
      if (f === 0) continue;
      for (let k = c + 1; k < 4; k++) {
        J[r * 4 + k] = (J[r * 4 + k] as number) - f * (J[c * 4 + k] as number);
      }
      g[r] = (g[r] as number) - f * gc;
    }
  }
  const last = J[15] as number;
  if (last === 0 || Number.isNaN(last)) return 0;
  det *= last;
  const w = (g[3] as number) / last;
  const v = ((g[2] as number) - (J[11] as number) * w) / (J[10] as number);
  const u = ((g[1] as number) - (J[6] as number) * v - (J[7] as number) * w) / (J[5] as number);
  g[0] =
    ((g[0] as number) - (J[1] as number) * u - (J[2] as number) * v - (J[3] as number) * w) /
    (J[0] as number);
  g[1] = u;
  g[2] = v;
  g[3] = w;
  return det;
}
