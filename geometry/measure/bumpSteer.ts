import { slopeOf } from './derivative.ts';
import { type Measure, NO_RIDE, steeredAxle } from './measure.ts';
import { meanSteerJet, meanSteerOf } from './wheel.ts';

/**
 * Steer that travel alone makes while the steering wheel is held. Closed-form case: drag link and track bar
 * equal, parallel and level, no turn of the axle: none at any height; unequal lengths, kingpin upright, arm r:
 * to second order z²/(2r) · (1/L_drag link − 1/L_track bar).
 */
export const bumpSteer: Measure = {
  id: 'bumpSteer',
  unit: 'deg',
  label: 'bump steer',
  definition:
    'Mean steer of both wheels less that at ride height with the same steering input; + turns left.',
  source: 'ISO 8855:2011, 7.1.3 (mean kinematic steer angle), difference from ride height',
  targets: steeredAxle,
  value: ({ pose, rideSameSteer }) =>
    rideSameSteer ? meanSteerOf(pose) - meanSteerOf(rideSameSteer) : NO_RIDE,
  slope: ({ pose, rideSameSteer }) => {
    if (!rideSameSteer) return null;
    const [left, right, steer] = slopeOf(meanSteerJet(pose));
    return [left, right, steer - slopeOf(meanSteerJet(rideSameSteer))[2]];
  },
};
