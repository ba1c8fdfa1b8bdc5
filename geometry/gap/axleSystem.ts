/**
 * The conditions that hold an axle, as a system for `enclose`: lengths for an exact axle, and for an elastic
 * one its equilibrium with the forces as unknowns beside the pose (a saddle point), since stiff springs in
 * place of forces would make every interval of the stiffness useless.
 *
 * Unknown, in this order: x, y, changes of yaw and pitch; for an elastic axle also
 *   λ of each length, force over length: (1) (|d|² (1 − λ/k)² − L²)/2 = 0, which is |d| − L = k⁻¹ λ|d|
 *   the offset e of each giving shared joint: (2) rate · e + pulls = 0
 *   each radius arm's shift t and Gibbs vector g of its turn from the center's, Q = C(g) Q₀,
 *   and the force f in each of its joints: (3) d − f/k_r − (1/k_a − 1/k_r)(b·f) b = 0
 * with forces and moments of each body, and the axle's virtual work, in balance.
 */
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { NineOf, Three } from '../pose/arithmetic.ts';
import { squaredAngle, squaredAngleThird } from '../pose/elasticAxle.ts';
import { axleTurn, turnedPartials } from '../pose/frameForm.ts';
import type { AxleNumbers } from '../pose/pose.ts';
import { distance } from '../vector.ts';
import type { System } from './enclose.ts';
import type { Taylor, TaylorForms } from './taylor.ts';

/** The axle and its bodies, as Taylor intervals over a cell. */
export interface AxleTaylor {
  o: Three<Taylor>;
  R: NineOf<Taylor>;
  /** Offsets of giving shared joints in the frame of their home. */
  shared: Three<Taylor>[];
  arms: { shift: Three<Taylor>; Q: NineOf<Taylor> }[];
  /** Force over length of each link, lbf/in, of an elastic axle; empty for an exact one. */
  forces: Taylor[];
}

/** A system about a solved pose, with the unknowns there and how to read them. */
export interface AxleSystem extends System {
  center: Float64Array;
  read(forms: TaylorForms, unknown: Taylor[], parameters: Taylor[]): AxleTaylor;
}

/** The system of an axle about a pose; parameters 0 and 1 are left and right travel, in. */
export function axleSystem(m: Mechanism, axle: AxleNumbers): AxleSystem {
  const L = m.lengths;
  const N = L.names.length;
  const F = m.points.length;
  const lambdaAt = 4;
  const sharedAt = lambdaAt + (m.exact ? 0 : N);
  const armsAt = sharedAt + 3 * F;
  const forcesAt = armsAt + 6 * m.arms.length;
  const joints = m.arms.reduce((sum, arm) => sum + arm.joints.length, 0);
  const n = m.exact ? 4 : forcesAt + 3 * joints;

  const stateArm = (k: number): number => 4 + 3 * F + 12 * k;
  const center = new Float64Array(n);
  center[0] = axle.o[0] as number;
  center[1] = axle.o[1] as number;
  if (!m.exact) fillCenter();

  const read = (forms: TaylorForms, q: Taylor[], parameters: Taylor[]): AxleTaylor => {
    const { k, v } = forms;
    const [l, r] = parameters as [Taylor, Taylor];
    const sinRoll = k.times(k.minus(l, r), 1 / m.wheelCenters);
    const cosRoll = k.root(k.shifted(k.times(k.product(sinRoll, sinRoll), -1), 1));
    const z = k.shifted(k.times(k.plus(l, r), 0.5), m.origin[2]);
    const three = (at: number): Three<Taylor> => [q[at], q[at + 1], q[at + 2]] as Three<Taylor>;
    return {
      o: [q[0] as Taylor, q[1] as Taylor, z],
      R: axleTurn(forms, axle, q[2] as Taylor, q[3] as Taylor, cosRoll, sinRoll),
      forces: m.exact ? [] : L.names.map((_, i) => q[lambdaAt + i] as Taylor),
      shared: m.points.map((_, i) => three(sharedAt + 3 * i)),
      arms: m.arms.map((_, i) => {
        const g = three(armsAt + 6 * i + 3);
        const at = stateArm(i) + 3;
        // C(g) v = v + 2 (g × v + g × (g × v)) / (1 + |g|²)  (Cayley; Rodrigues' formula in the half-tangent)
        const inverse = k.reciprocal(k.shifted(v.inner(g, g), 1));
        const Q: NineOf<Taylor> = new Array(9);
        for (let c = 0; c < 3; c++) {
          const column = v.constant3([
            axle.state[at + c] as number,
            axle.state[at + 3 + c] as number,
            axle.state[at + 6 + c] as number,
          ]);
          const once = v.outer(g, column);
          const both = v.plus3(once, v.outer(g, once));
          const turned = v.plus3(column, v.times3(v.product3(inverse, both), 2));
          for (let row = 0; row < 3; row++) Q[3 * row + c] = turned[row] as Taylor;
        }
        return { shift: three(armsAt + 6 * i), Q };
      }),
    };
  };

  const residual = (forms: TaylorForms, q: Taylor[], parameters: Taylor[]): Taylor[] => {
    const { k, v } = forms;
    const placed = read(forms, q, parameters);
    const { o, R } = placed;
    const out: Taylor[] = Array.from({ length: n }, () => k.constant(0));
    const add = (at: number, value: Taylor): void => {
      out[at] = k.plus(out[at] as Taylor, value);
    };
    const addAxle = (
      force: Three<Taylor>,
      partials: { yaw: Three<Taylor>; pitch: Three<Taylor> },
      sign: number,
    ): void => {
      add(0, k.times(force[0], sign));
      add(1, k.times(force[1], sign));
      add(2, k.times(v.inner(force, partials.yaw), sign));
      add(3, k.times(v.inner(force, partials.pitch), sign));
    };
    const extra = m.exact ? 0 : 4;
    for (let i = 0; i < N; i++) {
      const a = L.axlePoints.subarray(3 * i, 3 * i + 3);
      const partials = turnedPartials(forms, R, a);
      let rho = partials.rho;
      const onAxle = L.axleShared[i] as number;
      const onChassis = L.chassisShared[i] as number;
      if (onAxle >= 0) {
        const e = placed.shared[onAxle] as Three<Taylor>;
        const moved = v.turnVector(R, e);
        rho = v.plus3(rho, moved);
        partials.yaw = v.plus3(partials.yaw, [k.times(moved[1], -1), moved[0], k.constant(0)]);
        partials.pitch = v.plus3(
          partials.pitch,
          v.minus3(v.product3(e[2], v.columnOf(R, 0)), v.product3(e[0], v.columnOf(R, 2))),
        );
      }
      let d = v.minus3(v.plus3(o, rho), v.constant3(L.chassisPoints.subarray(3 * i, 3 * i + 3)));
      if (onChassis >= 0) d = v.minus3(d, placed.shared[onChassis] as Three<Taylor>);
      const square = v.inner(d, d);
      const free = L.free[i] as number;
      if (m.exact) {
        add(i, k.shifted(k.times(square, 0.5), -(free * free) / 2));
        continue;
      }
      const lambda = q[lambdaAt + i] as Taylor;
      const give = k.shifted(k.times(lambda, -1 / (L.rates[i] as number)), 1);
      add(
        extra + i,
        k.shifted(k.times(k.product(square, k.product(give, give)), 0.5), -(free * free) / 2),
      );
      const pull = v.product3(lambda, d);
      addAxle(pull, partials, 1);
      if (onAxle >= 0) {
        for (let c = 0; c < 3; c++) add(sharedAt + 3 * onAxle + c, v.inner(pull, v.columnOf(R, c)));
      }
      if (onChassis >= 0) {
        for (let c = 0; c < 3; c++) {
          add(sharedAt + 3 * onChassis + c, k.times(pull[c] as Taylor, -1));
        }
      }
    }
    for (const [i, point] of m.points.entries()) {
      for (let c = 0; c < 3; c++) {
        const at = sharedAt + 3 * i + c;
        add(at, k.times(q[at] as Taylor, point.rate));
      }
    }
    let force = forcesAt;
    for (const [i, arm] of m.arms.entries()) {
      const { shift, Q } = placed.arms[i] as AxleTaylor['arms'][0];
      const at = armsAt + 6 * i;
      for (const joint of arm.joints) {
        const lever = v.turnPlain(Q, [
          joint.at[0] - arm.center[0],
          joint.at[1] - arm.center[1],
          joint.at[2] - arm.center[2],
        ]);
        const bore = v.turnPlain(Q, joint.bore);
        const onAxle = joint.on === 'axle';
        const still = {
          rho: v.constant3([0, 0, 0]),
          yaw: v.constant3([0, 0, 0]),
          pitch: v.constant3([0, 0, 0]),
        };
        const bracket = onAxle
          ? turnedPartials(forms, R, joint.home)
          : { ...still, rho: v.constant3(joint.home) };
        const bolt = onAxle
          ? turnedPartials(forms, R, joint.bolt)
          : { ...still, rho: v.constant3(joint.bolt) };
        let d = v.minus3(v.plus3(v.plus3(v.constant3(arm.center), shift), lever), bracket.rho);
        if (onAxle) d = v.minus3(d, o);
        const f = [q[force], q[force + 1], q[force + 2]] as Three<Taylor>;
        const bf = v.inner(bolt.rho, f);
        const soft = 1 / joint.axial - 1 / joint.radial;
        const compliance = v.plus3(
          v.times3(f, 1 / joint.radial),
          v.times3(v.product3(bf, bolt.rho), soft),
        );
        for (let c = 0; c < 3; c++) {
          add(force + c, k.minus(d[c] as Taylor, compliance[c] as Taylor));
          add(at + c, f[c] as Taylor);
        }
        // energy by the bolt's and the bore's direction: (k_a − k_r)(b·d) d with b·d = b·f / k_a, and the conical one
        const swing = v.times3(v.product3(bf, d), (joint.axial - joint.radial) / joint.axial);
        const slope = k.times(conicalSlope(forms, v.inner(bolt.rho, bore)), 0.5 * joint.conical);
        const boltPull = v.plus3(swing, v.product3(slope, bore));
        const borePull = v.product3(slope, bolt.rho);
        const moment = v.plus3(v.outer(lever, f), v.outer(bore, borePull));
        for (let c = 0; c < 3; c++) add(at + 3 + c, moment[c] as Taylor);
        if (onAxle) {
          addAxle(f, bracket, -1);
          add(2, v.inner(boltPull, bolt.yaw));
          add(3, v.inner(boltPull, bolt.pitch));
        }
        force += 3;
      }
    }
    return out;
  };
  return { n, center, residual, read };

  /** Forces and offsets at the pose. */
  function fillCenter(): void {
    const { R, o, state } = axle;
    const turn = (
      M: ArrayLike<number>,
      at: number,
      p: ArrayLike<number>,
    ): [number, number, number] =>
      [0, 1, 2].map(
        c =>
          (M[at + 3 * c] as number) * (p[0] as number) +
          (M[at + 3 * c + 1] as number) * (p[1] as number) +
          (M[at + 3 * c + 2] as number) * (p[2] as number),
      ) as [number, number, number];
    const offset = (index: number): [number, number, number] =>
      index < 0
        ? [0, 0, 0]
        : [
            state[4 + 3 * index] as number,
            state[5 + 3 * index] as number,
            state[6 + 3 * index] as number,
          ];
    for (let i = 0; i < N; i++) {
      const e = offset(L.axleShared[i] as number);
      const c = offset(L.chassisShared[i] as number);
      const a = [0, 1, 2].map(j => (L.axlePoints[3 * i + j] as number) + (e[j] as number));
      const rho = turn(R, 0, a);
      const now = rho.map((x, j) => x + (o[j] as number)) as [number, number, number];
      const foot = [0, 1, 2].map(j => (L.chassisPoints[3 * i + j] as number) + (c[j] as number));
      const length = distance(now, foot as [number, number, number]);
      center[lambdaAt + i] = (L.rates[i] as number) * (1 - (L.free[i] as number) / length);
    }
    for (let i = 0; i < 3 * F; i++) center[sharedAt + i] = state[4 + i] as number;
    let force = forcesAt;
    for (const [i, arm] of m.arms.entries()) {
      const at = stateArm(i);
      for (let c = 0; c < 3; c++) center[armsAt + 6 * i + c] = state[at + c] as number;
      for (const joint of arm.joints) {
        const lever = turn(
          state,
          at + 3,
          joint.at.map((x, c) => x - (arm.center[c] as number)),
        );
        const bracket = joint.on === 'axle' ? turn(R, 0, joint.home) : joint.home;
        const bolt = joint.on === 'axle' ? turn(R, 0, joint.bolt) : joint.bolt;
        const d = lever.map(
          (x, c) =>
            x +
            (arm.center[c] as number) +
            (state[at + c] as number) -
            (bracket[c] as number) -
            (joint.on === 'axle' ? (o[c] as number) : 0),
        );
        const along = d.reduce((sum, x, c) => sum + x * (bolt[c] as number), 0);
        for (let c = 0; c < 3; c++) {
          center[force + c] =
            joint.radial * (d[c] as number) +
            (joint.axial - joint.radial) * along * (bolt[c] as number);
        }
        force += 3;
      }
    }
  }
}

/** d(μ²)/d(cos μ) over an interval: it and its derivatives are monotone in cos μ, so the ends bound them. */
function conicalSlope({ k }: TaylorForms, cos: Taylor): Taylor {
  const low = (cos[0] as number) - (cos[1] as number);
  // rounding and the interval's slack may reach past 1, where the series of μ² still holds
  const high = Math.min((cos[0] as number) + (cos[1] as number), 1 + 1e-3);
  if (!(low > -0.9)) return k.interval(0, Number.POSITIVE_INFINITY);
  const [, a1, a2] = squaredAngle(low);
  const [, b1, b2] = squaredAngle(high);
  const [a3, b3] = [squaredAngleThird(low), squaredAngleThird(high)];
  const between = (x: number, y: number): [number, number] => [(x + y) / 2, Math.abs(y - x) / 2];
  return k.composed(cos, between(a1, b1), between(a2, b2), between(a3, b3));
}
