/** Units as they are written: words, quote marks, and units joined to one: `in·lbf/deg`, `lb per in`. */
import type { Cursor } from './cursor.ts';
import { type Amount, calledBy, knownUnit, type Powers, type Unit, unitNamed } from './units.ts';

export const INCH = knownUnit('in');
export const FOOT = knownUnit('ft');
export const DEGREE = knownUnit('deg');
const PERCENT = knownUnit('%');

export const WORD = /[\p{L}_][\p{L}\p{N}\p{M}_]*/uy;
export const FOOT_MARK = /['‘’′`´](?!['‘’′`´])/y;
export const INCH_MARK = /["“”″]|['‘’′`´]{2}/y;
const OTHER_MARK = /[°º%]/y;
/** `5ft3in`: as a word, ft3in. */
const FOOT_BEFORE_DIGIT = /ft(?=\d)/iy;
const PERIOD = /\.(?![\d\p{L}])/uy;
const JOIN = /\s*([·∙⋅*×/∕÷])\s*|\s+(per)\s+|([-‐‑])|\s+/uy;

/** Takes a unit, or units joined by · * / per, a space or an unspaced hyphen; null where there is none. */
export function takeUnit(cursor: Cursor): Unit | null {
  let unit = takeOneUnit(cursor);
  if (!unit) return null;
  for (;;) {
    const back = cursor.at;
    const join = cursor.take(JOIN);
    const factor = join && takeWord(cursor);
    if (!factor) {
      cursor.at = back;
      return unit;
    }
    unit = product(unit, factor, /[/∕÷]|per/.test(join[0]) ? -1 : 1);
  }
}

/** Takes a single unit, word or mark. */
export function takeOneUnit(cursor: Cursor): Unit | null {
  const back = cursor.at;
  cursor.take(/\s*/y);
  if (cursor.take(INCH_MARK)) return INCH;
  if (cursor.take(FOOT_MARK)) return FOOT;
  const mark = cursor.take(OTHER_MARK);
  if (mark) return mark[0] === '%' ? PERCENT : DEGREE;
  const unit = takeWord(cursor) ?? (cursor.take(FOOT_BEFORE_DIGIT) ? FOOT : null);
  if (!unit) cursor.at = back;
  return unit;
}

function takeWord(cursor: Cursor): Unit | null {
  const back = cursor.at;
  const unit = unitNamed(cursor.take(WORD)?.[0] ?? '');
  if (unit) cursor.take(PERIOD);
  else cursor.at = back;
  return unit ?? null;
}

function product(a: Unit, b: Unit, sign: 1 | -1): Unit {
  const power = (i: 0 | 1 | 2 | 3) => a.powers[i] + sign * b.powers[i];
  const powers: Powers = [power(0), power(1), power(2), power(3)];
  const [over, under] = sign > 0 ? b.amount : [b.amount[1], b.amount[0]];
  const amount: Amount = [a.amount[0] * over, a.amount[1] * under];
  return { amount, powers, called: calledBy(powers) };
}
