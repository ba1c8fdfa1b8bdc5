/**
 * Tape entries: what people write on cardboard (`23 5/8`, `1'11 5/8`, `600 mm`, `frameWidth/2 - 1.5 in`),
 * read into internal units. What a tape number is: tapeTokens.ts. What may be done with it, and what a
 * number without unit means: expression.ts. Units: units.ts.
 */
import { evaluate, type NamedValue, withUnitOf } from './expression.ts';
import { quoted } from './problem.ts';
import { Refusal } from './refusal.ts';
import { type Quantity, tokenize } from './tapeTokens.ts';
import {
  calledBy,
  DIMENSIONS,
  type Dimension,
  dimensionOf,
  type LengthUnit,
  samePowers,
  wantedOf,
} from './units.ts';

export type { NamedValue };

/** An entry as it stands in the file. */
export type TapeText = string | number;

/** Where a number came from. */
export type Origin = 'measured' | 'drawing' | 'assumed';

/** An entry alone, or with where it came from and how far off it may be (half-width, an entry too). */
export type WrittenEntry = TapeText | { value: TapeText; from?: Origin; tolerance?: TapeText };

/** Longest text of an entry, in characters. */
export const LONGEST_ENTRY = 200;

export interface ReadOptions {
  dimension: Dimension;
  /** Unit of bare lengths. */
  unit: LengthUnit;
  /** Dimensions that the entry may use by name. */
  names?: ReadonlyMap<string, NamedValue> | undefined;
}

/** What is wrong with an entry: `problem` is the whole sentence, the other two its halves. */
export interface EntryProblem {
  ok: false;
  problem: string;
  reason: string;
  wanted: string;
}

const NO_NAMES: ReadonlyMap<string, NamedValue> = new Map();

/**
 * The value of a tape entry in internal units (inch, radian, lbf, lbf/in, in·lbf/rad, lbf/in², in³/s;
 * ratios and numbers plain). Always finite; never throws.
 *
 * @example readEntry("1'11 5/8", { dimension: 'length', unit: 'in' }) // { ok: true, value: 23.625 }
 * @example readEntry('3 kg', { dimension: 'length', unit: 'in' }).problem
 *   // '3 kg is a mass; a length such as 23 5/8 or 600 mm is wanted here'
 */
export function readEntry(
  text: TapeText,
  options: ReadOptions,
): { ok: true; value: number } | EntryProblem {
  const { dimension, unit, names = NO_NAMES } = options;
  try {
    const quantity = read(text, unit, names);
    const { powers, called } = DIMENSIONS[dimension];
    if (dimension === 'number' && quantity.usesPercent) {
      throw new Refusal(`${quoted(String(text))} is a share`);
    }
    if (quantity.isBare) return { ok: true, value: plain(withUnitOf(powers, quantity, { unit })) };
    if (samePowers(powers, quantity.powers)) return { ok: true, value: plain(quantity) };
    const kind = quantity.isSingle ? quantity.called : calledBy(quantity.powers);
    throw new Refusal(
      `${quoted(String(text))} ${quantity.isSingle ? 'is' : 'comes to'} ${kind}`,
      kind === called ? 'a number without unit' : null,
    );
  } catch (error) {
    return refused(error, wantedOf(dimension, unit));
  }
}

/**
 * The value of an entry that may be of any dimension, as named dimensions are. A bare number is a length.
 *
 * @example readAny('30 deg', { unit: 'in' }) // { ok: true, value: 0.5236, dimension: 'angle' }
 */
export function readAny(
  text: TapeText,
  options: Omit<ReadOptions, 'dimension'>,
): ({ ok: true } & NamedValue) | EntryProblem {
  const { unit, names = NO_NAMES } = options;
  try {
    let quantity: Quantity = read(text, unit, names);
    if (quantity.isBare) quantity = withUnitOf(DIMENSIONS.length.powers, quantity, { unit });
    const dimension = dimensionOf(quantity.powers);
    if (dimension === null) {
      throw new Refusal(`${quoted(String(text))} comes to ${calledBy(quantity.powers)}`);
    }
    return { ok: true, value: plain(quantity), dimension };
  } catch (error) {
    return refused(error, `${wantedOf('length', unit)}, or an angle such as 7 deg`);
  }
}

/**
 * The names of dimensions that an entry uses, each once. A word before a parenthesis is a call, and no
 * name; what is not a tape entry has none.
 */
export function namesIn(text: string): string[] {
  try {
    const tokens = text.length > LONGEST_ENTRY ? [] : tokenize(text, NO_NAMES);
    const used = tokens.filter((token, i) => token.kind === 'name' && tokens[i + 1]?.text !== '(');
    return [...new Set(used.map(token => token.text))];
  } catch (error) {
    if (error instanceof Refusal) return [];
    throw error;
  }
}

function read(text: TapeText, unit: LengthUnit, names: ReadonlyMap<string, NamedValue>) {
  if (typeof text === 'number') {
    if (!Number.isFinite(text)) throw new Refusal(`${text} is no finite number`);
    const { powers } = DIMENSIONS.number;
    return { value: text, powers, isBare: true, called: '', isSingle: true, usesPercent: false };
  }
  if (text.length > LONGEST_ENTRY) {
    throw new Refusal(
      `the entry has ${text.length} characters`,
      `a text of at most ${LONGEST_ENTRY} characters (parts of it can be named dimensions)`,
    );
  }
  return evaluate(text, unit, names);
}

/** The number alone; −0 as 0. */
function plain(quantity: Quantity): number {
  return quantity.value + 0;
}

function refused(error: unknown, usual: string): EntryProblem {
  if (!(error instanceof Refusal)) throw error;
  const reason = error.message;
  const wanted = error.wanted ?? usual;
  return { ok: false, problem: `${reason}; ${wanted} is wanted here`, reason, wanted };
}
