/**
 * Arms of a sway bar: each turns about the bar's axis on the chassis, moved by an end link from the axle. A point on a
 * circle meets a sphere, as a knuckle driven by a rod: (1) to (4) of `steeringSolver.ts`, here in vehicle axes, with S
 * the axle's end of the link and the sign of the branch fixed as drawn. The bar's twist is what lets both arms turn by
 * themselves; it moves no pose.
 *
 * Where the link can't reach the arm's circle the arm has gone over center: it then lies in line with the link, as near
 * as it comes, and the margin goes below zero, −√((C/m)² − 1), so that how far is told.
 *
 * `swayTurn` holds for any arithmetic: with intervals of R and o over a cell of poses it encloses the arm's turn and its
 * derivatives there; a root of what may be negative leaves nothing finite, so that such a cell is not settled.
 */
import type { SwayArm } from '../mechanism/mechanism.ts';
import { add, dot, sub, type V3 } from '../vector.ts';
import type { NineOf, Three } from './arithmetic.ts';
import { constant, type Jet, type Jet3, jets, jetVectors, type Turn } from './jet.ts';
import { plain, plainVectors } from './plain.ts';
import {
  type ArmVectors,
  armVectors,
  circleOnSphere,
  type Driven,
  drivenTurn,
  type Forms,
} from './steeringForms.ts';

/** The arm's circle, vehicle axes. */
export const swayCircle = (arm: SwayArm): ArmVectors =>
  armVectors({ pivot: arm.at, axis: arm.axis }, arm.tip);

/** Sign of the branch, from how it is drawn. `origin`: of the axle frame as drawn. */
export function swaySign(arm: SwayArm, origin: V3): 1 | -1 {
  const { c, w } = swayCircle(arm);
  return dot(sub(c, add(arm.axle, origin)), w) >= 0 ? 1 : -1;
}

/** Where the axle has the end of the link: R and o of the axle, vehicle axes. */
const linkEnd = <T>({ v }: Forms<T>, arm: SwayArm, R: NineOf<T>, o: Three<T>): Three<T> =>
  v.plus3(v.turnPlain(R, arm.axle), o);

/** Cosine and sine of the arm's turn from drawn, right-handed about the axis as entered, and its margin, (3) and (4). */
export function swayTurn<T>(
  forms: Forms<T>,
  arm: SwayArm,
  origin: V3,
  R: NineOf<T>,
  o: Three<T>,
): Driven<T> {
  const S = linkEnd(forms, arm, R, o);
  return drivenTurn(forms, swayCircle(arm), S, arm.length, swaySign(arm, origin));
}

const numbers: Forms<number> = { k: plain, v: plainVectors };

/** The turn of an arm at a pose; also where it has gone over center. */
export function swayTurnAt(
  arm: SwayArm,
  origin: V3,
  R: ArrayLike<number>,
  o: ArrayLike<number>,
): Driven<number> {
  const at: V3 = [o[0] as number, o[1] as number, o[2] as number];
  const S = linkEnd(numbers, arm, Array.from(R), [...at]);
  const { A, B, C, mm } = circleOnSphere(numbers, swayCircle(arm), S, arm.length);
  if (C * C < mm) return drivenTurn(numbers, swayCircle(arm), S, arm.length, swaySign(arm, origin));
  const m = Math.sqrt(mm) * Math.sign(C);
  return { cos: A / m, sin: B / m, margin: -Math.sqrt((C * C) / mm - 1) };
}

const withDerivatives: Forms<Jet> = { k: jets, v: jetVectors };

/** The same with its derivatives. */
export function swayTurnJets(arm: SwayArm, origin: V3, R: Turn, o: Jet3): Driven<Jet> {
  const S = linkEnd(withDerivatives, arm, R, o);
  const { A, B, C, mm } = circleOnSphere(withDerivatives, swayCircle(arm), S, arm.length);
  if ((C[0] as number) ** 2 < (mm[0] as number)) {
    return swayTurn(withDerivatives, arm, origin, R, o);
  }
  const inverse = jets.times(jets.reciprocal(jets.root(mm)), Math.sign(C[0] as number));
  const share = jets.product(C, inverse);
  return {
    cos: jets.product(A, inverse),
    sin: jets.product(B, inverse),
    margin: jets.times(jets.root(jets.minus(jets.product(share, share), constant(1))), -1),
  };
}
