/**
 * The closed forms of the steering, (1) to (5) of `steeringSolver.ts`, over any arithmetic: jets of a pose,
 * intervals of a cell.
 */
import type { KnuckleTurn, SteeringMechanism, SteeringRod } from '../mechanism/mechanism.ts';
import { cross, dot, reject, sub, turned, unit, type V3 } from '../vector.ts';
import type { Arithmetic, Three, Vectors } from './arithmetic.ts';

/** An arithmetic with its vectors. */
export interface Forms<T> {
  k: Arithmetic<T>;
  v: Vectors<T>;
}

/** Foot c on the kingpin axis, radius r and tangent w of a point on a knuckle as drawn, axle frame. */
export interface ArmVectors {
  c: V3;
  r: V3;
  w: V3;
}

export function armVectors(knuckle: KnuckleTurn, point: V3): ArmVectors {
  const r = reject(sub(point, knuckle.pivot), knuckle.axis);
  return { c: sub(point, r), r, w: cross(knuckle.axis, r) };
}

/** (1): the point at a turn. */
export const onArm = <T>({ v }: Forms<T>, a: ArmVectors, cos: T, sin: T): Three<T> =>
  v.plus3(
    v.constant3(a.c),
    v.plus3(v.product3(cos, v.constant3(a.r)), v.product3(sin, v.constant3(a.w))),
  );

export interface Driven<T> {
  cos: T;
  sin: T;
  margin: T;
}

/** (2): A cos τ + B sin τ = C, with m² = A² + B². */
export interface CircleOnSphere<T> {
  A: T;
  B: T;
  C: T;
  mm: T;
}

/** (2): where the circle of a point on an arm meets the sphere of a rod from S. */
export function circleOnSphere<T>(
  { k, v }: Forms<T>,
  a: ArmVectors,
  S: Three<T>,
  length: number,
): CircleOnSphere<T> {
  const e = v.minus3(v.constant3(a.c), S);
  const A = k.times(v.inner(e, v.constant3(a.r)), 2);
  const B = k.times(v.inner(e, v.constant3(a.w)), 2);
  const C = k.shifted(k.times(v.inner(e, e), -1), length * length - dot(a.r, a.r));
  return { A, B, C, mm: k.plus(k.product(A, A), k.product(B, B)) };
}

/** (2), (3), (4): the knuckle's turn by a rod from S; `sigma` is the branch's sign. */
export function drivenTurn<T>(
  forms: Forms<T>,
  a: ArmVectors,
  S: Three<T>,
  length: number,
  sigma: number,
): Driven<T> {
  const { k } = forms;
  const { A, B, C, mm } = circleOnSphere(forms, a, S, length);
  const h = k.times(k.root(k.minus(mm, k.product(C, C))), sigma);
  const inverse = k.reciprocal(mm);
  return {
    cos: k.product(k.plus(k.product(A, C), k.product(B, h)), inverse),
    sin: k.product(k.minus(k.product(B, C), k.product(A, h)), inverse),
    margin: k.times(k.product(h, k.root(inverse)), sigma),
  };
}

/** Sign of B cos τ − A sin τ where S and the turn are known: the branch. */
export function branchSign(a: ArmVectors, S: V3, cos: number, sin: number): 1 | -1 {
  const e = sub(a.c, S);
  return dot(e, a.w) * cos - dot(e, a.r) * sin >= 0 ? 1 : -1;
}

/** Direction of a rod's line as drawn, axle frame. */
export function drawnLine(rod: SteeringRod, origin: V3): V3 {
  const inAxle = (p: SteeringRod['from']): V3 => (p.on === 'pitman arm' ? sub(p.at, origin) : p.at);
  return unit(sub(inAxle(rod.to), inAxle(rod.from)));
}

/** (5): a point of a rod at a fraction along its drawn line and off it, from its ends now (axle frame). */
export function carriedPoint<T>(
  { k, v }: Forms<T>,
  rod: SteeringRod,
  origin: V3,
  fraction: number,
  off: V3,
  A: Three<T>,
  B: Three<T>,
): Three<T> {
  const D = v.minus3(B, A);
  const along = v.plus3(A, v.times3(D, fraction));
  if (off[0] === 0 && off[1] === 0 && off[2] === 0) return along;
  const line = drawnLine(rod, origin);
  const q = turned(off, line, Math.cos(rod.rollAt), Math.sin(rod.rollAt));
  const d = v.product3(k.reciprocal(k.root(v.inner(D, D))), D);
  return v.plus3(along, v.smallestTurn(line, d, v.constant3(q)));
}

/** (5) for the point by which one rod holds the other. */
export function heldPoint<T>(
  forms: Forms<T>,
  m: SteeringMechanism,
  origin: V3,
  A: Three<T>,
  B: Three<T>,
): Three<T> {
  const held = m.held as NonNullable<typeof m.held>;
  const rod = m.rods[held.rod] as SteeringRod;
  return carriedPoint(forms, rod, origin, held.fraction, held.off, A, B);
}

/** The end of a rod that is on a knuckle, axle frame. */
export function endOnKnuckle(m: SteeringMechanism, rod: number, side: 'left' | 'right'): V3 {
  const r = m.rods[rod] as SteeringRod;
  return r.from.on === `${side} knuckle` ? r.from.at : r.to.at;
}
