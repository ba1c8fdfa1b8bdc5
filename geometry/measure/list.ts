/** Every measure, in the order in which tables show them. A new one is one line here. */
import { bind } from './bind.ts';
import { bumpSteer } from './bumpSteer.ts';
import { camber } from './camber.ts';
import { caster, kingpinInclination } from './kingpin.ts';
import { axleSteer, knuckleSteer, meanSteer } from './meanSteer.ts';
import type { Measure } from './measure.ts';
import { linkRollWindow, misalignment, misalignmentFreeRoll } from './misalignment.ts';
import { overCenterMargin } from './overCenterMargin.ts';
import { pinionAngle, pinionChange } from './pinion.ts';
import {
  foreAftShift,
  lateralShift,
  lateralShiftArc,
  lateralShiftGround,
  lateralShiftRoll,
} from './shift.ts';
import { steer } from './steer.ts';
import { toe, totalToeChange } from './toe.ts';

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
  steer,
  toe,
  totalToeChange,
  overCenterMargin,
  // how the wheels stand
  camber,
  caster,
  kingpinInclination,
  // driveline
  pinionAngle,
  pinionChange,
  // joints and bind
  bind,
  misalignment,
  misalignmentFreeRoll,
  linkRollWindow,
];
