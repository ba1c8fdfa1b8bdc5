/**
 * How unevenly the driveshaft drives the pinion.
 *
 * A U-joint between a shaft along s and a flange along f, at the angle b (c = cos b): with p the trunnion of
 * the cross in the shaft's yoke, the condition p · (f × p) = 0 of the cross gives by derivation
 *   ω_f/ω_s = c / (1 − (f·p)²), f·p = sin b cos(angle of p from f's projection).
 * Two single joints on one shaft, with δ between their phases, drive the pinion at
 *   r = (c₂/c₁) (1 − s₁² cos² x) / (1 − s₂² cos²(x − δ)), s = sin b.
 * With R = r c₁/c₂ and cos² x = (1 + cos 2x)/2, some x exists for R where |A₁ − R A₂| ≤ |B₁ − R B₂ e^{2iδ}|
 * (A = 1 − s²/2, B = s²/2): a quadratic in R, whose roots are the extremes over a turn. Times c₂/c₁ they lie
 *   (1) 2 √D / (c₁ c₂) apart,
 *       D = ((s₁² − s₂²)/2)² + (X²/2)(2 M₀ + X²/2), X = s₁ s₂ sin δ, M₀ = 1 − (s₁² + s₂²)/2.
 * X is taken from vectors, so that no phase is needed where a joint is straight. The entered phase turns the
 * pinion's yoke right-handed about the line from the pinion to the transfer case. A double cardan is taken as
 * constant velocity: its s is 0.
 * Closed-form cases: one joint, sin² b / cos b; in phase and in one plane, |cos b₁/cos b₂ − cos b₂/cos b₁|.
 */
import type { Axle } from '../build/build.ts';
import type { Jet, Jet3 } from '../pose/jet.ts';
import {
  constant,
  constant3,
  inner,
  minus,
  outer,
  plus,
  product,
  root,
  shifted,
  times,
} from '../pose/jet.ts';
import { cross, dot, norm, unit, type V3 } from '../vector.ts';
import { length3, quotient, slopeOf } from './derivative.ts';
import { shaftLine, shaftLineJets } from './jointAngle.ts';
import type { Measure, MeasureContext } from './measure.ts';
import { drivelineOf, withDriveline } from './pinion.ts';

/** Under this D of (1) the ripple is at its kink, zero, and has no derivative. */
const EVEN = 1e-20;

/** cos b under which a joint can't turn at all. */
const LOCKED = 1e-9;

const doubleCardan = (axle: Axle, end: 'pinion' | 'transferCase'): boolean =>
  drivelineOf(axle)[end].kind === 'double cardan';

/** D and c₁ c₂ of (1). */
function parts({ axle, pose }: MeasureContext): { D: number; cosines: number } {
  const line = drivelineOf(axle);
  const s = unit(shaftLine(pose, line));
  const f1 = line.transferCase.axis;
  const f2 = pose.direction('axle', line.pinion.axis);
  const square = (f: V3, cv: boolean): number => (cv ? 0 : norm(cross(f, s)) ** 2);
  const cosine = (f: V3, cv: boolean): number => (cv ? 1 : Math.abs(dot(f, s)));
  const cv1 = doubleCardan(axle, 'transferCase');
  const cv2 = doubleCardan(axle, 'pinion');
  const [a, b] = [square(f1, cv1), square(f2, cv2)];
  const X =
    cv1 || cv2
      ? 0
      : Math.cos(line.phase) * dot(s, cross(f1, f2)) -
        Math.sin(line.phase) * (dot(f1, f2) - dot(f1, s) * dot(f2, s));
  const twist = (X * X) / 2;
  return {
    D: ((a - b) / 2) ** 2 + twist * (2 - a - b + twist),
    cosines: cosine(f1, cv1) * cosine(f2, cv2),
  };
}

function rippleJet({ axle, pose }: MeasureContext): Jet {
  const line = drivelineOf(axle);
  const along = shaftLineJets(pose, line);
  const size = length3(along);
  const f1 = constant3(line.transferCase.axis);
  const f2 = pose.directionJets('axle', line.pinion.axis);
  const cv1 = doubleCardan(axle, 'transferCase');
  const cv2 = doubleCardan(axle, 'pinion');
  const cosine = (f: Jet3): Jet => quotient(inner(f, along), size);
  const squareOf = (f: Jet3): Jet => {
    const across = outer(f, along);
    return quotient(inner(across, across), product(size, size));
  };
  const none = constant(0);
  const [a, b] = [cv1 ? none : squareOf(f1), cv2 ? none : squareOf(f2)];
  const X =
    cv1 || cv2
      ? none
      : minus(
          times(quotient(inner(along, outer(f1, f2)), size), Math.cos(line.phase)),
          times(minus(inner(f1, f2), product(cosine(f1), cosine(f2))), Math.sin(line.phase)),
        );
  const twist = times(product(X, X), 0.5);
  const uneven = times(minus(a, b), 0.5);
  const D = plus(
    product(uneven, uneven),
    product(twist, plus(shifted(times(plus(a, b), -1), 2), twist)),
  );
  const one = constant(1);
  const cosines = product(cv1 ? one : cosine(f1), cv2 ? one : cosine(f2));
  return times(quotient(root(D), cosines), 2 * Math.sign(cosines[0] as number));
}

export const pinionSpeedRipple: Measure = {
  id: 'pinionSpeedRipple',
  unit: '%',
  label: 'uneven drive of the pinion',
  definition:
    'Speed of the pinion at an even speed of the transfer case, greatest less least over a turn, both joints with their phase; a double cardan joint adds none.',
  source:
    "Hooke's joint: ω₂/ω₁ = cos b/(1 − sin² b cos² θ) (web engineering page, retrieved; derived here)",
  targets: withDriveline,
  value: context => {
    const { D, cosines } = parts(context);
    if (cosines < LOCKED) return { missing: 'a U-joint stands at 90 degrees' };
    return (2 * Math.sqrt(D)) / cosines;
  },
  slope: context => {
    const { D, cosines } = parts(context);
    return D < EVEN || cosines < LOCKED ? null : slopeOf(rippleJet(context));
  },
};
