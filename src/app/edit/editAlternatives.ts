/** Alternatives changed by hand, one step each. They are the base's, whichever variant is shown. */
import {
  type Change,
  type Choice,
  pathOfChange,
  withAlternative,
  withAlternativeCalled,
  withChange,
  withNeeds,
  withOption,
  withOptionCalled,
  withoutAlternative,
  withoutChange,
  withoutOption,
  withoutPartOf,
  withVariantOf,
  withWhy,
} from '../../../geometry/build/alternatives.ts';
import type { Edit } from '../../../geometry/build/edit.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import { change, type Refused } from './edit.ts';

const take = (step: string, edit: (file: BuildFile) => Edit, path = 'alternatives') =>
  change(step, ({ file }) => edit(file), path);

/** @param part address of the part that they are for */
export const addAlternative = (name: string, part: string, option: string): Promise<Refused> =>
  take(`Alternatives for ${name}: added`, file => withAlternative(file, name, part, option));

export const renameAlternative = (name: string, called: string): Promise<Refused> =>
  take(`Alternatives for ${name}: now ${called}`, file =>
    withAlternativeCalled(file, name, called),
  );

export const removeAlternative = (name: string): Promise<Refused> =>
  take(`Alternatives for ${name}: taken out`, file => withoutAlternative(file, name));

export const addOption = (choice: Choice): Promise<Refused> =>
  take(`${choice.option}: added`, file => withOption(file, choice));

export const renameOption = (choice: Choice, called: string): Promise<Refused> =>
  take(`${choice.option}: now ${called}`, file => withOptionCalled(file, choice, called));

export const removeOption = (choice: Choice): Promise<Refused> =>
  take(`${choice.option}: taken out`, file => withoutOption(file, choice));

export const sayWhy = (choice: Choice, why: string): Promise<Refused> =>
  take(`${choice.option}: why`, file => withWhy(file, choice, why));

export const setNeeds = (choice: Choice, needs: readonly Choice[]): Promise<Refused> =>
  take(`${choice.option}: what it needs`, file => withNeeds(file, choice, needs));

export const removeChange = (
  choice: Choice,
  at: Pick<Change, 'part' | 'field'>,
  words: string,
): Promise<Refused> =>
  take(`${choice.option}, ${words}: as in the base`, file => withoutChange(file, choice, at));

export const removePartOf = (choice: Choice, address: string, words: string): Promise<Refused> =>
  take(`${choice.option}, ${words}: as in the base`, file => withoutPartOf(file, choice, address));

/** A variant that takes the option with all that it needs, and is shown. */
export const variantOf = (name: string, choices: readonly Choice[]): Promise<Refused> =>
  change(
    `Variant ${name}: made`,
    ({ file }) => withVariantOf(file, name, choices),
    'variants',
    name,
  );

/**
 * Writes what an option says of a field. The base is read without it, so that what cannot be read there is found by
 * opening the option; that it cannot be built for other reasons is told where it is walked.
 */
export async function typeChange(choice: Choice, to: Change, words: string): Promise<Refused> {
  const { candidatesOf, withCandidate } = await import('../../../geometry/compare/candidates.ts');
  return change(
    `${choice.option}, ${words}`,
    ({ file }, { read }): Edit => {
      const edit = withChange(file, choice, to);
      const path = pathOfChange(file, to);
      if (!edit.ok || path === null) return edit;
      const candidate = candidatesOf(edit.file, choice.alternative).find(
        ({ option }) => option === choice.option,
      );
      if (!candidate) return edit;
      const made = withCandidate(edit.file, candidate);
      const opened = read(JSON.stringify(made.file), made.variant);
      const wrong = opened.ok
        ? undefined
        : opened.problems.find(problem => problem.path.startsWith(path));
      if (!wrong) return edit;
      const why = wrong.message.replace(/,? ?in variant "[^"]*"$/, '');
      return { ok: false, message: [why, `write ${wrong.wanted}`].filter(Boolean).join('; ') };
    },
    'alternatives',
  );
}
