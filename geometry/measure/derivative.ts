/** What measures do with jets (`pose/jet.ts`): slopes, rates along a motion, and the functions that they need. */
import {
  composed,
  inner,
  type Jet,
  type Jet3,
  outer,
  plus,
  product,
  reciprocal,
  root,
  SECOND,
  shifted,
  times,
} from '../pose/jet.ts';
import type { Slope } from './measure.ts';

/** First derivatives of a jet by left travel, right travel and steering input, times a factor. */
export const slopeOf = (jet: Jet, factor = 1): Slope => [
  factor * (jet[1] as number),
  factor * (jet[2] as number),
  factor * (jet[3] as number),
];

/**
 * Rate of a quantity along a motion of the wheels, `left` and `right` being its parts: (1, 1) both wheels
 * together, (1, −1) equal and opposite, left up. The rate's own first derivatives come from the second
 * derivatives of the quantity; its second ones are unknown and NaN, so that nobody can take them for known.
 */
export function along(jet: Jet, left: number, right: number): Jet {
  const rate: Jet = new Array(jet.length).fill(Number.NaN);
  rate[0] = left * (jet[1] as number) + right * (jet[2] as number);
  for (let k = 0; k < 3; k++) {
    rate[1 + k] =
      left * (jet[SECOND[0]?.[k] as number] as number) +
      right * (jet[SECOND[1]?.[k] as number] as number);
  }
  return rate;
}

export const quotient = (a: Jet, b: Jet): Jet => product(a, reciprocal(b));

/** Length of a vector that is not zero. */
export const length3 = (v: Jet3): Jet => root(inner(v, v));

/**
 * atan2(y, x). With θ₀ its value and (c, s) the vector (x, y) turned back by θ₀, the angle is θ₀ + atan(s/c),
 * and atan is its own argument to second order where s is zero.
 */
export function arctangent(y: Jet, x: Jet): Jet {
  const angle = Math.atan2(y[0] as number, x[0] as number);
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const c = plus(times(x, cos), times(y, sin));
  const s = plus(times(y, cos), times(x, -sin));
  return shifted(quotient(s, c), angle);
}

/** asin(a) for |a| < 1. */
export function arcsine(a: Jet): Jet {
  const sin = a[0] as number;
  const cos2 = 1 - sin * sin;
  const cos = Math.sqrt(cos2);
  return composed(a, Math.asin(sin), 1 / cos, sin / (cos2 * cos));
}

/** Angle between two vectors, 0 to π; no derivative where they are parallel (its value is then 0 or π). */
export const angleBetween3 = (a: Jet3, b: Jet3): Jet =>
  arctangent(length3(outer(a, b)), inner(a, b));
