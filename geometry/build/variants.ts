/** Variants of a build file made, named and taken out by hand. */
import type { Edit, Edited } from './edit.ts';
import type { BuildFile } from './schema/file.ts';

const taken = (file: BuildFile, name: string): boolean =>
  (file.variants ?? []).some(each => each.name === name);

/** A variant of its own, with the changes of the one that is shown; of the base, with none. */
export function withNewVariant({ file, variant }: Edited, name: string): Edit {
  if (taken(file, name))
    return { ok: false, message: `a variant called "${name}" is there already` };
  const from = (file.variants ?? []).find(each => each.name === variant);
  const variants = [...(file.variants ?? []), { ...from, name }];
  return { ok: true, file: { ...file, variants } };
}

/** The same variant by another name. */
export function withVariantCalled(file: BuildFile, variant: string, name: string): Edit {
  if (!taken(file, variant)) return { ok: false, message: `no variant is called "${variant}"` };
  if (taken(file, name))
    return { ok: false, message: `a variant called "${name}" is there already` };
  const variants = (file.variants ?? []).map(each =>
    each.name === variant ? { ...each, name } : each,
  );
  return { ok: true, file: { ...file, variants } };
}

/** The file without a variant; the base stays as it is. */
export function withoutVariant(file: BuildFile, variant: string): Edit {
  if (!taken(file, variant)) return { ok: false, message: `no variant is called "${variant}"` };
  const rest = (file.variants ?? []).filter(each => each.name !== variant);
  const { variants: _, ...others } = file;
  return { ok: true, file: rest.length > 0 ? { ...file, variants: rest } : others };
}
