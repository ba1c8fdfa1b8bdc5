/**
 * Knuckles from the steering input, with the axle's pose given: each in closed form where one length drives
 * it, by a small Newton where the drag link takes hold of the tie rod. Everything in the axle frame.
 *
 * A point on a knuckle goes round its kingpin axis k: with foot c on the axis, radius r, w = k × r,
 *   (1) P(τ) = c + r cos τ + w sin τ.
 * A rod of length L from a known point S puts it on a sphere; with e = c − S,
 *   (2) A cos τ + B sin τ = C,  A = 2 e·r,  B = 2 e·w,  C = L² − |e|² − |r|²
 *   (3) cos τ = (A C + σ B h)/m²,  sin τ = (B C − σ A h)/m²,  m² = A² + B²,  h = √(m² − C²)
 * where σ is the sign of B cos τ − A sin τ, fixed as drawn (τ = 0: the sign of B), so that the branch stays.
 *   (4) margin = h / m = √(1 − (C/m)²): 1 best, 0 where the branch vanishes (over-center).
 * Half-angle tangents instead of (3) were left: they lose τ = 180° and gain nothing.
 */
import type { KnuckleTurn, RodAttachment, SteeringMechanism } from '../mechanism/mechanism.ts';
import { MOST_FAILURES, MOST_STEPS, ON_LINE_in, SENSE } from '../tolerances.ts';
import { cross, dot, norm, reject, scale, sub, turned, unit, type V3 } from '../vector.ts';

export const STEERED = 0;
/** A rod is too short or too long to reach; `failed` says which. */
export const OUT_OF_REACH = 1;
/** Newton's start was too far away (only where the drag link holds the tie rod). */
export const STEER_TOO_FAR = 2;
export type SteerCode = typeof STEERED | typeof OUT_OF_REACH | typeof STEER_TOO_FAR;

/** Foot, radius and tangent of a point on a knuckle, (1), flat: c 0–2, r 3–5, w 6–8. */
type Arm = Float64Array;

function armOf(knuckle: KnuckleTurn, point: V3): Arm {
  const r = reject(sub(point, knuckle.pivot), knuckle.axis);
  const c = sub(point, r);
  const w = cross(knuckle.axis, r);
  return Float64Array.from([...c, ...r, ...w]);
}

/** One knuckle driven by one rod, prepared: the arm that the rod holds, L² and σ. */
interface Drive {
  arm: Arm;
  square: number;
  sigma: number;
}

export class SteeringSolver {
  /** Turn of each knuckle: cosine and sine, left then right. */
  readonly turn = new Float64Array([1, 0, 1, 0]);
  /** Over-center margin (4) by rod, as `rods` of the mechanism. */
  readonly margins: Float64Array;
  /** Index of the rod that ran out, after OUT_OF_REACH. */
  failed = -1;
  /** Pitman ball in vehicle axes at the input, or null. */
  readonly ball = new Float64Array(3);
  readonly #m: SteeringMechanism;
  readonly #first: Drive;
  readonly #second: Drive;
  readonly #firstAt: number;
  readonly #secondAt: number;
  /** The tie rod's other end, on the first knuckle, or null where it is elsewhere. */
  readonly #link: Arm | null;
  /** The same end as driven from the other knuckle. */
  readonly #back: Drive | null;
  readonly #held: HeldPoint | null;
  readonly #S = new Float64Array(3);
  readonly #P = new Float64Array(3);
  readonly #T = new Float64Array(3);
  readonly #ballRest: V3;
  readonly #ballSide: V3;
  readonly #ballFoot: V3;
  /** The same ball as drawn, axle frame. */
  readonly #ballDrawn: V3;
  readonly #dragSquare: number;
  /** Sign of d·T_τ as drawn, where the drag link holds the tie rod. */
  readonly #slopeSign: number;
  /**
   * Sense about (along) the entered axis that turns the first wheel left: 1 or −1; 0 where the linkage does
   * not drive the knuckle as drawn, so that it is undecided.
   */
  readonly sense: 1 | -1 | 0;

  constructor(m: SteeringMechanism, origin: V3) {
    this.#m = m;
    this.margins = new Float64Array(m.rods.length);
    const other = m.first === 'left' ? 'right' : 'left';
    this.#firstAt = m.first === 'left' ? 0 : 2;
    this.#secondAt = 2 - this.#firstAt;
    const end = (rod: number, side: 'left' | 'right'): V3 => {
      const r = m.rods[rod];
      if (!r) throw new Error('steering without its rods');
      return r.from.on === `${side} knuckle` ? r.from.at : r.to.at;
    };
    const firstRod =
      m.kind === 'ram' ? (m.first === 'left' ? m.tieRod : m.otherTieRod) : m.dragLink;
    const secondRod = m.kind === 'ram' ? (m.first === 'left' ? m.otherTieRod : m.tieRod) : m.tieRod;
    const firstKnuckle = m[m.first];
    const secondKnuckle = m[other];
    this.#link =
      m.kind === 'knuckle' || m.kind === 'tieRod'
        ? armOf(firstKnuckle, end(m.tieRod, m.first))
        : null;
    this.#held = m.held ? new HeldPoint(m.held, m, origin) : null;
    if (m.pitman) {
      const r = reject(sub(m.pitman.ball, m.pitman.at), m.pitman.axis);
      this.#ballRest = r;
      this.#ballSide = cross(m.pitman.axis, r);
      this.#ballFoot = sub(m.pitman.ball, r);
    } else {
      this.#ballRest = this.#ballSide = this.#ballFoot = [0, 0, 0];
    }
    this.#ballDrawn = sub(m.pitman?.ball ?? origin, origin);
    const square = (rod: number): number => (m.rods[rod]?.length ?? 0) ** 2;
    this.#dragSquare = m.dragLink >= 0 ? square(m.dragLink) : 0;
    const firstArm =
      m.kind === 'tieRod'
        ? armOf(firstKnuckle, end(m.tieRod, m.first))
        : armOf(firstKnuckle, end(firstRod, m.first));
    const secondArm = armOf(secondKnuckle, end(secondRod, other));
    this.#first = { arm: firstArm, square: square(firstRod), sigma: 1 };
    this.#second = { arm: secondArm, square: square(secondRod), sigma: 1 };
    // signs of the branch as drawn
    const drawnStart = (rod: number, side: 'left' | 'right'): V3 => {
      const r = m.rods[rod];
      if (!r) throw new Error('steering without its rods');
      const far = r.from.on === `${side} knuckle` ? r.to : r.from;
      return far.on === 'pitman arm' ? sub(far.at, origin) : far.at;
    };
    const sigma = (drive: Drive, S: V3): number => {
      const c: V3 = [drive.arm[0] as number, drive.arm[1] as number, drive.arm[2] as number];
      const w: V3 = [drive.arm[6] as number, drive.arm[7] as number, drive.arm[8] as number];
      return dot(sub(c, S), w) >= 0 ? 1 : -1;
    };
    if (m.kind !== 'tieRod') this.#first.sigma = sigma(this.#first, drawnStart(firstRod, m.first));
    this.#second.sigma = sigma(this.#second, drawnStart(secondRod, other));
    this.#back = this.#link ? { arm: this.#link, square: square(m.tieRod), sigma: 1 } : null;
    if (this.#back) this.#back.sigma = sigma(this.#back, end(m.tieRod, other));
    this.#slopeSign = m.kind === 'tieRod' ? Math.sign(this.#dragSlope(1, 0, this.#ballDrawn)) : 1;
    this.sense = this.#findSense(firstRod, origin);
  }

  /**
   * As drawn: d·(dS) = d·(t dτ), d along the first rod, S its driving end, t the motion of its driven end for
   * a turn to the left. The rod must push along neither motion's square.
   */
  #findSense(firstRod: number, origin: V3): 1 | -1 | 0 {
    const m = this.#m;
    const rod = m.rods[firstRod];
    if (!rod) return 0;
    const inAxle = (p: { on: string; at: V3 }): V3 =>
      p.on === 'pitman arm' ? sub(p.at, origin) : p.at;
    const S = inAxle(rod.from);
    const d = unit(sub(inAxle(rod.to), S));
    const push = m.kind === 'ram' ? (m.ramAxis as V3) : unit(this.#ballSide);
    let t: V3;
    if (m.kind === 'tieRod') {
      const slope = this.#dragSlope(1, 0, S);
      t = scale(d, slope / (Math.sqrt(this.#dragSquare) * this.#speed));
    } else {
      const a = this.#first.arm;
      const w: V3 = [a[6] as number, a[7] as number, a[8] as number];
      // an end on the kingpin axis goes round nothing
      t = norm(w) > ON_LINE_in ? unit(w) : [0, 0, 0];
    }
    const driving = dot(d, push);
    const driven = dot(d, t);
    if (!(Math.abs(driving) > SENSE && Math.abs(driven) > SENSE)) return 0;
    return driving * driven > 0 ? 1 : -1;
  }

  /** Puts the knuckles back to straight ahead: the start of a path for the one Newton. */
  reset(): void {
    this.turn.set([1, 0, 1, 0]);
  }

  /**
   * Turns the knuckles for an input (rad of pitman, or in of ram rod, + to the left) on an axle at R, o
   * (rows of chassisFromAxle; vehicle axes, in). `turn` holds the result after STEERED.
   */
  solve(R: Float64Array, o: Float64Array, input: number): SteerCode {
    const m = this.#m;
    const S = this.#S;
    if (m.kind === 'ram') {
      const axis = m.ramAxis as V3;
      for (const [rod, drive, at] of [
        [m.first === 'left' ? m.tieRod : m.otherTieRod, this.#first, this.#firstAt],
        [m.first === 'left' ? m.otherTieRod : m.tieRod, this.#second, this.#secondAt],
      ] as const) {
        const r = m.rods[rod];
        if (!r) return OUT_OF_REACH;
        const end = r.from.on === 'ram rod' ? r.from.at : r.to.at;
        for (let c = 0; c < 3; c++)
          S[c] = (end[c] as number) + (axis[c] as number) * this.sense * input;
        if (!this.#drive(drive, S, at, rod)) return OUT_OF_REACH;
      }
      return STEERED;
    }
    this.pitmanBall(input);
    intoAxle(R, o, this.ball, S);
    if (m.kind === 'tieRod') return this.#solveHeldTieRod(S);
    if (!this.#drive(this.#first, S, this.#firstAt, m.dragLink)) return OUT_OF_REACH;
    const cos = this.turn[this.#firstAt] as number;
    const sin = this.turn[this.#firstAt + 1] as number;
    const P = this.#P;
    if (m.kind === 'knuckle') pointOf(this.#link as Arm, cos, sin, P);
    else {
      pointOf(this.#first.arm, cos, sin, this.#T);
      (this.#held as HeldPoint).place(S, this.#T, P);
    }
    return this.#drive(this.#second, P, this.#secondAt, m.tieRod) ? STEERED : OUT_OF_REACH;
  }

  /**
   * As `solve`, from straight ahead. Only a drag link that holds the tie rod needs a path: the pitman ball, as
   * seen from the axle, goes straight from where it was drawn to where it is; or to where it is at no input,
   * and then follows the input. Out of reach is what neither gets to.
   */
  follow(R: Float64Array, o: Float64Array, input: number): SteerCode {
    const code = this.solve(R, o, input);
    if (code === STEERED || this.#m.kind !== 'tieRod') return code;
    if (this.#followBall(R, o, input) === STEERED) return STEERED;
    const straight = this.#followBall(R, o, 0);
    if (straight !== STEERED) return straight;
    return this.#followPath(
      t => this.solve(R, o, t === 1 ? input : input * t),
      Math.abs(input) / HELD_STEP,
    );
  }

  /** From straight ahead as drawn, the ball in a straight line (axle frame) to its place at an input. */
  #followBall(R: Float64Array, o: Float64Array, input: number): SteerCode {
    const S = this.#S;
    this.pitmanBall(input);
    intoAxle(R, o, this.ball, S);
    const way = sub([S[0] as number, S[1] as number, S[2] as number], this.#ballDrawn);
    this.reset();
    return this.#followPath(
      t => {
        if (t === 1) return this.solve(R, o, input);
        for (let c = 0; c < 3; c++) S[c] = (this.#ballDrawn[c] as number) + t * (way[c] as number);
        return this.#solveHeldTieRod(S);
      },
      Math.sqrt(dot(way, way)) / HELD_STEP_in,
    );
  }

  /** Follows `solveAt(t)`, t from 0 to 1, in so many steps or more, halved where one is too long. */
  #followPath(solveAt: (t: number) => SteerCode, steps: number): SteerCode {
    const start = solveAt(0);
    if (start !== STEERED) return start;
    const good = Float64Array.from(this.turn);
    let at = 0;
    let step = Math.min(1, 1 / (steps || 1));
    let failures = 0;
    while (at < 1) {
      const next = Math.min(1, at + step);
      if (solveAt(next) === STEERED) {
        good.set(this.turn);
        at = next;
        step *= 2;
        continue;
      }
      this.turn.set(good);
      step /= 2;
      // the branch's end lies within 1e-9 of the way: a rod has run out
      if (step < 1e-9) return OUT_OF_REACH;
      if (++failures === MOST_FAILURES) return STEER_TOO_FAR;
    }
    return STEERED;
  }

  /**
   * Turns of both knuckles, as `turn`, where one is turned by hand and a tie rod from knuckle to knuckle takes
   * the other along; the other stays straight where the tie rod hangs elsewhere. Null out of reach.
   */
  turnedBy(side: 'left' | 'right', angle: number): Float64Array | null {
    const m = this.#m;
    const out = new Float64Array([1, 0, 1, 0]);
    const at = side === 'left' ? 0 : 2;
    out[at] = Math.cos(angle);
    out[at + 1] = Math.sin(angle);
    if (!this.#back) return out;
    const isFirst = side === m.first;
    pointOf(
      isFirst ? this.#back.arm : this.#second.arm,
      out[at] as number,
      out[at + 1] as number,
      this.#P,
    );
    if (!this.#drive(isFirst ? this.#second : this.#back, this.#P, 2 - at, m.tieRod)) return null;
    out[2 - at] = this.turn[2 - at] as number;
    out[3 - at] = this.turn[3 - at] as number;
    return out;
  }

  /** Puts the pitman ball at an input, rad, into `ball`, vehicle axes. */
  pitmanBall(input: number): void {
    const cos = Math.cos(input);
    const sin = Math.sin(input * this.sense);
    for (let c = 0; c < 3; c++) {
      this.ball[c] =
        (this.#ballFoot[c] as number) +
        (this.#ballRest[c] as number) * cos +
        (this.#ballSide[c] as number) * sin;
    }
  }

  /** (2), (3), (4) for one knuckle and one rod. */
  #drive(drive: Drive, S: Float64Array, at: number, rod: number): boolean {
    const a = drive.arm;
    const e0 = (a[0] as number) - (S[0] as number);
    const e1 = (a[1] as number) - (S[1] as number);
    const e2 = (a[2] as number) - (S[2] as number);
    const r0 = a[3] as number;
    const r1 = a[4] as number;
    const r2 = a[5] as number;
    const A = 2 * (e0 * r0 + e1 * r1 + e2 * r2);
    const B = 2 * (e0 * (a[6] as number) + e1 * (a[7] as number) + e2 * (a[8] as number));
    const C = drive.square - e0 * e0 - e1 * e1 - e2 * e2 - r0 * r0 - r1 * r1 - r2 * r2;
    const mm = A * A + B * B;
    const hh = mm - C * C;
    if (!(hh > 0)) {
      this.failed = rod;
      return false;
    }
    const h = drive.sigma * Math.sqrt(hh);
    this.turn[at] = (A * C + B * h) / mm;
    this.turn[at + 1] = (B * C - A * h) / mm;
    this.margins[rod] = Math.sqrt(hh / mm);
    return true;
  }

  /** Newton on the first knuckle's turn: the drag link's length as the tie rod carries its end along. */
  #solveHeldTieRod(S: Float64Array): SteerCode {
    const m = this.#m;
    let cos = this.turn[this.#firstAt] as number;
    let sin = this.turn[this.#firstAt + 1] as number;
    const start: V3 = [S[0] as number, S[1] as number, S[2] as number];
    let before = Infinity;
    for (let step = 0; step < MOST_STEPS; step++) {
      const slope = this.#dragSlope(cos, sin, start);
      if (Number.isNaN(slope)) {
        this.failed = m.tieRod;
        return OUT_OF_REACH;
      }
      const T = this.#T;
      const d0 = (T[0] as number) - start[0];
      const d1 = (T[1] as number) - start[1];
      const d2 = (T[2] as number) - start[2];
      const g = (d0 * d0 + d1 * d1 + d2 * d2 - this.#dragSquare) / 2;
      const change = -g / slope;
      const size = Math.abs(change);
      if (slope * this.#slopeSign <= 0) {
        this.failed = m.dragLink;
        return step === 0 ? OUT_OF_REACH : STEER_TOO_FAR;
      }
      if (!(size < before / 4) || size > 0.5) {
        this.failed = m.dragLink;
        return STEER_TOO_FAR;
      }
      const c = Math.cos(change);
      const s = Math.sin(change);
      [cos, sin] = [cos * c - sin * s, sin * c + cos * s];
      if (size < HELD_STEP_END) {
        const last = this.#dragSlope(cos, sin, start);
        if (!(last * this.#slopeSign > 0)) {
          this.failed = m.dragLink;
          return STEER_TOO_FAR;
        }
        const length = Math.sqrt(this.#dragSquare);
        this.turn[this.#firstAt] = cos;
        this.turn[this.#firstAt + 1] = sin;
        this.margins[m.dragLink] = Math.min(1, Math.abs(last) / (length * this.#speed));
        return STEERED;
      }
      before = Math.max(size, 1e-12);
    }
    this.failed = m.dragLink;
    return STEER_TOO_FAR;
  }

  /** |dT/dτ| of the held point at the last slope. */
  #speed = 1;

  /**
   * d·dT/dτ of the held point T for the first knuckle at this turn, T left in #T and the second knuckle's
   * turn in `turn`; NaN where the tie rod can't reach.
   */
  #dragSlope(cos: number, sin: number, S: V3): number {
    const m = this.#m;
    const A = this.#P;
    pointOf(this.#link as Arm, cos, sin, A);
    if (!this.#drive(this.#second, A, this.#secondAt, m.tieRod)) return Number.NaN;
    const c2 = this.turn[this.#secondAt] as number;
    const s2 = this.turn[this.#secondAt + 1] as number;
    const B = new Float64Array(3);
    pointOf(this.#second.arm, c2, s2, B);
    const tA = tangentOf(this.#link as Arm, cos, sin);
    const tB = tangentOf(this.#second.arm, c2, s2);
    const d: V3 = [
      (B[0] as number) - (A[0] as number),
      (B[1] as number) - (A[1] as number),
      (B[2] as number) - (A[2] as number),
    ];
    // the tie rod keeps its length: d·(tB τ2' − tA) = 0
    const vB = scale(tB, dot(d, tA) / dot(d, tB));
    const held = this.#held as HeldPoint;
    held.place(A, B, this.#T);
    const v = held.velocity(A, B, tA, vB);
    this.#speed = Math.sqrt(dot(v, v));
    return (
      ((this.#T[0] as number) - S[0]) * v[0] +
      ((this.#T[1] as number) - S[1]) * v[1] +
      ((this.#T[2] as number) - S[2]) * v[2]
    );
  }
}

/** First steps along a path of the pitman ball, in, and of the input, rad. */
const HELD_STEP_in = 1;
const HELD_STEP = 0.1;

/** Newton's last change of turn, rad: the error left is of its square. */
const HELD_STEP_END = 1e-8;

/**
 * A point that a rod carries, on or off the line between its two joints. Off the line the rod takes the
 * smallest turn of its line from the drawn one (axle frame), then its entered roll:
 *   (5) T = A + f (B − A) + c q + v × q + v (v·q)/(1 + c),  v = d₀ × d, c = d₀·d, d the line's direction,
 * q the offset as drawn, turned about the drawn line by the entered roll (Rodrigues with sin = |v|).
 */
export class HeldPoint {
  readonly fraction: number;
  readonly offset: V3;
  readonly drawnLine: V3;
  readonly onLine: boolean;

  constructor(held: RodAttachment, m: SteeringMechanism, origin: V3) {
    const rod = m.rods[held.rod];
    if (!rod) throw new Error('attachment without its rod');
    const inAxle = (p: { on: string; at: V3 }): V3 =>
      p.on === 'pitman arm' ? sub(p.at, origin) : p.at;
    this.fraction = held.fraction;
    this.drawnLine = unit(sub(inAxle(rod.to), inAxle(rod.from)));
    this.offset = turned(held.off, this.drawnLine, Math.cos(rod.rollAt), Math.sin(rod.rollAt));
    this.onLine = held.off[0] === 0 && held.off[1] === 0 && held.off[2] === 0;
  }

  place(A: Float64Array, B: Float64Array, out: Float64Array): void {
    const f = this.fraction;
    for (let c = 0; c < 3; c++)
      out[c] = (A[c] as number) + f * ((B[c] as number) - (A[c] as number));
    if (this.onLine) return;
    const d = unit([
      (B[0] as number) - (A[0] as number),
      (B[1] as number) - (A[1] as number),
      (B[2] as number) - (A[2] as number),
    ]);
    const q = smallestTurn(this.drawnLine, d, this.offset);
    for (let c = 0; c < 3; c++) out[c] = (out[c] as number) + (q[c] as number);
  }

  /** Velocity of T for velocities of A and B that keep the rod's length. */
  velocity(A: Float64Array, B: Float64Array, vA: V3, vB: V3): V3 {
    const f = this.fraction;
    const D: V3 = [
      (B[0] as number) - (A[0] as number),
      (B[1] as number) - (A[1] as number),
      (B[2] as number) - (A[2] as number),
    ];
    const along: V3 = [
      vA[0] + f * (vB[0] - vA[0]),
      vA[1] + f * (vB[1] - vA[1]),
      vA[2] + f * (vB[2] - vA[2]),
    ];
    if (this.onLine) return along;
    const length = Math.sqrt(dot(D, D));
    const d = scale(D, 1 / length);
    const d1 = scale(sub(vB, vA), 1 / length);
    const d0 = this.drawnLine;
    const q = this.offset;
    const v = cross(d0, d);
    const c = dot(d0, d);
    const v1 = cross(d0, d1);
    const c1 = dot(d0, d1);
    const k = 1 / (1 + c);
    const vq = dot(v, q);
    const v1q = dot(v1, q);
    const side = cross(v1, q);
    const out = [0, 0, 0];
    for (let i = 0; i < 3; i++) {
      out[i] =
        (along[i] as number) +
        c1 * (q[i] as number) +
        (side[i] as number) +
        k * ((v1[i] as number) * vq + (v[i] as number) * v1q) -
        k * k * c1 * (v[i] as number) * vq;
    }
    return out as unknown as V3;
  }
}

/** q carried along by the smallest turn that brings the unit vector d0 onto d, (5). */
export function smallestTurn(d0: V3, d: V3, q: V3): V3 {
  const v = cross(d0, d);
  const c = dot(d0, d);
  const k = dot(v, q) / (1 + c);
  const side = cross(v, q);
  return [
    c * q[0] + side[0] + k * v[0],
    c * q[1] + side[1] + k * v[1],
    c * q[2] + side[2] + k * v[2],
  ];
}

/** Chassis point into the axle frame: out = Rᵀ (p − o). */
function intoAxle(R: Float64Array, o: Float64Array, p: Float64Array, out: Float64Array): void {
  const x = (p[0] as number) - (o[0] as number);
  const y = (p[1] as number) - (o[1] as number);
  const z = (p[2] as number) - (o[2] as number);
  out[0] = (R[0] as number) * x + (R[3] as number) * y + (R[6] as number) * z;
  out[1] = (R[1] as number) * x + (R[4] as number) * y + (R[7] as number) * z;
  out[2] = (R[2] as number) * x + (R[5] as number) * y + (R[8] as number) * z;
}

function pointOf(arm: Arm, cos: number, sin: number, out: Float64Array): void {
  for (let c = 0; c < 3; c++) {
    out[c] = (arm[c] as number) + (arm[c + 3] as number) * cos + (arm[c + 6] as number) * sin;
  }
}

function tangentOf(arm: Arm, cos: number, sin: number): V3 {
  return [
    (arm[6] as number) * cos - (arm[3] as number) * sin,
    (arm[7] as number) * cos - (arm[4] as number) * sin,
    (arm[8] as number) * cos - (arm[5] as number) * sin,
  ];
}
