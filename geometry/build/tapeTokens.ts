/**
 * Splits a tape entry into numbers with their units, names and signs, as people write them on
 * cardboard. What a number is: numeral.ts; a unit: unitText.ts.
 *
 * - `23 5/8`, `23-5/8`, `23⅝`: a whole number and a proper fraction, joined by a space or an unspaced
 *   hyphen. A minus between numbers has a space on both sides; `10-3` is refused with both readings.
 * - `5/8`: a fraction. Right behind a division sign it is refused, for `6/3/4` has two readings.
 * - `1'11 5/8`, `5 ft 3 in`, `5'-3"`: feet, then inches, one length. `7°30'`: degrees, minutes, seconds.
 * - A unit belongs to the number before it, and so do the units that it is multiplied with or divided
 *   by: `60 / 300 lbf/in` divides by a rate. Behind a closing parenthesis a unit stands for itself.
 */
import { checkAmbiguity } from './ambiguity.ts';
import { Cursor } from './cursor.ts';
import { nearest } from './nearest.ts';
import { GLYPH, HYPHEN, type Numeral, takeNumeral } from './numeral.ts';
import { quoted } from './problem.ts';
import { Refusal } from './refusal.ts';
import { amountOf, type Powers, UNIT_NAMES, unitNamed } from './units.ts';
import {
  DEGREE,
  FOOT,
  FOOT_MARK,
  INCH,
  INCH_MARK,
  takeOneUnit,
  takeUnit,
  WORD,
} from './unitText.ts';

/** A number with its unit, in internal units. */
export interface Quantity {
  value: number;
  powers: Powers;
  /** True for a number without unit, or one made of such alone: it takes the unit that its place asks for. */
  isBare: boolean;
  /** What it is: 'a mass', 'a length'. */
  called: string;
}

export type Token =
  | { kind: 'quantity'; text: string; quantity: Quantity; numeral: Numeral; isSpaced: boolean }
  | { kind: 'unit'; text: string; quantity: Quantity; isSpaced: boolean }
  | { kind: 'name'; text: string; isSpaced: boolean }
  | { kind: 'sign'; text: string; isSpaced: boolean };

const SIGNS: Readonly<Record<string, string>> = {
  '−': '-',
  '–': '-',
  '‐': '-',
  '‑': '-',
  '×': '*',
  '·': '*',
  '∙': '*',
  '⋅': '*',
  '÷': '/',
  '∕': '/',
  '⁄': '/',
};

const NONE: Powers = [0, 0, 0, 0];
const SPACE = /\s*/y;
const FEET_TO_INCHES = new RegExp(`${HYPHEN}(?=[\\d.]|${GLYPH})|\\s*`, 'y');
const SPACED_MINUS = /\s+[-‐‑–−]\s+/y;
const DIVISION = /[/∕÷⁄]/y;
const COMMA = /\d,\d/;

/**
 * Reads all tokens of an entry.
 *
 * @param names the dimension names that an entry may use, for suggestions
 * @throws Refusal where the text is not a tape entry
 */
export function tokenize(text: string, names: ReadonlyMap<string, unknown>): Token[] {
  if (COMMA.test(text)) {
    throw new Refusal(
      `${quoted(text)} has a comma in a number`,
      'a point for decimals, as in 23.5',
    );
  }
  const tokens = new Scanner(text, names).all();
  checkAmbiguity(tokens);
  return tokens;
}

class Scanner {
  private readonly cursor: Cursor;
  private readonly names: ReadonlyMap<string, unknown>;

  constructor(text: string, names: ReadonlyMap<string, unknown>) {
    this.cursor = new Cursor(text);
    this.names = names;
  }

  all(): Token[] {
    const tokens: Token[] = [];
    for (;;) {
      const isSpaced = this.cursor.take(SPACE)?.[0] !== '';
      if (this.cursor.isAtEnd) return tokens;
      tokens.push(this.next(tokens.at(-1), isSpaced));
    }
  }

  private next(previous: Token | undefined, isSpaced: boolean): Token {
    const start = this.cursor.at;
    const text = () => this.cursor.text.slice(start, this.cursor.at).trim();
    const read = this.quantity();
    if (read) return { kind: 'quantity', text: text(), ...read, isSpaced };

    const word = this.cursor.ahead(WORD);
    if (word && !unitNamed(word)) {
      this.cursor.take(WORD);
      return { kind: 'name', text: word, isSpaced };
    }
    const unit = takeUnit(this.cursor);
    if (unit) {
      if (previous?.text !== ')') throw new Refusal(`the unit ${text()} has no number before it`);
      const { powers, called } = unit;
      const quantity = { value: amountOf(1, unit.amount), powers, isBare: false, called };
      return { kind: 'unit', text: text(), quantity, isSpaced };
    }

    const character = String.fromCodePoint(this.cursor.text.codePointAt(this.cursor.at) ?? 0);
    this.cursor.at += character.length;
    if ('#$"'.includes(character)) throw new Refusal(`${character} has no meaning here`);
    return { kind: 'sign', text: SIGNS[character] ?? character, isSpaced };
  }

  /** A number and its unit; feet with their inches, degrees with their minutes and seconds. */
  private quantity(): { quantity: Quantity; numeral: Numeral } | null {
    const numeral = takeNumeral(this.cursor);
    if (!numeral) return null;
    const unit = takeUnit(this.cursor);
    if (!unit) {
      const word = this.cursor.ahead(WORD);
      if (word) throw this.noUnit(word, numeral);
      const quantity = {
        value: numeral.value,
        powers: NONE,
        isBare: true,
        called: 'a plain number',
      };
      return { quantity, numeral };
    }
    let value = amountOf(numeral.value, unit.amount);
    if (unit === FOOT) value += this.inches(numeral);
    if (unit === DEGREE) value += this.minutes();
    if (!Number.isFinite(value)) throw new Refusal('the number is too large');
    return {
      quantity: { value, powers: unit.powers, isBare: false, called: unit.called },
      numeral: { ...numeral, hasUnit: true },
    };
  }

  /** The inches behind feet, in inches; 0 where there are none. */
  private inches(feet: Numeral): number {
    const back = this.cursor.at;
    const isMarked = /['‘’′`´]$/.test(this.cursor.text.slice(0, back));
    const isMinus = isMarked && this.cursor.take(SPACED_MINUS) !== null;
    if (!isMinus) this.cursor.take(FEET_TO_INCHES);
    const inches = takeNumeral(this.cursor);
    const unit = inches && takeOneUnit(this.cursor);
    // A bare `5' 3 / 2` or `5'3/2` may be half of 63: only a mark or a proper fraction settles it.
    const isHalved = unit === null && (this.cursor.ahead(DIVISION) || isImproper(inches));
    const isWithFeet = inches && (unit === null || unit === INCH) && !isHalved;
    if (isWithFeet && isMinus) {
      const text = quoted(this.cursor.text.slice(0, this.cursor.at).trim());
      throw new Refusal(
        `${text} may be feet with inches or a subtraction`,
        `a form such as 5' 3" for feet with inches, or 5 ft - 3 in for a subtraction`,
      );
    }
    if (isWithFeet && feet.shape !== 'whole') {
      throw new Refusal(
        'feet that have inches behind them are a whole number',
        `a form such as 5' 3", or 5.25 ft alone`,
      );
    }
    if (isWithFeet) return inches.value;
    this.cursor.at = back;
    return 0;
  }

  /** The minutes and seconds of arc behind degrees, in radians; 0 where there are none. */
  private minutes(): number {
    const minutes = this.marked(FOOT_MARK);
    const seconds = this.marked(INCH_MARK);
    return amountOf((minutes + seconds / 60) / 60, DEGREE.amount);
  }

  private marked(mark: RegExp): number {
    const back = this.cursor.at;
    this.cursor.take(SPACE);
    const numeral = takeNumeral(this.cursor);
    if (numeral && this.cursor.take(mark)) return numeral.value;
    this.cursor.at = back;
    return 0;
  }

  private noUnit(word: string, numeral: Numeral): Refusal {
    const text = quoted(word);
    const isName = this.names.has(word);
    if (isName || /^x$/i.test(word)) {
      const example = `${numeral.value} * ${isName ? text : '4'}`;
      return new Refusal(`${text} is no unit`, `a sign between, as in ${example}`);
    }
    const near = nearest(word, UNIT_NAMES);
    return new Refusal(`${text} is no unit that is known here`, near && `the unit ${near}`);
  }
}

function isImproper(numeral: Numeral | null): boolean {
  return numeral?.shape === 'fraction' && numeral.value >= 1;
}
