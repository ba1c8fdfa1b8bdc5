/** A proposal made anew from more answers, with everything kept that was changed by hand in the one before. */
import { fieldPath, own } from '../problem.ts';
import type { BuildFile } from '../schema/file.ts';

/**
 * What was changed between `before` and `now` is changed in `after` too: three-way, by names in lists of parts and by
 * place in points. An entry with its source and tolerance is one value. A part that was taken out stays out; one that
 * `after` no longer proposes is left out unless somebody made it. What was changed while it stood there for both sides
 * stays so, though the answers differ by side by now, and the other way round.
 *
 * Where other rules proposed `now`, what they proposed is not known: all of it counts as changed by hand, but for
 * numbers that are still assumed, which take what was taped.
 *
 * @param before as it was proposed last, from the start that stands in `now`
 * @param now as it stands, changed by hand or not
 * @param after as it is proposed now
 */
export function carriedOver(before: BuildFile, now: BuildFile, after: BuildFile): BuildFile {
  const merge: Merge = { takesTaped: isByOtherRules(before, now) };
  const file = merged(merge, before, now, after) as BuildFile;
  if (!after.start) return file;
  // it stays the work of the rules that proposed it first
  const { rules } = now.start ?? after.start;
  return { ...file, start: { ...after.start, rules } };
}

/** Whether `now` was proposed by other rules than `before`. */
export const isByOtherRules = (before: BuildFile, now: BuildFile): boolean =>
  before.start?.rules !== now.start?.rules;

/** Paths of what differs, as messages write them: entries, and parts that only one of both has. */
export function differences(before: BuildFile, now: BuildFile): string[] {
  const paths: string[] = [];
  const visit = (a: unknown, b: unknown, steps: readonly PropertyKey[]): void => {
    if (isSame(a, b)) return;
    const root = a === undefined || b !== undefined ? now : before;
    const [inA, inB] = [namedParts(a), namedParts(b)];
    if (inA && inB) {
      for (const name of new Set([...inA.keys(), ...inB.keys()])) {
        const index = (b ?? a) as unknown[];
        const place = index.findIndex(each => own(each, 'name') === name);
        const [x, y] = [inA.get(name), inB.get(name)];
        if (x !== undefined && y !== undefined) visit(x, y, [...steps, place]);
        else paths.push(`${fieldPath(root, steps)}[${JSON.stringify(name)}]`);
      }
    } else if (isList(a) && isList(b) && a.length === b.length) {
      b.forEach((each, i) => {
        visit(a[i], each, [...steps, i]);
      });
    } else if (isFields(a) && isFields(b)) {
      for (const key of new Set([...Object.keys(a), ...Object.keys(b)])) {
        if (steps.length > 0 || key !== 'start') visit(a[key], b[key], [...steps, key]);
      }
    } else paths.push(fieldPath(root, steps));
  };
  visit(before, now, []);
  return paths;
}

interface Merge {
  takesTaped: boolean;
}

function merged(merge: Merge, before: unknown, now: unknown, after: unknown): unknown {
  if (isSame(before, now)) return after;
  if (isSame(before, after)) return now;
  const lists = [before, now, after].map(namedParts);
  if (lists.every(list => list !== null)) return mergedParts(merge, lists as Parts[]);
  if (isList(before) && isList(now) && isList(after) && isAlike(before, now, after)) {
    return now.map((each, i) => merged(merge, before[i], each, after[i]));
  }
  if (isFields(before) && isFields(now) && isFields(after)) {
    return mergedFields(merge, before, now, after);
  }
  const isTaken =
    merge.takesTaped && own(now, 'from') === 'assumed' && own(after, 'from') === 'measured';
  return isTaken ? after : now;
}

const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);
const isAlike = (...lists: readonly (readonly unknown[])[]): boolean =>
  new Set(lists.map(({ length }) => length)).size === 1;

type Fields = Readonly<Record<string, unknown>>;
type Parts = ReadonlyMap<string, unknown>;

/** Plain fields; an entry with its value is taken whole. */
const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' &&
  value !== null &&
  !Array.isArray(value) &&
  own(value, 'value') === undefined;

/** The items of a list by name; null where it is no list of things with names of their own. */
function namedParts(value: unknown): Parts | null {
  if (!Array.isArray(value)) return null;
  const names = value.map(item => own(item, 'name'));
  if (!names.every(name => typeof name === 'string')) return null;
  const parts = new Map(value.map((item, i) => [names[i] as string, item as unknown]));
  return parts.size === value.length ? parts : null;
}

function mergedParts(merge: Merge, [before, now, after]: Parts[]): unknown[] {
  if (!before || !now || !after) return [];
  const isChanged = (name: string): boolean =>
    before.has(name) && now.has(name) && !isSame(before.get(name), now.get(name));
  // a part that was written once for both sides, or for each, and is proposed the other way now
  const stays = [...now.keys()].filter(name => {
    const whole = name.replace(SIDE, '');
    const isTurned = whole === name ? after.has(`left ${name}`) : after.has(whole);
    const own = whole === name ? [name] : [`left ${whole}`, `right ${whole}`];
    return !after.has(name) && isTurned && own.some(isChanged);
  });
  const replaced = new Set(
    stays.flatMap(name =>
      SIDE.test(name) ? [name.replace(SIDE, '')] : [`left ${name}`, `right ${name}`],
    ),
  );
  const names = [...new Set([...after.keys(), ...now.keys()])];
  return names.flatMap(name => {
    if (replaced.has(name)) return [];
    if (stays.includes(name)) return [now.get(name)];
    return kept(merge, before.get(name), now.get(name), after.get(name));
  });
}

const SIDE = /^(?:left|right) /;

function mergedFields(merge: Merge, before: Fields, now: Fields, after: Fields): Fields {
  // in the order of the proposal, what somebody added behind it
  const keys = [...new Set([...Object.keys(after), ...Object.keys(now)])];
  return Object.fromEntries(
    keys.flatMap(key =>
      kept(merge, before[key], now[key], after[key]).map(value => [key, value] as const),
    ),
  );
}

/** The merged value, or nothing where it is gone. */
function kept(merge: Merge, before: unknown, now: unknown, after: unknown): unknown[] {
  if (now === undefined && before !== undefined) return [];
  if (after === undefined) return before === undefined && now !== undefined ? [now] : [];
  if (now === undefined || before === undefined) return [now ?? after];
  return [merged(merge, before, now, after)];
}

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
