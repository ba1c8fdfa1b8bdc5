/**
 * Pinion angle and its change. Closed-form case: a radius arm of length R rigid to the axle, level as drawn:
 * the change is ∓asin(z/R), nose down in bump for a front arm that runs back to the frame.
 */
import type { Axle } from '../build/build.ts';
import type { Jet } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { arcsine, slopeOf } from './derivative.ts';
import { AXLE_TARGET, type Measure, type Target } from './measure.ts';

/** Targets of a measure that needs a driveline. */
export const withDriveline = (axle: Axle): Target[] => (axle.driveline ? [...AXLE_TARGET] : []);

/** The driveline of an axle that has one. */
export const drivelineOf = (axle: Axle): NonNullable<Axle['driveline']> =>
  axle.driveline as NonNullable<Axle['driveline']>;

const angle = (axle: Axle, pose: Pose): number =>
  Math.asin(pose.direction('axle', drivelineOf(axle).pinion.axis)[2]);
const angleJet = (axle: Axle, pose: Pose): Jet =>
  arcsine(pose.directionJets('axle', drivelineOf(axle).pinion.axis)[2]);

export const pinionAngle: Measure = {
  id: 'pinionAngle',
  unit: 'deg',
  label: 'pinion angle',
  definition:
    'Elevation of the pinion axis as it points out of its flange: asin of its Z; + nose up.',
  source: 'common practice, no source',
  targets: withDriveline,
  value: ({ axle, pose }) => angle(axle, pose),
  slope: ({ axle, pose }) => slopeOf(angleJet(axle, pose)),
};

export const pinionChange: Measure = {
  id: 'pinionChange',
  unit: 'deg',
  label: 'change of pinion angle',
  definition: 'Pinion angle less that at ride height; + nose up.',
  source: 'common practice, no source',
  targets: withDriveline,
  value: ({ axle, pose, ride }) => angle(axle, pose) - angle(axle, ride),
  slope: ({ axle, pose }) => slopeOf(angleJet(axle, pose)),
};
