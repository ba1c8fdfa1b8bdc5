/**
 * Walks as one table of comma-separated values (RFC 4180, lines ended by \n): left, right and steer first, a
 * column a measure, and last the axle and the walk that a row is of. A value that is missing is an empty cell.
 */
import type { WalkReport } from '../../geometry/cycle/walkReport.ts';

type Walk = WalkReport['walks'][number];
type Column = Walk['columns'][number];

/** The walks of all axles; a measure that one axle has not stays empty in its rows. */
export function walkCsv(axles: readonly WalkReport[]): string {
  const walks = axles.flatMap(({ axle, walks }) => walks.map(walk => ({ axle, walk })));
  const heads: string[] = [];
  const known = new Set<string>();
  for (const { walk } of walks) {
    for (const column of walk.columns) {
      const head = headOf(column);
      if (!known.has(head)) heads.push(head);
      known.add(head);
    }
  }
  const steer = walks.flatMap(({ walk }) => walk.poses).find(pose => pose.steer !== null)
    ?.steer?.unit;
  const rows = [
    ['left (in)', 'right (in)', `steer (${steer ?? 'deg'})`, ...heads, 'axle', 'walk'],
    ...walks.flatMap(({ axle, walk }) => rowsOf(axle, walk, heads)),
  ];
  return rows.map(row => `${row.map(cell).join(',')}\n`).join('');
}

/** `id [side|part] (unit)`. */
function headOf({ id, side, part, unit }: Column): string {
  const of = side ?? part;
  return of === null ? `${id} (${unit})` : `${id} [${of}] (${unit})`;
}

function rowsOf(axle: string, { name, poses, columns }: Walk, heads: readonly string[]) {
  const byHead = new Map(columns.map(column => [headOf(column), column.values]));
  return poses.map(({ left_in, right_in, steer }, i) => [
    String(left_in),
    String(right_in),
    steer === null ? '' : String(steer.value),
    ...heads.map(head => {
      const value = byHead.get(head)?.[i] ?? null;
      return value === null ? '' : String(value);
    }),
    axle,
    name,
  ]);
}

/** A cell, quoted where it must be. */
export function cell(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
