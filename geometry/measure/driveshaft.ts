/** How far the driveshaft's spline slides. Closed-form case: Pythagoras between the two joints. */
import { norm } from '../vector.ts';
import { length3, slopeOf } from './derivative.ts';
import { shaftLine, shaftLineJets } from './jointAngle.ts';
import type { Measure } from './measure.ts';
import { drivelineOf, withDriveline } from './pinion.ts';

export const driveshaftSlip: Measure = {
  id: 'driveshaftSlip',
  unit: 'in',
  label: 'driveshaft slip',
  definition: 'Distance between the joints of the driveshaft less that at ride height; + longer.',
  source: 'geometry',
  targets: withDriveline,
  value: ({ axle, pose, ride }) => {
    const line = drivelineOf(axle);
    return norm(shaftLine(pose, line)) - norm(shaftLine(ride, line));
  },
  slope: ({ axle, pose }) => slopeOf(length3(shaftLineJets(pose, drivelineOf(axle)))),
};
