/** Every limit. Stops of travel and of steering make the range; the others must not be reached in it. */
import { axleShaftJoint } from './axleShaftJoint.ts';
import { bumpStop } from './bumpStop.ts';
import { coilSolid, coilUnseated } from './coil.ts';
import { driveshaftJoint, driveshaftSlip } from './driveshaft.ts';
import { jointMisalignment } from './jointMisalignment.ts';
import type { Limit } from './limit.ts';
import { lineLength } from './lineLength.ts';
import { overCenter } from './overCenter.ts';
import { shockLong, shockShort } from './shock.ts';
import { boxSweep, ramEnd, steeringStop } from './steering.ts';
import { strap } from './strap.ts';

export const limits: readonly Limit[] = [
  bumpStop,
  shockShort,
  shockLong,
  coilSolid,
  strap,
  steeringStop,
  boxSweep,
  ramEnd,
  jointMisalignment,
  driveshaftJoint,
  driveshaftSlip,
  axleShaftJoint,
  overCenter,
  lineLength,
  coilUnseated,
];
