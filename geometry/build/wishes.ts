/** What somebody wishes of a pair of parts, written into the file: a gap of its own, or to be left out of the check. */
import { valueAt } from './address.ts';
import { appliedFile, type Edit, type Edited, withField } from './edit.ts';
import { own } from './problem.ts';

export type PairWish =
  | { kind: 'gap'; required: string; why: string }
  | { kind: 'muted'; why: string }
  /** As any other pair. */
  | { kind: 'none' };

/**
 * The file with a wish for a pair, in place of any that was there for it. With a variant shown it is the variant's own.
 *
 * @param pair names of two parts, in any order
 */
export function withPairWish(
  edited: Edited,
  pair: readonly [string, string],
  wish: PairWish,
): Edit {
  const { required, why } = { required: null, why: null, ...wish };
  const gap = wish.kind === 'gap' ? { pair, required, why } : null;
  const muted = wish.kind === 'muted' ? { pair, why } : null;
  const first = withEntryOf(edited, 'gaps', pair, gap);
  return first.ok ? withEntryOf({ ...edited, file: first.file }, 'muted', pair, muted) : first;
}

/** A list of wishes with this one for the pair, or with none. */
function withEntryOf(
  edited: Edited,
  list: 'gaps' | 'muted',
  pair: readonly [string, string],
  wish: object | null,
): Edit {
  const steps = ['wanted', list];
  const written = valueAt(appliedFile(edited), steps);
  const now: readonly unknown[] = Array.isArray(written) ? written : [];
  const rest = now.filter(each => !isOf(each, pair));
  if (!wish && rest.length === now.length) return { ok: true, file: edited.file };
  return withField(edited, steps, wish ? [...rest, wish] : rest);
}

function isOf(written: unknown, [a, b]: readonly [string, string]): boolean {
  const pair = own(written, 'pair');
  if (!Array.isArray(pair)) return false;
  return (pair[0] === a && pair[1] === b) || (pair[0] === b && pair[1] === a);
}
