/** Gaps as one table of comma-separated values: the pose of the least gap first, a row a pair. */
import type { AxleGapReport } from '../../geometry/gap/gapReport.ts';
import { cell } from './walkCsv.ts';

export function gapsCsv(axles: readonly AxleGapReport[]): string {
  const pairs = axles.flatMap(({ axle, pairs: all }) => all.map(pair => ({ axle, pair })));
  const steer = pairs.find(({ pair }) => pair.pose.steer !== null)?.pair.pose.steer?.unit;
  const points = ['A', 'B'].flatMap(of => ['x', 'y', 'z'].map(c => `point${of} [${c}] (in)`));
  const rows: (string | number | null)[][] = [
    [
      'left (in)',
      'right (in)',
      `steer (${steer ?? 'deg'})`,
      'a',
      'b',
      'status',
      'required (in)',
      'gap (in)',
      'lower (in)',
      ...points,
      'alongA (1)',
      'alongB (1)',
      'axle',
    ],
    ...pairs.map(({ axle, pair }) => [
      pair.pose.left_in,
      pair.pose.right_in,
      pair.pose.steer?.value ?? null,
      pair.a,
      pair.b,
      pair.status,
      pair.required_in,
      pair.gap_in,
      pair.lower_in,
      ...pair.pointA,
      ...pair.pointB,
      pair.alongA,
      pair.alongB,
      axle,
    ]),
  ];
  return rows
    .map(row => `${row.map(each => cell(each === null ? '' : String(each))).join(',')}\n`)
    .join('');
}
