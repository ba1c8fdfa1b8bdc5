/**
 * The conditions that hold an axle, with all vectors in them as boxes: the matrix A of `axleCell.ts`, and what its
 * equations hold beside the unknown rates. (15) to (19) of PROOF.md.
 *
 * For length i: ρ = R a + ε, c = o − C − ε', d = c + ρ (ε, ε': offsets of giving joints on axle and chassis).
 *   (15) exact:    d·d_j = 0,  d·d_jj + |d_j|² = 0
 *   (16) elastic:  γ |d| = L with γ = 1 − λ/k, λ the force over the length:
 *        γ d·d_j − (|d|²/k) λ_j = 0,  γ (d·d_jj + |d_j|²) − 3 (d·d_j) λ_j/k − (|d|²/k) λ_jj = 0
 *   (17) force and moment on the axle: F = Σ λ d − Σ f, M = Σ λ ρ × c + Σ (b × v − ρ_k × f),
 *        v = −s (b·f) f + κ q, s = 1/k_a − 1/k_r, κ = ½ k_c d(μ²)/d(b·q);  F_x = F_y = 0, ez·M = ey·M = 0
 *   (18) a joint of an arm: d − f/k_r − s (b·f) b = 0, d = arm's half − bracket's half, f its force, b the bolt,
 *        q the bore; each arm: Σ f = 0, Σ (lever × f + κ q × b) = 0
 *   (19) a giving joint: rate ε ± Σ λ d = 0
 * Unknown: x, y, yaw, pitch; λ of each length; ε of each giving joint (in the axes of its home); shift and turn
 * of each arm; f of each of its joints. Roll and height are given by the travels, and stand in two further columns.
 */
import type { Arm, ArmJoint, Mechanism } from '../mechanism/mechanism.ts';
import { squaredAngle, squaredAngleThird } from '../pose/elasticAxle.ts';
import type { AxleNumbers } from '../pose/pose.ts';
import type { BodyCell } from './axleCell.ts';
import { boundTurn, movedRadius } from './axleCell.ts';
import {
  add,
  addProduct,
  type Box,
  component,
  composed,
  copy,
  cross,
  dot,
  exactly,
  type Form,
  makeBox,
  makeForm,
  multiply,
  plus,
  product,
  RADIUS,
  spread,
  spreadOf,
  square,
  times,
  turn,
} from './forms.ts';
import { PLANES } from './linearBound.ts';

type V3 = readonly [number, number, number];
const AXES = [0, 1, 2] as const;
const X = 0;
const Y = 1;
const YAW = 2;
const PITCH = 3;

interface LengthWork {
  a: V3;
  C: V3;
  rate: number;
  /** Column of λ; −1 where the axle is exact. */
  lambdaAt: number;
  onAxle: number;
  onChassis: number;
  rho: Box;
  c: Box;
  d: Box;
  lambda: Form;
  gamma: Form;
}

interface PointWork {
  onAxle: boolean;
  rate: number;
  at: number;
  home: V3;
  e: Box;
}

interface JointWork {
  joint: ArmJoint;
  arm: ArmWork;
  onAxle: boolean;
  soft: number;
  /** Column and row of its force. */
  at: number;
  lever: Box;
  bore: Box;
  rho: Box;
  bolt: Box;
  f: Box;
  v: Box;
  kappa: Form;
  /** dκ/d(b·q) and the next. */
  kappa1: Form;
  kappa2: Form;
}

interface ArmWork {
  arm: Arm;
  at: number;
  center: V3;
  /** Where the center is at the cell's center, and the turn there. */
  where: Float64Array;
  Q: Float64Array;
}

export class AxleConditions {
  /** Unknowns, and columns of A: two further ones for height and roll. */
  readonly n: number;
  readonly columns: number;
  /** Planes of forms as in `linearBound.ts`, `columns` a row. */
  readonly A: Float64Array;
  /** What the equations hold beside the unknown rates; planes of forms. */
  readonly rest: Float64Array;
  readonly u: readonly [Float64Array, Float64Array];
  readonly uu: readonly [Float64Array, Float64Array];

  readonly #m: Mechanism;
  readonly #lengths: LengthWork[];
  readonly #points: PointWork[];
  readonly #arms: ArmWork[];
  readonly #joints: JointWork[];
  readonly #ex = makeBox();
  readonly #ey = makeBox();
  readonly #ez = exactly(makeBox(), 0, 0, 1);
  readonly #o = makeBox();
  readonly #R = new Float64Array(9);
  /** All boxes of (11), their rates at one j, and the radii that (13) gives. */
  readonly #tracked: Box[] = [];
  readonly #rates = new Map<Box, Box>();
  readonly #next = new Map<Box, Float64Array>();
  readonly #linear = new Map<Box, Float64Array>();
  readonly #halves: [number, number] = [0, 0];
  #sinRoll = 0;
  // one travel's rates
  readonly #w = makeBox();
  readonly #w2 = makeBox();
  readonly #oj = makeBox();
  readonly #half: Form = [0.5, 0, 0, 0, 0];
  readonly #phi = makeForm();
  readonly #phi2 = makeForm();
  // scratch
  readonly #b = Array.from({ length: 16 }, makeBox);
  readonly #i = Array.from({ length: 8 }, makeForm);
  readonly #M = makeBox();
  readonly #Mj = makeBox();
  /** Columns of the moment. */
  readonly #dM: Box[];

  constructor(m: Mechanism) {
    this.#m = m;
    const L = m.lengths;
    let at = 4;
    const track = (): Box => {
      const box = makeBox();
      this.#tracked.push(box);
      this.#rates.set(box, makeBox());
      this.#next.set(box, new Float64Array(3));
      this.#linear.set(box, new Float64Array(6));
      return box;
    };
    for (const box of [this.#ex, this.#ey, this.#o]) {
      this.#tracked.push(box);
      this.#rates.set(box, makeBox());
      this.#next.set(box, new Float64Array(3));
      this.#linear.set(box, new Float64Array(6));
    }
    const three = (a: ArrayLike<number>, i: number): V3 => [
      a[i] as number,
      a[i + 1] as number,
      a[i + 2] as number,
    ];
    this.#lengths = L.names.map((_, i) => ({
      a: three(L.axlePoints, 3 * i),
      C: three(L.chassisPoints, 3 * i),
      rate: L.rates[i] as number,
      lambdaAt: m.exact ? -1 : at++,
      onAxle: m.exact ? -1 : (L.axleShared[i] as number),
      onChassis: m.exact ? -1 : (L.chassisShared[i] as number),
      rho: track(),
      c: track(),
      d: track(),
      lambda: makeForm(),
      gamma: [1, 0, 0, 0, 0],
    }));
    this.#points = m.exact
      ? []
      : m.points.map(point => {
          at += 3;
          return {
            onAxle: point.on === 'axle',
            rate: point.rate,
            at: at - 3,
            home: three(point.home, 0),
            e: track(),
          };
        });
    this.#arms = m.arms.map(arm => {
      at += 6;
      return {
        arm,
        at: at - 6,
        center: three(arm.center, 0),
        where: new Float64Array(3),
        Q: new Float64Array(9),
      };
    });
    this.#joints = this.#arms.flatMap(arm =>
      arm.arm.joints.map((joint): JointWork => {
        at += 3;
        return {
          joint,
          arm,
          onAxle: joint.on === 'axle',
          soft: 1 / joint.axial - 1 / joint.radial,
          at: at - 3,
          lever: track(),
          bore: track(),
          rho: track(),
          bolt: track(),
          f: track(),
          v: makeBox(),
          kappa: makeForm(),
          kappa1: makeForm(),
          kappa2: makeForm(),
        };
      }),
    );
    const n = at;
    this.n = n;
    this.columns = n + 2;
    this.A = new Float64Array(PLANES * n * (n + 2));
    this.rest = new Float64Array(PLANES * n);
    this.u = [new Float64Array(PLANES * n), new Float64Array(PLANES * n)];
    this.uu = [new Float64Array(PLANES * n), new Float64Array(PLANES * n)];
    this.#dM = Array.from({ length: n + 2 }, makeBox);
  }

  /** Puts every vector where it is at the cell's center. */
  center(axle: AxleNumbers, halves: readonly [number, number]): void {
    const m = this.#m;
    this.#halves[0] = halves[0];
    this.#halves[1] = halves[1];
    this.#sinRoll = axle.sinRoll;
    this.#R.set(axle.R);
    const R = this.#R;
    const s = axle.state;
    const o = axle.o as unknown as V3;
    exactly(this.#ex, axle.cosYaw, axle.sinYaw, 0);
    exactly(this.#ey, R[1] as number, R[4] as number, R[7] as number);
    exactly(this.#o, o[0], o[1], o[2]);
    const point = makeBox();
    const rotated = (out: Box, M: ArrayLike<number>, p: ArrayLike<number>): Box => {
      exactly(point, p[0] as number, p[1] as number, p[2] as number);
      return turn(out, M, point);
    };
    for (const [i, p] of this.#points.entries()) {
      const e = s.subarray(4 + 3 * i, 7 + 3 * i);
      if (p.onAxle) rotated(p.e, R, e);
      else exactly(p.e, e[0] as number, e[1] as number, e[2] as number);
    }
    for (const [i, w] of this.#lengths.entries()) {
      rotated(w.rho, R, w.a);
      if (w.onAxle >= 0) plus(w.rho, w.rho, (this.#points[w.onAxle] as PointWork).e);
      exactly(w.c, o[0] - w.C[0], o[1] - w.C[1], o[2] - w.C[2]);
      if (w.onChassis >= 0) plus(w.c, w.c, (this.#points[w.onChassis] as PointWork).e, -1);
      plus(w.d, w.c, w.rho);
      if (w.lambdaAt < 0) continue;
      const length = Math.hypot(w.d[0] as number, w.d[1] as number, w.d[2] as number);
      w.lambda.fill(0);
      w.lambda[0] = w.rate * (1 - (m.lengths.free[i] as number) / length);
    }
    for (const [k, arm] of this.#arms.entries()) {
      const from = 4 + 3 * m.points.length + 12 * k;
      for (const c of AXES) {
        arm.where[c] = (arm.center[c] as number) + (s[from + c] as number);
      }
      arm.Q.set(s.subarray(from + 3, from + 12));
    }
    for (const w of this.#joints) {
      const { joint, arm } = w;
      rotated(
        w.lever,
        arm.Q,
        joint.at.map((x, c) => x - (arm.center[c] as number)),
      );
      rotated(w.bore, arm.Q, joint.bore);
      if (w.onAxle) {
        rotated(w.rho, R, joint.home);
        rotated(w.bolt, R, joint.bolt);
      } else {
        exactly(w.rho, ...(joint.home as [number, number, number]));
        exactly(w.bolt, ...(joint.bolt as [number, number, number]));
      }
      let along = 0;
      const d = AXES.map(c => {
        const x =
          (arm.where[c] as number) +
          (w.lever[c] as number) -
          (w.rho[c] as number) -
          (w.onAxle ? (o[c] as number) : 0);
        along += x * (w.bolt[c] as number);
        return x;
      });
      const f = d.map(
        (x, c) => joint.radial * x + (joint.axial - joint.radial) * along * (w.bolt[c] as number),
      );
      exactly(w.f, f[0] as number, f[1] as number, f[2] as number);
    }
  }

  /** Takes all linear parts and radii away. */
  shrink(): void {
    for (const box of this.#tracked) box.fill(0, 3);
    for (const w of this.#lengths) w.lambda.fill(0, 1);
  }

  /** Linear parts from the rates at the center, and first radii: a share of what those move. */
  guess(share: number): void {
    this.#sweep();
    for (const box of this.#tracked) {
      for (const c of AXES) {
        let moved = 0;
        for (const j of [0, 1] as const) {
          const linear = (this.#linear.get(box) as Float64Array)[3 * j + c] as number;
          box[3 + 3 * j + c] = linear;
          moved += Math.abs(linear);
        }
        box[RADIUS + c] = share * moved + 1e-9;
      }
    }
    for (const w of this.#lengths) {
      if (w.lambdaAt < 0) continue;
      let moved = 0;
      for (const j of [0, 1] as const) {
        const linear = (this.#halves[j] as number) * (this.u[j][w.lambdaAt] as number);
        w.lambda[1 + j] = linear;
        moved += Math.abs(linear);
      }
      w.lambda[4] = share * moved + 1e-9;
    }
  }

  /** (13): whether every vector stays within its box. */
  move(): boolean {
    this.#sweep();
    for (const box of this.#tracked) {
      const next = this.#next.get(box) as Float64Array;
      for (const c of AXES) {
        if (!((next[c] as number) <= (box[RADIUS + c] as number))) return false;
      }
    }
    for (const w of this.#lengths) {
      if (w.lambdaAt >= 0 && !(this.#swing(w.lambdaAt) <= (w.lambda[4] as number))) return false;
    }
    return true;
  }

  /** Wider boxes after `move` failed; false where they are no numbers. */
  enlarge(): boolean {
    const wider = (now: number, wanted: number): number => Math.max(now, 1.1 * wanted + 1e-9);
    for (const box of this.#tracked) {
      const next = this.#next.get(box) as Float64Array;
      for (const c of AXES) {
        box[RADIUS + c] = wider(box[RADIUS + c] as number, next[c] as number);
        if (!Number.isFinite(box[RADIUS + c] as number)) return false;
      }
    }
    for (const w of this.#lengths) {
      if (w.lambdaAt < 0) continue;
      w.lambda[4] = wider(w.lambda[4] as number, this.#swing(w.lambdaAt));
      if (!Number.isFinite(w.lambda[4])) return false;
    }
    return true;
  }

  /** Boxes as `move` found them. */
  tighten(): void {
    for (const box of this.#tracked) {
      const next = this.#next.get(box) as Float64Array;
      for (const c of AXES) box[RADIUS + c] = (next[c] as number) + 1e-11;
    }
    for (const w of this.#lengths) {
      if (w.lambdaAt >= 0) w.lambda[4] = this.#swing(w.lambdaAt) + 1e-11;
    }
  }

  /** How far an unknown number moves in the cell beside its linear part. */
  #swing(k: number): number {
    let sum = 0;
    const form = this.#i[7] as Form;
    for (const j of [0, 1] as const) {
      sum += (this.#halves[j] as number) * spreadOf(this.#at(form, this.u[j], k));
    }
    return sum;
  }

  #sweep(): void {
    for (const next of this.#next.values()) next.fill(0);
    for (const j of [0, 1] as const) {
      this.#ratesOf(j, this.u[j]);
      const h = this.#halves[j] as number;
      for (const box of this.#tracked) {
        const next = this.#next.get(box) as Float64Array;
        const linear = this.#linear.get(box) as Float64Array;
        const rate = this.#rates.get(box) as Box;
        for (const c of AXES) {
          linear[3 * j + c] = h * (rate[c] as number);
          next[c] = (next[c] as number) + h * spread(rate, c);
        }
      }
    }
  }

  /** φ_j = ±1/(W cos φ) and φ_jj = sin φ/(W² cos³ φ) over the cell: sin φ is linear in the travels. */
  #rollRates(j: 0 | 1): void {
    const W = this.#m.wheelCenters;
    const s = this.#sinRoll;
    const sine = this.#i[6] as Form;
    sine.fill(0);
    sine[0] = s;
    sine[1] = this.#halves[0] / W;
    sine[2] = -this.#halves[1] / W;
    const worst = Math.abs(s) + spreadOf(sine);
    const sign = j === 0 ? 1 : -1;
    const cos = (x: number): number => Math.sqrt(1 - x * x);
    const f = (x: number): number => 1 / (W * cos(x));
    const f1 = (x: number): number => x / (W * cos(x) ** 3);
    const f2 = (x: number): number => (1 + 2 * x * x) / (W * cos(x) ** 5);
    const f3 = (x: number): number => (x * (9 + 6 * x * x)) / (W * cos(x) ** 7);
    composed(this.#phi, sine, sign * f(s), sign * f1(s), f2(worst));
    composed(this.#phi2, sine, f1(s) / W, f2(s) / W, f3(worst) / W);
  }

  /** Rates of every vector by travel j, with the unknowns' rates u. */
  #ratesOf(j: 0 | 1, u: Float64Array): void {
    this.#rollRates(j);
    const w = this.#w;
    const w2 = this.#w2;
    const I = this.#i[0] as Form;
    const rate = (box: Box): Box => this.#rates.get(box) as Box;
    // the turn of ey and ex, and of the whole axle
    product(w2, this.#at(I, u, YAW), this.#ez);
    cross(rate(this.#ex), w2, this.#ex);
    addProduct(w2, this.#phi, this.#ex);
    cross(rate(this.#ey), w2, this.#ey);
    copy(w, w2);
    addProduct(w, this.#at(I, u, PITCH), this.#ey);
    const o = this.#oj;
    this.#shift(o, u);
    o[2] = 0.5;
    copy(rate(this.#o), o);
    for (const p of this.#points) {
      const out = rate(p.e);
      if (p.onAxle) cross(out, w, p.e);
      else out.fill(0);
      this.#addUnknown(out, u, p.at);
    }
    for (const l of this.#lengths) {
      cross(rate(l.rho), w, l.rho);
      if (l.onAxle >= 0) {
        // ε turns with the axle already: only what it moves there is to be added
        this.#addUnknown(rate(l.rho), u, (this.#points[l.onAxle] as PointWork).at);
      }
      const c = rate(l.c);
      copy(c, o);
      if (l.onChassis >= 0) this.#addUnknown(c, u, (this.#points[l.onChassis] as PointWork).at, -1);
      plus(rate(l.d), c, rate(l.rho));
    }
    const turnOf = this.#b[0] as Box;
    for (const k of this.#joints) {
      turnOf.fill(0);
      this.#addUnknown(turnOf, u, k.arm.at + 3);
      cross(rate(k.lever), turnOf, k.lever);
      cross(rate(k.bore), turnOf, k.bore);
      if (k.onAxle) {
        cross(rate(k.rho), w, k.rho);
        cross(rate(k.bolt), w, k.bolt);
      }
      const f = rate(k.f).fill(0);
      this.#addUnknown(f, u, k.at);
    }
  }

  /** An unknown's rate, or its second derivative. */
  #at(out: Form, u: Float64Array, k: number): Form {
    const { n } = this;
    out[0] = u[k] as number;
    out[1] = u[n + k] as number;
    out[2] = u[2 * n + k] as number;
    out[3] = 0;
    out[4] = u[3 * n + k] as number;
    return out;
  }

  /** out += s times three unknowns from k on. */
  #addUnknown(out: Box, u: Float64Array, k: number, s = 1): Box {
    const { n } = this;
    for (const c of AXES) {
      for (let plane = 0; plane < PLANES - 1; plane++) {
        out[3 * plane + c] = (out[3 * plane + c] as number) + s * (u[plane * n + k + c] as number);
      }
      out[RADIUS + c] =
        (out[RADIUS + c] as number) + Math.abs(s) * (u[(PLANES - 1) * n + k + c] as number);
    }
    return out;
  }

  /** x and y of the origin, as a vector. */
  #shift(out: Box, u: Float64Array): void {
    out.fill(0);
    const I = this.#i[1] as Form;
    for (const c of [X, Y]) {
      this.#at(I, u, c);
      for (let k = 0; k < 5; k++) out[3 * k + c] = I[k] as number;
    }
  }

  #add(row: number, column: number, value: Form, factor = 1): void {
    const plane = this.n * this.columns;
    const i = row * this.columns + column;
    const { A } = this;
    A[i] = (A[i] as number) + factor * (value[0] as number);
    A[plane + i] = (A[plane + i] as number) + factor * (value[1] as number);
    A[2 * plane + i] = (A[2 * plane + i] as number) + factor * (value[2] as number);
    A[3 * plane + i] = (A[3 * plane + i] as number) + Math.abs(factor) * (value[4] as number);
  }

  #addBox(row: number, column: number, box: Box, factor = 1): void {
    for (const c of AXES) {
      this.#add(row + c, column, component(this.#i[7] as Form, box, c), factor);
    }
  }

  #addRest(row: number, a: Form, s = 1): void {
    const { n, rest } = this;
    rest[row] = (rest[row] as number) + s * (a[0] as number);
    rest[n + row] = (rest[n + row] as number) + s * (a[1] as number);
    rest[2 * n + row] = (rest[2 * n + row] as number) + s * (a[2] as number);
    rest[3 * n + row] = (rest[3 * n + row] as number) + Math.abs(s) * (a[4] as number);
  }

  #addBoxRest(row: number, a: Box, s = 1): void {
    for (const c of AXES) this.#addRest(row + c, component(this.#i[7] as Form, a, c), s);
  }

  /** Columns of height and roll. */
  get #height(): number {
    return this.n;
  }
  get #roll(): number {
    return this.n + 1;
  }

  /** The matrix A, and its columns of height and roll, from the boxes. */
  assemble(): void {
    this.A.fill(0);
    if (this.#m.exact) this.#assembleExact();
    else this.#assembleElastic();
  }

  #assembleExact(): void {
    const I = this.#i[0] as Form;
    const v = this.#b[0] as Box;
    for (const [row, l] of this.#lengths.entries()) {
      for (const c of AXES) {
        this.#add(row, c === 2 ? this.#height : c, component(I, l.d, c));
      }
      for (const [column, e] of this.#turns()) {
        this.#add(row, column, dot(I, l.d, cross(v, e, l.rho)));
      }
    }
  }

  #turns(): readonly [number, Box][] {
    return [
      [YAW, this.#ez],
      [PITCH, this.#ey],
      [this.#roll, this.#ex],
    ];
  }

  #assembleElastic(): void {
    const I = this.#i[0] as Form;
    const [e, p, q] = this.#b as unknown as [Box, Box, Box];
    const dM = this.#dM;
    for (const box of dM) box.fill(0);
    this.#M.fill(0);
    const moves = AXES.map(c => [c === 2 ? this.#height : c, c] as const);
    for (const l of this.#lengths) {
      const row = l.lambdaAt;
      l.gamma.fill(0);
      add(l.gamma, l.lambda, -1 / l.rate);
      l.gamma[0] = (l.gamma[0] as number) + 1;
      const onAxle = l.onAxle >= 0 ? this.#points[l.onAxle] : undefined;
      const onChassis = l.onChassis >= 0 ? this.#points[l.onChassis] : undefined;
      /** A motion of the axle's end by p: of the point alone, or with c. */
      const put = (column: number, p: Box, isShift: boolean, factor = 1): void => {
        multiply(I, l.gamma, dot(I, l.d, p));
        this.#add(row, column, I, factor);
        product(q, l.lambda, p);
        this.#add(0, column, component(I, q, 0), factor);
        this.#add(1, column, component(I, q, 1), factor);
        if (onAxle) this.#addBox(onAxle.at, column, q, factor);
        if (onChassis) this.#addBox(onChassis.at, column, q, -factor);
        const moment = this.#b[3] as Box;
        if (isShift) cross(moment, l.rho, q);
        else cross(moment, q, l.c);
        plus(dM[column] as Box, dM[column] as Box, moment, factor);
      };
      for (const [column, c] of moves) put(column, unit(e, c), true);
      for (const [column, axis] of this.#turns()) put(column, cross(p, axis, l.rho), false);
      if (onAxle) for (const c of AXES) put(onAxle.at + c, unit(e, c), false);
      if (onChassis) for (const c of AXES) put(onChassis.at + c, unit(e, c), true, -1);
      this.#add(row, row, square(I, l.d), -1 / l.rate);
      this.#add(0, row, component(I, l.d, 0));
      this.#add(1, row, component(I, l.d, 1));
      if (onAxle) this.#addBox(onAxle.at, row, l.d);
      if (onChassis) this.#addBox(onChassis.at, row, l.d, -1);
      cross(q, l.rho, l.c);
      plus(dM[row] as Box, dM[row] as Box, q);
      addProduct(this.#M, l.lambda, q);
    }
    for (const point of this.#points) {
      for (const c of AXES) {
        I.fill(0);
        I[0] = point.rate;
        this.#add(point.at + c, point.at + c, I);
      }
      if (!point.onAxle) continue;
      for (const [column, axis] of this.#turns()) {
        this.#addBox(point.at, column, cross(p, axis, point.e), point.rate);
      }
    }
    for (const k of this.#joints) this.#assembleJoint(k);
    // ez·M, ey·M, and ey turns with yaw and roll
    for (const [column, box] of dM.entries()) {
      this.#add(2, column, component(I, box, 2));
      this.#add(3, column, dot(I, this.#ey, box));
    }
    this.#add(3, YAW, dot(I, cross(p, this.#ez, this.#ey), this.#M));
    this.#add(3, this.#roll, dot(I, cross(p, this.#ex, this.#ey), this.#M));
  }

  #assembleJoint(k: JointWork): void {
    const { joint, soft, bolt, bore, f, lever, rho, at } = k;
    const b = this.#b;
    const [e, db, dv, p, q] = [b[4], b[5], b[6], b[7], b[8]] as [Box, Box, Box, Box, Box];
    const boreBolt = b[9] as Box;
    const I = this.#i[0] as Form;
    const ds = this.#i[1] as Form;
    const bf = this.#i[2] as Form;
    conical(k, dot(I, bolt, bore));
    dot(bf, bolt, f);
    cross(boreBolt, bore, bolt);
    product(k.v, bf, f);
    times(k.v, k.v, -soft);
    addProduct(k.v, k.kappa, bore);
    const dM = this.#dM;
    const momentRow = k.arm.at + 3;
    /** κ' (change of b·q) as it stands in I. */
    const bend = (): void => {
      multiply(ds, k.kappa1, I);
    };
    if (k.onAxle) {
      plus(this.#M, this.#M, cross(p, bolt, k.v));
      plus(this.#M, this.#M, cross(p, rho, f), -1);
      for (const c of AXES) {
        const column = c === 2 ? this.#height : c;
        this.#addBox(at, column, unit(e, c), -1);
      }
      for (const [column, axis] of this.#turns()) {
        cross(db, axis, bolt);
        cross(p, axis, rho);
        this.#addBox(at, column, p, -1);
        plus(dM[column] as Box, dM[column] as Box, cross(q, p, f), -1);
        // compliance
        const dbf = this.#i[3] as Form;
        dot(dbf, db, f);
        product(p, dbf, bolt);
        addProduct(p, bf, db);
        this.#addBox(at, column, p, -soft);
        product(dv, dbf, f);
        times(dv, dv, -soft);
        dot(I, bore, db);
        bend();
        addProduct(dv, ds, bore);
        plus(dM[column] as Box, dM[column] as Box, cross(q, db, k.v));
        plus(dM[column] as Box, dM[column] as Box, cross(q, bolt, dv));
        // moment on the arm
        product(p, ds, boreBolt);
        this.#addBox(momentRow, column, p);
        product(p, k.kappa, cross(q, bore, db));
        this.#addBox(momentRow, column, p);
      }
    }
    for (const c of AXES) {
      // force
      unit(e, c);
      component(I, bolt, c);
      product(p, I, bolt);
      this.#addBox(at, at + c, p, -soft);
      this.#addBox(at, at + c, e, -1 / joint.radial);
      this.#addBox(k.arm.at, at + c, e);
      this.#addBox(momentRow, at + c, cross(p, lever, e));
      if (k.onAxle) {
        if (c !== 2) this.#add(c, at + c, component(this.#i[6] as Form, e, c), -1);
        const column = at + c;
        plus(dM[column] as Box, dM[column] as Box, cross(p, rho, e), -1);
        product(dv, I, f);
        addProduct(dv, bf, e);
        times(dv, dv, -soft);
        plus(dM[column] as Box, dM[column] as Box, cross(p, bolt, dv));
      }
      // shift of the arm
      this.#addBox(at, k.arm.at + c, e);
      // turn of the arm
      const column = k.arm.at + 3 + c;
      cross(p, e, lever);
      this.#addBox(at, column, p);
      this.#addBox(momentRow, column, cross(q, p, f));
      cross(p, e, bore);
      dot(I, p, bolt);
      bend();
      product(q, ds, boreBolt);
      this.#addBox(momentRow, column, q);
      product(q, k.kappa, cross(dv, p, bolt));
      this.#addBox(momentRow, column, q);
      if (k.onAxle) {
        product(dv, ds, bore);
        addProduct(dv, k.kappa, p);
        plus(dM[column] as Box, dM[column] as Box, cross(q, bolt, dv));
      }
    }
  }

  /** B_j: the columns of height and roll at their given rates. */
  firstRest(j: 0 | 1): void {
    this.#rollRates(j);
    const I = this.#i[0] as Form;
    const { A, n, columns } = this;
    const plane = n * columns;
    this.rest.fill(0);
    for (let r = 0; r < n; r++) {
      for (const [column, rate] of [
        [this.#height, this.#half],
        [this.#roll, this.#phi],
      ] as const) {
        const i = r * columns + column;
        I[0] = A[i] as number;
        I[1] = A[plane + i] as number;
        I[2] = A[2 * plane + i] as number;
        I[3] = 0;
        I[4] = A[3 * plane + i] as number;
        this.#addRest(r, multiply(I, I, rate));
      }
    }
  }

  /** The part of α_jj that the unknowns' second derivatives do not make, to `out`. */
  #twistRest(out: Box, u: Float64Array): void {
    const I = this.#i[0] as Form;
    const p = this.#b[15] as Box;
    product(out, this.#phi2, this.#ex);
    multiply(I, this.#phi, this.#at(this.#i[1] as Form, u, YAW));
    addProduct(out, I, cross(p, this.#ez, this.#ex));
    addProduct(out, this.#at(I, u, PITCH), cross(p, this.#w2, this.#ey));
  }

  /** v_jj of a vector that turns at w, less what α's unknown part makes; `alpha` null: none. */
  #bend(out: Box, w: Box, v: Box, alpha: Box | null): Box {
    const p = this.#b[14] as Box;
    cross(out, w, cross(p, w, v));
    if (alpha) plus(out, out, cross(p, alpha, v));
    return out;
  }

  /** C_j, from the rates of travel j. */
  secondRest(j: 0 | 1): void {
    const u = this.u[j];
    this.#ratesOf(j, u);
    const { rest } = this;
    rest.fill(0);
    const rate = (box: Box): Box => this.#rates.get(box) as Box;
    const alpha = this.#b[13] as Box;
    this.#twistRest(alpha, u);
    const w = this.#w;
    const I = this.#i[2] as Form;
    const K = this.#i[3] as Form;
    const lj = this.#i[4] as Form;
    const b = this.#b;
    const [rho2, p, q] = [b[0], b[1], b[2]] as [Box, Box, Box];
    const [M2, F2] = [b[3], b[4]] as [Box, Box];
    M2.fill(0);
    F2.fill(0);
    this.#Mj.fill(0);
    for (const [row, l] of this.#lengths.entries()) {
      const rhoJ = rate(l.rho);
      const dJ = rate(l.d);
      const cJ = rate(l.c);
      // ρ_jj = α × ρ + ω × (ω × ρ) + 2 ω × (what moves in the axle)
      this.#bend(rho2, w, l.rho, alpha);
      if (l.onAxle >= 0) {
        p.fill(0);
        this.#addUnknown(p, u, (this.#points[l.onAxle] as PointWork).at);
        plus(rho2, rho2, cross(q, w, p), 2);
      }
      dot(I, l.d, rho2);
      square(K, dJ);
      add(I, K);
      if (l.lambdaAt < 0) {
        this.#addRest(row, I);
        continue;
      }
      this.#at(lj, u, l.lambdaAt);
      multiply(I, I, l.gamma);
      dot(K, l.d, dJ);
      multiply(K, K, lj);
      this.#addRest(l.lambdaAt, I);
      this.#addRest(l.lambdaAt, K, -3 / l.rate);
      // forces: 2 λ_j d_j + λ d_jj
      const pull = b[5] as Box;
      product(pull, lj, dJ);
      times(pull, pull, 2);
      addProduct(pull, l.lambda, rho2);
      plus(F2, F2, pull);
      if (l.onAxle >= 0) this.#addBoxRest((this.#points[l.onAxle] as PointWork).at, pull);
      if (l.onChassis >= 0) this.#addBoxRest((this.#points[l.onChassis] as PointWork).at, pull, -1);
      // moments
      cross(p, rhoJ, l.c);
      plus(p, p, cross(q, l.rho, cJ));
      product(q, lj, p);
      plus(M2, M2, q, 2);
      product(q, l.lambda, p);
      plus(this.#Mj, this.#Mj, q);
      product(q, lj, cross(p, l.rho, l.c));
      plus(this.#Mj, this.#Mj, q);
      cross(p, rho2, l.c);
      plus(p, p, cross(q, rhoJ, cJ), 2);
      product(q, l.lambda, p);
      plus(M2, M2, q);
    }
    if (this.#m.exact) return;
    for (const point of this.#points) {
      if (!point.onAxle) continue;
      this.#bend(p, w, point.e, alpha);
      const moved = b[5] as Box;
      moved.fill(0);
      this.#addUnknown(moved, u, point.at);
      plus(p, p, cross(q, w, moved), 2);
      this.#addBoxRest(point.at, p, point.rate);
    }
    for (const k of this.#joints) this.#secondOfJoint(k, u, alpha, M2);
    this.#addRest(0, component(I, F2, 0));
    this.#addRest(1, component(I, F2, 1));
    this.#addRest(2, component(I, M2, 2));
    // ey·M twice: ey_jj·M + 2 ey_j·M_j + ey·M_jj
    dot(I, this.#ey, M2);
    this.#addRest(3, I);
    dot(I, rate(this.#ey), this.#Mj);
    this.#addRest(3, I, 2);
    product(p, this.#phi2, this.#ex);
    multiply(I, this.#phi, this.#at(K, u, YAW));
    addProduct(p, I, cross(q, this.#ez, this.#ex));
    const ey2 = b[5] as Box;
    cross(ey2, p, this.#ey);
    plus(ey2, ey2, cross(p, this.#w2, rate(this.#ey)));
    dot(I, ey2, this.#M);
    this.#addRest(3, I);
  }

  #secondOfJoint(k: JointWork, u: Float64Array, alpha: Box, M2: Box): void {
    const { bolt, bore, f, lever, rho, soft, at: row } = k;
    const rate = (box: Box): Box => this.#rates.get(box) as Box;
    const b = this.#b;
    const [p, q, bolt2, bore2, w] = [b[1], b[2], b[6], b[7], b[8]] as [Box, Box, Box, Box, Box];
    const [rho2, lever2] = [b[9], b[10]] as [Box, Box];
    const [vj, v2] = [b[11], b[12]] as [Box, Box];
    const fj = rate(f);
    const [boltJ, boreJ, rhoJ, leverJ] = [rate(bolt), rate(bore), rate(rho), rate(lever)];
    w.fill(0);
    this.#addUnknown(w, u, k.arm.at + 3);
    this.#bend(lever2, w, lever, null);
    this.#bend(bore2, w, bore, null);
    if (k.onAxle) {
      this.#bend(rho2, this.#w, rho, alpha);
      this.#bend(bolt2, this.#w, bolt, alpha);
    } else {
      rho2.fill(0);
      bolt2.fill(0);
    }
    const bf = makeForm();
    const bf1 = makeForm();
    const bf2 = makeForm();
    const I = this.#i[5] as Form;
    dot(bf, bolt, f);
    dot(bf1, boltJ, f);
    add(bf1, dot(I, bolt, fj));
    dot(bf2, bolt2, f);
    add(bf2, dot(I, boltJ, fj), 2);
    // (18) twice
    plus(p, lever2, rho2, -1);
    this.#addBoxRest(row, p);
    product(p, bf2, bolt);
    product(q, bf1, boltJ);
    plus(p, p, q, 2);
    addProduct(p, bf, bolt2);
    this.#addBoxRest(row, p, -soft);
    // κ and its derivatives
    const k1 = makeForm();
    const k2 = makeForm();
    const c1 = makeForm();
    dot(c1, boreJ, bolt);
    add(c1, dot(I, bore, boltJ));
    multiply(k1, k.kappa1, c1);
    dot(k2, bore2, bolt);
    add(k2, dot(I, boreJ, boltJ), 2);
    add(k2, dot(I, bore, bolt2));
    multiply(k2, k.kappa1, k2);
    multiply(I, c1, c1);
    multiply(I, I, k.kappa2);
    add(k2, I);
    // moment on the arm
    cross(p, lever2, f);
    plus(p, p, cross(q, leverJ, fj), 2);
    const qb = v2;
    const qb1 = vj;
    cross(qb, bore, bolt);
    addProduct(p, k2, qb);
    cross(qb1, boreJ, bolt);
    plus(qb1, qb1, cross(q, bore, boltJ));
    product(q, k1, qb1);
    plus(p, p, q, 2);
    cross(qb, bore2, bolt);
    plus(qb, qb, cross(q, boreJ, boltJ), 2);
    plus(qb, qb, cross(q, bore, bolt2));
    addProduct(p, k.kappa, qb);
    this.#addBoxRest(k.arm.at + 3, p);
    if (!k.onAxle) return;
    // v_j, v_jj of (17)
    product(vj, bf1, f);
    addProduct(vj, bf, fj);
    times(vj, vj, -soft);
    addProduct(vj, k1, bore);
    addProduct(vj, k.kappa, boreJ);
    product(v2, bf2, f);
    product(q, bf1, fj);
    plus(v2, v2, q, 2);
    times(v2, v2, -soft);
    addProduct(v2, k2, bore);
    product(q, k1, boreJ);
    plus(v2, v2, q, 2);
    addProduct(v2, k.kappa, bore2);
    plus(M2, M2, cross(q, rho2, f), -1);
    plus(M2, M2, cross(q, rhoJ, fj), -2);
    plus(M2, M2, cross(q, bolt2, k.v));
    plus(M2, M2, cross(q, boltJ, vj), 2);
    plus(M2, M2, cross(q, bolt, v2));
    plus(this.#Mj, this.#Mj, cross(q, rhoJ, f), -1);
    plus(this.#Mj, this.#Mj, cross(q, rho, fj), -1);
    plus(this.#Mj, this.#Mj, cross(q, boltJ, k.v));
    plus(this.#Mj, this.#Mj, cross(q, bolt, vj));
  }

  /** The axle as a body, after the second derivatives stand in `uu`. */
  axleBody(origin: V3): BodyCell {
    const spin: Box[] = [];
    const twist: Box[] = [];
    const first: Box[] = [];
    const second: Box[] = [];
    const I = this.#i[0] as Form;
    for (const j of [0, 1] as const) {
      this.#ratesOf(j, this.u[j]);
      spin.push(this.#w.slice());
      first.push(this.#oj.slice());
      const alpha = makeBox();
      this.#twistRest(alpha, this.u[j]);
      const uu = this.uu[j];
      addProduct(alpha, this.#at(I, uu, YAW), this.#ez);
      addProduct(alpha, this.#at(I, uu, PITCH), this.#ey);
      twist.push(alpha);
      const o2 = makeBox();
      this.#shift(o2, uu);
      second.push(o2);
    }
    return body(origin, this.#o, this.#R, first, second, spin, twist, this.#halves);
  }

  armBodies(): BodyCell[] {
    return this.#arms.map(arm => {
      const at0 = makeBox();
      exactly(at0, ...(Array.from(arm.where) as [number, number, number]));
      const take = (u: Float64Array, from: number): Box => {
        const out = makeBox();
        this.#addUnknown(out, u, from);
        return out;
      };
      const first = this.u.map(u => take(u, arm.at));
      const second = this.uu.map(u => take(u, arm.at));
      const spin = this.u.map(u => take(u, arm.at + 3));
      const twist = this.uu.map(u => take(u, arm.at + 3));
      moved(at0, first, this.#halves);
      return body(arm.center, at0, arm.Q, first, second, spin, twist, this.#halves);
    });
  }

  /** Giving shared joints: a point each, with its offset; on the axle it turns with that. */
  pointBodies(axle: BodyCell): BodyCell[] {
    return this.#points.map(p => {
      const still = (): Box => makeBox();
      const ref: V3 = p.onAxle
        ? [p.home[0] + axle.ref[0], p.home[1] + axle.ref[1], p.home[2] + axle.ref[2]]
        : p.home;
      const at0 = makeBox();
      const first: Box[] = [];
      const second: Box[] = [];
      const home = makeBox();
      exactly(home, p.home[0], p.home[1], p.home[2]);
      if (p.onAxle) {
        turn(at0, this.#R, home);
        plus(at0, at0, p.e);
        plus(at0, at0, this.#o);
      } else plus(at0, home, p.e);
      const r = makeBox();
      for (const j of [0, 1] as const) {
        const moved = makeBox();
        this.#addUnknown(moved, this.u[j], p.at);
        const moved2 = makeBox();
        this.#addUnknown(moved2, this.uu[j], p.at);
        if (!p.onAxle) {
          first.push(moved);
          second.push(moved2);
          continue;
        }
        const [w, alpha] = [axle.spin[j] as Box, axle.twist[j] as Box];
        // the spring's end, moved as the axle turns and the joint gives
        const rho = makeBox();
        turn(rho, this.#R, home);
        plus(rho, rho, p.e);
        movedRadius(rho, rho, axle.spin, this.#halves);
        for (const c of AXES) rho[RADIUS + c] = (rho[RADIUS + c] as number) + spread(p.e, c);
        const rhoJ = cross(makeBox(), w, rho);
        plus(rhoJ, rhoJ, moved);
        first.push(plus(makeBox(), rhoJ, axle.first[j] as Box));
        const rho2 = cross(makeBox(), alpha, rho);
        plus(rho2, rho2, cross(r, w, cross(makeBox(), w, rho)));
        plus(rho2, rho2, cross(r, w, moved), 2);
        plus(rho2, rho2, moved2);
        second.push(plus(makeBox(), rho2, axle.second[j] as Box));
      }
      exactly(at0, at0[0] as number, at0[1] as number, at0[2] as number);
      moved(at0, first, this.#halves);
      const spin = p.onAxle ? axle.spin : [still(), still()];
      const twist = p.onAxle ? axle.twist : [still(), still()];
      const Q = p.onAxle ? this.#R : Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
      return body(ref, at0, Q, first, second, spin, twist, this.#halves);
    });
  }
}

function body(
  ref: V3,
  where: Box,
  Q: ArrayLike<number>,
  first: readonly Box[],
  second: readonly Box[],
  spin: readonly Box[],
  twist: readonly Box[],
  halves: readonly [number, number],
): BodyCell {
  const turns = boundTurn(Q, spin, halves);
  return {
    ref: [ref[0], ref[1], ref[2]],
    at: where.slice(),
    first: first as [Box, Box],
    second: second as [Box, Box],
    spin: spin as [Box, Box],
    twist: twist as [Box, Box],
    Q: turns,
  };
}

/** Linear parts and radii of a point by its rates, (13). */
function moved(out: Box, rates: readonly Box[], halves: readonly number[]): void {
  for (const c of AXES) {
    let rest = 0;
    for (const [j, rate] of rates.entries()) {
      const h = halves[j] as number;
      out[3 + 3 * j + c] = h * (rate[c] as number);
      rest += h * spread(rate, c);
    }
    out[RADIUS + c] = rest;
  }
}

/** κ of (17) and its first two derivatives by b·q: all are monotone, so the ends bound them. */
function conical(k: JointWork, cosine: Form): void {
  const middle = cosine[0] as number;
  const low = middle - spreadOf(cosine);
  // the cosine is at most 1, whatever slack its form has; the series of μ² holds a little beyond
  const high = Math.min(middle + spreadOf(cosine), 1 + 1e-4);
  if (!(low > -0.9)) {
    for (const out of [k.kappa, k.kappa1, k.kappa2]) out.fill(Number.POSITIVE_INFINITY);
    return;
  }
  const half = 0.5 * k.joint.conical;
  const [, f1, f2] = squaredAngle(middle);
  const [, , lowest] = squaredAngle(low);
  const [, , highest] = squaredAngle(high);
  const [third, thirdLow, thirdHigh] = [middle, low, high].map(squaredAngleThird) as [
    number,
    number,
    number,
  ];
  const bend = Math.max(Math.abs(thirdLow), Math.abs(thirdHigh));
  composed(k.kappa, cosine, half * f1, half * f2, Math.abs(half) * bend);
  k.kappa1.fill(0);
  k.kappa1[0] = half * f2;
  k.kappa1[4] = half * Math.max(Math.abs(lowest - f2), Math.abs(highest - f2));
  k.kappa2.fill(0);
  k.kappa2[0] = half * third;
  k.kappa2[4] = half * Math.max(Math.abs(thirdLow - third), Math.abs(thirdHigh - third));
}

function unit(out: Box, c: number): Box {
  return exactly(out, c === 0 ? 1 : 0, c === 1 ? 1 : 0, c === 2 ? 1 : 0);
}
