/** Lengths as a tape shows them. */
import { INCH_mm, type LengthUnit } from './units.ts';

export interface LengthStyle {
  unit: LengthUnit;
  /** Finest division of the tape, for inches. Sixteenths unless given. */
  denominator?: 8 | 16 | 32 | 64;
}

/** Beyond it the marks of a tape are no longer told apart by doubles, or soon will not be. */
const LONGEST_in = 1e9;

/**
 * A length as it is read off a tape, without its unit: inches with a reduced fraction, or millimeters with
 * one decimal. Rounded to the nearest mark, so it is off by at most half a division; a tape entry reads
 * it back.
 *
 * @throws RangeError for a length that is not finite or beyond 1e9 in
 * @example formatLength(23.625, { unit: 'in' }) // '23 5/8'
 * @example formatLength(23.625, { unit: 'mm' }) // '600.1'
 */
export function formatLength(inches: number, { unit, denominator = 16 }: LengthStyle): string {
  if (!(Math.abs(inches) <= LONGEST_in)) {
    throw new RangeError(`a length within ${LONGEST_in} in is wanted, not ${inches}`);
  }
  if (unit === 'mm') return String(Math.round(inches * INCH_mm * 10) / 10 + 0);
  const marks = Math.round(Math.abs(inches) * denominator);
  const sign = inches < 0 && marks > 0 ? '-' : '';
  const whole = Math.floor(marks / denominator);
  let over = marks % denominator;
  let under: number = denominator;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  if (over === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${over}/${under}` : `${sign}${whole} ${over}/${under}`;
}
