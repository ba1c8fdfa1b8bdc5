/**
 * Splits a tape entry into numbers with their units, names and signs, as people write them on
 * cardboard. What a tape number is, is decided here and only here:
 *
 * - `23 5/8`, `23-5/8`, `23⅝`: a whole number and a proper fraction, joined by a space or an unspaced
 *   hyphen. A minus between numbers has a space on both sides; `10-3` is refused with both readings.
 * - `5/8`: a fraction. Right behind a division sign it is refused, for `6/3/4` has two readings.
 * - `1'11 5/8`, `5 ft 3 in`, `5'-3"`: feet, then inches, one length. `7°30'`: degrees, minutes, seconds.
 * - A unit belongs to the number before it, and so do the units that it is multiplied with or divided
 *   by: `60 / 300 lbf/in` divides by a rate. Behind a closing parenthesis a unit stands for itself.
 */
import { nearest } from './nearest.ts';
import { quoted } from './problem.ts';
import { Refusal } from './refusal.ts';
import {
  calledBy,
  DEGREE_rad,
  knownUnit,
  type Powers,
  UNIT_NAMES,
  type Unit,
  unitNamed,
} from './units.ts';

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

/** How a number was written. */
interface Numeral {
  value: number;
  shape: 'decimal' | 'whole' | 'fraction' | 'hyphen' | 'mixed';
  hasUnit: boolean;
}

const GLYPHS: Readonly<Record<string, readonly [over: number, under: number]>> = {
  '½': [1, 2],
  '⅓': [1, 3],
  '⅔': [2, 3],
  '¼': [1, 4],
  '¾': [3, 4],
  '⅕': [1, 5],
  '⅖': [2, 5],
  '⅗': [3, 5],
  '⅘': [4, 5],
  '⅙': [1, 6],
  '⅚': [5, 6],
  '⅛': [1, 8],
  '⅜': [3, 8],
  '⅝': [5, 8],
  '⅞': [7, 8],
  '⅒': [1, 10],
};
const GLYPH = `[${Object.keys(GLYPHS).join('')}]`;
const HYPHEN = '[-‐‑]';
const MINUS = '[-‐‑–−]';
const SLASH = '[/⁄∕]';

const SPACE = /\s*/y;
const MIXED = new RegExp(`(\\d+)(?:\\s+|(${HYPHEN}))(\\d+)${SLASH}(\\d+)(?![\\d.])`, 'y');
const MIXED_GLYPH = new RegExp(`(\\d+)(?:\\s*|(${HYPHEN}))(${GLYPH})`, 'y');
const FRACTION = new RegExp(`(\\d+)${SLASH}(\\d+)(?![\\d.])`, 'y');
const LONE_GLYPH = new RegExp(GLYPH, 'y');
const DECIMAL = /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;
const WORD = /[\p{L}_][\p{L}\p{N}\p{M}_]*/uy;
const FOOT_MARK = /['‘’′`´](?!['‘’′`´])/y;
const INCH_MARK = /["“”″]|['‘’′`´]{2}/y;
const OTHER_MARK = /[°º%]/y;
const PERIOD = /\.(?![\d\p{L}])/uy;
const UNIT_JOIN = /\s*([·∙⋅*×/∕÷])\s*|\s+(per)\s+|([-‐‑])|\s+/uy;
const FEET_TO_INCHES = new RegExp(`${HYPHEN}(?=[\\d.]|${GLYPH})|\\s*`, 'y');
const SPACED_MINUS = new RegExp(`\\s+${MINUS}\\s+`, 'y');
const COMMA = /\d,\d/;

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
const INCH = knownUnit('in');
const FOOT = knownUnit('ft');
const DEGREE = knownUnit('deg');
const PERCENT = knownUnit('%');

/**
 * Reads all tokens of an entry.
 *
 * @param names the dimension names that an entry may use, for suggestions
 * @throws Refusal where the text is not a tape entry
 */
export function tokenize(text: string, names: readonly string[]): Token[] {
  if (COMMA.test(text)) {
    throw new Refusal(
      `${quoted(text)} has a comma in a number`,
      'a point for decimals, as in 23.5',
    );
  }
  const tokens = new Scanner(text, names).all();
  tokens.forEach((token, i) => {
    if (token.kind === 'sign' && token.text === '-') checkMinus(tokens, i);
    if (token.kind === 'quantity') checkFraction(tokens, i);
  });
  return tokens;
}

class Scanner {
  private at = 0;
  private readonly text: string;
  private readonly names: readonly string[];

  constructor(text: string, names: readonly string[]) {
    this.text = text;
    this.names = names;
  }

  all(): Token[] {
    const tokens: Token[] = [];
    for (;;) {
      const isSpaced = this.take(SPACE)?.[0] !== '';
      if (this.at >= this.text.length) return tokens;
      tokens.push(this.next(tokens.at(-1), isSpaced));
    }
  }

  private next(previous: Token | undefined, isSpaced: boolean): Token {
    const start = this.at;
    const text = () => this.text.slice(start, this.at).trim();
    const read = this.quantity();
    if (read) return { kind: 'quantity', text: text(), ...read, isSpaced };

    const unit = this.unit();
    if (unit) {
      if (previous?.text !== ')') throw new Refusal(`the unit ${text()} has no number before it`);
      return { kind: 'unit', text: text(), quantity: { ...unit, isBare: false }, isSpaced };
    }
    if (this.take(WORD)) return { kind: 'name', text: text(), isSpaced };

    const character = String.fromCodePoint(this.text.codePointAt(this.at) ?? 0);
    this.at += character.length;
    if ('#$"'.includes(character)) throw new Refusal(`${character} has no meaning here`);
    return { kind: 'sign', text: SIGNS[character] ?? character, isSpaced };
  }

  /** A number and its unit; feet with their inches, degrees with their minutes and seconds. */
  private quantity(): { quantity: Quantity; numeral: Numeral } | null {
    const numeral = this.numeral();
    if (!numeral) return null;
    const unit = this.unit();
    if (!unit) {
      const word = this.ahead(WORD);
      if (word) throw this.noUnit(word, numeral);
      const quantity = {
        value: numeral.value,
        powers: NONE,
        isBare: true,
        called: 'a plain number',
      };
      return { quantity, numeral };
    }
    let value = numeral.value * unit.value;
    if (unit === FOOT) value += this.inches(numeral);
    if (unit === DEGREE) value += this.minutes();
    return {
      quantity: { value, powers: unit.powers, isBare: false, called: unit.called },
      numeral: { ...numeral, hasUnit: true },
    };
  }

  private numeral(): Numeral | null {
    const mixed = this.take(MIXED);
    if (mixed) {
      const [text, whole, hyphen, over, under] = mixed;
      const part = fraction(Number(over), Number(under));
      if (part >= 1) {
        throw new Refusal(
          `${quoted(text)} has a fraction that is not less than one`,
          'a whole number with a proper fraction such as 23 5/8, or a minus with a space on both sides',
        );
      }
      return { value: Number(whole) + part, shape: hyphen ? 'hyphen' : 'mixed', hasUnit: false };
    }
    const mixedGlyph = this.take(MIXED_GLYPH);
    if (mixedGlyph) {
      const [, whole, hyphen, glyph] = mixedGlyph;
      const value = Number(whole) + glyphValue(glyph);
      return { value, shape: hyphen ? 'hyphen' : 'mixed', hasUnit: false };
    }
    const slashed = this.take(FRACTION);
    if (slashed) {
      const value = fraction(Number(slashed[1]), Number(slashed[2]));
      return { value, shape: 'fraction', hasUnit: false };
    }
    const glyph = this.take(LONE_GLYPH);
    if (glyph) return { value: glyphValue(glyph[0]), shape: 'mixed', hasUnit: false };
    const decimal = this.take(DECIMAL);
    if (!decimal) return null;
    const value = Number(decimal[0]);
    if (!Number.isFinite(value)) throw new Refusal(`${quoted(decimal[0])} is too large`);
    return { value, shape: /^\d+$/.test(decimal[0]) ? 'whole' : 'decimal', hasUnit: false };
  }

  /** A unit, or units joined by · * / per or an unspaced hyphen (`in-lbf/deg`). */
  private unit(): Unit | null {
    let unit = this.oneUnit();
    if (!unit) return null;
    for (;;) {
      const back = this.at;
      const join = this.take(UNIT_JOIN);
      const factor = join && this.wordUnit();
      if (!factor) {
        this.at = back;
        return unit;
      }
      unit = product(unit, factor, /[/∕÷]|per/.test(join[0]) ? -1 : 1);
    }
  }

  private oneUnit(): Unit | null {
    const back = this.at;
    this.take(SPACE);
    if (this.take(INCH_MARK)) return INCH;
    if (this.take(FOOT_MARK)) return FOOT;
    const mark = this.take(OTHER_MARK);
    if (mark) return mark[0] === '%' ? PERCENT : DEGREE;
    const unit = this.wordUnit();
    if (!unit) this.at = back;
    return unit;
  }

  private wordUnit(): Unit | null {
    const back = this.at;
    const unit = unitNamed(this.take(WORD)?.[0] ?? '');
    if (unit) this.take(PERIOD);
    else this.at = back;
    return unit ?? null;
  }

  /** The inches behind feet, in inches; 0 where there are none. */
  private inches(feet: Numeral): number {
    const back = this.at;
    const isMarked = /['‘’′`´]$/.test(this.text.slice(0, back));
    const isMinus = isMarked && this.take(SPACED_MINUS) !== null;
    if (!isMinus) this.take(FEET_TO_INCHES);
    const inches = this.numeral();
    const unit = inches && this.oneUnit();
    const isWithFeet = inches && (unit === null || unit === INCH) && !this.ahead(/\s*[/∕÷]/y);
    if (isWithFeet && isMinus) {
      const text = quoted(this.text.slice(0, this.at).trim());
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
    this.at = back;
    return 0;
  }

  /** The minutes and seconds of arc behind degrees, in radians; 0 where there are none. */
  private minutes(): number {
    const minutes = this.marked(FOOT_MARK);
    const seconds = this.marked(INCH_MARK);
    return ((minutes + seconds / 60) / 60) * DEGREE_rad;
  }

  private marked(mark: RegExp): number {
    const back = this.at;
    this.take(SPACE);
    const numeral = this.numeral();
    if (numeral && this.take(mark)) return numeral.value;
    this.at = back;
    return 0;
  }

  private noUnit(word: string, numeral: Numeral): Refusal {
    const text = quoted(word);
    if (this.names.includes(word) || /^x$/i.test(word)) {
      return new Refusal(
        `${text} is no unit`,
        `a sign between, as in ${numeral.value} * frameWidth`,
      );
    }
    const near = nearest(word, UNIT_NAMES);
    return new Refusal(`${text} is no unit that is known here`, near && `the unit ${near}`);
  }

  private take(pattern: RegExp): RegExpExecArray | null {
    pattern.lastIndex = this.at;
    const match = pattern.exec(this.text);
    if (match) this.at = pattern.lastIndex;
    return match;
  }

  /** What the pattern finds behind the spaces ahead, without taking it. */
  private ahead(pattern: RegExp): string | null {
    const back = this.at;
    this.take(SPACE);
    const match = this.take(pattern);
    this.at = back;
    return match?.[0] ?? null;
  }
}

function fraction(over: number, under: number): number {
  if (under === 0) throw new Refusal(`${quoted(`${over}/${under}`)} divides by zero`);
  return over / under;
}

function glyphValue(glyph = ''): number {
  const [over, under] = GLYPHS[glyph] ?? [Number.NaN, 1];
  return over / under;
}

function product(a: Unit, b: Unit, sign: 1 | -1): Unit {
  const powers = a.powers.map((power, i) => power + sign * (b.powers[i] ?? 0));
  const [length = 0, angle = 0, force = 0, time = 0] = powers;
  const together: Powers = [length, angle, force, time];
  return { value: a.value * b.value ** sign, powers: together, called: calledBy(together) };
}

function isOperand(token: Token | undefined): token is Token {
  return token !== undefined && (token.kind !== 'sign' || token.text === ')');
}

/** A minus between two numbers has a space on both sides: else it may be meant for a fraction. */
function checkMinus(tokens: readonly Token[], i: number): void {
  const before = tokens[i - 1];
  const after = tokens[i + 1];
  if (!isOperand(before) || !after || (tokens[i]?.isSpaced && after.isSpaced)) return;
  if (before.kind === 'name' || before.kind === 'sign' || after.kind === 'name') return;
  if (after.kind === 'sign' && !'+-'.includes(after.text)) return;
  const rule = 'a minus with a space on both sides';
  if (before.kind !== 'quantity' || after.kind !== 'quantity') {
    throw new Refusal(`the minus after ${quoted(before.text)} stands too close`, rule);
  }
  const isPlain = before.quantity.isBare && after.quantity.isBare;
  const difference = isPlain ? ` (${before.quantity.value - after.quantity.value})` : '';
  const isMixed = before.numeral.shape === 'whole' && after.numeral.shape === 'fraction';
  const fraction = isMixed
    ? `the mixed number ${before.text} ${after.text} (${before.numeral.value + after.numeral.value})`
    : `a fraction such as ${before.text}-3/8`;
  throw new Refusal(
    `${quoted(`${before.text}-${after.text}`)} has two readings`,
    `${rule}, ${before.text} - ${after.text}${difference}, or ${fraction}`,
  );
}

/** Refuses a fraction where a neighboring × or ÷ gives it a second reading. */
function checkFraction(tokens: readonly Token[], i: number): void {
  const token = tokens[i];
  if (token?.kind !== 'quantity') return;
  const before = tokens[i - 1]?.text ?? '';
  const after = tokens[i + 1]?.text ?? '';
  const isTwofold =
    (token.numeral.shape === 'fraction' && before === '/') ||
    (token.numeral.shape === 'hyphen' && /^[*/]$/.test(before)) ||
    (token.numeral.shape === 'hyphen' && /^[*/]$/.test(after) && !token.numeral.hasUnit);
  if (!isTwofold) return;
  const around = [
    /^[*/]$/.test(before) ? before : '',
    token.text,
    /^[*/]$/.test(after) ? after : '',
  ];
  throw new Refusal(
    `${quoted(around.join(''))} has two readings`,
    `a pair of parentheses around what belongs together, as in (${quoted(token.text)})`,
  );
}
