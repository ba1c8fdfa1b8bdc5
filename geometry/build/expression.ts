/**
 * Works out a tape entry: tokens, then mathjs's parse (its grammar alone; nothing of it evaluates), then
 * our own walk over the node types that are allowed: + − × ÷, parentheses, quantities and names.
 *
 * Quantities carry the powers of their units, so that a length times a length is an area and cannot
 * stand where a length is wanted. A number without unit follows one rule: **as a term of a sum it has
 * the unit that bare numbers have there (a length's: the build's), as a factor it is a plain number.**
 * `frameWidth/2 + 3` adds 3 in, `3 * frameWidth` is three widths, `2 * 3 + frameWidth` adds 6 in. A
 * share or a quotient (`60 %`, `railFace/frameWidth`) is never taken for a length.
 */
import {
  create,
  isOperatorNode,
  isParenthesisNode,
  isSymbolNode,
  type MathNode,
  parseDependencies,
} from 'mathjs/number';
import { nearest } from './nearest.ts';
import { quoted } from './problem.ts';
import { Refusal } from './refusal.ts';
import { type Quantity, type Token, tokenize } from './tapeTokens.ts';
import {
  amountOf,
  calledBy,
  DIMENSIONS,
  type Dimension,
  dimensionOf,
  type LengthUnit,
  type Powers,
  samePowers,
  wantedOf,
} from './units.ts';

/** A dimension of the build that entries may use by its name; its value in internal units. */
export interface NamedValue {
  value: number;
  dimension: Dimension;
}

export interface Evaluated extends Quantity {
  /** True where the entry is one quantity and nothing else: `3 kg`. */
  isSingle: boolean;
  usesPercent: boolean;
}

const { parse } = create({ ...parseDependencies });

/** What entries may be made of; other node types of mathjs's grammar are refused under these words. */
const REFUSED: Readonly<Record<string, string>> = {
  AccessorNode: 'access to a property',
  ArrayNode: 'a list',
  AssignmentNode: 'an assignment',
  BlockNode: 'several expressions in a row',
  ConditionalNode: 'a condition',
  ConstantNode: 'a word that is no number',
  FunctionAssignmentNode: 'a definition',
  FunctionNode: 'a call',
  IndexNode: 'an index',
  ObjectNode: 'an object',
  RangeNode: 'a range',
  RelationalNode: 'a comparison',
};
const ALLOWED = 'an expression of numbers with units, names of dimensions, + - * / and parentheses';

/**
 * The quantity that an entry describes.
 *
 * @throws Refusal where it is not a tape entry, or not a finite one
 */
export function evaluate(
  text: string,
  unit: LengthUnit,
  names: ReadonlyMap<string, NamedValue>,
): Evaluated {
  const tokens = tokenize(text, names);
  const root = parsed(text, tokens);
  const quantity = walk(root, { tokens, unit, names });
  return {
    ...quantity,
    isSingle: tokens.length === 1,
    usesPercent: tokens.some(token => token.kind === 'quantity' && token.text.endsWith('%')),
  };
}

/** Quantities go to the parser as $0, $1 …, so that it never sees a number or a unit of ours. */
function parsed(text: string, tokens: readonly Token[]): MathNode {
  if (tokens.length === 0) throw new Refusal('the entry is empty');
  const source = tokens.map((token, i) => ('quantity' in token ? `$${i}` : token.text));
  try {
    return parse(source.join(' '));
  } catch {
    throw new Refusal(`${quoted(text)} ${fault(tokens)}`, ALLOWED);
  }
}

function fault(tokens: readonly Token[]): string {
  const count = (sign: string) => tokens.filter(token => token.text === sign).length;
  if (count('(') > count(')')) return 'has a parenthesis that is not closed';
  if (count('(') < count(')')) return 'has a parenthesis that was not opened';
  if (/^[-+*/]$/.test(tokens.at(-1)?.text ?? '')) return 'ends with a sign';
  return 'cannot be read';
}

interface Context {
  tokens: readonly Token[];
  unit: LengthUnit;
  names: ReadonlyMap<string, NamedValue>;
}

function walk(node: MathNode, context: Context): Quantity {
  if (isParenthesisNode(node)) return walk(node.content, context);
  if (isSymbolNode(node)) return symbol(node.name, context);
  if (!isOperatorNode(node)) {
    const kind = REFUSED[node.type] ?? 'no arithmetic';
    throw new Refusal(`${written(node, context.tokens)} is ${kind}`, ALLOWED);
  }
  const [left, right] = node.args;
  if (left && !right) {
    const value = walk(left, context);
    if (node.fn === 'unaryPlus') return value;
    if (node.fn === 'unaryMinus') return { ...value, value: -value.value };
  }
  if (left && right) {
    if (node.implicit) checkSideBySide(left, right, context);
    if (node.fn === 'add') return sum(walk(left, context), walk(right, context), 1, context);
    if (node.fn === 'subtract') return sum(walk(left, context), walk(right, context), -1, context);
    if (node.fn === 'multiply') return product(walk(left, context), walk(right, context), 1);
    if (node.fn === 'divide') return product(walk(left, context), walk(right, context), -1);
  }
  throw new Refusal(`the sign ${node.op} is not read`, ALLOWED);
}

function symbol(name: string, { tokens, names }: Context): Quantity {
  const token = name.startsWith('$') ? tokens[Number(name.slice(1))] : undefined;
  if (token && 'quantity' in token) return token.quantity;
  const named = names.get(name);
  if (named === undefined) throw unknownName(name, [...names.keys()]);
  const { powers, called } = DIMENSIONS[named.dimension];
  return { value: named.value, powers, isBare: false, called };
}

function unknownName(name: string, known: readonly string[]): Refusal {
  if (known.length === 0) return new Refusal(`${quoted(name)} is neither a number nor a unit`);
  const near = nearest(name, known);
  const some = known.slice(0, 6).join(', ') + (known.length > 6 ? ', …' : '');
  return new Refusal(
    `${quoted(name)} is no dimension of this build`,
    near ? `the name ${near}` : `one of ${some}`,
  );
}

/** Two values side by side are a product to mathjs; here only a unit may stand behind parentheses. */
function checkSideBySide(left: MathNode, right: MathNode, { tokens }: Context): void {
  if (isSymbolNode(right) && tokens[Number(right.name.slice(1))]?.kind === 'unit') return;
  throw new Refusal(
    `${written(left, tokens)} and ${written(right, tokens)} stand side by side`,
    'a sign between them (+ - * /) or one number such as 23 5/8',
  );
}

/** A part of an entry as it was typed, but for its spaces. */
function written(node: MathNode, tokens: readonly Token[]): string {
  return quoted(
    node.toString().replace(/\$(\d+)/g, (_, i: string) => tokens[Number(i)]?.text ?? ''),
  );
}

function sum(left: Quantity, right: Quantity, sign: 1 | -1, context: Context): Quantity {
  let [a, b] = [left, right];
  if (!samePowers(a.powers, b.powers)) {
    if (a.isBare) a = withUnitOf(b.powers, a, context);
    else if (b.isBare) b = withUnitOf(a.powers, b, context);
  }
  if (!samePowers(a.powers, b.powers)) {
    const [added, to] = [calledBy(b.powers), calledBy(a.powers)];
    throw new Refusal(sign > 0 ? `it adds ${added} to ${to}` : `it takes ${added} from ${to}`);
  }
  return finite({ ...a, value: a.value + sign * b.value, isBare: a.isBare && b.isBare });
}

function product(a: Quantity, b: Quantity, sign: 1 | -1): Quantity {
  if (sign < 0 && b.value === 0) throw new Refusal('it divides by zero');
  const power = (i: 0 | 1 | 2 | 3) => a.powers[i] + sign * b.powers[i];
  const powers: Powers = [power(0), power(1), power(2), power(3)];
  const value = sign > 0 ? a.value * b.value : a.value / b.value;
  return finite({ value, powers, isBare: a.isBare && b.isBare, called: calledBy(powers) });
}

function finite(quantity: Quantity): Quantity {
  if (!Number.isFinite(quantity.value)) throw new Refusal('it comes to more than any number');
  return quantity;
}

/**
 * A bare number as a quantity of these powers, in the unit that bare numbers have there.
 *
 * @throws Refusal where a bare number has no unit there
 */
export function withUnitOf(
  powers: Powers,
  bare: Quantity,
  { unit }: Pick<Context, 'unit'>,
): Quantity {
  const dimension = dimensionOf(powers);
  if (dimension === null) return bare;
  const amount = DIMENSIONS[dimension].bare[unit];
  if (amount === null && bare.value !== 0) {
    throw new Refusal(
      `a number without unit has no meaning here, since the build's bare numbers are in ${unit}`,
      wantedOf(dimension, unit),
    );
  }
  return finite({ ...bare, value: amountOf(bare.value, amount ?? [0, 1]), powers, isBare: false });
}
