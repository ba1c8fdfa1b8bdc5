/**
 * Roll center and axle roll axis, from the pose's first derivatives along equal and opposite travels.
 *
 * Roll center: a sideways force on the sprung mass at height h over H rolls the axle by no amount where its
 * virtual work is none; the axle rolls by dφ and H goes sideways by dy, so h = dy/dφ (SAE J670's definition by
 * force). In a compliant layout the path is that of least energy. Closed-form cases: a level track bar, its
 * height over the ground; triangulated links, the height at the wheel-center plane of the line through both
 * plan-view apexes; that line's slope is the axle's steer by roll.
 */
import type { Jet } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { along, quotient, slopeOf } from './derivative.ts';
import { groundPoint, groundPointJets } from './ground.ts';
import { AXLE_TARGET, type Measure } from './measure.ts';
import { crossedUp, velocityAt } from './motion.ts';

/** Rate of a quantity by roll as the wheels go equal and opposite. */
const byRoll = (pose: Pose, quantity: Jet): Jet =>
  quotient(along(quantity, 1, -1), along(pose.axleJets().roll, 1, -1));

const height = (pose: Pose): Jet => byRoll(pose, groundPointJets(pose)[1]);
const slope = (pose: Pose): Jet => byRoll(pose, pose.axleJets().yaw);

export const rollCenterHeight: Measure = {
  id: 'rollCenterHeight',
  unit: 'in',
  label: 'roll center height',
  definition:
    'Height of the roll center over the ground midway between the tires: d(y of that point)/d(roll) along equal and opposite travels.',
  source: 'SAE J670 (roll center by force, by virtual work; from memory)',
  targets: () => [...AXLE_TARGET],
  value: context => {
    const motion = crossedUp(context);
    return velocityAt(motion, context.pose, groundPoint(context.pose))[1] / motion.roll;
  },
  slope: ({ pose }) => slopeOf(height(pose)),
};

export const axleRollAxisSlope: Measure = {
  id: 'axleRollAxisSlope',
  unit: 'deg/deg',
  label: 'axle steer by roll',
  definition:
    'd(axle steer)/d(roll) at this pose along equal and opposite travels: slope of the axle roll axis in side view; + turns left as the left wheel rises.',
  source: 'Gillespie, ch. 7; Milliken, ch. 17 (roll axis of a solid axle; from memory)',
  targets: () => [...AXLE_TARGET],
  value: context => {
    const { yaw, roll } = crossedUp(context);
    return yaw / roll;
  },
  slope: ({ pose }) => slopeOf(slope(pose)),
};
