/** What an option says of a field, taken apart into entries that can be typed. */
import { valueAt, withValue } from '../../../../geometry/build/address.ts';
import type { Change } from '../../../../geometry/build/changeSets.ts';
import { own } from '../../../../geometry/build/problem.ts';

export interface OptionValue {
  /** Steps within the change's value. */
  steps: readonly PropertyKey[];
  /** How they go on the path of the field: `[2]`, `.by[1]`. */
  suffix: string;
  typed: string;
}

/** Keys that hold a name or a word and no entry. */
const WORDS = new Set(['on', 'from', 'kind', 'held', 'plane', 'frame', 'joint', 'sides', 'name']);

/** Every entry of a value in its order; none where it takes the field out. */
export function valuesOf(value: unknown): OptionValue[] {
  const found: OptionValue[] = [];
  const walk = (each: unknown, steps: readonly PropertyKey[], suffix: string): void => {
    const typed = typedOf(each);
    if (typed !== null) found.push({ steps, suffix, typed });
    else if (Array.isArray(each)) {
      for (const [i, item] of each.entries()) walk(item, [...steps, i], `${suffix}[${i}]`);
    } else if (typeof each === 'object' && each !== null) {
      for (const [key, item] of Object.entries(each)) {
        if (!WORDS.has(key)) walk(item, [...steps, key], `${suffix}.${key}`);
      }
    }
  };
  walk(value, [], '');
  return found;
}

/** An entry as it is typed; null where it is none. */
export function typedOf(value: unknown): string | null {
  if (typeof value === 'number' || typeof value === 'string') return String(value);
  const inner = own(value, 'value');
  return typeof inner === 'number' || typeof inner === 'string' ? String(inner) : null;
}

/** The change with one of its entries typed anew; where it came from and its tolerance stay. */
export function withTyped(change: Change, steps: readonly PropertyKey[], typed: string): Change {
  const before = valueAt(change.value, steps);
  const entry =
    own(before, 'value') === undefined ? typed : { ...(before as object), value: typed };
  return { ...change, value: withValue(change.value, steps, entry) };
}
