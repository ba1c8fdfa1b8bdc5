/**
 * How far the outer wheel is from the steer that makes both wheels roll about one point of the rear axle's line:
 *   cot(outer) = cot(inner) + T/L,
 * T between the kingpin axes at the ground, L the wheelbase. With inner i: outer = atan2(sin i, cos i + T/L sin i),
 * which is 0 at straight and goes on smoothly to both sides. Closed-form case: L 2.6, T 1.5, inner 28° → 22.1411°.
 */
import { cosine, type Jet, minus, minus3, plus, product, sine, times } from '../pose/jet.ts';
import { distance } from '../vector.ts';
import { arctangent, length3, slopeOf } from './derivative.ts';
import { kingpinOnGround, kingpinOnGroundJets } from './kingpin.ts';
import { type Measure, steeredAxle } from './measure.ts';
import { meanSteerOf, type Side, steerJet, steerOf } from './wheel.ts';

/** Outer steer that goes with an inner one, rad; `ratio` is T/L. */
export const ackermannOuter = (inner: number, ratio: number): number =>
  Math.atan2(Math.sin(inner), Math.cos(inner) + ratio * Math.sin(inner));

/** Which wheel is the turn's inner one, and the sign that makes its steer positive. */
function turnOf(meanSteer: number): { inner: Side; outer: Side; sign: 1 | -1 } {
  return meanSteer >= 0
    ? { inner: 'left', outer: 'right', sign: 1 }
    : { inner: 'right', outer: 'left', sign: -1 };
}

export const ackermannError: Measure = {
  id: 'ackermannError',
  unit: 'deg',
  label: 'Ackermann error',
  definition:
    'Steer of the outer wheel less arccot(cot(inner steer) + T/L), both taken positive into the turn; T between the kingpin axes at the ground, L wheelbase; + outer wheel turned too far.',
  source: 'ISO 8855:2011, 7.1.9 (Ackermann geometry); Khurmi, Theory of Machines (the identity)',
  targets: steeredAxle,
  value: ({ build, pose }) => {
    const { inner, outer, sign } = turnOf(meanSteerOf(pose));
    const T = distance(kingpinOnGround(pose, 'left'), kingpinOnGround(pose, 'right'));
    return (
      sign * steerOf(pose, outer) - ackermannOuter(sign * steerOf(pose, inner), T / build.wheelbase)
    );
  },
  slope: ({ build, pose }) => {
    const mean = meanSteerOf(pose);
    const { inner, outer, sign } = turnOf(mean);
    const i = times(steerJet(pose, inner), sign);
    const at = i[0] as number;
    // exactly straight with static toe the inner wheel is another one to either side: a kink
    if (mean === 0 && at !== 0) return null;
    const T = length3(
      minus3(kingpinOnGroundJets(pose, 'left'), kingpinOnGroundJets(pose, 'right')),
    );
    const sin = sine(i, Math.cos(at), Math.sin(at));
    const cos = cosine(i, Math.cos(at), Math.sin(at));
    const ideal: Jet = arctangent(sin, plus(cos, times(product(T, sin), 1 / build.wheelbase)));
    return slopeOf(minus(times(steerJet(pose, outer), sign), ideal));
  },
};
