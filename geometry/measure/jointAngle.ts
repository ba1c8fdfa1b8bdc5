/**
 * Working angles of U-joints: at the pinion, at the transfer case, and of the axle shafts at the knuckles.
 * Closed-form cases: pinion axis up by p, shaft in the same vertical plane up by s: |p − s|; a wheel turned by
 * τ about an upright kingpin, straight and upright as drawn: |τ|.
 */
import { constant3, inner, type Jet3, minus3, outer, times } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { cross, dot, norm, sub, type V3 } from '../vector.ts';
import { arctangent, length3, slopeOf } from './derivative.ts';
import { type Measure, type Slope, steeredWheels } from './measure.ts';
import { drivelineOf, withDriveline } from './pinion.ts';
import { type Side, spinAxis, spinAxisJets } from './wheel.ts';

type Driveline = ReturnType<typeof drivelineOf>;

/** From the pinion's joint to the transfer case's, in. */
export const shaftLine = (pose: Pose, { pinion, transferCase }: Driveline): V3 =>
  sub(transferCase.joint, pose.point('axle', pinion.joint));
export const shaftLineJets = (pose: Pose, { pinion, transferCase }: Driveline): Jet3 =>
  minus3(constant3(transferCase.joint), pose.pointJets('axle', pinion.joint));

/** Angle between two lines, 0 to 90°, rad. */
const lineAngle = (a: V3, b: V3): number => Math.atan2(norm(cross(a, b)), Math.abs(dot(a, b)));

/** Its derivatives; null where the lines are parallel or square to each other: kinks. */
function lineAngleSlope(a: Jet3, b: Jet3): Slope | null {
  const across = outer(a, b);
  const along = inner(a, b);
  const value = along[0] as number;
  const size = norm([across[0][0] as number, across[1][0] as number, across[2][0] as number]);
  const whole = Math.hypot(size, value);
  if (size < 1e-9 * whole || Math.abs(value) < 1e-9 * whole) return null;
  return slopeOf(arctangent(length3(across), times(along, Math.sign(value))));
}
export const pinionJointAngle: Measure = {
  id: 'pinionJointAngle',
  unit: 'deg',
  label: 'U-joint angle at the pinion',
  definition:
    'Angle between the pinion axis and the line from its joint to the joint at the transfer case, 0 to 90°.',
  source: 'SAE AE-7, Universal Joint and Driveshaft Design Manual (from memory)',
  targets: withDriveline,
  value: ({ axle, pose }) => {
    const line = drivelineOf(axle);
    return lineAngle(pose.direction('axle', line.pinion.axis), shaftLine(pose, line));
  },
  slope: ({ axle, pose }) => {
    const line = drivelineOf(axle);
    return lineAngleSlope(pose.directionJets('axle', line.pinion.axis), shaftLineJets(pose, line));
  },
};

export const transferJointAngle: Measure = {
  id: 'transferJointAngle',
  unit: 'deg',
  label: 'U-joint angle at the transfer case',
  definition:
    'Angle between the output axis of the transfer case and the line from its joint to the joint at the pinion, 0 to 90°.',
  source: 'SAE AE-7, Universal Joint and Driveshaft Design Manual (from memory)',
  targets: withDriveline,
  value: ({ axle, pose }) => {
    const line = drivelineOf(axle);
    return lineAngle(line.transferCase.axis, shaftLine(pose, line));
  },
  slope: ({ axle, pose }) => {
    const line = drivelineOf(axle);
    return lineAngleSlope(constant3(line.transferCase.axis), shaftLineJets(pose, line));
  },
};

/** The housing's axis as drawn: axle axes are parallel to the vehicle's there. */
const HOUSING: V3 = [0, 1, 0];

export const axleShaftJointAngle: Measure = {
  id: 'axleShaftJointAngle',
  unit: 'deg',
  label: 'joint angle of the axle shaft',
  definition: "Angle between the housing's axis and the wheel's spin axis, 0 to 90°.",
  source: 'geometry',
  targets: steeredWheels,
  value: ({ pose }, { side }) =>
    lineAngle(pose.direction('axle', HOUSING), spinAxis(pose, side as Side)),
  slope: ({ pose }, { side }) =>
    lineAngleSlope(pose.directionJets('axle', HOUSING), spinAxisJets(pose, side as Side)),
};
