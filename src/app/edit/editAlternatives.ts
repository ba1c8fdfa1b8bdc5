/** Alternatives changed by hand, one step each. They are the base's, whichever variant is shown. */
import {
  type Choice,
  withAlternative,
  withAlternativeCalled,
  withNeeds,
  withOption,
  withOptionCalled,
  withoutAlternative,
  withoutOption,
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

/** A variant that takes the option with all that it needs, and is shown. */
export const variantOf = (name: string, choices: readonly Choice[]): Promise<Refused> =>
  change(
    `Variant ${name}: made`,
    ({ file }) => withVariantOf(file, name, choices),
    'variants',
    name,
  );
