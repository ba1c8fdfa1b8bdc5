/** What the tables of a comparison call their places, rows and values; for text and page alike. */
import type { Comparison, SideName } from '../../geometry/compare/compare.ts';
import type { PointRow } from '../../geometry/compare/hardware.ts';
import { wayWords, whereWords } from '../../geometry/compare/phrases.ts';
import type { At } from '../../geometry/compare/places.ts';
import type { WayRow } from '../../geometry/compare/ranges.ts';
import type { Row } from '../../geometry/compare/rows.ts';
import { lengthWords, type Shop, seat, sentence } from '../../geometry/finding/words.ts';
import { labelOf, MISSING } from './measureText.ts';
import { limitLabel, quantity } from './words.ts';

/** 'fence-line truck, variant short arms'. */
export const fullName = ({ build, variant }: SideName): string =>
  variant === null ? build : `${build}, variant ${variant}`;

/** A place with what only one of the two reaches: 'Both wheels 5 up; only long arms goes as far'. */
export function placeWords(report: Comparison, at: At, shop: Shop): string {
  const where = sentence(whereWords(shop, at));
  return at.reachedBy === 'both'
    ? where
    : `${where}: reached with ${report[at.reachedBy].name} alone`;
}

/** 'camber, driver side', 'misalignment, left lower link.axle'. */
export function rowName({ id, part, side }: Row, shop: Shop): string {
  const of = [part, side === null ? null : `${seat(shop, side)} side`];
  return [labelOf(id), ...of.filter(each => each !== null)].join(', ');
}

export const valueOr = (value: number | null, unit: string, shop: Shop): string =>
  value === null ? MISSING : quantity(value, unit, shop.unit);

/** A difference with its sign; 'none' where it is no more than its tolerance. */
export function differenceOf({ difference, isNone, unit }: Row, shop: Shop): string {
  if (difference === null) return MISSING;
  if (isNone) return 'none';
  return `${difference > 0 ? '+' : ''}${quantity(difference, unit, shop.unit)}`;
}

/** Rows of one place after the other, in their order. */
export function byPlace(rows: readonly Row[]): { at: At; axle: Row['axle']; rows: Row[] }[] {
  const groups = new Map<string, { at: At; axle: Row['axle']; rows: Row[] }>();
  for (const row of rows) {
    const key = JSON.stringify([row.axle, row.at]);
    const group = groups.get(key) ?? { at: row.at, axle: row.axle, rows: [] };
    group.rows.push(row);
    groups.set(key, group);
  }
  return [...groups.values()];
}

/** Rows with something to see: a difference, or a value that only one of the two has at a pose that both reach. */
export const differs = ({ difference, isNone }: Row): boolean => difference !== null && !isNone;

/** 'Both wheels go up', what each comes to and what ends it there. */
export function wayCells(row: WayRow, shop: Shop): string[] {
  const words = (of: 'a' | 'b'): string => {
    const end = row[of];
    if (!end) return MISSING;
    const by = end.by === 'assumedTravel' ? 'assumed' : limitLabel(end.by);
    return `${valueOr(end.value, row.unit, shop)}, ${by}${end.part === null ? '' : ` (${end.part})`}`;
  };
  const { difference } = row;
  const less =
    difference === null
      ? MISSING
      : difference === 0
        ? 'none'
        : `${difference > 0 ? '+' : ''}${valueOr(difference, row.unit, shop)}`;
  return [sentence(wayWords(shop, row.way)), words('a'), words('b'), less];
}

/** A gap as it is told: overlap is negative. */
export const gapWords = (gap: number | undefined, shop: Shop): string =>
  gap === undefined ? MISSING : `${gap < 0 ? '−' : ''}${lengthWords(shop, Math.abs(gap))}`;

/** A difference of gaps with its sign. */
export const gapDifference = (difference: number | null, shop: Shop): string =>
  difference === null ? MISSING : `${difference > 0 ? '+' : ''}${gapWords(difference, shop)}`;

/** A point, or how far it has moved. */
export const pointWords = (point: PointRow['a'], shop: Shop): string =>
  point === null
    ? MISSING
    : point
        .map(each =>
          shop.unit === 'mm' ? (each * 25.4).toFixed(1) : String(Number(each.toFixed(3))),
        )
        .join(', ');

/** A field's value. Angles and rates stand as they are inside: degrees are told for what is an angle by its name. */
export const fieldWords = (value: number | string | boolean | null): string =>
  value === null
    ? MISSING
    : typeof value === 'number'
      ? String(Number(value.toPrecision(5)))
      : typeof value === 'boolean'
        ? value
          ? 'yes'
          : 'no'
        : value;
