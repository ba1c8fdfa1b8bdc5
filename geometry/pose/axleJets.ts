/**
 * First and second derivatives of a solved axle by the two travels, from the conditions that it obeys
 * (implicit function theorem), never from differences:
 *   exact: g_i = (|d_i|² − L_i²)/2 = 0;   elastic: gradient of the energy = 0.
 * With F(q, s) = 0, A = ∂F/∂q:  (1) A q_j = −F_j,  (2) A q_jm = −F_jm,
 * where F_j is taken with q held, F_jm with q moving at its first derivatives only. Both are read off jets of F.
 */
import type { Mechanism } from '../mechanism/mechanism.ts';
import {
  type ElasticAxle,
  factorize,
  solveFactored,
  squaredAngle,
  squaredAngleThird,
} from './elasticAxle.ts';
import { type ExactAxle, solve4Pivoted } from './exactAxle.ts';
import { axleTurn, turnedPartials } from './frameForm.ts';
import {
  columnOf,
  composed,
  constant,
  constant3,
  inner,
  type Jet,
  type Jet3,
  jets,
  jetVectors,
  minus,
  minus3,
  outer,
  plus,
  plus3,
  product3,
  reciprocal,
  root,
  SECOND,
  shifted,
  type Turn,
  times,
  times3,
  turnJets,
  turnPlain,
} from './jet.ts';
import type { Forms } from './steeringForms.ts';

/** The axle and what moves with it, as jets. */
export interface AxleJets {
  /** Origin of the axle frame, vehicle axes. */
  o: Jet3;
  /** Rows of chassisFromAxle. */
  R: Turn;
  /** Yaw, roll and pitch: derivatives only, values zero. */
  yaw: Jet;
  roll: Jet;
  pitch: Jet;
  /** Giving shared joints: offset from home in the frame of home. */
  shared: Jet3[];
  /** Radius arms: shift of the center, and turn from drawn. */
  arms: { shift: Jet3; Q: Turn }[];
}

/** Jets of a solved exact axle, at its present pose. */
export function exactJets(axle: ExactAxle, m: Mechanism): AxleJets {
  const { axlePoints, chassisPoints } = m.lengths;
  const J = new Float64Array(16);
  const frame = new Frame(axle);
  const now = frame.place([
    constant(axle.o[0] as number),
    constant(axle.o[1] as number),
    constant(0),
    constant(0),
  ]);
  for (let i = 0; i < 4; i++) {
    const a = axlePoints.subarray(3 * i, 3 * i + 3);
    const C = chassisPoints.subarray(3 * i, 3 * i + 3);
    const { d, partials } = pointAndPartials(now, a, C);
    for (let c = 0; c < 4; c++) J[4 * i + c] = inner(d, partials[c] as Jet3)[0] as number;
  }
  const u = implicit(
    4,
    rhs => {
      solve4Pivoted(Float64Array.from(J), rhs);
    },
    q => {
      const placed = frame.place(q);
      return [0, 1, 2, 3].map(i => {
        const d = minus3(
          plus3(placed.o, turnPlain(placed.R, axlePoints.subarray(3 * i, 3 * i + 3))),
          constant3(chassisPoints.subarray(3 * i, 3 * i + 3)),
        );
        return times(inner(d, d), 0.5);
      });
    },
    [axle.o[0] as number, axle.o[1] as number, 0, 0],
  );
  const { o, R } = frame.place(u);
  return { o, R, yaw: u[2] as Jet, roll: frame.roll, pitch: u[3] as Jet, shared: [], arms: [] };
}

/** Jets of a solved elastic axle, at its present pose. */
export function elasticJets(axle: ElasticAxle, m: Mechanism): AxleJets {
  axle.evaluate();
  const n = axle.n;
  const factor = new Float64Array(n * n);
  factorize(axle.hessian, factor, n);
  const frame = new Frame(axle);
  const points = m.points.length;
  const start = new Array<number>(n).fill(0);
  start[0] = axle.o[0] as number;
  start[1] = axle.o[1] as number;
  for (let i = 0; i < 3 * points; i++) start[4 + i] = axle.state[4 + i] as number;
  const armsFrom = 4 + 3 * points;
  for (let k = 0; k < m.arms.length; k++) {
    const at = armsFrom + 12 * k;
    for (let c = 0; c < 3; c++) start[armsFrom + 6 * k + c] = axle.state[at + c] as number;
  }
  const armTurn = (k: number): Float64Array =>
    axle.state.subarray(axle.armTurnAt(k), axle.armTurnAt(k) + 9);
  const u = implicit(
    n,
    rhs => solveFactored(factor, n, rhs),
    q => energyGradient(frame, m, q, armTurn),
    start,
  );
  const { o, R } = frame.place(u);
  const shared = m.points.map((_, i) => [u[4 + 3 * i], u[5 + 3 * i], u[6 + 3 * i]] as Jet3);
  const arms = m.arms.map((_, k) => {
    const at = armsFrom + 6 * k;
    const shift = [u[at], u[at + 1], u[at + 2]] as Jet3;
    const delta = [u[at + 3], u[at + 4], u[at + 5]] as Jet3;
    const Q0 = armTurn(k);
    const Q: Turn = new Array(9);
    for (let c = 0; c < 3; c++) {
      const column = turnedBy(delta, [Q0[c] as number, Q0[c + 3] as number, Q0[c + 6] as number]);
      for (let r = 0; r < 3; r++) Q[3 * r + c] = column[r] as Jet;
    }
    return { shift, Q };
  });
  return { o, R, yaw: u[2] as Jet, roll: frame.roll, pitch: u[3] as Jet, shared, arms };
}

/** (1) and (2): jets of the unknowns; `solve` puts A⁻¹ rhs in place of rhs. */
function implicit(
  n: number,
  solve: (rhs: Float64Array) => void,
  residual: (unknown: Jet[]) => Jet[],
  start: readonly number[],
): Jet[] {
  const u = Array.from({ length: n }, (_, i) => constant(start[i] as number));
  const rhs = new Float64Array(n);
  const take = (F: Jet[], at: number): void => {
    for (let i = 0; i < n; i++) rhs[i] = -((F[i] as Jet)[at] as number);
    solve(rhs);
    for (let i = 0; i < n; i++) (u[i] as Jet)[at] = rhs[i] as number;
  };
  // the axle does not hang on the steering: derivatives by l, r, and ll, lr, rr
  const first = residual(u);
  take(first, 1);
  take(first, 2);
  const second = residual(u);
  for (const at of [SECOND[0]?.[0], SECOND[0]?.[1], SECOND[1]?.[1]]) take(second, at as number);
  return u;
}

interface Placed {
  o: Jet3;
  R: Turn;
}

/** The axle frame as jets of its four unknowns (o_x, o_y, and the changes of yaw and pitch). */
class Frame {
  readonly roll: Jet;
  readonly #axle: ExactAxle | ElasticAxle;
  readonly #z: Jet;
  readonly #cosRoll: Jet;
  readonly #sinRoll: Jet;

  constructor(axle: ExactAxle | ElasticAxle) {
    this.#axle = axle;
    // sin roll = (l − r)/W and z rise with the travels alone
    this.#sinRoll = constant(0);
    this.#sinRoll[0] = axle.sinRoll;
    this.#sinRoll[1] = 1 / axle.W;
    this.#sinRoll[2] = -1 / axle.W;
    const c = axle.cosRoll;
    const s = axle.sinRoll;
    this.#cosRoll = composed(this.#sinRoll, c, -s / c, -1 / (c * c * c));
    this.roll = composed(this.#sinRoll, 0, 1 / c, s / (c * c * c));
    this.#z = constant(0);
    this.#z[0] = axle.o[2] as number;
    this.#z[1] = 0.5;
    this.#z[2] = 0.5;
  }

  place(q: Jet[]): Placed {
    return {
      o: [q[0] as Jet, q[1] as Jet, this.#z],
      R: axleTurn(forms, this.#axle, q[2] as Jet, q[3] as Jet, this.#cosRoll, this.#sinRoll),
    };
  }
}

const forms: Forms<Jet> = { k: jets, v: jetVectors };

const EX = constant3([1, 0, 0]);
const EY = constant3([0, 1, 0]);

/** d from a chassis point to an axle point, with its partial derivatives by the axle's four unknowns. */
function pointAndPartials(
  placed: Placed,
  a: ArrayLike<number>,
  C: ArrayLike<number>,
): { d: Jet3; partials: Jet3[] } {
  const { rho, yaw, pitch } = turnedPartials(forms, placed.R, a);
  return { d: minus3(plus3(placed.o, rho), constant3(C)), partials: [EX, EY, yaw, pitch] };
}

/** exp(δ×) v to second order in δ, which is all that a jet of δ with value zero can see. */
function turnedBy(delta: Jet3, v: ArrayLike<number>): Jet3 {
  const plain = constant3(v);
  const once = outer(delta, plain);
  return plus3(plain, plus3(once, times3(outer(delta, once), 0.5)));
}

/** Gradient of the elastic energy (elasticAxle.ts, (1) to (3)) as jets. */
function energyGradient(
  frame: Frame,
  m: Mechanism,
  q: Jet[],
  armTurn: (k: number) => ArrayLike<number>,
): Jet[] {
  const G = q.map(() => constant(0));
  const add = (at: number, value: Jet): void => {
    G[at] = plus(G[at] as Jet, value);
  };
  const placed = frame.place(q);
  const L = m.lengths;
  for (let i = 0; i < L.names.length; i++) {
    const axleShared = L.axleShared[i] as number;
    const chassisShared = L.chassisShared[i] as number;
    let { d, partials } = pointAndPartials(
      placed,
      L.axlePoints.subarray(3 * i, 3 * i + 3),
      L.chassisPoints.subarray(3 * i, 3 * i + 3),
    );
    if (axleShared >= 0) {
      const at = 4 + 3 * axleShared;
      const offset = [q[at], q[at + 1], q[at + 2]] as Jet3;
      d = plus3(d, turnJets(placed.R, offset));
      const [ex, ez] = [columnOf(placed.R, 0), columnOf(placed.R, 2)];
      const moved = turnJets(placed.R, offset);
      partials = [
        EX,
        EY,
        plus3(partials[2] as Jet3, [times(moved[1], -1), moved[0], constant(0)]),
        plus3(partials[3] as Jet3, minus3(product3(offset[2], ex), product3(offset[0], ez))),
      ];
    }
    if (chassisShared >= 0) {
      const at = 4 + 3 * chassisShared;
      d = minus3(d, [q[at], q[at + 1], q[at + 2]] as Jet3);
    }
    const length = root(inner(d, d));
    // force over length: k (1 − L/|d|)
    const density = times(
      shifted(times(reciprocal(length), -(L.free[i] as number)), 1),
      L.rates[i] as number,
    );
    const pull = product3(density, d);
    for (let c = 0; c < 4; c++) add(c, inner(pull, partials[c] as Jet3));
    if (axleShared >= 0) {
      for (let c = 0; c < 3; c++) add(4 + 3 * axleShared + c, inner(pull, columnOf(placed.R, c)));
    }
    if (chassisShared >= 0) {
      for (let c = 0; c < 3; c++) add(4 + 3 * chassisShared + c, times(pull[c] as Jet, -1));
    }
  }
  for (const [i, point] of m.points.entries()) {
    for (let c = 0; c < 3; c++) add(4 + 3 * i + c, times(q[4 + 3 * i + c] as Jet, point.rate));
  }
  const armsFrom = 4 + 3 * m.points.length;
  for (const [k, arm] of m.arms.entries()) {
    const at = armsFrom + 6 * k;
    const shift = [q[at], q[at + 1], q[at + 2]] as Jet3;
    const delta = [q[at + 3], q[at + 4], q[at + 5]] as Jet3;
    const Q = armTurn(k);
    const now = (v: readonly [number, number, number]): Jet3 =>
      turnedBy(delta, [
        (Q[0] as number) * v[0] + (Q[1] as number) * v[1] + (Q[2] as number) * v[2],
        (Q[3] as number) * v[0] + (Q[4] as number) * v[1] + (Q[5] as number) * v[2],
        (Q[6] as number) * v[0] + (Q[7] as number) * v[1] + (Q[8] as number) * v[2],
      ]);
    for (const joint of arm.joints) {
      const q0 = now([
        joint.at[0] - arm.center[0],
        joint.at[1] - arm.center[1],
        joint.at[2] - arm.center[2],
      ]);
      const bore = now(joint.bore);
      const onAxle = joint.on === 'axle';
      const bracket = onAxle
        ? turnedPartials(forms, placed.R, joint.home)
        : { rho: constant3(joint.home), yaw: EX, pitch: EX };
      const bolt = onAxle
        ? turnedPartials(forms, placed.R, joint.bolt)
        : { rho: constant3(joint.bolt), yaw: EX, pitch: EX };
      let d = minus3(plus3(plus3(constant3(arm.center), shift), q0), bracket.rho);
      if (onAxle) d = minus3(d, placed.o);
      const bd = inner(bolt.rho, d);
      // dE = pull·δd + swing·δb + twist·δbore
      const pull = plus3(
        times3(d, joint.radial),
        times3(product3(bd, bolt.rho), joint.axial - joint.radial),
      );
      const swing = times3(product3(bd, d), joint.axial - joint.radial);
      const cos = inner(bolt.rho, bore);
      const slope = times(squaredAngleSlope(cos), 0.5 * joint.conical);
      const boltPull = plus3(swing, product3(slope, bore));
      const borePull = product3(slope, bolt.rho);
      for (let c = 0; c < 3; c++) add(at + c, pull[c] as Jet);
      const moment = plus3(outer(q0, pull), outer(bore, borePull));
      for (let c = 0; c < 3; c++) add(at + 3 + c, moment[c] as Jet);
      if (onAxle) {
        add(0, times(pull[0], -1));
        add(1, times(pull[1], -1));
        add(2, minus(inner(boltPull, bolt.yaw), inner(pull, bracket.yaw)));
        add(3, minus(inner(boltPull, bolt.pitch), inner(pull, bracket.pitch)));
      }
    }
  }
  return G;
}

/** d(μ²)/d(cos μ) as a jet of cos μ. */
function squaredAngleSlope(cos: Jet): Jet {
  const c = cos[0] as number;
  const [, f1, f2] = squaredAngle(c);
  return composed(cos, f1, f2, squaredAngleThird(c));
}
