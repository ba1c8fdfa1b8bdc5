/** The extremes of an axle's measures as a table, each with the pose at which it is met. */
import type { Build } from '../../geometry/build/build.ts';
import type { PoseName, WalkReport } from '../../geometry/cycle/walkReport.ts';
import { seat } from '../../geometry/finding/words.ts';
import { table, wrap } from './layout.ts';
import { labelOf, MISSING } from './measureText.ts';
import { fixed, quantity } from './words.ts';

export function extremeLines({ extremes }: WalkReport, build: Build): string[] {
  const rows: string[][] = [['', 'least', 'there', 'greatest', 'there']];
  let last = '';
  for (const { id, part, side, unit, least, greatest } of extremes) {
    if (id === 'bind' && least.value === 0 && greatest.value === 0) continue; // an exact axle's
    // measures of parts and of wheels stand under their label, those of the axle beside it
    const wheel = side === null ? null : seat(build, side === 'left' ? 'left' : 'right');
    const of = [part, wheel].filter(each => each !== null).join(', ');
    if (of !== '' && id !== last) rows.push([labelOf(id)]);
    last = id;
    const name = of === '' ? labelOf(id) : `  ${of}`;
    if (least.value !== null && isSame(least.value, greatest.value)) {
      rows.push([name, quantity(least.value, unit, build.unit), 'everywhere']);
      continue;
    }
    const ends = [least, greatest].flatMap(({ value, pose }) => [
      value === null ? MISSING : quantity(value, unit, build.unit),
      pose === null ? '' : shortPose(pose, build.driverSide),
    ]);
    rows.push([name, ...ends]);
  }
  const reasons = new Map<string, string[]>();
  for (const { id, least } of extremes) {
    if (least.value !== null) continue;
    const reason = least.reason ?? 'no value';
    reasons.set(reason, [...new Set([...(reasons.get(reason) ?? []), labelOf(id)])]);
  }
  const unit = extremes.flatMap(({ greatest }) => greatest.pose?.steer?.unit ?? []).at(0);
  const input = unit === 'in' ? 'inches of ram rod' : 'degrees of pitman arm';
  const steers = unit === undefined ? '' : `; L and R, ${input} to the left and right`;
  return [
    ...table(rows),
    ...[...reasons].flatMap(([reason, labels]) =>
      wrap(`${MISSING} ${labels.join(', ')}: ${reason}`, '  ', '    '),
    ),
    ...wrap(`there: travel of driver and passenger wheel in inches, + up${steers}`, '  '),
  ];
}

/** Values that differ by no more than a solver's last digits. */
function isSame(least: number, greatest: number | null): boolean {
  return greatest !== null && greatest - least <= 1e-9 * Math.max(1, Math.abs(least));
}

/** '+8.9/-9.4 L37'. */
export function shortPose(
  { left_in, right_in, steer }: PoseName,
  driver: Build['driverSide'],
): string {
  const signed = (inches: number): string => {
    const text = fixed(inches, 1);
    return Number(text) > 0 ? `+${text}` : text;
  };
  const [first, second] = driver === 'left' ? [left_in, right_in] : [right_in, left_in];
  const travel = `${signed(first)}/${signed(second)}`;
  const turn = steer ? fixed(Math.abs(steer.value), steer.unit === 'deg' ? 0 : 1) : '0';
  if (!steer || Number(turn) === 0) return travel;
  return `${travel} ${steer.value > 0 ? 'L' : 'R'}${turn}`;
}
