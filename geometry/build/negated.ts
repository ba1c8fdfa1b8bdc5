/** A tape entry of the other sign, written as one would write it: for the other side of a pair. */
import type { WrittenEntry } from './tape.ts';
import { tokenize } from './tapeTokens.ts';

const NO_NAMES: ReadonlyMap<string, unknown> = new Map();
const MINUS = /^[-−–]\s*/;

/**
 * @param entry it was read without a problem; where it came from and its tolerance stay
 * @example negated('23 5/8') // '-23 5/8'
 * @example negated('railFace + 2') // '-(railFace + 2)', and back again
 */
export function negated(entry: WrittenEntry): WrittenEntry {
  if (typeof entry === 'object') return { ...entry, value: turned(entry.value) };
  return turned(entry);
}

function turned(typed: string | number): string | number {
  if (typeof typed === 'number') return 0 - typed;
  const text = typed.trim();
  if (isNothing(text)) return typed;
  const positive = text.replace(MINUS, '');
  if (positive !== text && isOneTerm(positive)) return withinParentheses(positive) ?? positive;
  return isOneTerm(text) ? `-${text}` : `-(${text})`;
}

/** An angle θ seen in the mirror, where it counts from the mirror's own axis: 180° − θ. */
export function supplement(entry: WrittenEntry): WrittenEntry {
  if (typeof entry === 'object') return { ...entry, value: supplementOf(entry.value) };
  return supplementOf(entry);
}

function supplementOf(typed: string | number): string | number {
  if (typeof typed === 'number') return 180 - typed;
  const less = /^180 deg - (\(.*\))$/.exec(typed)?.[1];
  return (less === undefined ? null : withinParentheses(less)) ?? `180 deg - (${typed})`;
}

/** 0, with or without a unit: it has no other sign. */
const isNothing = (text: string): boolean => /^[-−–]?0*\.?0+\s*[a-z"'°]*$/i.test(text);

/** True where no sum stands outside of parentheses, so that a minus before it holds for all of it. */
function isOneTerm(text: string): boolean {
  let depth = 0;
  for (const { kind, text: sign } of tokenize(text, NO_NAMES)) {
    if (kind !== 'sign') continue;
    if (sign === '(') depth++;
    else if (sign === ')') depth--;
    else if (depth === 0 && (sign === '+' || sign === '-')) return false;
  }
  return true;
}

/** What stands in the parentheses around the whole text; null where there are none. */
function withinParentheses(text: string): string | null {
  if (!text.startsWith('(') || !text.endsWith(')')) return null;
  let depth = 0;
  for (const [i, character] of [...text].entries()) {
    if (character === '(') depth++;
    if (character === ')') depth--;
    if (depth === 0 && i < text.length - 1) return null;
  }
  return text.slice(1, -1).trim();
}
