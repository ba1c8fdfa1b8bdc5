import { overCenterMargin } from '../measure/overCenterMargin.ts';
import { rodsOf } from '../measure/rolling.ts';
import { type Bound, boundLimit } from './bound.ts';

/** A steering rod over center: its margin is 0 where its branch vanishes, and no pose lies beyond. */
export const overCenter = boundLimit(
  { id: 'overCenter', unit: '1', label: 'steering over center' },
  axle =>
    (axle.steered ? rodsOf(axle) : []).map(
      ({ name: part }): Bound => ({
        target: { part, side: null, end: 0 },
        measure: overCenterMargin,
        of: { part, side: null },
        way: -1,
        value: 0,
      }),
    ),
);
