/**
 * How far the driver must turn the steering wheel so that travel has not steered: F(l, r, s + Δ) = F(0, 0, s)
 * with F the mean steer; the measure is box ratio × Δ. The root by secants, since each evaluation is one closed
 * form of the steering on an axle that does not move. Slopes by the implicit function theorem at the root:
 *   Δ_l = −F_l/F_s, Δ_r = −F_r/F_s, Δ_s = (F_s(ride) − F_s)/F_s.
 * Closed-form case: no bump steer, 0; a steering that turns the wheels as much as the pitman: ratio × −bumpSteer.
 */
import type { Pose } from '../pose/pose.ts';
import { slopeOf } from './derivative.ts';
import { kept } from './kept.ts';
import { AXLE_TARGET, type Measure, type MeasureContext, NO_RIDE } from './measure.ts';
import { meanSteerJet, meanSteerOf } from './wheel.ts';

/** Step of the pitman angle, rad, that is not worth taking: the error left is as small. */
const STEP_END = 1e-13;

/** Error of the mean steer that rounding makes anyway, rad. */
const ERROR_END = 1e-14;

/** The pose with the pitman turned so that mean steer is again its ride value; null: out of reach. */
const straightened = kept(({ model, pose, rideSameSteer }: MeasureContext): Pose | null => {
  if (!rideSameSteer) return null;
  const wanted = meanSteerOf(rideSameSteer);
  let before = pose.input.steer;
  let errorBefore = meanSteerOf(pose) - wanted;
  if (Math.abs(errorBefore) < ERROR_END) return pose;
  // the linkage turns the wheels by about as much as the pitman: the first guess of its slope
  let at = before - errorBefore;
  for (let step = 0; step < 30; step++) {
    const next = model.atSteer(pose, at).pose;
    if (!next) return null;
    const error = meanSteerOf(next) - wanted;
    const change = (-error * (at - before)) / (error - errorBefore);
    if (Math.abs(error) < ERROR_END || Math.abs(change) < STEP_END) return next;
    if (!Number.isFinite(change)) return null;
    before = at;
    errorBefore = error;
    at += change;
  }
  return null;
});

export const steeringWheelToStraight: Measure = {
  id: 'steeringWheelToStraight',
  unit: 'deg',
  label: 'steering wheel to keep straight',
  definition:
    'Box ratio times the pitman angle to add at this pose so that mean steer is again that at ride height with the same steering input; + to the left.',
  source: 'ISO 8855:2011, 7.1.8 (steering-wheel angle, positive to the left)',
  targets: axle => (axle.steering?.box ? [...AXLE_TARGET] : []),
  value: context => {
    const ratio = context.axle.steering?.box?.ratio;
    if (!ratio) return { missing: 'the ratio of the steering box is not given' };
    if (!context.rideSameSteer) return NO_RIDE;
    const found = straightened(context, '');
    if (!found) return { missing: 'the steering can not bring the wheels back from here' };
    return ratio * (found.input.steer - context.pose.input.steer);
  },
  slope: context => {
    const ratio = context.axle.steering?.box?.ratio;
    const { rideSameSteer } = context;
    const found = straightened(context, '');
    if (!ratio || !rideSameSteer || !found) return null;
    const [left, right, steer] = slopeOf(meanSteerJet(found));
    const still = slopeOf(meanSteerJet(rideSameSteer))[2];
    return [(-ratio * left) / steer, (-ratio * right) / steer, (ratio * (still - steer)) / steer];
  },
};
