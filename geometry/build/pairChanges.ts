/** What variants and options change of a part that is taken apart into its sides, or made alike again. */
import type { z } from 'zod';
import { fieldSteps, type Json, valueAt, withValue } from './address.ts';
import type { Side } from './build.ts';
import type { Edit } from './edit.ts';
import { NoImage, type Turn } from './otherSide.ts';
import { at, type Pair, sideOf, type Words } from './pairPlaces.ts';
import type { Fields } from './pairs.ts';
import type { BuildFile } from './schema/file.ts';

interface Change {
  part: string;
  field: string;
  value?: unknown;
}

interface ChangeSet {
  changes?: readonly Change[] | null | undefined;
  remove?: readonly string[] | null | undefined;
}

/** The words of a change, and how many of them are its part's. */
function wordsOf({ part, field }: Change): { words: Words; count: number } {
  const of = part === 'build' ? [] : part.split('.');
  return { words: [...of, ...((fieldSteps(field) ?? [field]) as Words)], count: of.length };
}

const isUnder = (words: Words, above: Words): boolean =>
  above.every((word, i) => words[i] === word);

/** The change with other words in place of those before its field. */
function moved(change: Change, from: Words, to: Words, value: unknown): Change {
  const { words, count } = wordsOf(change);
  const all = [...to, ...words.slice(from.length)];
  const ofPart = count < from.length ? count : count + to.length - from.length;
  const field = all
    .slice(ofPart)
    .map((word, i) => (typeof word === 'number' ? `[${word}]` : i === 0 ? word : `.${word}`))
    .join('');
  return { part: all.slice(0, ofPart).join('.') || 'build', field, value };
}

/** Every set of changes of a file, made anew. */
function withChangeSets(
  file: BuildFile,
  to: <T extends ChangeSet>(set: T, called: string) => T,
  part: (address: string) => string,
): BuildFile {
  const variants = file.variants?.map(each => to(each, `variant "${each.name}"`));
  const alternatives = file.alternatives?.map(each => ({
    ...each,
    part: part(each.part),
    options: each.options.map(option => to(option, `"${option.name}" of "${each.name}"`)),
  }));
  return {
    ...file,
    ...(variants ? { variants } : {}),
    ...(alternatives ? { alternatives } : {}),
  };
}

/** The part with the changes of a set that are about it. */
function changedPart(part: unknown, changes: readonly Change[], from: Words): unknown {
  return changes.reduce((now, change) => {
    const steps = wordsOf(change).words.slice(from.length);
    return withValue(now, steps, change.value ?? null) ?? now;
  }, part);
}

const about = ({ changes }: ChangeSet, words: Words): Change[] =>
  (changes ?? []).filter(change => {
    const all = wordsOf(change).words;
    return all.length > words.length && isUnder(all, words);
  });

interface ApartOptions {
  file: BuildFile;
  pair: Pair;
  part: unknown;
  schema: z.core.$ZodType;
  half(side: Side): (part: unknown, schema: z.core.$ZodType) => unknown;
}

/** What variants and options do to the part, done to both halves. */
export function changesApart({ file, pair, part, schema, half }: ApartOptions): Edit {
  const { once } = pair;
  const halves = (address: string): string[] =>
    address === once.join('.') && pair.left.length === once.length
      ? [pair.left.join('.'), pair.right.join('.')]
      : [address];
  const changed = withChangeSets(
    file,
    (set, called) => {
      const own = about(set, once);
      const whole = changedPart(part, own, once);
      const image = { left: half('left')(whole, schema), right: half('right')(whole, schema) };
      const changes = set.changes?.flatMap(change => {
        if (!own.includes(change)) return [change];
        const rest = wordsOf(change).words.slice(once.length);
        if (rest[0] === 'sides' || rest[0] === 'name') {
          throw new NoImage(`${called} changes what the part is called or its sides`);
        }
        return (['left', 'right'] as const).map(side =>
          moved(change, once, pair[side], change.value == null ? null : valueAt(image[side], rest)),
        );
      });
      const remove = set.remove?.flatMap(halves);
      return { ...set, ...(changes ? { changes } : {}), ...(remove ? { remove } : {}) };
    },
    address => halves(address)[0] ?? address,
  );
  return { ok: true, file: changed };
}

interface AlikeOptions {
  file: BuildFile;
  shown: Json;
  pair: Pair;
  after: Side;
  once(part: unknown): Fields;
  turn(turn: Turn, whole: unknown): unknown;
}

/** What variants and options do to both halves alike, done to the one that takes their place. */
export function changesAlike({ file, shown, pair, after, once, turn }: AlikeOptions): Edit {
  const words = { left: sideOf(shown, pair, 'left'), right: sideOf(shown, pair, 'right') };
  const other = after === 'left' ? 'right' : 'left';
  const isListed = pair.left.length === pair.once.length && typeof pair.once.at(-1) === 'string';
  const address = { left: words.left.join('.'), right: words.right.join('.') };
  const changed = withChangeSets(
    file,
    (set, called) => {
      const kept = about(set, words[after]);
      const dropped = about(set, words[other]);
      const whole = once(changedPart(at(shown, words[after]), kept, words[after]));
      const twin = turn({ from: 'mirrored', to: other }, whole);
      const same =
        kept.length === dropped.length &&
        dropped.every(change => {
          const rest = wordsOf(change).words.slice(words[other].length);
          const isKept = kept.some(each =>
            isSame(wordsOf(each).words.slice(words[after].length), rest),
          );
          return isKept && isSame(change.value ?? null, valueAt(twin, rest) ?? null);
        });
      const gone = (['left', 'right'] as const).filter(side => set.remove?.includes(address[side]));
      if (!same || (isListed && gone.length === 1)) {
        throw new NoImage(`${called} changes the left and the right one differently`);
      }
      const changes = set.changes?.flatMap(change => {
        if (dropped.includes(change)) return [];
        if (!kept.includes(change)) return [change];
        const rest = wordsOf(change).words.slice(words[after].length);
        return [
          moved(
            change,
            words[after],
            pair.once,
            change.value == null ? null : valueAt(whole, rest),
          ),
        ];
      });
      const remove = isListed
        ? set.remove?.flatMap(each =>
            each === address[after] ? [pair.once.join('.')] : each === address[other] ? [] : [each],
          )
        : set.remove;
      return { ...set, ...(changes ? { changes } : {}), ...(remove ? { remove } : {}) };
    },
    each =>
      isListed && (each === address.left || each === address.right) ? pair.once.join('.') : each,
  );
  return { ok: true, file: changed };
}

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
