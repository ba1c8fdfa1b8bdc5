/** What has two readings on a tape is refused, with both: steel is cut to these numbers. */
import { quoted } from './problem.ts';
import { Refusal } from './refusal.ts';
import type { Token } from './tapeTokens.ts';

/**
 * Refuses an unspaced minus between numbers, a fraction beside another sign of division and a fraction with a
 * second slash.
 *
 * @throws Refusal with both readings
 */
export function checkAmbiguity(tokens: readonly Token[]): void {
  tokens.forEach((token, i) => {
    if (token.kind === 'sign' && token.text === '-') checkMinus(tokens, i);
    if (token.kind !== 'quantity') return;
    checkFraction(tokens, i);
    checkSlashes(token, tokens[i + 1], tokens[i + 2]);
  });
}

const FACTOR = /^[*/]$/;

/** Without the last bits that decimals leave: 0.3 - 0.1 is 0.2. */
const rounded = (value: number) => Number(value.toPrecision(12));

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
  const [a, b] = [before.quantity, after.quantity];
  const difference = a.isBare && b.isBare ? ` (${rounded(a.value - b.value)})` : '';
  const isMixed =
    before.numeral.shape === 'whole' &&
    after.numeral.shape === 'fraction' &&
    after.numeral.value < 1;
  const mixed = before.numeral.value + after.numeral.value;
  const fraction = isMixed
    ? `the mixed number ${before.text} ${after.text} (${rounded(mixed)})`
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
  const isSigned =
    FACTOR.test(tokens[i - 2]?.text ?? '') && /^[-+]$/.test(tokens[i - 1]?.text ?? '');
  const before = tokens[isSigned ? i - 2 : i - 1]?.text ?? '';
  const after = tokens[i + 1]?.text ?? '';
  const isTwofold =
    (token.numeral.shape === 'fraction' && before === '/') ||
    (token.numeral.shape === 'hyphen' && FACTOR.test(before)) ||
    (token.numeral.shape === 'hyphen' && FACTOR.test(after) && !token.numeral.hasUnit);
  if (!isTwofold) return;
  const around = [FACTOR.test(before) ? before : '', token.text, FACTOR.test(after) ? after : ''];
  throw new Refusal(
    `${quoted(around.join(''))} has two readings`,
    `a pair of parentheses around what belongs together, as in (${quoted(token.text)})`,
  );
}

/** Refuses `1 1/2/2`, a slip more often than half of 1 1/2; with a space around the second slash it divides. */
function checkSlashes(token: Token, sign: Token | undefined, divisor: Token | undefined): void {
  if (token.kind !== 'quantity' || token.numeral.hasUnit || !/[/⁄∕]/.test(token.text)) return;
  if (sign?.text !== '/' || sign.isSpaced || !divisor || divisor.isSpaced) return;
  throw new Refusal(
    `${quoted(`${token.text}/${divisor.text}`)} has two slashes`,
    `${token.text}, or ${token.text} / ${divisor.text} for a division`,
  );
}
