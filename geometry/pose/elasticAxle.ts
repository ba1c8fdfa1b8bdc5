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
 * Left: stretch by (|d|² − L²)/2L, whose energy is off by stretch/2L; two lengths in place of an arm, which
 * loses the arm's stiffness in pitch where both bushings sit fore and aft.
 * A turn of an arm is a left factor exp(δ×) on Q, so that no chart has an edge; Q is made orthonormal at each pose.
 */
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
    let before = Infinity;
    let code: SolveCode = TOO_FAR;
    let step = 0;
    while (step < MOST_STEPS) {
      step++;
      this.place();
      this.evaluate();
      const moved = this.#newtonStep();
      if (!(moved < before * CONTRACTION_SQUARED)) {
        code = Number.isNaN(moved) ? BEYOND_FOLD : TOO_FAR;
        break;
      }
      if (moved <= END_SQUARED) {
        code = SOLVED;
        break;
      }
      before = moved;
    }
    this.steps = step;
    this.totalSteps += step;
    this.place();
    return code;
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

  /** Energy, lbf·in, with gradient and Hessian left in their arrays, at `state` as placed. */
  evaluate(): number {
    const n = this.n;
    const G = this.gradient;
    const H = this.hessian;
    G.fill(0);
    H.fill(0);
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
        energy += this.#sharedLength(i);
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
      const t = F * inverse;
      const q = k - t;
      hxx += q * u0 * u0 + t;
      hxy += q * u0 * u1;
      hxw += q * u0 * uw - t * r1;
      hxp += q * u0 * up + t * p0;
      hyy += q * u1 * u1 + t;
      hyw += q * u1 * uw + t * r0;
      hyp += q * u1 * up + t * p1;
      hww += q * uw * uw + t * (r0 * r0 + r1 * r1) - F * (u0 * r0 + u1 * r1);
      hwp += q * uw * up + t * (r0 * p1 - r1 * p0) + F * (u1 * p0 - u0 * p1);
      hpp +=
        q * up * up +
        t * (p0 * p0 + p1 * p1 + p2 * p2) -
        F * (u0 * (ax * x0 + az * z0) + u1 * (ax * x1 + az * z1) + u2 * (ax * x2 + az * z2));
    }
    G[0] = (G[0] as number) + gx;
    G[1] = (G[1] as number) + gy;
    G[2] = (G[2] as number) + gw;
    G[3] = (G[3] as number) + gp;
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
      for (const joint of work.arm.joints) energy += this.#armJoint(work, joint);
    }
    for (let r = 1; r < n; r++) for (let c = 0; c < r; c++) H[r * n + c] = H[c * n + r] as number;
    return energy;
  }

  /** Offset of an arm joint's halves in vehicle axes, in, written to `out`. */
  armOffset(arm: number, joint: ArmJoint, out: Float64Array): void {
    const work = this.#arms[arm] as ArmWork;
    this.armPoint(arm, joint.at, out);
    void work;
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
  #sharedLength(i: number): number {
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
          k * um * un + (F / length) * (dot3(Xm, Xn) - um * un) + (twice ? F * dot3(u, twice) : 0);
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

  /** Energy (3) of one joint of an arm, added to gradient and Hessian. */
  #armJoint(work: ArmWork, joint: ArmJoint): number {
    const { at, column, arm } = work;
    const s = this.state;
    const n = this.n;
    const Q = (v: Three): Three =>
      [0, 1, 2].map(
        c =>
          (s[at + 3 + 3 * c] as number) * v[0] +
          (s[at + 4 + 3 * c] as number) * v[1] +
          (s[at + 5 + 3 * c] as number) * v[2],
      ) as number[] as Three;
    const q = Q([
      joint.at[0] - arm.center[0],
      joint.at[1] - arm.center[1],
      joint.at[2] - arm.center[2],
    ]);
    const bore = Q(joint.bore as Three);
    const onAxle = joint.on === 'axle';
    const home = joint.home as Three;
    const rho = onAxle ? this.#turnedPoint(home) : home;
    const yawed = [...this.#yawed] as Three;
    const pitched = [...this.#pitched] as Three;
    const d = [0, 1, 2].map(
      c =>
        (arm.center[c] as number) +
        (s[at + c] as number) +
        (q[c] as number) -
        (rho[c] as number) -
        (onAxle ? (this.o[c] as number) : 0),
    ) as number[] as Three;
    const b = onAxle ? this.#turnedPoint(joint.bolt as Three) : (joint.bolt as Three);
    const bYawed = [...this.#yawed] as Three;
    const bPitched = [...this.#pitched] as Three;
    const zero: Three = [0, 0, 0];
    const columns: number[] = [];
    const D: Three[] = [];
    const B: Three[] = [];
    const E: Three[] = [];
    if (onAxle) {
      columns.push(0, 1, 2, 3);
      D.push([-1, 0, 0], [0, -1, 0], minus(yawed), minus(pitched));
      B.push(zero, zero, bYawed, bPitched);
      E.push(zero, zero, zero, zero);
    }
    for (let c = 0; c < 3; c++) {
      columns.push(column + c);
      D.push(axis(c));
      B.push(zero);
      E.push(zero);
    }
    for (let c = 0; c < 3; c++) {
      columns.push(column + 3 + c);
      D.push(cross3(axis(c), q));
      B.push(zero);
      E.push(cross3(axis(c), bore));
    }
    const ofAxle = onAxle ? this.#secondPartials(home, -1) : () => null;
    const ofBolt = onAxle ? this.#secondPartials(joint.bolt as Three, -1) : () => null;
    const turnPart = (v: Three, m: number, k: number): Three | null => {
      const i = m - column - 3;
      const j = k - column - 3;
      if (i < 0 || j < 0) return null;
      const one = cross3(axis(i), cross3(axis(j), v));
      const two = cross3(axis(j), cross3(axis(i), v));
      return [(one[0] + two[0]) / 2, (one[1] + two[1]) / 2, (one[2] + two[2]) / 2];
    };
    const bd = dot3(b, d);
    const kd = joint.axial - joint.radial;
    const cosine = dot3(b, bore);
    const [f, f1, f2] = squaredAngle(cosine);
    for (let m = 0; m < columns.length; m++) {
      const Dm = D[m] as Three;
      const Bm = B[m] as Three;
      const Em = E[m] as Three;
      const bdm = dot3(Bm, d) + dot3(b, Dm);
      const cm = dot3(Bm, bore) + dot3(b, Em);
      const col = columns[m] as number;
      this.gradient[col] =
        (this.gradient[col] as number) +
        joint.radial * dot3(d, Dm) +
        kd * bd * bdm +
        0.5 * joint.conical * f1 * cm;
      for (let k = m; k < columns.length; k++) {
        const Dn = D[k] as Three;
        const Bn = B[k] as Three;
        const En = E[k] as Three;
        const other = columns[k] as number;
        const bdn = dot3(Bn, d) + dot3(b, Dn);
        const cn = dot3(Bn, bore) + dot3(b, En);
        const axleSecond = ofAxle(col, other);
        const armSecond = turnPart(q, col, other);
        const Dmn: Three = axleSecond ? minus(axleSecond) : (armSecond ?? zero);
        const Bmn = ofBolt(col, other) ?? zero;
        const Emn = turnPart(bore, col, other) ?? zero;
        const bdmn = dot3(Bmn, d) + dot3(Bm, Dn) + dot3(Bn, Dm) + dot3(b, Dmn);
        const cmn = dot3(Bmn, bore) + dot3(Bm, En) + dot3(Bn, Em) + dot3(b, Emn);
        addTo(
          this.hessian,
          Math.min(col, other) * n + Math.max(col, other),
          joint.radial * (dot3(Dm, Dn) + dot3(d, Dmn)) +
            kd * (bdm * bdn + bd * bdmn) +
            0.5 * joint.conical * (f2 * cm * cn + f1 * cmn),
        );
      }
    }
    return 0.5 * (joint.radial * dot3(d, d) + kd * bd * bd + joint.conical * f);
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
const minus = (a: Three): Three => [-a[0], -a[1], -a[2]];
const cross3 = (a: Three, b: Three): Three => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const axis = (c: number): Three => [c === 0 ? 1 : 0, c === 1 ? 1 : 0, c === 2 ? 1 : 0];

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

/** Cholesky factor of a symmetric matrix by rows; false where it is not positive definite. */
export function factorize(A: Float64Array, L: Float64Array, n: number): boolean {
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
