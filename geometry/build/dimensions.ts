/** The build's named dimensions: entries that other entries, and each other, use by name. */
import { nearest } from './nearest.ts';
import { fieldPath, own, type Problem, quoted, shown } from './problem.ts';
import {
  type NamedValue,
  namesIn,
  type Origin,
  readAny,
  readEntry,
  type TapeText,
  type WrittenEntry,
} from './tape.ts';
import { type LengthUnit, unitNamed } from './units.ts';

/** A dimension as it stands in the file. */
export interface WrittenDimension {
  name: string;
  value: WrittenEntry;
}

/** A dimension's value in internal units, and what hangs on it. */
export interface NamedDimension extends NamedValue {
  typed: TapeText;
  /** Null where it does not say. */
  from: Origin | null;
  /** Half-width in internal units, null where none was given. */
  tolerance: number | null;
  /** Names of the dimensions that its value uses. */
  uses: string[];
}

export interface ResolvedDimensions {
  /** In the order of the file, without those that have a problem or hang on one that has. */
  values: Map<string, NamedDimension>;
  problems: Problem[];
}

/** Words that the grammar of expressions, or a reader of one, takes for something else. */
const RESERVED = new Set(
  'and or xor not mod to per true false null undefined nan infinity end pi'.split(' '),
);
const LONGEST_NAME = 60;
const NAME_WANTED = 'a name of letters and digits that begins with a small letter: railFace';

/**
 * Resolves named dimensions in the order in which they hang on each other. Never throws.
 *
 * A bare number is a length in the build's unit; other dimensions show by their units (`7 deg`, `60 %`).
 *
 * @param written the list as it stands in the file. An element of another shape is left out: telling it
 *   is the schema's business.
 * @example resolveDimensions([{ name: 'railFace', value: '13 1/2' },
 *   { name: 'frameWidth', value: '2 * railFace' }], 'in').values.get('frameWidth')?.value // 27
 */
export function resolveDimensions(written: unknown, unit: LengthUnit): ResolvedDimensions {
  const list = Array.isArray(written) ? written : [];
  const problems: Problem[] = [];
  const nodes = collect(list, problems);
  const values = new Map<string, NamedDimension>();
  for (const node of inOrder(nodes, problems)) {
    const value = resolve(node, nodes, values, unit, problems);
    if (value) values.set(node.name, value);
  }
  for (const node of nodes.values()) {
    const value = values.get(node.name);
    if (value) value.tolerance = toleranceOf(node, value, values, unit, problems);
  }
  const sorted = [...nodes.keys()].flatMap(name => {
    const value = values.get(name);
    return value ? [[name, value] as const] : [];
  });
  return { values: new Map(sorted), problems };
}

interface Node {
  name: string;
  /** Place in the file; asked for only where there is a problem, since it takes a look at all names. */
  path: () => string;
  text: TapeText;
  from: Origin | null;
  tolerance: TapeText | null;
  uses: string[];
}

const isText = (value: unknown): value is TapeText =>
  typeof value === 'string' || typeof value === 'number';

/** The dimensions by name, the first of each name, with the problems of their names. */
function collect(list: readonly unknown[], problems: Problem[]): Map<string, Node> {
  const nodes = new Map<string, Node>();
  list.forEach((element, i) => {
    const name = own(element, 'name');
    const value = own(element, 'value');
    const text = isText(value) ? value : own(value, 'value');
    if (typeof name !== 'string' || !isText(text)) return;
    const place = (field: string) => `dimensions${fieldPath(list, [i])}.${field}`;
    const fault = nodes.has(name)
      ? { message: 'another dimension has this name', wanted: 'a name of its own' }
      : nameFault(name);
    if (fault) problems.push({ path: place('name'), found: shown(name), ...fault });
    if (nodes.has(name)) return;
    const from = own(value, 'from');
    const tolerance = own(value, 'tolerance');
    nodes.set(name, {
      name,
      path: () => place('value'),
      text,
      from: from === 'measured' || from === 'drawing' || from === 'assumed' ? from : null,
      tolerance: isText(tolerance) ? tolerance : null,
      uses: namesIn(String(text)),
    });
  });
  return nodes;
}

function nameFault(name: string): { message: string; wanted: string } | null {
  const wanted = NAME_WANTED;
  if (unitNamed(name)) return { message: `${quoted(name)} is a unit`, wanted };
  if (RESERVED.has(name.toLowerCase())) {
    return { message: `${quoted(name)} has a meaning of its own`, wanted };
  }
  if (name.length > LONGEST_NAME) {
    return { message: '', wanted: `a name of at most ${LONGEST_NAME} characters` };
  }
  return /^[a-z][A-Za-z0-9]*$/.test(name) ? null : { message: '', wanted };
}

/**
 * The dimensions so ordered that each stands behind those that it uses. Those on a circle, which have no
 * such order, are told. Depth first, with a stack of its own, for a chain may be as long as the file.
 */
function inOrder(nodes: ReadonlyMap<string, Node>, problems: Problem[]): Node[] {
  const order: Node[] = [];
  const state = new Map<Node, 'open' | 'done'>();
  const told = new Set<Node>();
  for (const start of nodes.values()) {
    const stack = state.has(start) ? [] : [{ node: start, next: 0 }];
    state.set(start, state.get(start) ?? 'open');
    for (let top = stack.at(-1); top !== undefined; top = stack.at(-1)) {
      const use = top.node.uses[top.next++];
      if (use === undefined) {
        state.set(top.node, 'done');
        order.push(top.node);
        stack.pop();
        continue;
      }
      const used = nodes.get(use);
      if (used === undefined) continue;
      if (!state.has(used)) {
        state.set(used, 'open');
        stack.push({ node: used, next: 0 });
      } else if (state.get(used) === 'open') {
        const path = stack.map(({ node }) => node);
        tellCircle(path.slice(path.indexOf(used)), told, problems);
      }
    }
  }
  return order;
}

function tellCircle(circle: readonly Node[], told: Set<Node>, problems: Problem[]): void {
  const isTold = circle.some(node => told.has(node));
  for (const node of circle) told.add(node);
  const [first] = circle;
  if (first === undefined || isTold) return;
  const names = [...circle, first].map(node => quoted(node.name));
  if (names.length > 12) names.splice(6, names.length - 12, '…');
  problems.push({
    path: first.path(),
    found: shown(first.text),
    message: `${names.join(' → ')} is a circle`,
    wanted: 'a value that does not hang on itself',
  });
}

/** Null where there is a problem, or where it hangs on a dimension that has one. */
function resolve(
  node: Node,
  nodes: ReadonlyMap<string, Node>,
  values: ReadonlyMap<string, NamedDimension>,
  unit: LengthUnit,
  problems: Problem[],
): NamedDimension | null {
  const { path, text, from, uses } = node;
  const found = shown(text);
  const unknown = uses.filter(name => !nodes.has(name));
  for (const name of unknown) {
    const near = nearest(name, [...nodes.keys()]);
    problems.push({
      path: path(),
      found,
      message: `${quoted(name)} is no dimension of this build`,
      wanted: near ? `the name ${quoted(near)}` : 'the name of a dimension',
    });
  }
  if (unknown.length > 0 || uses.some(name => !values.has(name))) return null;
  const read = readAny(text, { unit, names: values });
  if (read.ok) {
    const { value, dimension } = read;
    return { value, dimension, typed: text, from, tolerance: null, uses };
  }
  problems.push({ path: path(), found, message: read.reason, wanted: read.wanted });
  return null;
}

function toleranceOf(
  { path, tolerance }: Node,
  { dimension }: NamedDimension,
  names: ReadonlyMap<string, NamedDimension>,
  unit: LengthUnit,
  problems: Problem[],
): number | null {
  if (tolerance === null) return null;
  const read = readEntry(tolerance, { dimension, unit, names });
  if (read.ok && read.value >= 0) return read.value;
  problems.push({
    path: `${path()}.tolerance`,
    found: shown(tolerance),
    message: read.ok ? 'it is negative' : read.reason,
    wanted: read.ok ? 'half the width of the band in which the value lies' : read.wanted,
  });
  return null;
}
