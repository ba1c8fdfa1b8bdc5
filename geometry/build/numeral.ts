/** Numbers as a tape is read: `23 5/8`, `23-5/8`, `23⅝`, `5/8`, `23.625`. */
import type { Cursor } from './cursor.ts';
import { quoted } from './problem.ts';
import { Refusal } from './refusal.ts';

/** A number, and how it was written. */
export interface Numeral {
  value: number;
  /** `fraction` is one with a slash alone, `hyphen` a mixed number with a hyphen: both can be misread. */
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
export const GLYPH = `[${Object.keys(GLYPHS).join('')}]`;
export const HYPHEN = '[-‐‑]';
const SLASH = '[/⁄∕]';
const MIXED = new RegExp(`(\\d+)(?:\\s+|(${HYPHEN}))(\\d+)${SLASH}(\\d+)(?![\\d.])`, 'y');
const MIXED_GLYPH = new RegExp(`(\\d+)(?:\\s*|(${HYPHEN}))(${GLYPH})`, 'y');
const FRACTION = new RegExp(`(\\d+)${SLASH}(\\d+)(?![\\d.])`, 'y');
const LONE_GLYPH = new RegExp(GLYPH, 'y');
const DECIMAL = /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;

/**
 * Takes the number that begins here, without its unit; null where none does.
 *
 * @throws Refusal for one that is no number after all: `5/0`, `23 9/8`, `1e999`
 */
export function takeNumeral(cursor: Cursor): Numeral | null {
  const mixed = cursor.take(MIXED);
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
  const mixedGlyph = cursor.take(MIXED_GLYPH);
  if (mixedGlyph) {
    const [, whole, hyphen, glyph] = mixedGlyph;
    const value = Number(whole) + glyphValue(glyph);
    return { value, shape: hyphen ? 'hyphen' : 'mixed', hasUnit: false };
  }
  const slashed = cursor.take(FRACTION);
  if (slashed) {
    const value = fraction(Number(slashed[1]), Number(slashed[2]));
    return { value, shape: 'fraction', hasUnit: false };
  }
  const glyph = cursor.take(LONE_GLYPH);
  if (glyph) return { value: glyphValue(glyph[0]), shape: 'mixed', hasUnit: false };
  const decimal = cursor.take(DECIMAL);
  if (!decimal) return null;
  const value = Number(decimal[0]);
  if (!Number.isFinite(value)) throw new Refusal(`${quoted(decimal[0])} is too large`);
  return { value, shape: /^\d+$/.test(decimal[0]) ? 'whole' : 'decimal', hasUnit: false };
}

function fraction(over: number, under: number): number {
  if (under === 0) throw new Refusal(`${quoted(`${over}/${under}`)} divides by zero`);
  return over / under;
}

function glyphValue(glyph = ''): number {
  const [over, under] = GLYPHS[glyph] ?? [Number.NaN, 1];
  return over / under;
}
