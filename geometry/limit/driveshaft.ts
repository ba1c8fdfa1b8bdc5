/** What breaks in a driveshaft: its U-joints and its spline. */
import { driveshaftSlip as slipMeasure } from '../measure/driveshaft.ts';
import { pinionJointAngle, shaftLine, transferJointAngle } from '../measure/jointAngle.ts';
import { distance, norm } from '../vector.ts';
import { type Bound, boundLimit } from './bound.ts';
import type { Limit, LimitTarget } from './limit.ts';

/** U-joint past its angle, at the pinion and at the transfer case. */
export const driveshaftJoint = boundLimit(
  { id: 'driveshaftJoint', unit: 'deg', label: 'U-joint past its angle' },
  ({ driveline }) => {
    if (!driveline) return [];
    const bound = (end: string, value: number | null, measure: Bound['measure']): Bound[] =>
      value === null
        ? []
        : [
            {
              target: { part: `driveshaft.${end}`, side: null, end: 0 },
              measure,
              of: { part: null, side: null },
              way: 1,
              value,
            },
          ];
    return [
      ...bound('pinion', driveline.pinion.limit, pinionJointAngle),
      ...bound('transfer case', driveline.transferCase.limit, transferJointAngle),
    ];
  },
);

/**
 * Spline of the driveshaft bottomed (`end` −1) or pulled out (+1): slip that is left, counted from the length
 * as drawn. (The measure counts from ride height, which given lengths of links move away from the drawing.)
 */
export const driveshaftSlip: Limit = {
  id: 'driveshaftSlip',
  role: 'mustNot',
  unit: 'in',
  label: 'slip of the driveshaft used up',
  targets: ({ driveline }) =>
    driveline?.slip
      ? ([-1, 1] as const).map((end): LimitTarget => ({ part: 'driveshaft', side: null, end }))
      : [],
  margin: ({ pose, axle: { driveline } }, { end }) => {
    if (!driveline?.slip) return null;
    const drawn = distance(driveline.pinion.joint, driveline.transferCase.joint);
    const longer = norm(shaftLine(pose, driveline)) - drawn;
    return end < 0 ? longer - driveline.slip[0] : driveline.slip[1] - longer;
  },
  slope: (context, { end }) => {
    const slope = slipMeasure.slope(context, AXLE);
    return slope && [-end * slope[0], -end * slope[1], -end * slope[2]];
  },
  nearestAt: (_, { end }) => ({
    measure: slipMeasure,
    target: AXLE,
    extreme: end < 0 ? 'least' : 'greatest',
  }),
};

const AXLE = { part: null, side: null };
