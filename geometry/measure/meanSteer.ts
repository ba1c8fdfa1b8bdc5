/**
 * Mean steer and its two parts: what the axle turns, and what the knuckles turn on it. Closed-form case: no
 * steering input, tie rod and drag link without effect: meanSteer = axleSteer; the axle held, all of it is
 * the knuckles'.
 */
import { minus } from '../pose/jet.ts';
import { slopeOf } from './derivative.ts';
import { AXLE_TARGET, type Measure, steeredAxle } from './measure.ts';
import { meanSteerJet, meanSteerOf } from './wheel.ts';

export const meanSteer: Measure = {
  id: 'meanSteer',
  unit: 'deg',
  label: 'mean steer',
  definition: 'Mean of the steer of both wheels; + turns left.',
  source: 'ISO 8855:2011, 7.1.3 (mean kinematic steer angle), read at any travel',
  targets: () => [...AXLE_TARGET],
  value: ({ pose }) => meanSteerOf(pose),
  slope: ({ pose }) => slopeOf(meanSteerJet(pose)),
};

export const axleSteer: Measure = {
  id: 'axleSteer',
  unit: 'deg',
  label: 'axle steer',
  definition: 'Yaw of the housing in the chassis, of Rz(yaw) · Rx(roll) · Ry(pitch); + turns left.',
  source:
    'Gillespie, Fundamentals of Vehicle Dynamics, ch. 7 (roll steer of a solid axle; from memory)',
  targets: () => [...AXLE_TARGET],
  value: ({ pose }) => pose.yaw,
  slope: ({ pose }) => slopeOf(pose.axleJets().yaw),
};

export const knuckleSteer: Measure = {
  id: 'knuckleSteer',
  unit: 'deg',
  label: 'steer of the knuckles on the axle',
  definition: 'Mean steer less axle steer; + turns left.',
  source: 'difference of the two',
  targets: steeredAxle,
  value: ({ pose }) => meanSteerOf(pose) - pose.yaw,
  slope: ({ pose }) => slopeOf(minus(meanSteerJet(pose), pose.axleJets().yaw)),
};
