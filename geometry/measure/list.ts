/** Every measure, in the order in which tables show them. A new one is one line here. */
import { ackermannError } from './ackermannError.ts';
import {
  antiSquat,
  antiSquatCrossed,
  brakeAntiDive,
  brakeAntiDiveCrossed,
  brakeAntiLift,
  brakeAntiLiftCrossed,
  driveAntiLift,
  driveAntiLiftCrossed,
} from './antis.ts';
import { bind } from './bind.ts';
import { bumpSteer } from './bumpSteer.ts';
import { camber } from './camber.ts';
import { mechanicalTrail, scrubRadius } from './contact.ts';
import {
  dragLinkMinusTrackBar,
  dragLinkToTrackBarFront,
  dragLinkToTrackBarPlan,
} from './dragLinkToTrackBar.ts';
import { driveshaftSlip } from './driveshaft.ts';
import { axleShaftJointAngle, pinionJointAngle, transferJointAngle } from './jointAngle.ts';
import { caster, kingpinInclination } from './kingpin.ts';
import { lineBendRadius, lineSlack } from './lineSlack.ts';
import { axleSteer, knuckleSteer, meanSteer } from './meanSteer.ts';
import type { Measure } from './measure.ts';
import { linkRollWindow, misalignment, misalignmentFreeRoll } from './misalignment.ts';
import { overCenterMargin } from './overCenterMargin.ts';
import { pinionAngle, pinionChange } from './pinion.ts';
import { pinionSpeedRipple } from './pinionSpeedRipple.ts';
import { ramSlop, rodSlop } from './rodSlop.ts';
import { axleRollAxisSlope, rollCenterHeight } from './rollAxis.ts';
import {
  foreAftShift,
  lateralShift,
  lateralShiftArc,
  lateralShiftGround,
  lateralShiftRoll,
} from './shift.ts';
import { sideViewCenterX, sideViewCenterZ } from './sideViewCenter.ts';
import {
  coilLength,
  coilMotionRatio,
  coilMotionRatioCrossed,
  ramLength,
  ramStrokeShare,
  shockLength,
  shockMotionRatio,
  shockMotionRatioCrossed,
  shockStrokeShare,
} from './springLength.ts';
import { steer } from './steer.ts';
import { steeringWheelToStraight } from './steeringWheelToStraight.ts';
import { stopHeight } from './stopHeight.ts';
import { swayBarTurn } from './swayBar.ts';
import { toe, totalToeChange } from './toe.ts';
import { torsionalMoment } from './torsionalMoment.ts';
import { turningCircle } from './turningCircle.ts';

export const measures: readonly Measure[] = [
  // where the axle has gone
  lateralShift,
  lateralShiftArc,
  lateralShiftRoll,
  lateralShiftGround,
  foreAftShift,
  // where the wheels point
  meanSteer,
  axleSteer,
  knuckleSteer,
  bumpSteer,
  steeringWheelToStraight,
  steer,
  toe,
  totalToeChange,
  ackermannError,
  turningCircle,
  // steering linkage
  dragLinkToTrackBarFront,
  dragLinkToTrackBarPlan,
  dragLinkMinusTrackBar,
  overCenterMargin,
  rodSlop,
  ramSlop,
  ramLength,
  ramStrokeShare,
  // how the wheels stand
  camber,
  caster,
  kingpinInclination,
  mechanicalTrail,
  scrubRadius,
  // how the axle reacts
  rollCenterHeight,
  axleRollAxisSlope,
  sideViewCenterX,
  sideViewCenterZ,
  brakeAntiDive,
  brakeAntiDiveCrossed,
  driveAntiLift,
  driveAntiLiftCrossed,
  antiSquat,
  antiSquatCrossed,
  brakeAntiLift,
  brakeAntiLiftCrossed,
  // driveline
  pinionAngle,
  pinionChange,
  pinionJointAngle,
  transferJointAngle,
  pinionSpeedRipple,
  driveshaftSlip,
  axleShaftJointAngle,
  // springs, stops, lines
  shockLength,
  shockStrokeShare,
  shockMotionRatio,
  shockMotionRatioCrossed,
  coilLength,
  coilMotionRatio,
  coilMotionRatioCrossed,
  stopHeight,
  swayBarTurn,
  lineSlack,
  lineBendRadius,
  // joints and bind
  bind,
  torsionalMoment,
  misalignment,
  misalignmentFreeRoll,
  linkRollWindow,
];
