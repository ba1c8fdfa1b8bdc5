import { overCenterMargin, overCenterTargets } from '../measure/overCenterMargin.ts';
import { type Bound, boundLimit } from './bound.ts';

/**
 * A steering rod over center: its margin is 0 where its branch vanishes, and no pose lies beyond. Likewise the end link
 * of a sway bar, beyond which the axle goes on.
 */
export const overCenter = boundLimit({ id: 'overCenter', unit: '1', label: 'over center' }, axle =>
  overCenterTargets(axle).map(
    ({ part }): Bound => ({
      target: { part: part as string, side: null, end: 0 },
      measure: overCenterMargin,
      of: { part, side: null },
      way: -1,
      value: 0,
    }),
  ),
);
