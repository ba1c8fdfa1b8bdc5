/**
 * Turns of knuckles and rods as jets, from (2) and (3) of `steeringSolver.ts` in Taylor arithmetic; where the
 * drag link takes hold of the tie rod, by the implicit function theorem on its one equation.
 */
import type { KnuckleTurn, SteeringMechanism, SteeringRod } from '../mechanism/mechanism.ts';
import { cross, dot, reject, sub, turned, unit, type V3 } from '../vector.ts';
import type { AxleJets } from './axleJets.ts';
import {
  constant,
  constant3,
  cosine,
  inner,
  type Jet,
  type Jet3,
  minus,
  minus3,
  outer,
  plus,
  plus3,
  product,
  product3,
  reciprocal,
  root,
  SECOND,
  shifted,
  sine,
  type Turn,
  times,
  times3,
  turnAbout,
  turnBack,
} from './jet.ts';

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

interface ArmVectors {
  c: V3;
  r: V3;
  w: V3;
}

function armOf(knuckle: KnuckleTurn, point: V3): ArmVectors {
  const r = reject(sub(point, knuckle.pivot), knuckle.axis);
  return { c: sub(point, r), r, w: cross(knuckle.axis, r) };
}

const onArm = (a: ArmVectors, cos: Jet, sin: Jet): Jet3 =>
  plus3(constant3(a.c), plus3(product3(cos, constant3(a.r)), product3(sin, constant3(a.w))));

interface Driven {
  cos: Jet;
  sin: Jet;
  margin: Jet;
}

/** (2), (3), (4) in jets; `sigma` is the branch's sign. */
function drive(a: ArmVectors, S: Jet3, length: number, sigma: number): Driven {
  const e = minus3(constant3(a.c), S);
  const A = times(inner(e, constant3(a.r)), 2);
  const B = times(inner(e, constant3(a.w)), 2);
  const C = shifted(times(inner(e, e), -1), length * length - dot(a.r, a.r));
  const mm = plus(product(A, A), product(B, B));
  const h = times(root(minus(mm, product(C, C))), sigma);
  const inverse = reciprocal(mm);
  return {
    cos: product(plus(product(A, C), product(B, h)), inverse),
    sin: product(minus(product(B, C), product(A, h)), inverse),
    margin: times(product(h, root(inverse)), sigma),
  };
}

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
  const endOn = (i: number, side: 'left' | 'right'): V3 => {
    const rod = rodAt(i);
    return rod.from.on === `${side} knuckle` ? rod.from.at : rod.to.at;
  };
  const sigmaOf = (a: ArmVectors, S: Jet3, side: 'left' | 'right'): number => {
    // sign of B cos τ − A sin τ at the pose: the branch it was solved on
    const [c, s] = now[side];
    const e: V3 = sub(a.c, [S[0][0] as number, S[1][0] as number, S[2][0] as number]);
    return dot(e, a.w) * c - dot(e, a.r) * s >= 0 ? 1 : -1;
  };
  const cos = { left: constant(1), right: constant(1) };
  const sin = { left: constant(0), right: constant(0) };
  const margins: Jet[] = m.rods.map(() => constant(1));
  const rods: { from: Jet3; to: Jet3 }[] = m.rods.map(rod => ({
    from: constant3(rod.from.at),
    to: constant3(rod.to.at),
  }));
  const put = (side: 'left' | 'right', driven: Driven, rod: number): void => {
    cos[side] = driven.cos;
    sin[side] = driven.sin;
    margins[rod] = driven.margin;
  };
  const driveBy = (side: 'left' | 'right', rod: number, S: Jet3): Jet3 => {
    const a = armOf(m[side], endOn(rod, side));
    put(side, drive(a, S, rodAt(rod).length, sigmaOf(a, S, side)), rod);
    return onArm(a, cos[side], sin[side]);
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
          ? onArm(armOf(m[m.first], endOn(m.tieRod, m.first)), cos[m.first], sin[m.first])
          : heldPoint(m, origin, S, end);
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
    const link = armOf(m[m.first], endOn(m.tieRod, m.first));
    const far = armOf(m[other], endOn(m.tieRod, other));
    const [c, s] = now[m.first];
    const tau = constant(0);
    const place = (): { T: Jet3; A: Jet3; B: Jet3; d: Jet3; driven: Driven } => {
      const firstCos = cosine(tau, c, s);
      const firstSin = sine(tau, c, s);
      const A = onArm(link, firstCos, firstSin);
      const driven = drive(far, A, rodAt(m.tieRod).length, sigmaOf(far, A, other));
      const B = onArm(far, driven.cos, driven.sin);
      const T = heldPoint(m, origin, A, B);
      return { T, A, B, d: minus3(T, S), driven };
    };
    // slope of ½|d|² by τ: d·T_τ, by a jet that moves with τ alone
    const probe = constant(0);
    probe[1] = 1;
    const A = onArm(link, cosine(probe, c, s), sine(probe, c, s));
    const driven = drive(far, A, rodAt(m.tieRod).length, sigmaOf(far, A, other));
    const T = heldPoint(m, origin, A, onArm(far, driven.cos, driven.sin));
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

/** (5) of `steeringSolver.ts` in jets: the point that the held rod carries, from its ends A and B. */
function heldPoint(m: SteeringMechanism, origin: V3, A: Jet3, B: Jet3): Jet3 {
  const held = m.held as NonNullable<typeof m.held>;
  return carried(m.rods[held.rod] as SteeringRod, origin, held.fraction, held.off, A, B);
}

/** A point of a rod at a fraction along its drawn line and off it, from its ends now (axle frame). */
export function carried(
  rod: SteeringRod,
  origin: V3,
  fraction: number,
  off: V3,
  A: Jet3,
  B: Jet3,
): Jet3 {
  const D = minus3(B, A);
  const along = plus3(A, times3(D, fraction));
  if (off[0] === 0 && off[1] === 0 && off[2] === 0) return along;
  const line = drawnLine(rod, origin);
  const q = constant3(turned(off, line, Math.cos(rod.rollAt), Math.sin(rod.rollAt)));
  return plus3(along, smallestTurnJets(line, product3(reciprocal(root(inner(D, D))), D), q));
}

/** Direction of a rod's line as drawn, axle frame. */
export function drawnLine(rod: SteeringRod, origin: V3): V3 {
  const inAxle = (p: SteeringRod['from']): V3 => (p.on === 'pitman arm' ? sub(p.at, origin) : p.at);
  return unit(sub(inAxle(rod.to), inAxle(rod.from)));
}

/** q carried by the smallest turn from d0 onto the unit jet d. */
export function smallestTurnJets(d0: V3, d: Jet3, q: Jet3): Jet3 {
  const from = constant3(d0);
  const v = outer(from, d);
  const c = inner(from, d);
  const k = product(inner(v, q), reciprocal(shifted(c, 1)));
  return plus3(plus3(product3(c, q), outer(v, q)), product3(k, v));
}
