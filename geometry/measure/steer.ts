import { type Measure, WHEEL_TARGETS } from './measure.ts';
import { type Side, steerOf, steerSlope } from './wheel.ts';

/** Steer of each wheel: closed-form case, the knuckle's turn where the kingpin stands upright. */
export const steer: Measure = {
  id: 'steer',
  unit: 'deg',
  label: 'steer',
  definition:
    'Angle of the wheel plane to the vehicle X axis about Z: atan2(−n_x, n_y), n the spin axis leftward; + turns left.',
  source: 'ISO 8855:2011, 7.1 (steer angle)',
  targets: () => [...WHEEL_TARGETS],
  value: ({ pose }, { side }) => steerOf(pose, side as Side),
  slope: ({ pose }, { side }) => steerSlope(pose, side as Side),
};
