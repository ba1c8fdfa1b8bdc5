/** What a variant or an option of an alternative has otherwise than the base, changed by hand, one step each. */
import {
  type At,
  type Change,
  type Owner,
  pathOfChange,
  withChange,
  withoutChange,
  withoutPartOf,
} from '../../../geometry/build/changeSets.ts';
import type { Edit } from '../../../geometry/build/edit.ts';
import type { Problem } from '../../../geometry/build/problem.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import type { Reader } from '../files/reader.ts';
import { change, type Refused } from './edit.ts';

const nameOf = (owner: Owner): string => ('variant' in owner ? owner.variant : owner.option);
const listOf = (owner: Owner): string => ('variant' in owner ? 'variants' : 'alternatives');

/**
 * Writes what is said of a field. The base is read without it, so that what cannot be read there is found by opening
 * the owner; that an option cannot be built for other reasons is told where it is walked.
 */
export async function typeChange(owner: Owner, to: Change, words: string): Promise<Refused> {
  const { candidatesOf, withCandidate } = await import('../../../geometry/compare/candidates.ts');
  const problemsOf = (file: BuildFile, { read }: Reader): readonly Problem[] => {
    if ('variant' in owner) {
      const opened = read(JSON.stringify(file), owner.variant);
      return opened.ok ? [] : opened.problems;
    }
    const found = candidatesOf(file, owner.alternative).find(
      ({ option }) => option === owner.option,
    );
    if (!found) return [];
    const made = withCandidate(file, found);
    const opened = read(JSON.stringify(made.file), made.variant);
    return opened.ok ? [] : opened.problems;
  };
  return change(
    `${nameOf(owner)}, ${words}`,
    ({ file }, reader): Edit => {
      const edit = withChange(file, owner, to);
      const path = pathOfChange(file, to);
      if (!edit.ok || path === null) return edit;
      const wrong = problemsOf(edit.file, reader).find(problem => problem.path.startsWith(path));
      if (!wrong) return edit;
      const why = wrong.message.replace(/,? ?in variant "[^"]*"$/, '');
      return { ok: false, message: [why, `write ${wrong.wanted}`].filter(Boolean).join('; ') };
    },
    listOf(owner),
  );
}

export const removeChange = (owner: Owner, at: At, words: string): Promise<Refused> =>
  change(
    `${nameOf(owner)}, ${words}: as in the base`,
    ({ file }) => withoutChange(file, owner, at),
    listOf(owner),
  );

/** A part that it adds, or takes out, no more. */
export const removePartOf = (owner: Owner, address: string, words: string): Promise<Refused> =>
  change(
    `${nameOf(owner)}, ${words}: as in the base`,
    ({ file }) => withoutPartOf(file, owner, address),
    listOf(owner),
  );
