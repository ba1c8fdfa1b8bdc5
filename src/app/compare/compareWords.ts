/** What tables of a comparison call their places, rows and values, in the unit of the page. */
import type { Comparison } from '../../../geometry/compare/compare.ts';
import { differenceWords, wayWords, whereWords } from '../../../geometry/compare/phrases.ts';
import type { At, Of } from '../../../geometry/compare/places.ts';
import type { Reached, WayRow } from '../../../geometry/compare/ranges.ts';
import type { Row } from '../../../geometry/compare/rows.ts';
import { partWords, type Shop, sentence } from '../../../geometry/finding/words.ts';
import { measures } from '../../../geometry/measure/list.ts';
import { endWords } from '../../charts/edgeStretches.ts';
import type { Rig } from '../state/rig.ts';
import { measureName, valueText } from '../words/measureWords.ts';

/** What stands where there is no value. */
export const NONE = '–';

/** Short names of the two, as the sentences call them. */
export type Names = Record<Of, string>;

/** 'Both wheels 5 up', with what only one of the two reaches. */
export function placeWords(names: Names, at: At, shop: Shop): string {
  const where = sentence(whereWords(shop, at));
  return at.reachedBy === 'both' ? where : `${where}: ${names[at.reachedBy]} alone`;
}

/** 'Axle steer', 'Toe, driver side', of the axle that has it. */
export function rowName({ id, part, side }: Row, shop: Shop, a: Rig, b: Rig): string {
  const measure = measures.find(each => each.id === id);
  if (!measure) return id;
  const target = { part, side };
  const has = ({ axle, build }: Rig): boolean =>
    measure.targets(axle, build).some(each => each.part === part && each.side === side);
  return measureName(shop, has(a) ? a.axle : b.axle, measure, target);
}

export const rowValue = (shop: Shop, { id, unit }: Row, value: number | null): string =>
  value === null ? NONE : valueText(shop, id, value, unit);

/** Differences are told with a sign: a direction word of the values would be no direction of theirs. */
export function signed(shop: Shop, value: number, unit: string): string {
  const words = differenceWords(shop, Math.abs(value), unit);
  if (words === 'nothing' || Number.parseFloat(words) === 0) return words;
  return `${value < 0 ? '−' : '+'}${words}`;
}

export const rowDifference = (shop: Shop, { difference, isNone, unit }: Row): string =>
  difference === null ? NONE : isNone ? 'none' : signed(shop, difference, unit);

/** Better or worse for what is asked, seen from B. */
export type Mark = 'better' | 'worse' | null;

export const markOf = (toward: Of | null): Mark =>
  toward === null ? null : toward === 'b' ? 'better' : 'worse';

export const MARKS: Record<'better' | 'worse', readonly [sign: string, words: string]> = {
  better: ['▲', 'nearer to what is asked'],
  worse: ['▼', 'further from what is asked'],
};

/** 'Both wheels go up'. */
export const wayName = (shop: Shop, { way }: WayRow): string => sentence(wayWords(shop, way));

/** How far one goes, and what ends it there: '5 in', 'driver bump stop bottomed'. */
export function reachedWords(
  shop: Shop,
  { axle }: Rig,
  unit: WayRow['unit'],
  end: Reached | null,
): [far: string, by: string] {
  if (!end) return [NONE, ''];
  return [valueText(shop, '', end.value, unit), endWords(shop, axle, end).toLowerCase()];
}

/** Rows of one place after the other, in their order. */
export function byPlace(rows: readonly Row[]): { at: At; rows: Row[] }[] {
  const groups = new Map<string, { at: At; rows: Row[] }>();
  for (const row of rows) {
    const key = JSON.stringify(row.at);
    const group = groups.get(key) ?? { at: row.at, rows: [] };
    group.rows.push(row);
    groups.set(key, group);
  }
  return [...groups.values()];
}

/** Both parts of a pair in words: 'Driver tire, gear housing'. */
export function pairWords(shop: Shop, a: Rig, b: Rig, pair: readonly [string, string]): string {
  const of = (name: string): string =>
    partWords(shop, (a.parts.some(each => each.name === name) ? a : b).axle, name);
  return sentence(pair.map(of).join(', '));
}

/** A sentence in its pieces: what differs by how much, both values, and where. */
export function piecesOf(text: string): { lead: string; values: string; where: string } {
  const plain = text.replace(/^With [^,]+, (?=[a-z])/, '').replace(/ \(a (gain|cost)\)/, '');
  const [, lead = plain, rest = ''] = /^(.*?): (.*)$/s.exec(plain) ?? [];
  const cut = rest.search(/, (?=at |flexed|both |driver|passenger|under )/);
  const [values, where] = cut < 0 ? [rest, ''] : [rest.slice(0, cut), rest.slice(cut + 2)];
  return { lead: sentence(lead), values, where: where.replace(/\.$/, '') };
}

export const namesOf = (report: Comparison): Names => ({ a: report.a.name, b: report.b.name });
