/**
 * A tape entry moved by some length or angle, written as one would write it: a reading is read anew, an expression
 * keeps its names and takes what it is moved by at its end.
 */
import { formatLength } from './format.ts';
import { namesIn, readEntry } from './tape.ts';
import { INCH_mm, type LengthUnit } from './units.ts';

/** Finest mark that a moved reading is written in; what falls between marks is written in decimals. */
const FINEST = 64;
/** Nearer to a mark than this it is that mark, in. */
const ON_MARK_in = 1e-9;
/** Decimals of what falls between marks: a ten-thousandth of an inch, a thousandth of a millimeter or degree. */
const DECIMALS = { in: 4, mm: 3, deg: 3 };

export interface NudgeStyle {
  dimension: 'length' | 'angle';
  /** The build's unit: that of a bare number. */
  unit: LengthUnit;
}

/**
 * The text of an entry moved by an amount.
 *
 * @param typed as it stands in the file; it was read without a problem
 * @param value what it is now, in or rad
 * @param by in or rad
 * @example nudged('23 5/8', 23.625, 1 / 16, { dimension: 'length', unit: 'in' }) // '23 11/16'
 * @example nudged('rail/2 + 1', 2.5, -0.25, { dimension: 'length', unit: 'in' }) // 'rail/2 + 3/4'
 */
export function nudged(
  typed: string | number,
  value: number,
  by: number,
  { dimension, unit }: NudgeStyle,
): string {
  const text = String(typed);
  if (dimension === 'angle') return `${decimals(((value + by) * 180) / Math.PI, DECIMALS.deg)} deg`;
  const written = writtenIn(text, unit);
  if (namesIn(text).length === 0) return inUnit(value + by, written, unit);
  const { base, offset } = withoutOffset(text, unit);
  const moved = offset + by;
  if (Math.abs(moved) < ON_MARK_in) return base;
  return `${base} ${moved < 0 ? '-' : '+'} ${inUnit(Math.abs(moved), written, unit)}`;
}

/** The unit that an entry is written in. */
function writtenIn(text: string, unit: LengthUnit): LengthUnit {
  if (/\bmm\b|\d\s*mm/.test(text)) return 'mm';
  return /['"′″]|\b(in|ft)\b/.test(text) ? 'in' : unit;
}

/**
 * A length as an entry writes it: on a mark of the tape as a fraction, between marks in decimals.
 *
 * @param written the unit that it is written in
 * @param unit the build's, which is not written
 */
export function inUnit(inches: number, written: LengthUnit, unit: LengthUnit): string {
  const mark = written === unit ? '' : ` ${written}`;
  if (written === 'mm') return `${decimals(inches * INCH_mm, DECIMALS.mm)}${mark}`;
  const marks = inches * FINEST;
  const isOnMark = Math.abs(marks - Math.round(marks)) < ON_MARK_in * FINEST;
  const text = isOnMark
    ? formatLength(inches, { unit: 'in', denominator: FINEST })
    : decimals(inches, DECIMALS.in);
  return `${text}${mark}`;
}

/** At most so many decimals, without zeros at the end and without a minus before 0. */
const decimals = (value: number, digits: number): string =>
  String(Number(value.toFixed(digits)) + 0);

/** An expression without the plain length added at its end, and that length. */
function withoutOffset(text: string, unit: LengthUnit): { base: string; offset: number } {
  const found = /^(.*\S) ([+-]) ([^+()*]+)$/.exec(text);
  const [, base, sign, last] = found ?? [];
  if (base === undefined || last === undefined || !isBalanced(base)) {
    return { base: text, offset: 0 };
  }
  const read = readEntry(last, { dimension: 'length', unit });
  if (namesIn(last).length > 0 || !read.ok) return { base: text, offset: 0 };
  return { base, offset: sign === '-' ? -read.value : read.value };
}

const isBalanced = (text: string): boolean =>
  [...text].filter(c => c === '(').length === [...text].filter(c => c === ')').length;
