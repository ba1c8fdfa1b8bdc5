/**
 * An axle on more than four lengths, on radius arms, or on shared joints that give: least elastic energy.
 *
 * Unknown: the four of `exactAxle.ts` (o_x, o_y, yaw, pitch), three for each giving shared joint P, six for
 * each radius arm (its shift t and a turn Q). Frames, (1) and (2) as there.
 * Energy, lbf·in:
 *   (1) length:        ½ k e²,                     e = |d| − L, d from its chassis end to its axle end
 *   (2) shared joint:  ½ k |P − home|²
 *   (3) arm joint:     ½ k_r |d|² + ½ (k_a − k_r) (b·d)² + ½ k_c μ²
 *       d from the bracket's half to the arm's, b bolt axis (in the bracket), μ angle of b and bore axis (in the arm).
 * Newton with the full second derivative, so that the iteration ends quadratically whatever the bind. For a
 * length with partial derivatives X_m of d, u = d/|d|, F = k e:
 *   (4) gradient  F u·X_m
 *   (5) Hessian   k (u·X_m)(u·X_n) + (F/|d|) (X_m·X_n − (u·X_m)(u·X_n)) + F u·X_mn
 *   (6) first step of an iteration: (5) without the terms in F (Gauss–Newton), positive semidefinite
 * Left: stretch by (|d|² − L²)/2L, whose energy is off by stretch/2L; two lengths in place of an arm, which
 * loses the arm's stiffness in pitch where both bushings sit fore and aft.
 * A turn of an arm is a left factor exp(δ×) on Q, so that no chart has an edge; Q is made orthonormal at each pose.
 */
import type { Vec3 } from '../build/build.ts';
import type { Arm, ArmJoint, Mechanism } from '../mechanism/mechanism.ts';
import { CONTRACTION, ELASTIC_STEP_END_in, MOST_STEPS } from '../tolerances.ts';
import { BEYOND_FOLD, SOLVED, type SolveCode, TOO_FAR, TOO_STEEP } from './exactAxle.ts';

const AXLE = 4;

export class ElasticAxle {
  readonly W: number;
  readonly zDrawn: number;
  /**
   * x, y, tan(yaw/2), tan(pitch/2); three numbers a giving joint (on the axle: axle frame offset from home,
   * on the chassis: vehicle axes offset); twelve an arm: shift of its center, rows of Q.
   */
  readonly state: Float64Array;
  readonly R = new Float64Array(9);
  readonly o = new Float64Array(3);
  sinYaw = 0;
  cosYaw = 1;
  sinRoll = 0;
  cosRoll = 1;
  sinPitch = 0;
  cosPitch = 1;
  steps = 0;
  totalSteps = 0;
  /** Number of unknowns. */
  readonly n: number;
  /** Gradient (lbf, lbf·in) and Hessian, n × n by rows, at the last evaluation. */
  readonly gradient: Float64Array;
  readonly hessian: Float64Array;
  readonly #m: Mechanism;
  readonly #free: Float64Array;
  readonly #factor: Float64Array;
  readonly #arms: ArmWork[];
  readonly #half: number;
  /** Where `solve` was begun. */
  readonly #start: Float64Array;
  readonly #work = armScratch();
  // ρ and its partial derivatives for one point of the axle
  readonly #yawed = new Float64Array(3);
  readonly #pitched = new Float64Array(3);

  constructor(mechanism: Mechanism, free: Float64Array = mechanism.lengths.free) {
    this.#m = mechanism;
    this.W = mechanism.wheelCenters;
    this.#half = this.W / 2;
    this.zDrawn = mechanism.origin[2];
    const points = mechanism.points.length;
    const arms = mechanism.arms.length;
    this.n = AXLE + 3 * points + 6 * arms;
    this.state = new Float64Array(AXLE + 3 * points + 12 * arms);
    this.#start = new Float64Array(this.state.length);
    this.gradient = new Float64Array(this.n);
    this.hessian = new Float64Array(this.n * this.n);
    this.#factor = new Float64Array(this.n * this.n);
    this.#free = Float64Array.from(free);
    this.state[0] = mechanism.origin[0];
    this.state[1] = mechanism.origin[1];
    this.#arms = mechanism.arms.map((arm, i) => ({
      arm,
      at: AXLE + 3 * points + 12 * i,
      column: AXLE + 3 * points + 6 * i,
    }));
    for (const { at } of this.#arms) {
      for (const k of [3, 7, 11]) this.state[at + k] = 1;
    }
  }

  /** Puts other free lengths in place, in. */
  setFree(free: Float64Array): void {
    this.#free.set(free);
  }

  /** Solves the pose at these travels, in, from `state` on; codes as ExactAxle's. */
  solve(left: number, right: number): SolveCode {
    const sinRoll = (left - right) / this.W;
    const cos2 = 1 - sinRoll * sinRoll;
    if (!(cos2 > 0)) return TOO_STEEP;
    this.sinRoll = sinRoll;
    this.cosRoll = Math.sqrt(cos2);
    this.o[2] = this.zDrawn + (left + right) / 2;
    this.#start.set(this.state);
    this.steps = 0;
    // far from rest the forces of a start would make the Hessian indefinite: (6) for the first step
    let code = this.#iterate(0);
    if (code !== SOLVED) {
      // under load (6) misses what the forces do however near the start: Newton's theorem needs the whole
      this.state.set(this.#start);
      code = this.#iterate(1);
    }
    this.totalSteps += this.steps;
    this.place();
    return code;
  }

  /** Makes the arms' turns rotations again, after `state` was carried on in a straight line. */
  tidy(): void {
    for (const { at } of this.#arms) {
      // each pass squares the error, that of a step of 10° is 1e-2
      for (let pass = 0; pass < 3; pass++) orthonormalize(this.state, at + 3);
    }
  }

  /** Newton from `state`; `bend` of the first step as in `evaluate`. */
  #iterate(bend: 0 | 1): SolveCode {
    let before = Infinity;
    for (let step = 1; step <= MOST_STEPS; step++) {
      this.steps++;
      this.place();
      this.evaluate(step === 1 ? bend : 1);
      const moved = this.#newtonStep();
      // two steps that are both small: the start was the pose, and they are made of rounding
      if (moved <= END_SQUARED && before <= END_SQUARED) return SOLVED;
      if (!(moved < before * CONTRACTION_SQUARED))
        return Number.isNaN(moved) ? BEYOND_FOLD : TOO_FAR;
      // (6) ends linearly: its step alone proves nothing
      if (moved <= END_SQUARED && (step > 1 || bend === 1)) return SOLVED;
      before = moved;
    }
    return TOO_FAR;
  }

  /** Makes R, o and the angles from `state`; o_z and the roll stand already. */
  place(): void {
    const s = this.state;
    const u = s[2] as number;
    const v = s[3] as number;
    const hu = 1 / (1 + u * u);
    const hv = 1 / (1 + v * v);
    const cy = (1 - u * u) * hu;
    const sy = 2 * u * hu;
    const cp = (1 - v * v) * hv;
    const sp = 2 * v * hv;
    const sr = this.sinRoll;
    const cr = this.cosRoll;
    const R = this.R;
    R[0] = cp * cy - sp * sy * sr;
    R[3] = cp * sy + sp * cy * sr;
    R[6] = -sp * cr;
    R[1] = -sy * cr;
    R[4] = cy * cr;
    R[7] = sr;
    R[2] = sp * cy + cp * sy * sr;
    R[5] = sp * sy - cp * cy * sr;
    R[8] = cp * cr;
    this.o[0] = s[0] as number;
    this.o[1] = s[1] as number;
    this.sinYaw = sy;
    this.cosYaw = cy;
    this.sinPitch = sp;
    this.cosPitch = cp;
  }

  /**
   * Energy, lbf·in, with gradient and Hessian left in their arrays, at `state` as placed.
   *
   * @param bend 1: the Hessian whole; 0: without the terms of forces times second derivatives, (6)
   */
  evaluate(bend: 0 | 1 = 1): number {
    const n = this.n;
    const G = this.gradient;
    const H = this.hessian;
    if (n > AXLE) {
      G.fill(0);
      H.fill(0);
    }
    const L = this.#m.lengths;
    const N = L.names.length;
    const R = this.R;
    const [x0, y0, z0, x1, y1, z1, x2, y2, z2] = R as unknown as Nine;
    const [ox, oy, oz] = this.o as unknown as Three;
    let energy = 0;
    let gx = 0;
    let gy = 0;
    let gw = 0;
    let gp = 0;
    let hxx = 0;
    let hxy = 0;
    let hxw = 0;
    let hxp = 0;
    let hyy = 0;
    let hyw = 0;
    let hyp = 0;
    let hww = 0;
    let hwp = 0;
    let hpp = 0;
    for (let i = 0; i < N; i++) {
      if ((L.axleShared[i] as number) >= 0 || (L.chassisShared[i] as number) >= 0) {
        energy += this.#sharedLength(i, bend);
        continue;
      }
      const j = 3 * i;
      const ax = L.axlePoints[j] as number;
      const ay = L.axlePoints[j + 1] as number;
      const az = L.axlePoints[j + 2] as number;
      const r0 = x0 * ax + y0 * ay + z0 * az;
      const r1 = x1 * ax + y1 * ay + z1 * az;
      const r2 = x2 * ax + y2 * ay + z2 * az;
      const d0 = ox + r0 - (L.chassisPoints[j] as number);
      const d1 = oy + r1 - (L.chassisPoints[j + 1] as number);
      const d2 = oz + r2 - (L.chassisPoints[j + 2] as number);
      const length = Math.sqrt(d0 * d0 + d1 * d1 + d2 * d2);
      const e = length - (this.#free[i] as number);
      const k = L.rates[i] as number;
      const F = k * e;
      const inverse = 1 / length;
      const u0 = d0 * inverse;
      const u1 = d1 * inverse;
      const u2 = d2 * inverse;
      // partial derivatives of d: x: eX, y: eY, yaw: (−r1, r0, 0), pitch: p
      const p0 = az * x0 - ax * z0;
      const p1 = az * x1 - ax * z1;
      const p2 = az * x2 - ax * z2;
      const uw = u1 * r0 - u0 * r1;
      const up = u0 * p0 + u1 * p1 + u2 * p2;
      energy += 0.5 * F * e;
      gx += F * u0;
      gy += F * u1;
      gw += F * uw;
      gp += F * up;
      const t = bend * F * inverse;
      const q = k - t;
      const f = bend * F;
      hxx += q * u0 * u0 + t;
      hxy += q * u0 * u1;
      hxw += q * u0 * uw - t * r1;
      hxp += q * u0 * up + t * p0;
      hyy += q * u1 * u1 + t;
      hyw += q * u1 * uw + t * r0;
      hyp += q * u1 * up + t * p1;
      hww += q * uw * uw + t * (r0 * r0 + r1 * r1) - f * (u0 * r0 + u1 * r1);
      hwp += q * uw * up + t * (r0 * p1 - r1 * p0) + f * (u1 * p0 - u0 * p1);
      hpp +=
        q * up * up +
        t * (p0 * p0 + p1 * p1 + p2 * p2) -
        f * (u0 * (ax * x0 + az * z0) + u1 * (ax * x1 + az * z1) + u2 * (ax * x2 + az * z2));
    }
    if (n === AXLE) {
      G[0] = gx;
      G[1] = gy;
      G[2] = gw;
      G[3] = gp;
      H[0] = hxx;
      H[1] = H[4] = hxy;
      H[2] = H[8] = hxw;
      H[3] = H[12] = hxp;
      H[5] = hyy;
      H[6] = H[9] = hyw;
      H[7] = H[13] = hyp;
      H[10] = hww;
      H[11] = H[14] = hwp;
      H[15] = hpp;
      return energy;
    }
    addTo(G, 0, gx);
    addTo(G, 1, gy);
    addTo(G, 2, gw);
    addTo(G, 3, gp);
    addTo(H, 0, hxx);
    addTo(H, 1, hxy);
    addTo(H, 2, hxw);
    addTo(H, 3, hxp);
    addTo(H, n + 1, hyy);
    addTo(H, n + 2, hyw);
    addTo(H, n + 3, hyp);
    addTo(H, 2 * n + 2, hww);
    addTo(H, 2 * n + 3, hwp);
    addTo(H, 3 * n + 3, hpp);
    for (const [i, point] of this.#m.points.entries()) {
      // the offset from home is the unknown itself, in the frame of the body that home is on
      const at = AXLE + 3 * i;
      for (let c = 0; c < 3; c++) {
        const offset = this.state[at + c] as number;
        energy += 0.5 * point.rate * offset * offset;
        G[at + c] = (G[at + c] as number) + point.rate * offset;
        addTo(H, (at + c) * n + at + c, point.rate);
      }
    }
    for (const work of this.#arms) {
      for (const joint of work.arm.joints) energy += this.#armJoint(work, joint, bend);
    }
    for (let r = 1; r < n; r++) for (let c = 0; c < r; c++) H[r * n + c] = H[c * n + r] as number;
    return energy;
  }

  /** Offset of an arm joint's halves in vehicle axes, in, written to `out`. */
  armOffset(arm: number, joint: ArmJoint, out: Float64Array): void {
    this.armPoint(arm, joint.at, out);
    if (joint.on === 'axle') {
      for (let c = 0; c < 3; c++) {
        out[c] =
          (out[c] as number) -
          (this.o[c] as number) -
          (this.R[3 * c] as number) * joint.home[0] -
          (this.R[3 * c + 1] as number) * joint.home[1] -
          (this.R[3 * c + 2] as number) * joint.home[2];
      }
    } else {
      for (let c = 0; c < 3; c++) out[c] = (out[c] as number) - (joint.home[c] as number);
    }
  }

  /** Where a point of an arm (vehicle axes as drawn) is now, vehicle axes, in. */
  armPoint(arm: number, drawn: readonly [number, number, number], out: Float64Array): void {
    const { at, arm: a } = this.#arms[arm] as ArmWork;
    const s = this.state;
    const x = drawn[0] - a.center[0];
    const y = drawn[1] - a.center[1];
    const z = drawn[2] - a.center[2];
    for (let c = 0; c < 3; c++) {
      const q = at + 3 + 3 * c;
      out[c] =
        (a.center[c] as number) +
        (s[at + c] as number) +
        (s[q] as number) * x +
        (s[q + 1] as number) * y +
        (s[q + 2] as number) * z;
    }
  }

  /** Rows of Q of an arm begin here in `state`. */
  armTurnAt(arm: number): number {
    return (this.#arms[arm] as ArmWork).at + 3;
  }

  /** Where a giving shared joint is now, vehicle axes, in. */
  sharedPoint(index: number, out: Float64Array): void {
    const point = this.#m.points[index];
    if (!point) return;
    const at = AXLE + 3 * index;
    const p = [0, 1, 2].map(c => (point.home[c] as number) + (this.state[at + c] as number));
    if (point.on === 'chassis') out.set(p);
    else {
      for (let c = 0; c < 3; c++) {
        out[c] =
          (this.o[c] as number) +
          (this.R[3 * c] as number) * (p[0] as number) +
          (this.R[3 * c + 1] as number) * (p[1] as number) +
          (this.R[3 * c + 2] as number) * (p[2] as number);
      }
    }
  }

  /** A length with an end on a giving shared joint: columns of the axle and of the joint. */
  #sharedLength(i: number, bend: 0 | 1): number {
    const L = this.#m.lengths;
    const n = this.n;
    const R = this.R;
    const axleShared = L.axleShared[i] as number;
    const chassisShared = L.chassisShared[i] as number;
    // the axle end in the axle frame, moved by its joint's offset
    const a = [0, 1, 2].map(
      c =>
        (L.axlePoints[3 * i + c] as number) +
        (axleShared < 0 ? 0 : (this.state[AXLE + 3 * axleShared + c] as number)),
    ) as number[] as Three;
    const C = [0, 1, 2].map(
      c =>
        (L.chassisPoints[3 * i + c] as number) +
        (chassisShared < 0 ? 0 : (this.state[AXLE + 3 * chassisShared + c] as number)),
    ) as number[] as Three;
    const rho = this.#turnedPoint(a);
    const d = [0, 1, 2].map(
      c => (this.o[c] as number) + (rho[c] as number) - (C[c] as number),
    ) as number[] as Three;
    const columns: number[] = [0, 1, 2, 3];
    const X: Three[] = [
      [1, 0, 0],
      [0, 1, 0],
      [...this.#yawed] as Three,
      [...this.#pitched] as Three,
    ];
    if (axleShared >= 0) {
      for (let c = 0; c < 3; c++) {
        columns.push(AXLE + 3 * axleShared + c);
        X.push([R[c] as number, R[3 + c] as number, R[6 + c] as number]);
      }
    }
    if (chassisShared >= 0) {
      for (let c = 0; c < 3; c++) {
        columns.push(AXLE + 3 * chassisShared + c);
        X.push([c === 0 ? -1 : 0, c === 1 ? -1 : 0, c === 2 ? -1 : 0]);
      }
    }
    const length = Math.hypot(d[0], d[1], d[2]);
    const e = length - (this.#free[i] as number);
    const k = L.rates[i] as number;
    const F = k * e;
    const u: Three = [d[0] / length, d[1] / length, d[2] / length];
    const second = this.#secondPartials(a, axleShared >= 0 ? AXLE + 3 * axleShared : -1);
    for (let m = 0; m < columns.length; m++) {
      const Xm = X[m] as Three;
      const um = dot3(u, Xm);
      this.gradient[columns[m] as number] =
        (this.gradient[columns[m] as number] as number) + F * um;
      for (let k2 = m; k2 < columns.length; k2++) {
        const Xn = X[k2] as Three;
        const un = dot3(u, Xn);
        const twice = second(columns[m] as number, columns[k2] as number);
        const value =
          k * um * un +
          bend * ((F / length) * (dot3(Xm, Xn) - um * un) + (twice ? F * dot3(u, twice) : 0));
        const row = Math.min(columns[m] as number, columns[k2] as number);
        const column = Math.max(columns[m] as number, columns[k2] as number);
        addTo(this.hessian, row * n + column, value);
      }
    }
    return 0.5 * F * e;
  }

  /** R a, with its derivatives by yaw and pitch left in #yawed and #pitched. */
  #turnedPoint(a: Three): Three {
    const R = this.R;
    const rho = [0, 1, 2].map(
      c =>
        (R[3 * c] as number) * a[0] +
        (R[3 * c + 1] as number) * a[1] +
        (R[3 * c + 2] as number) * a[2],
    ) as number[] as Three;
    this.#yawed[0] = -rho[1];
    this.#yawed[1] = rho[0];
    this.#yawed[2] = 0;
    for (let c = 0; c < 3; c++) {
      this.#pitched[c] = a[2] * (R[3 * c] as number) - a[0] * (R[3 * c + 2] as number);
    }
    return rho;
  }

  /** Second partial derivatives of R a by yaw, pitch and (from column `shared` on) by a itself. */
  #secondPartials(a: Three, shared: number): (m: number, n: number) => Three | null {
    const R = this.R;
    const rho = this.#turnedPoint(a);
    const p = [...this.#pitched] as Three;
    return (m, n) => {
      if (m > n) [m, n] = [n, m];
      if (m === 2 && n === 2) return [-rho[0], -rho[1], 0];
      if (m === 2 && n === 3) return [-p[1], p[0], 0];
      if (m === 3 && n === 3) {
        return [0, 1, 2].map(
          c => -a[0] * (R[3 * c] as number) - a[2] * (R[3 * c + 2] as number),
        ) as number[] as Three;
      }
      const c = n - shared;
      if (shared >= 0 && c >= 0 && c < 3) {
        const column: Three = [R[c] as number, R[3 + c] as number, R[6 + c] as number];
        if (m === 2) return [-column[1], column[0], 0];
        if (m === 3) {
          // d/dpitch of the columns of R: eX → −eZ, eY → 0, eZ → eX
          if (c === 0) return [-(R[2] as number), -(R[5] as number), -(R[8] as number)];
          if (c === 2) return [R[0] as number, R[3] as number, R[6] as number];
          return [0, 0, 0];
        }
      }
      return null;
    };
  }

  /**
   * Energy (3) of one joint of an arm, added to gradient and Hessian. With f, w, h from
   *   (7) dE = f·δd + w·δb + h·δβ,  f = k_r d + (k_a − k_r)(b·d) b,  w = (k_a − k_r)(b·d) d + c β,  h = c b,
   *       c = ½ k_c d(μ²)/d(cos μ)
   * and, for a turn of the arm, e_i × (e_j × v) symmetrized: ½(e_j v_i + e_i v_j) − δ_ij v.
   */
  #armJoint(work: ArmWork, joint: ArmJoint, bend: 0 | 1): number {
    const { at, column, arm } = work;
    const s = this.state;
    const n = this.n;
    const w = this.#work;
    const { q, bore, d, b, rho, bYawed, bPitched, yawed, pitched } = w;
    turnBy(
      s,
      at + 3,
      joint.at[0] - arm.center[0],
      joint.at[1] - arm.center[1],
      joint.at[2] - arm.center[2],
      q,
    );
    turnBy(s, at + 3, joint.bore[0], joint.bore[1], joint.bore[2], bore);
    const onAxle = joint.on === 'axle';
    if (onAxle) {
      this.#turnInto(joint.home, rho, yawed, pitched);
      this.#turnInto(joint.bolt, b, bYawed, bPitched);
    } else {
      rho.set(joint.home);
      b.set(joint.bolt);
    }
    for (let c = 0; c < 3; c++) {
      d[c] =
        (arm.center[c] as number) +
        (s[at + c] as number) +
        (q[c] as number) -
        (rho[c] as number) -
        (onAxle ? (this.o[c] as number) : 0);
    }
    const kr = joint.radial;
    const kd = joint.axial - joint.radial;
    const bd = dotOf(b, d);
    const cosine = dotOf(b, bore);
    const [mu2, mu2First, mu2Second] = squaredAngle(cosine);
    const c1 = 0.5 * joint.conical * mu2First;
    const c2 = 0.5 * joint.conical * mu2Second;
    const { f, wb } = w;
    for (let c = 0; c < 3; c++) {
      f[c] = kr * (d[c] as number) + kd * bd * (b[c] as number);
      wb[c] = kd * bd * (d[c] as number) + c1 * (bore[c] as number);
    }
    // columns: partial derivatives of d, b and the bore by x, y, yaw, pitch, shift and turn of the arm
    const { D, B, E, columns } = w;
    const count = onAxle ? 10 : 6;
    const first = onAxle ? 4 : 0;
    D.fill(0);
    B.fill(0);
    E.fill(0);
    if (onAxle) {
      D[0] = -1;
      D[4] = -1;
      for (let c = 0; c < 3; c++) {
        D[6 + c] = -(yawed[c] as number);
        D[9 + c] = -(pitched[c] as number);
        B[6 + c] = bYawed[c] as number;
        B[9 + c] = bPitched[c] as number;
        columns[c] = c;
      }
      columns[3] = 3;
    }
    for (let c = 0; c < 3; c++) {
      const shift = first + c;
      const turn = first + 3 + c;
      columns[shift] = column + c;
      columns[turn] = column + 3 + c;
      D[3 * shift + c] = 1;
      // e_c × v
      const i = (c + 1) % 3;
      const j = (c + 2) % 3;
      D[3 * turn + i] = -(q[j] as number);
      D[3 * turn + j] = q[i] as number;
      E[3 * turn + i] = -(bore[j] as number);
      E[3 * turn + j] = bore[i] as number;
    }
    const { S, C } = w;
    for (let m = 0; m < count; m++) {
      S[m] = dotAt(B, 3 * m, d) + dotAt(D, 3 * m, b);
      C[m] = dotAt(B, 3 * m, bore) + dotAt(E, 3 * m, b);
      const col = columns[m] as number;
      this.gradient[col] =
        (this.gradient[col] as number) +
        dotAt(D, 3 * m, f) +
        dotAt(B, 3 * m, wb) +
        c1 * dotAt(E, 3 * m, b);
    }
    const H = this.hessian;
    for (let m = 0; m < count; m++) {
      const row = columns[m] as number;
      for (let k = m; k < count; k++) {
        let value =
          kr * dotPair(D, 3 * m, D, 3 * k) +
          kd * (S[m] as number) * (S[k] as number) +
          c2 * (C[m] as number) * (C[k] as number) +
          c1 * (dotPair(B, 3 * m, E, 3 * k) + dotPair(B, 3 * k, E, 3 * m));
        if (bend) value += kd * bd * (dotPair(B, 3 * m, D, 3 * k) + dotPair(B, 3 * k, D, 3 * m));
        addTo(H, row * n + (columns[k] as number), value);
      }
    }
    // second derivatives: turn of the arm
    for (let i = 0; i < 3; i++) {
      for (let j = i; j < 3; j++) {
        let value =
          (c1 / 2) *
          ((b[j] as number) * (bore[i] as number) + (b[i] as number) * (bore[j] as number));
        if (bend) {
          value += ((f[j] as number) * (q[i] as number) + (f[i] as number) * (q[j] as number)) / 2;
        }
        if (i === j) value -= c1 * cosine + bend * dotOf(f, q);
        addTo(H, (column + 3 + i) * n + column + 3 + j, value);
      }
    }
    if (onAxle) {
      const twice = (v: Float64Array, p: Float64Array, drawn: Vec3, by: Float64Array): void => {
        // yaw yaw: (−v_x, −v_y, 0); yaw pitch: (−p_y, p_x, 0); pitch pitch: −v_x' R eX − v_z' R eZ
        const R = this.R;
        addTo(
          H,
          2 * n + 2,
          -((by[0] as number) * (v[0] as number) + (by[1] as number) * (v[1] as number)),
        );
        addTo(
          H,
          2 * n + 3,
          (by[1] as number) * (p[0] as number) - (by[0] as number) * (p[1] as number),
        );
        let pp = 0;
        for (let c = 0; c < 3; c++) {
          pp -=
            (by[c] as number) *
            (drawn[0] * (R[3 * c] as number) + drawn[2] * (R[3 * c + 2] as number));
        }
        addTo(H, 3 * n + 3, pp);
      };
      if (bend) {
        for (let c = 0; c < 3; c++) w.minusF[c] = -(f[c] as number);
        twice(rho, pitched, joint.home, w.minusF);
        twice(b, bPitched, joint.bolt, wb);
      } else {
        for (let c = 0; c < 3; c++) w.minusF[c] = c1 * (bore[c] as number);
        twice(b, bPitched, joint.bolt, w.minusF);
      }
    }
    return 0.5 * (kr * dotOf(d, d) + kd * bd * bd + joint.conical * mu2);
  }

  /** R a into `rho`, with its derivatives by yaw and pitch. */
  #turnInto(a: Vec3, rho: Float64Array, yawed: Float64Array, pitched: Float64Array): void {
    const R = this.R;
    for (let c = 0; c < 3; c++) {
      const x = R[3 * c] as number;
      const z = R[3 * c + 2] as number;
      rho[c] = x * a[0] + (R[3 * c + 1] as number) * a[1] + z * a[2];
      pitched[c] = a[2] * x - a[0] * z;
    }
    yawed[0] = -(rho[1] as number);
    yawed[1] = rho[0] as number;
    yawed[2] = 0;
  }

  /** Newton step on gradient and Hessian; its squared size in inches, NaN where no minimum is near. */
  #newtonStep(): number {
    const n = this.n;
    const x = this.gradient;
    if (!factorize(this.hessian, this.#factor, n)) return Number.NaN;
    solveFactored(this.#factor, n, x);
    const s = this.state;
    const half = this.#half;
    const u = s[2] as number;
    const v = s[3] as number;
    const yaw = x[2] as number;
    const pitch = x[3] as number;
    let moved =
      (x[0] as number) ** 2 + (x[1] as number) ** 2 + half * half * (yaw * yaw + pitch * pitch);
    s[0] = (s[0] as number) - (x[0] as number);
    s[1] = (s[1] as number) - (x[1] as number);
    s[2] = u - 0.5 * yaw * (1 + u * u);
    s[3] = v - 0.5 * pitch * (1 + v * v);
    const shared = 3 * this.#m.points.length;
    for (let c = AXLE; c < AXLE + shared; c++) {
      s[c] = (s[c] as number) - (x[c] as number);
      moved += (x[c] as number) ** 2;
    }
    for (const { at, column } of this.#arms) {
      for (let c = 0; c < 3; c++) {
        s[at + c] = (s[at + c] as number) - (x[column + c] as number);
        moved += (x[column + c] as number) ** 2;
        moved += (half * (x[column + 3 + c] as number)) ** 2;
      }
      turnLeft(
        s,
        at + 3,
        -(x[column + 3] as number),
        -(x[column + 4] as number),
        -(x[column + 5] as number),
      );
    }
    return moved;
  }
}

interface ArmWork {
  arm: Arm;
  /** Where its twelve numbers begin in `state`, and its six columns in the gradient. */
  at: number;
  column: number;
}

type Three = [number, number, number];
type Nine = [number, number, number, number, number, number, number, number, number];

const CONTRACTION_SQUARED = CONTRACTION * CONTRACTION;
const END_SQUARED = ELASTIC_STEP_END_in * ELASTIC_STEP_END_in;

const dot3 = (a: Three, b: Three): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Scratch of one arm joint: vectors, and partial derivatives by up to ten unknowns. */
function armScratch() {
  const vector = (): Float64Array => new Float64Array(3);
  return {
    q: vector(),
    bore: vector(),
    d: vector(),
    b: vector(),
    rho: vector(),
    yawed: vector(),
    pitched: vector(),
    bYawed: vector(),
    bPitched: vector(),
    f: vector(),
    wb: vector(),
    minusF: vector(),
    D: new Float64Array(30),
    B: new Float64Array(30),
    E: new Float64Array(30),
    S: new Float64Array(10),
    C: new Float64Array(10),
    columns: new Int32Array(10),
  };
}

const dotOf = (a: Float64Array, b: Float64Array): number =>
  (a[0] as number) * (b[0] as number) +
  (a[1] as number) * (b[1] as number) +
  (a[2] as number) * (b[2] as number);
const dotAt = (a: Float64Array, i: number, b: Float64Array): number =>
  (a[i] as number) * (b[0] as number) +
  (a[i + 1] as number) * (b[1] as number) +
  (a[i + 2] as number) * (b[2] as number);
const dotPair = (a: Float64Array, i: number, b: Float64Array, j: number): number =>
  (a[i] as number) * (b[j] as number) +
  (a[i + 1] as number) * (b[j + 1] as number) +
  (a[i + 2] as number) * (b[j + 2] as number);

/** Q v for the nine numbers of Q at `at`. */
function turnBy(
  s: Float64Array,
  at: number,
  x: number,
  y: number,
  z: number,
  out: Float64Array,
): void {
  for (let c = 0; c < 3; c++) {
    const k = at + 3 * c;
    out[c] = (s[k] as number) * x + (s[k + 1] as number) * y + (s[k + 2] as number) * z;
  }
}

function addTo(a: Float64Array, i: number, value: number): void {
  a[i] = (a[i] as number) + value;
}

/**
 * μ² of the angle with this cosine, and its first and second derivatives by the cosine:
 * −2 μ / sin μ and 2 (1 − μ cot μ) / sin² μ. Near μ = 0 by series, since both are 0/0 there.
 */
export function squaredAngle(cosine: number): [number, number, number] {
  const gap = 1 - cosine;
  if (gap < 1e-3) {
    // μ² = 2g + g²/3 + 4g³/45 + g⁴/35 + 16 g⁵/1575 + …, g = 1 − cos μ (from arcsin², g = 2 sin²(μ/2))
    const g = gap;
    return [
      g * (2 + g * (1 / 3 + g * (4 / 45 + g * (1 / 35 + (g * 16) / 1575)))),
      -(2 + g * (2 / 3 + g * (4 / 15 + g * (4 / 35 + (g * 16) / 315)))),
      2 / 3 + g * (8 / 15 + g * (12 / 35 + (g * 64) / 315)),
    ];
  }
  const angle = Math.acos(Math.max(-1, cosine));
  const sine = Math.sin(angle);
  return [
    angle * angle,
    (-2 * angle) / sine,
    (2 * (1 - (angle * Math.cos(angle)) / sine)) / (sine * sine),
  ];
}

/**
 * Third derivative of μ² by cos μ: from (1 − c²) f″ = c f′ + 2, so (1 − c²) f‴ = 3 c f″ + f′; near μ = 0 by series.
 */
export function squaredAngleThird(cosine: number): number {
  const g = 1 - cosine;
  if (g < 1e-3) return -(8 / 15 + g * (24 / 35 + (g * 64) / 105));
  const [, f1, f2] = squaredAngle(cosine);
  return (3 * cosine * f2 + f1) / (1 - cosine * cosine);
}

/** Cholesky factor of a symmetric matrix by rows; false where it is not positive definite. */
export function factorize(A: Float64Array, L: Float64Array, n: number): boolean {
  if (n === 4) return factorize4(A, L);
  for (let c = 0; c < n; c++) {
    let diagonal = A[c * n + c] as number;
    for (let k = 0; k < c; k++) diagonal -= (L[c * n + k] as number) ** 2;
    if (!(diagonal > 0)) return false;
    const root = Math.sqrt(diagonal);
    L[c * n + c] = root;
    const inverse = 1 / root;
    for (let r = c + 1; r < n; r++) {
      let sum = A[r * n + c] as number;
      for (let k = 0; k < c; k++) sum -= (L[r * n + k] as number) * (L[c * n + k] as number);
      L[r * n + c] = sum * inverse;
    }
  }
  return true;
}

/** The same written out for the four unknowns of an axle on lengths alone. */
function factorize4(A: Float64Array, L: Float64Array): boolean {
  const a = A[0] as number;
  if (!(a > 0)) return false;
  const l00 = Math.sqrt(a);
  const i0 = 1 / l00;
  const l10 = (A[1] as number) * i0;
  const l20 = (A[2] as number) * i0;
  const l30 = (A[3] as number) * i0;
  const b = (A[5] as number) - l10 * l10;
  if (!(b > 0)) return false;
  const l11 = Math.sqrt(b);
  const i1 = 1 / l11;
  const l21 = ((A[6] as number) - l20 * l10) * i1;
  const l31 = ((A[7] as number) - l30 * l10) * i1;
  const c = (A[10] as number) - l20 * l20 - l21 * l21;
  if (!(c > 0)) return false;
  const l22 = Math.sqrt(c);
  const l32 = ((A[11] as number) - l30 * l20 - l31 * l21) / l22;
  const d = (A[15] as number) - l30 * l30 - l31 * l31 - l32 * l32;
  if (!(d > 0)) return false;
  L[0] = l00;
  L[4] = l10;
  L[5] = l11;
  L[8] = l20;
  L[9] = l21;
  L[10] = l22;
  L[12] = l30;
  L[13] = l31;
  L[14] = l32;
  L[15] = Math.sqrt(d);
  return true;
}

/** Solves L Lᵀ x = b in place. */
export function solveFactored(L: Float64Array, n: number, b: Float64Array): void {
  for (let r = 0; r < n; r++) {
    let sum = b[r] as number;
    for (let k = 0; k < r; k++) sum -= (L[r * n + k] as number) * (b[k] as number);
    b[r] = sum / (L[r * n + r] as number);
  }
  for (let r = n - 1; r >= 0; r--) {
    let sum = b[r] as number;
    for (let k = r + 1; k < n; k++) sum -= (L[k * n + r] as number) * (b[k] as number);
    b[r] = sum / (L[r * n + r] as number);
  }
}

/** Q ← exp(δ×) Q for the nine numbers at `at`, then one orthonormalizing pass. */
function turnLeft(s: Float64Array, at: number, dx: number, dy: number, dz: number): void {
  const angle = Math.sqrt(dx * dx + dy * dy + dz * dz);
  if (angle === 0) return;
  const sine = Math.sin(angle) / angle;
  const half = Math.sin(angle / 2) / angle;
  const versed = 2 * half * half;
  const cosine = Math.cos(angle);
  for (let c = 0; c < 3; c++) {
    const x = s[at + c] as number;
    const y = s[at + 3 + c] as number;
    const z = s[at + 6 + c] as number;
    const along = (dx * x + dy * y + dz * z) * versed;
    s[at + c] = x * cosine + sine * (dy * z - dz * y) + dx * along;
    s[at + 3 + c] = y * cosine + sine * (dz * x - dx * z) + dy * along;
    s[at + 6 + c] = z * cosine + sine * (dx * y - dy * x) + dz * along;
  }
  orthonormalize(s, at);
}

/** One Newton pass Q ← Q (3 − QᵀQ)/2 towards the nearest rotation; rounding errors go from ε to ε². */
function orthonormalize(s: Float64Array, at: number): void {
  const q = s.slice(at, at + 9);
  for (let r = 0; r < 3; r++) {
    for (let c = 0; c < 3; c++) {
      let sum = 1.5 * (q[3 * r + c] as number);
      for (let k = 0; k < 3; k++) {
        let gram = 0;
        for (let m = 0; m < 3; m++) gram += (q[3 * m + k] as number) * (q[3 * m + c] as number);
        sum -= 0.5 * (q[3 * r + k] as number) * gram;
      }
      s[at + 3 * r + c] = sum;
    }
  }
}
