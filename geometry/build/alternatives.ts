/**
 * Alternatives of a build file changed by hand: candidates for a part, each a set of changes on the base. They belong to
 * the base, whichever variant is shown. References from other options and from variants follow a new name; what is
 * still chosen or needed somewhere is not taken out.
 */
import { findPart, isLost } from './address.ts';
import type { Edit } from './edit.ts';
import type { BuildFile } from './schema/file.ts';

export type Alternative = NonNullable<BuildFile['alternatives']>[number];
export type Option = Alternative['options'][number];

export interface Choice {
  alternative: string;
  option: string;
}

const refuse = (message: string): Edit => ({ ok: false, message });

/** A first option beside what the base holds. @param part address of the part that it is for */
export function withAlternative(file: BuildFile, name: string, part: string, option: string): Edit {
  const alternatives = file.alternatives ?? [];
  if (alternatives.some(each => each.name === name)) {
    return refuse(`alternatives called "${name}" are there already`);
  }
  if (isLost(findPart(file, part))) return refuse(`the base has no ${part}`);
  const added = { name, part, options: [{ name: option }] };
  return { ok: true, file: { ...file, alternatives: [...alternatives, added] } };
}

export function withAlternativeCalled(file: BuildFile, name: string, called: string): Edit {
  if (called !== name && (file.alternatives ?? []).some(each => each.name === called)) {
    return refuse(`alternatives called "${called}" are there already`);
  }
  const renamed = changed(file, name, alternative => ({ ...alternative, name: called }));
  if (!renamed.ok) return renamed;
  return {
    ok: true,
    file: withChoices(renamed.file, choice =>
      choice.alternative === name ? { ...choice, alternative: called } : choice,
    ),
  };
}

export function withoutAlternative(file: BuildFile, name: string): Edit {
  const user = userOf(file, choice => choice.alternative === name, name);
  if (user !== null) return refuse(user);
  const rest = (file.alternatives ?? []).filter(each => each.name !== name);
  const { alternatives: _, ...others } = file;
  return { ok: true, file: rest.length > 0 ? { ...file, alternatives: rest } : others };
}

/** One option more, which is the base until something of it is changed. */
export function withOption(file: BuildFile, { alternative, option }: Choice): Edit {
  return changed(file, alternative, found =>
    found.options.some(each => each.name === option)
      ? `an option called "${option}" is there already`
      : { ...found, options: [...found.options, { name: option }] },
  );
}

/** An alternative whose last option is taken out is none. */
export function withoutOption(file: BuildFile, { alternative, option }: Choice): Edit {
  const user = userOf(
    file,
    each => each.alternative === alternative && each.option === option,
    null,
  );
  if (user !== null) return refuse(user);
  const found = (file.alternatives ?? []).find(each => each.name === alternative);
  if (found?.options.length === 1) return withoutAlternative(file, alternative);
  return changed(file, alternative, each => ({
    ...each,
    options: each.options.filter(({ name }) => name !== option),
  }));
}

export function withOptionCalled(file: BuildFile, choice: Choice, called: string): Edit {
  const { alternative, option } = choice;
  const renamed = changed(file, alternative, found =>
    called !== option && found.options.some(({ name }) => name === called)
      ? `an option called "${called}" is there already`
      : withOptionOf(found, option, each => ({ ...each, name: called })),
  );
  if (!renamed.ok) return renamed;
  return {
    ok: true,
    file: withChoices(renamed.file, each =>
      each.alternative === alternative && each.option === option
        ? { ...each, option: called }
        : each,
    ),
  };
}

/** Says why somebody would choose it; an empty reason says nothing. */
export const withWhy = (file: BuildFile, choice: Choice, why: string): Edit =>
  changedOption(file, choice, option => {
    const { why: _, ...rest } = option;
    return why === '' ? rest : { ...option, why };
  });

/** Options of other alternatives without which it can't be built. */
export const withNeeds = (file: BuildFile, choice: Choice, needs: readonly Choice[]): Edit =>
  changedOption(file, choice, option => {
    const { needs: _, ...rest } = option;
    return needs.length > 0 ? { ...option, needs: [...needs] } : rest;
  });

/** A variant that takes the option, with all that it needs. */
export function withVariantOf(file: BuildFile, name: string, choices: readonly Choice[]): Edit {
  if ((file.variants ?? []).some(each => each.name === name)) {
    return refuse(`a variant called "${name}" is there already`);
  }
  const variants = [...(file.variants ?? []), { name, choose: [...choices] }];
  return { ok: true, file: { ...file, variants } };
}

function changed(
  file: BuildFile,
  name: string,
  change: (alternative: Alternative) => Alternative | string,
): Edit {
  const alternatives = file.alternatives ?? [];
  const index = alternatives.findIndex(each => each.name === name);
  const found = alternatives[index];
  if (!found) return refuse(`there are no alternatives called "${name}"`);
  const next = change(found);
  if (typeof next === 'string') return refuse(next);
  return { ok: true, file: { ...file, alternatives: alternatives.with(index, next) } };
}

const withOptionOf = (
  alternative: Alternative,
  name: string,
  change: (option: Option) => Option,
): Alternative => ({
  ...alternative,
  options: alternative.options.map(each => (each.name === name ? change(each) : each)),
});

/** An option changed alone. */
export function changedOption(
  file: BuildFile,
  { alternative, option }: Choice,
  change: (option: Option) => Option,
): Edit {
  return changed(file, alternative, found =>
    found.options.some(({ name }) => name === option)
      ? withOptionOf(found, option, change)
      : `${alternative} has no option called "${option}"`,
  );
}

/** The file with every choice of an option, in needs and in variants, changed alike. */
function withChoices(file: BuildFile, change: (choice: Choice) => Choice): BuildFile {
  const { alternatives, variants } = file;
  return {
    ...file,
    ...(alternatives
      ? {
          alternatives: alternatives.map(each => ({
            ...each,
            options: each.options.map(option =>
              option.needs ? { ...option, needs: option.needs.map(change) } : option,
            ),
          })),
        }
      : {}),
    ...(variants
      ? {
          variants: variants.map(each =>
            each.choose ? { ...each, choose: each.choose.map(change) } : each,
          ),
        }
      : {}),
  };
}

/** Who still chooses or needs it, in a sentence; null where nobody does. @param except an alternative that goes too */
function userOf(
  { alternatives, variants }: BuildFile,
  is: (choice: Choice) => boolean,
  except: string | null,
): string | null {
  const variant = (variants ?? []).find(({ choose }) => choose?.some(is));
  if (variant) return `the variant "${variant.name}" chooses it`;
  for (const { name, options } of alternatives ?? []) {
    const option = name === except ? undefined : options.find(({ needs }) => needs?.some(is));
    if (option) return `"${option.name}" of ${name} needs it`;
  }
  return null;
}
