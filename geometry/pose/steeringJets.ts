/**
 * Turns of knuckles and rods as jets, from (2) and (3) of `steeringSolver.ts` in Taylor arithmetic; where the
 * drag link takes hold of the tie rod, by the implicit function theorem on its one equation.
 */
import type { SteeringMechanism, SteeringRod } from '../mechanism/mechanism.ts';
import { dot, sub, type V3 } from '../vector.ts';
import type { AxleJets } from './axleJets.ts';
import {
  constant,
  constant3,
  cosine,
  inner,
  type Jet,
  type Jet3,
  jets,
  jetVectors,
  minus3,
  plus3,
  product3,
  SECOND,
  sine,
  type Turn,
  times,
  turnAbout,
  turnBack,
} from './jet.ts';
import {
  type ArmVectors,
  armVectors,
  branchSign,
  type Driven,
  drivenTurn,
  endOnKnuckle,
  type Forms,
  heldPoint,
  onArm,
} from './steeringForms.ts';

export interface SteeringJets {
  /** Turns of the knuckles about their kingpin axes, rad: value 0, derivatives only (left, right). */
  tau: { left: Jet; right: Jet };
  cos: { left: Jet; right: Jet };
  sin: { left: Jet; right: Jet };
  /** Over-center margin of each rod. */
  margins: Jet[];
  /** Ends of each rod in the axle frame. */
  rods: { from: Jet3; to: Jet3 }[];
  /** The pitman arm's turn in vehicle axes, or null. */
  pitman: Turn | null;
  /** Shift of the ram's rod in the axle frame, or null. */
  ram: Jet3 | null;
}

const forms: Forms<Jet> = { k: jets, v: jetVectors };

/**
 * Jets of the steering at a solved pose.
 *
 * @param turn cosines and sines of the knuckles as solved (left, right)
 * @param input the steering input, rad or in; @param sense its sign about the entered axis
 */
export function steeringJets(
  m: SteeringMechanism,
  origin: V3,
  axle: AxleJets,
  turn: ArrayLike<number>,
  input: number,
  sense: number,
): SteeringJets {
  const step = constant(input * sense);
  step[3] = sense;
  const other = m.first === 'left' ? 'right' : 'left';
  const now = { left: [turn[0], turn[1]], right: [turn[2], turn[3]] } as Record<
    'left' | 'right',
    [number, number]
  >;
  const rodAt = (i: number): SteeringRod => m.rods[i] as SteeringRod;
  const endOn = (i: number, side: 'left' | 'right'): V3 => endOnKnuckle(m, i, side);
  // the branch that the pose was solved on
  const sigmaOf = (a: ArmVectors, S: Jet3, side: 'left' | 'right'): number =>
    branchSign(a, [S[0][0] as number, S[1][0] as number, S[2][0] as number], ...now[side]);
  const cos = { left: constant(1), right: constant(1) };
  const sin = { left: constant(0), right: constant(0) };
  const margins: Jet[] = m.rods.map(() => constant(1));
  const rods: { from: Jet3; to: Jet3 }[] = m.rods.map(rod => ({
    from: constant3(rod.from.at),
    to: constant3(rod.to.at),
  }));
  const put = (side: 'left' | 'right', driven: Driven<Jet>, rod: number): void => {
    cos[side] = driven.cos;
    sin[side] = driven.sin;
    margins[rod] = driven.margin;
  };
  const driveBy = (side: 'left' | 'right', rod: number, S: Jet3): Jet3 => {
    const a = armVectors(m[side], endOn(rod, side));
    put(side, drivenTurn(forms, a, S, rodAt(rod).length, sigmaOf(a, S, side)), rod);
    return onArm(forms, a, cos[side], sin[side]);
  };
  let pitman: Turn | null = null;
  let ram: Jet3 | null = null;

  if (m.kind === 'ram') {
    const shift = product3(step, constant3(m.ramAxis as V3));
    ram = shift;
    for (const [side, rod] of [
      ['left', m.tieRod],
      ['right', m.otherTieRod],
    ] as const) {
      const S = plus3(constant3(rodAt(rod).from.at), shift);
      rods[rod] = { from: S, to: driveBy(side, rod, S) };
    }
  } else {
    const p = m.pitman as NonNullable<typeof m.pitman>;
    const c = Math.cos(input * sense);
    const s = Math.sin(input * sense);
    pitman = turnAbout(p.axis, cosine(step, c, s), sine(step, c, s));
    const r = sub(p.ball, p.at);
    const ball = plus3(
      constant3(p.at),
      [0, 1, 2].map(row =>
        inner(
          [pitman?.[3 * row] as Jet, pitman?.[3 * row + 1] as Jet, pitman?.[3 * row + 2] as Jet],
          constant3(r),
        ),
      ) as Jet3,
    );
    const S = turnBack(axle.R, minus3(ball, axle.o));
    if (m.kind === 'tieRod') {
      heldTieRod(S);
    } else {
      const end = driveBy(m.first, m.dragLink, S);
      rods[m.dragLink] = { from: S, to: end };
      const hold =
        m.kind === 'knuckle'
          ? onArm(
              forms,
              armVectors(m[m.first], endOn(m.tieRod, m.first)),
              cos[m.first],
              sin[m.first],
            )
          : heldPoint(forms, m, origin, S, end);
      rods[m.tieRod] = { from: hold, to: driveBy(other, m.tieRod, hold) };
    }
  }
  const tau = { left: angleOf('left'), right: angleOf('right') };
  return { tau, cos, sin, margins, rods, pitman, ram };

  /** Derivatives of a turn from those of its cosine and sine: τ' = c s' − s c', and of that once more. */
  function angleOf(side: 'left' | 'right'): Jet {
    const [c, s] = now[side];
    const out = constant(0);
    const dc = cos[side];
    const ds = sin[side];
    for (let j = 0; j < 3; j++) {
      out[1 + j] = c * (ds[1 + j] as number) - s * (dc[1 + j] as number);
      for (let k = j; k < 3; k++) {
        const at = SECOND[j]?.[k] as number;
        out[at] = c * (ds[at] as number) - s * (dc[at] as number);
      }
    }
    return out;
  }

  /** The one unknown is the first knuckle's turn; the drag link's length is its equation. */
  function heldTieRod(S: Jet3): void {
    const link = armVectors(m[m.first], endOn(m.tieRod, m.first));
    const far = armVectors(m[other], endOn(m.tieRod, other));
    const [c, s] = now[m.first];
    const tau = constant(0);
    const place = (): { T: Jet3; A: Jet3; B: Jet3; d: Jet3; driven: Driven<Jet> } => {
      const firstCos = cosine(tau, c, s);
      const firstSin = sine(tau, c, s);
      const A = onArm(forms, link, firstCos, firstSin);
      const driven = drivenTurn(forms, far, A, rodAt(m.tieRod).length, sigmaOf(far, A, other));
      const B = onArm(forms, far, driven.cos, driven.sin);
      const T = heldPoint(forms, m, origin, A, B);
      return { T, A, B, d: minus3(T, S), driven };
    };
    // slope of ½|d|² by τ: d·T_τ, by a jet that moves with τ alone
    const probe = constant(0);
    probe[1] = 1;
    const A = onArm(forms, link, cosine(probe, c, s), sine(probe, c, s));
    const driven = drivenTurn(forms, far, A, rodAt(m.tieRod).length, sigmaOf(far, A, other));
    const T = heldPoint(forms, m, origin, A, onArm(forms, far, driven.cos, driven.sin));
    const dNow: V3 = [0, 1, 2].map(
      i => (T[i]?.[0] as number) - (S[i]?.[0] as number),
    ) as unknown as V3;
    const T1: V3 = [0, 1, 2].map(i => T[i]?.[1] as number) as unknown as V3;
    const slope = dot(dNow, T1);
    const equation = (): Jet => {
      const { d } = place();
      return times(inner(d, d), 0.5);
    };
    const first = equation();
    for (let j = 0; j < 3; j++) tau[1 + j] = -(first[1 + j] as number) / slope;
    const second = equation();
    for (let at = 4; at < 10; at++) tau[at] = -(second[at] as number) / slope;
    const placed = place();
    cos[m.first] = cosine(tau, c, s);
    sin[m.first] = sine(tau, c, s);
    put(other, placed.driven, m.tieRod);
    rods[m.tieRod] = { from: placed.A, to: placed.B };
    rods[m.dragLink] = { from: S, to: placed.T };
    const speed = Math.sqrt(dot(T1, T1));
    margins[m.dragLink] = constant(Math.abs(slope) / (rodAt(m.dragLink).length * speed));
  }
}
