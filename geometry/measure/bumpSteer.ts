import { AXLE_TARGET, type Measure, NO_RIDE, NO_STEERING } from './measure.ts';
import { steerOf, steerSlope } from './wheel.ts';

/** Steer that travel alone makes while the steering wheel is held. */
export const bumpSteer: Measure = {
  id: 'bumpSteer',
  unit: 'deg',
  label: 'bump steer',
  definition:
    'Mean steer of both wheels less that at ride height with the same steering input; + turns left.',
  source: 'ISO 8855:2011, 7.1 (mean kinematic steer angle), difference from ride height',
  targets: axle => (axle.steered ? [...AXLE_TARGET] : []),
  value: context => {
    const { pose, rideSameSteer } = context;
    if (!pose.turn) return NO_STEERING;
    if (!rideSameSteer) return NO_RIDE;
    const mean = (p: typeof pose): number => (steerOf(p, 'left') + steerOf(p, 'right')) / 2;
    return mean(pose) - mean(rideSameSteer);
  },
  slope: ({ pose, rideSameSteer }) => {
    if (!rideSameSteer) return null;
    const left = steerSlope(pose, 'left');
    const right = steerSlope(pose, 'right');
    const still = steerSlope(rideSameSteer, 'left')[2] + steerSlope(rideSameSteer, 'right')[2];
    return [(left[0] + right[0]) / 2, (left[1] + right[1]) / 2, (left[2] + right[2] - still) / 2];
  },
};
