/** Measures as tables: of the axle and its wheels side by side, then part by part. */
import type { Build, Side } from '../../geometry/build/build.ts';
import type { PoseMeasure } from '../../geometry/cycle/poseReport.ts';
import { lengthWords, seat } from '../../geometry/finding/words.ts';
import { measures } from '../../geometry/measure/list.ts';
import { inColumns, labeled, table, wrap } from './layout.ts';
import { quantity } from './words.ts';

/** What a measure is called, by its id. */
export function labelOf(id: string): string {
  return measures.find(measure => measure.id === id)?.label ?? id;
}

/** Parts that fit on a line. */
const FEW = 2;

/** Stands where there is no value; the reason follows below the table. */
export const MISSING = '–';

export function measureLines(readings: readonly PoseMeasure[], build: Build): string[] {
  const ofAxle = readings.filter(({ part }) => part === null);
  const ofParts = readings.filter(({ part }) => part !== null);
  const ids = [...new Set(ofAxle.map(({ id }) => id))];
  const order: readonly Side[] =
    build.driverSide === 'left' ? ['left', 'right'] : ['right', 'left'];
  const cell = (id: string, side: Side | null): string => {
    const reading = ofAxle.find(each => each.id === id && each.side === side);
    return reading ? shown(reading, build) : '';
  };
  const rows = ids.map(id => [labelOf(id), cell(id, null), ...order.map(side => cell(id, side))]);
  const heads = order.map(side => `${seat(build, side)} (${side})`);
  return [
    ...(rows.length > 0 ? table([['', 'axle', ...heads], ...rows]) : []),
    ...partLines(ofParts, build),
    ...reasonLines(readings),
  ];
}

/** Measures of few parts on a line each; then those of many, their parts in columns under their name. */
function partLines(readings: readonly PoseMeasure[], build: Build): string[] {
  const ids = [...new Set(readings.map(({ id }) => id))];
  const ofEach = ids.map(id => readings.filter(reading => reading.id === id));
  const words = (reading: PoseMeasure): [string, string] => [
    partName(reading, build),
    shown(reading, build),
  ];
  const short = ofEach.filter(own => own.length <= FEW);
  const long = ofEach.filter(own => own.length > FEW);
  const rows = short.map((own): [string, string] => [
    labelOf(own[0]?.id ?? ''),
    own.map(reading => words(reading).join(' ')).join(', '),
  ]);
  return [
    ...(rows.length > 0 ? ['', ...labeled(rows)] : []),
    ...long.flatMap(own => [
      '',
      `  ${labelOf(own[0]?.id ?? '')}`,
      ...inColumns(table(own.map(words), '    ')),
    ]),
  ];
}

function partName({ part, side }: PoseMeasure, build: Build): string {
  return side === null ? (part ?? '') : `${part} (${seat(build, side)})`;
}

function shown({ id, value, unit, part }: PoseMeasure, build: Build): string {
  if (value === null) return MISSING;
  // a length of a part is held against a tape; a change of one is not
  const isTape = unit === 'in' && part !== null && /Length$/.test(id);
  return isTape ? lengthWords(build, value) : quantity(value, unit, build.unit);
}

/** Why values are missing, each reason once with the measures that it stands for. */
function reasonLines(readings: readonly PoseMeasure[]): string[] {
  const byReason = new Map<string, string[]>();
  for (const { id, value, reason = 'no value' } of readings) {
    if (value !== null) continue;
    const labels = byReason.get(reason) ?? [];
    if (!labels.includes(labelOf(id))) labels.push(labelOf(id));
    byReason.set(reason, labels);
  }
  const lines = [...byReason].flatMap(([reason, labels]) =>
    wrap(`${MISSING} ${labels.join(', ')}: ${reason}`, '  ', '    '),
  );
  return lines.length > 0 ? ['', ...lines] : [];
}
