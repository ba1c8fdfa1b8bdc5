/**
 * What a limit is: a signed margin at a pose, positive while it is kept. Stops hold the axle or the steering
 * and make the range; must-not-reach limits hold nothing and break.
 */
import type { Axle, Build } from '../build/build.ts';
import type { Measure, MeasureContext, Slope, Target } from '../measure/measure.ts';

export type LimitId =
  | 'bumpStop'
  | 'shockShort'
  | 'shockLong'
  | 'coilSolid'
  | 'strap'
  | 'steeringStop'
  | 'boxSweep'
  | 'ramEnd'
  | 'jointMisalignment'
  | 'driveshaftJoint'
  | 'driveshaftSlip'
  | 'axleShaftJoint'
  | 'overCenter'
  | 'lineLength'
  | 'coilUnseated';

/** What else bounds a range: no pose exists, or an assumption ends the walk. */
export type EndId = LimitId | 'noPose' | 'assumedTravel';

export interface LimitTarget {
  part: string;
  side: 'left' | 'right' | null;
  /** Which end of a two-ended limit: −1 the shorter (or right) one, +1 the longer (or left) one, else 0. */
  end: -1 | 0 | 1;
}

export interface Limit {
  id: LimitId;
  /** `travel` and `steering`: a stop of that; `mustNot`: a limit that breaks. */
  role: 'travel' | 'steering' | 'mustNot';
  unit: 'in' | 'deg' | '1';
  /** Shop English for 'what it is', as in 'shock topped out'. */
  label: string;
  targets(axle: Axle, build: Build): LimitTarget[];
  /** Margin in in or rad (or 1); null where the part stops nothing at this pose. */
  margin(context: MeasureContext, target: LimitTarget): number | null;
  /** Derivatives of the margin by left travel, right travel, steering input; null at a kink. */
  slope(context: MeasureContext, target: LimitTarget): Slope | null;
  /** Of a must-not-reach limit: it is nearest where this measure has this extreme. */
  nearestAt?(axle: Axle, target: LimitTarget): MeasureExtreme;
}

/** The least or the greatest value of a measure. */
export interface MeasureExtreme {
  measure: Measure;
  target: Target;
  extreme: 'least' | 'greatest';
}
