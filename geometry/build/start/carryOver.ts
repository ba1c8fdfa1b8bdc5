/** A proposal made anew from more answers, with everything kept that was changed by hand in the one before. */
import { own } from '../problem.ts';
import type { BuildFile } from '../schema/file.ts';

/**
 * What was changed between `before` and `now` is changed in `after` too: three-way, by names in lists of parts. An entry
 * with its source and tolerance is one value, and so is a list without names (a point, a curve). A part
 * that was taken out stays out; one that `after` no longer proposes is left out unless somebody made it.
 *
 * @param before as it was proposed last
 * @param now as it stands, changed by hand or not
 * @param after as it is proposed now
 */
export const carriedOver = (before: BuildFile, now: BuildFile, after: BuildFile): BuildFile =>
  merged(before, now, after) as BuildFile;

function merged(before: unknown, now: unknown, after: unknown): unknown {
  if (isSame(before, now)) return after;
  if (isSame(before, after)) return now;
  const lists = [before, now, after].map(namedParts);
  if (lists.every(list => list !== null)) return mergedParts(lists as Parts[]);
  if (isFields(before) && isFields(now) && isFields(after)) return mergedFields(before, now, after);
  return now;
}

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

function mergedParts([before, now, after]: Parts[]): unknown[] {
  if (!before || !now || !after) return [];
  const names = [...new Set([...after.keys(), ...now.keys()])];
  return names.flatMap(name => kept(before.get(name), now.get(name), after.get(name)));
}

function mergedFields(before: Fields, now: Fields, after: Fields): Fields {
  // in the order of the proposal, what somebody added behind it
  const keys = [...new Set([...Object.keys(after), ...Object.keys(now)])];
  return Object.fromEntries(
    keys.flatMap(key =>
      kept(before[key], now[key], after[key]).map(value => [key, value] as const),
    ),
  );
}

/** The merged value, or nothing where it is gone. */
function kept(before: unknown, now: unknown, after: unknown): unknown[] {
  if (now === undefined && before !== undefined) return [];
  if (after === undefined) return before === undefined && now !== undefined ? [now] : [];
  return [now === undefined || before === undefined ? (now ?? after) : merged(before, now, after)];
}

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
