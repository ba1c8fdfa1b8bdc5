import { axleShaftJointAngle } from '../measure/jointAngle.ts';
import { type Bound, boundLimit } from './bound.ts';

/** Outer joint of an axle shaft past its angle; steering turns it, and travel by way of bump steer. */
export const axleShaftJoint = boundLimit(
  { id: 'axleShaftJoint', unit: 'deg', label: 'axle shaft joint past its angle' },
  ({ knuckles }) =>
    (['left', 'right'] as const).flatMap((side): Bound[] => {
      const value = knuckles?.[side].shaftLimit ?? null;
      if (value === null) return [];
      const target = { part: `${side} knuckle`, side, end: 0 } as const;
      return [{ target, measure: axleShaftJointAngle, of: { part: null, side }, way: 1, value }];
    }),
);
