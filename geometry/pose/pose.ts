/**
 * A pose: one position of the axle, with where every body is and how it moves.
 * Inches, radians. Plain results of a solver that has moved on; derivatives are made on demand and kept.
 */
import type { BodyName, Mechanism, SteeringRod, SwayArm } from '../mechanism/mechanism.ts';
import { dot, scale, sub, turned, unit, type V3 } from '../vector.ts';
import type { AxleJets } from './axleJets.ts';
import {
  constant,
  constant3,
  inner,
  type Jet,
  type Jet3,
  jetVectors,
  minus3,
  plus3,
  product3,
  reciprocal,
  root,
  type Turn,
  turnAbout,
  turnJets,
  turnPlain,
  turnProduct,
} from './jet.ts';
import { type Driven, drawnLine } from './steeringForms.ts';
import { type SteeringJets, steeringJets } from './steeringJets.ts';
import { smallestTurn } from './steeringSolver.ts';
import { swayTurnAt, swayTurnJets } from './swayForms.ts';

export type Status = 'solved' | 'unreachable' | 'undecided';

/** What moves a body from where it was drawn: now = R · drawn + t, both in vehicle axes. */
export interface Displacement {
  /** Nine numbers by rows. */
  R: readonly number[];
  t: readonly number[];
}

/** The same with derivatives. */
export interface DisplacementJets {
  R: Turn;
  t: Jet3;
}

export interface PoseInput {
  left: number;
  right: number;
  /** Pitman angle (rad) or ram rod (in), + to the left; 0 where the axle does not steer. */
  steer: number;
}

/** Numbers of a solved axle that a pose keeps. */
export interface AxleNumbers {
  R: Float64Array;
  o: Float64Array;
  state: Float64Array;
  sinYaw: number;
  cosYaw: number;
  sinRoll: number;
  cosRoll: number;
  sinPitch: number;
  cosPitch: number;
  W: number;
}

export class Pose {
  readonly mechanism: Mechanism;
  readonly input: PoseInput;
  readonly axle: AxleNumbers;
  /** Cosine and sine of the knuckles' turns, left then right; null where the axle does not steer. */
  readonly turn: Float64Array | null;
  /** Over-center margin of each steering rod, 1 best, 0 where its branch vanishes. */
  readonly margins: Float64Array;
  /** Sign of the steering input about the entered axis. */
  readonly sense: number;
  readonly #makeAxleJets: (pose: Pose) => AxleJets;
  #axleJets: AxleJets | null = null;
  #steeringJets: SteeringJets | null = null;
  readonly #displacements = new Map<BodyName, Displacement>();
  readonly #displacementJets = new Map<BodyName, DisplacementJets>();

  constructor(
    mechanism: Mechanism,
    input: PoseInput,
    axle: AxleNumbers,
    turn: Float64Array | null,
    margins: Float64Array,
    sense: number,
    makeAxleJets: (pose: Pose) => AxleJets,
  ) {
    this.mechanism = mechanism;
    this.input = input;
    this.axle = axle;
    this.turn = turn;
    this.margins = margins;
    this.sense = sense;
    this.#makeAxleJets = makeAxleJets;
  }

  /** Yaw, roll and pitch of Rz · Rx · Ry, rad. */
  get yaw(): number {
    return Math.atan2(this.axle.sinYaw, this.axle.cosYaw);
  }
  get roll(): number {
    return Math.atan2(this.axle.sinRoll, this.axle.cosRoll);
  }
  get pitch(): number {
    return Math.atan2(this.axle.sinPitch, this.axle.cosPitch);
  }

  /** Turn of a knuckle about its kingpin axis taken upward, rad; null where the axle does not steer. */
  knuckleTurn(side: 'left' | 'right'): number | null {
    const at = side === 'left' ? 0 : 2;
    return this.turn ? Math.atan2(this.turn[at + 1] as number, this.turn[at] as number) : null;
  }

  /** The same pose of the axle with its knuckles turned otherwise (cosine and sine, left then right). */
  withTurns(turn: Float64Array): Pose {
    return new Pose(
      this.mechanism,
      this.input,
      this.axle,
      turn,
      this.margins,
      this.sense,
      this.#makeAxleJets,
    );
  }

  /** A point of a body, drawn in vehicle axes: where it is now, vehicle axes. */
  point(on: BodyName, drawn: V3): V3 {
    const { R, t } = this.displacement(on);
    const v = rotate(R, drawn);
    return [v[0] + (t[0] as number), v[1] + (t[1] as number), v[2] + (t[2] as number)];
  }

  /** A direction of a body, drawn in vehicle axes: where it points now. */
  direction(on: BodyName, drawn: V3): V3 {
    return rotate(this.displacement(on).R, drawn);
  }

  /** A point of a body with its derivatives. */
  pointJets(on: BodyName, drawn: V3): Jet3 {
    const { R, t } = this.displacementJets(on);
    return plus3(turnPlain(R, drawn), t);
  }

  /** A direction of a body with its derivatives. */
  directionJets(on: BodyName, drawn: V3): Jet3 {
    return turnPlain(this.displacementJets(on).R, drawn);
  }

  /** Derivatives of the axle by the travels. */
  axleJets(): AxleJets {
    this.#axleJets ??= this.#makeAxleJets(this);
    return this.#axleJets;
  }

  /** Derivatives of the steering; null where the axle does not steer. */
  steeringJets(): SteeringJets | null {
    const m = this.mechanism.steering;
    if (!m || !this.turn) return null;
    this.#steeringJets ??= steeringJets(
      m,
      this.mechanism.origin,
      this.axleJets(),
      this.turn,
      this.input.steer,
      this.sense,
    );
    return this.#steeringJets;
  }

  /** Turn of an arm of the sway bar from drawn, with its over-center margin: below zero, its link does not reach it. */
  swayTurn(arm: SwayArm): Driven<number> {
    return swayTurnAt(arm, this.mechanism.origin, this.axle.R, this.axle.o);
  }

  /** The same with derivatives. */
  swayTurnJets(arm: SwayArm): Driven<Jet> {
    const { R, o } = this.axleJets();
    return swayTurnJets(arm, this.mechanism.origin, R, o);
  }

  /** What moved a body from where it was drawn. @throws on a body that the mechanism does not have */
  displacement(on: BodyName): Displacement {
    let found = this.#displacements.get(on);
    if (!found) {
      found = this.#place(on);
      this.#displacements.set(on, found);
    }
    return found;
  }

  /** The same with derivatives. */
  displacementJets(on: BodyName): DisplacementJets {
    let found = this.#displacementJets.get(on);
    if (!found) {
      found = this.#placeJets(on);
      this.#displacementJets.set(on, found);
    }
    return found;
  }

  /** Of what turns by M and shifts in the axle frame: now = R (M (p − origin) + shift) + o. */
  #fromAxle(M: readonly number[], shift: V3): Displacement {
    const { R, o } = this.axle;
    const RM = multiply(R, M);
    const s = rotate(R, shift);
    const back = rotate(RM, this.mechanism.origin);
    return {
      R: RM,
      t: [
        s[0] + (o[0] as number) - back[0],
        s[1] + (o[1] as number) - back[1],
        s[2] + (o[2] as number) - back[2],
      ],
    };
  }

  #place(on: BodyName): Displacement {
    const m = this.mechanism;
    const { R, o, state } = this.axle;
    if (on === 'chassis') return { R: identity(), t: [0, 0, 0] };
    if (on === 'axle') {
      const back = rotate(R, m.origin);
      return {
        R: [...R],
        t: [(o[0] as number) - back[0], (o[1] as number) - back[1], (o[2] as number) - back[2]],
      };
    }
    const steering = m.steering;
    if (steering && this.turn) {
      for (const side of ['left', 'right'] as const) {
        if (on !== `${side} knuckle`) continue;
        const { pivot, axis } = steering[side];
        const at = side === 'left' ? 0 : 2;
        const M = aboutAxis(axis, this.turn[at] as number, this.turn[at + 1] as number);
        return this.#fromAxle(M, sub(pivot, rotate(M, pivot)));
      }
      if (on === 'pitman arm' && steering.pitman) {
        const { at, axis } = steering.pitman;
        const angle = this.input.steer * this.sense;
        const M = aboutAxis(axis, Math.cos(angle), Math.sin(angle));
        const t = sub(at, rotate(M, at));
        return { R: M, t };
      }
      if (on === 'ram rod' && steering.ramAxis) {
        return this.#fromAxle(identity(), scale(steering.ramAxis, this.input.steer * this.sense));
      }
      const rod = steering.rods.find(r => r.name === on || r.kind === on);
      if (rod) {
        const from = this.#intoAxle(this.point(rod.from.on, this.#drawnEnd(rod.from)));
        const to = this.#intoAxle(this.#rodFarEnd(rod));
        const line = drawnLine(rod, m.origin);
        const d = unit(sub(to, from));
        const cos = Math.cos(rod.rollAt);
        const sin = Math.sin(rod.rollAt);
        const M = identity();
        for (let c = 0; c < 3; c++) {
          const e: V3 = [c === 0 ? 1 : 0, c === 1 ? 1 : 0, c === 2 ? 1 : 0];
          const column = smallestTurn(line, d, turned(e, line, cos, sin));
          for (let r = 0; r < 3; r++) M[3 * r + c] = column[r] as number;
        }
        const held = rod.anchor === 'from' ? from : to;
        return this.#fromAxle(M, sub(held, rotate(M, this.#inAxleDrawn(rod[rod.anchor]))));
      }
    }
    const swayArm = m.swayArms.find(({ name }) => name === on);
    if (swayArm) {
      const { cos, sin } = this.swayTurn(swayArm);
      const M = aboutAxis(swayArm.axis, cos, sin);
      return { R: M, t: sub(swayArm.at, rotate(M, swayArm.at)) };
    }
    for (const [k, arm] of m.arms.entries()) {
      if (arm.name !== on) continue;
      const at = 4 + 3 * m.points.length + 12 * k;
      const Q = [...state.subarray(at + 3, at + 12)];
      const back = rotate(Q, arm.center);
      return {
        R: Q,
        t: [0, 1, 2].map(
          c => (arm.center[c] as number) + (state[at + c] as number) - (back[c] as number),
        ),
      };
    }
    for (const [k, point] of m.points.entries()) {
      if (point.name !== on) continue;
      const offset: V3 = [
        state[4 + 3 * k] as number,
        state[5 + 3 * k] as number,
        state[6 + 3 * k] as number,
      ];
      return point.on === 'axle'
        ? this.#fromAxle(identity(), offset)
        : { R: identity(), t: offset };
    }
    throw new Error(`no body is called '${on}' on the ${m.axle} axle`);
  }

  #placeJets(on: BodyName): DisplacementJets {
    const m = this.mechanism;
    const axle = this.axleJets();
    const still = (): Turn => [1, 0, 0, 0, 1, 0, 0, 0, 1].map(constant);
    const fromAxle = (M: Turn, shift: Jet3): DisplacementJets => {
      const RM = turnProduct(axle.R, M);
      return {
        R: RM,
        t: minus3(plus3(turnJets(axle.R, shift), axle.o), turnPlain(RM, m.origin)),
      };
    };
    const zero = constant3([0, 0, 0]);
    if (on === 'chassis') return { R: still(), t: zero };
    if (on === 'axle') return { R: axle.R, t: minus3(axle.o, turnPlain(axle.R, m.origin)) };
    const steering = m.steering;
    const jets = this.steeringJets();
    if (steering && jets) {
      for (const side of ['left', 'right'] as const) {
        if (on !== `${side} knuckle`) continue;
        const { pivot, axis } = steering[side];
        const M = turnAbout(axis, jets.cos[side], jets.sin[side]);
        return fromAxle(M, minus3(constant3(pivot), turnPlain(M, pivot)));
      }
      if (on === 'pitman arm' && steering.pitman && jets.pitman) {
        const { at } = steering.pitman;
        return { R: jets.pitman, t: minus3(constant3(at), turnPlain(jets.pitman, at)) };
      }
      if (on === 'ram rod' && jets.ram) return fromAxle(still(), jets.ram);
      const index = steering.rods.findIndex(r => r.name === on || r.kind === on);
      const rod = steering.rods[index];
      const ends = jets.rods[index];
      if (rod && ends) {
        const line = drawnLine(rod, m.origin);
        const D = minus3(ends.to, ends.from);
        const d = product3(reciprocal(root(inner(D, D))), D);
        const cos = Math.cos(rod.rollAt);
        const sin = Math.sin(rod.rollAt);
        const M: Turn = new Array(9);
        for (let c = 0; c < 3; c++) {
          const e: V3 = [c === 0 ? 1 : 0, c === 1 ? 1 : 0, c === 2 ? 1 : 0];
          const column = jetVectors.smallestTurn(line, d, constant3(turned(e, line, cos, sin)));
          for (let r = 0; r < 3; r++) M[3 * r + c] = column[r] as NonNullable<(typeof column)[0]>;
        }
        const drawn = this.#inAxleDrawn(rod[rod.anchor]);
        return fromAxle(M, minus3(ends[rod.anchor], turnPlain(M, drawn)));
      }
    }
    const swayArm = m.swayArms.find(({ name }) => name === on);
    if (swayArm) {
      const { cos, sin } = this.swayTurnJets(swayArm);
      const M = turnAbout(swayArm.axis, cos, sin);
      return { R: M, t: minus3(constant3(swayArm.at), turnPlain(M, swayArm.at)) };
    }
    for (const [k, arm] of m.arms.entries()) {
      const jet = axle.arms[k];
      if (arm.name !== on || !jet) continue;
      return {
        R: jet.Q,
        t: minus3(plus3(constant3(arm.center), jet.shift), turnPlain(jet.Q, arm.center)),
      };
    }
    for (const [k, point] of m.points.entries()) {
      const offset = axle.shared[k];
      if (point.name !== on || !offset) continue;
      return point.on === 'axle' ? fromAxle(still(), offset) : { R: still(), t: offset };
    }
    throw new Error(`no body is called '${on}' on the ${m.axle} axle`);
  }

  /** A rod's end as drawn, vehicle axes. */
  #drawnEnd(end: SteeringRod['from']): V3 {
    return end.on === 'pitman arm'
      ? end.at
      : ([0, 1, 2].map(
          c => (end.at[c] as number) + (this.mechanism.origin[c] as number),
        ) as unknown as V3);
  }

  #inAxleDrawn(end: SteeringRod['from']): V3 {
    return end.on === 'pitman arm' ? sub(end.at, this.mechanism.origin) : end.at;
  }

  /** Vehicle axes to the axle frame. */
  #intoAxle(p: V3): V3 {
    const { R, o } = this.axle;
    const d = sub(p, [o[0] as number, o[1] as number, o[2] as number]);
    return [
      dot([R[0] as number, R[3] as number, R[6] as number], d),
      dot([R[1] as number, R[4] as number, R[7] as number], d),
      dot([R[2] as number, R[5] as number, R[8] as number], d),
    ];
  }

  /** The end of a rod that is driven; where another rod carries it, that rod's point. */
  #rodFarEnd(rod: SteeringRod): V3 {
    return this.point(rod.to.on, this.#drawnEnd(rod.to));
  }
}

/** Nine numbers by rows times a vector. */
export function rotate(M: ArrayLike<number>, v: V3): V3 {
  return [
    (M[0] as number) * v[0] + (M[1] as number) * v[1] + (M[2] as number) * v[2],
    (M[3] as number) * v[0] + (M[4] as number) * v[1] + (M[5] as number) * v[2],
    (M[6] as number) * v[0] + (M[7] as number) * v[1] + (M[8] as number) * v[2],
  ];
}

const identity = (): number[] => [1, 0, 0, 0, 1, 0, 0, 0, 1];

function multiply(A: ArrayLike<number>, B: ArrayLike<number>): number[] {
  const entry = (r: number, c: number): number =>
    (A[3 * r] as number) * (B[c] as number) +
    (A[3 * r + 1] as number) * (B[c + 3] as number) +
    (A[3 * r + 2] as number) * (B[c + 6] as number);
  return [
    entry(0, 0),
    entry(0, 1),
    entry(0, 2),
    entry(1, 0),
    entry(1, 1),
    entry(1, 2),
    entry(2, 0),
    entry(2, 1),
    entry(2, 2),
  ];
}

/** Turn about a unit axis (Rodrigues), by rows. */
function aboutAxis([x, y, z]: V3, cos: number, sin: number): number[] {
  const k = 1 - cos;
  return [
    cos + k * x * x,
    k * x * y - sin * z,
    k * x * z + sin * y,
    k * x * y + sin * z,
    cos + k * y * y,
    k * y * z - sin * x,
    k * x * z - sin * y,
    k * y * z + sin * x,
    cos + k * z * z,
  ];
}
