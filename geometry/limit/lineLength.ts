import { lineSlack } from '../measure/lineSlack.ts';
import { type Bound, boundLimit } from './bound.ts';

/** A hose or wire pulled tight: its free length less the straight distance between its ends. */
export const lineLength = boundLimit(
  { id: 'lineLength', unit: 'in', label: 'line too short' },
  axle =>
    axle.lines.map(
      ({ name: part }): Bound => ({
        target: { part, side: null, end: 0 },
        measure: lineSlack,
        of: { part, side: null },
        way: -1,
        value: 0,
      }),
    ),
);
