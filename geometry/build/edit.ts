/**
 * Changes to a build file as written, by hand: an entry typed anew, a part added or taken out. With a variant shown
 * the change becomes part of that variant and the base stays as it is. Nothing here looks at what the values mean:
 * the changed file is read like any other, and refused where it is wrong.
 */
import {
  fieldSteps,
  findPart,
  isLost,
  type Json,
  partAndField,
  pathSteps,
  type Steps,
  valueAt,
  withValue,
} from './address.ts';
import type { From } from './build.ts';
import { own } from './problem.ts';
import type { BuildFile } from './schema/file.ts';
import { applyVariant } from './variant.ts';

/** An entry as it is written: a bare value, or one with where it came from. */
export interface TypedEntry {
  value: number | string;
  from: From | null;
  tolerance: number | string | null;
}

/** Which file is edited: the base, or one of its variants. */
export interface Edited {
  /** The base, with its variants. */
  file: BuildFile;
  variant: string | null;
}

export type Edit = { ok: true; file: BuildFile } | { ok: false; message: string };

/** The file that is shown: the base with the variant applied. */
export function appliedFile({ file, variant }: Edited): Json {
  if (variant === null) return file;
  const applied = applyVariant(file, variant);
  return applied.ok ? applied.file : file;
}

/** The entry at a path of the file that is shown; null where there is none. */
export function entryAt(edited: Edited, path: string): TypedEntry | null {
  const file = appliedFile(edited);
  const steps = pathSteps(file, path);
  return steps && asEntry(valueAt(file, steps));
}

function asEntry(written: unknown): TypedEntry | null {
  if (typeof written === 'number' || typeof written === 'string') {
    return { value: written, from: null, tolerance: null };
  }
  const value = own(written, 'value');
  if (typeof value !== 'number' && typeof value !== 'string') return null;
  const from = own(written, 'from') as From | undefined;
  const tolerance = own(written, 'tolerance') as number | string | undefined;
  return { value, from: from ?? null, tolerance: tolerance ?? null };
}

/**
 * Types an entry anew; what is left out of `change` stays. An entry is written as a bare value unless it says where it
 * came from or how well it is known.
 *
 * @param path as `build.entries` has it
 */
export function withEntry(edited: Edited, path: string, change: Partial<TypedEntry>): Edit {
  const file = appliedFile(edited);
  const steps = pathSteps(file, path);
  const before = steps && asEntry(valueAt(file, steps));
  if (!steps || !before) return { ok: false, message: `${path} is no entry of this build` };
  const { value, from, tolerance } = { ...before, ...change };
  const written =
    from === null && tolerance === null
      ? value
      : {
          value,
          ...(from === null ? {} : { from }),
          ...(tolerance === null ? {} : { tolerance }),
        };
  return withField(edited, steps, written);
}

/** Writes any field: of the base, or as a change of the variant. */
export function withField(edited: Edited, steps: Steps, value: unknown): Edit {
  const { file, variant } = edited;
  if (variant === null) {
    const changed = withValue(file, steps, value);
    return changed === undefined
      ? { ok: false, message: 'there is no such field' }
      : { ok: true, file: changed as BuildFile };
  }
  const at = partAndField(appliedFile(edited), steps);
  if (!at) {
    return { ok: false, message: 'a variant changes fields of parts with names without a dot' };
  }
  return changeVariant(edited, own => inAdded(own, at, value) ?? asChange(file, own, at, value));
}

/** Leaves a field out: of the base, or by a change of the variant that takes it out. */
export function withoutField(edited: Edited, steps: Steps): Edit {
  const { file, variant } = edited;
  if (variant !== null) return withField(edited, steps, null);
  const above = valueAt(file, steps.slice(0, -1));
  const key = String(steps.at(-1));
  if (own(above, key) === undefined) return { ok: true, file };
  const { [key]: _, ...rest } = above as Record<string, unknown>;
  return withField(edited, steps.slice(0, -1), rest);
}

type VariantFile = NonNullable<BuildFile['variants']>[number];
interface At {
  part: string;
  field: string;
}

/** The variant with a part that it adds itself changed in place; null where it adds no such part. */
function inAdded(variant: VariantFile, { part, field }: At, value: unknown): VariantFile | null {
  const add = variant.add ?? [];
  const index = add.findIndex(each => `${each.to}.${String(each.part.name)}` === part);
  const within = fieldSteps(field);
  if (index < 0 || !within) return null;
  return withValue(variant, ['add', index, 'part', ...within], value) as VariantFile;
}

/** The variant with one change more, or instead of the one that was there; none where the base says the same. */
function asChange(base: BuildFile, variant: VariantFile, at: At, value: unknown): VariantFile {
  const isAt = (change: At): boolean => change.part === at.part && change.field === at.field;
  const rest = (variant.changes ?? []).filter(change => !isAt(change));
  const isAsBase = (variant.choose ?? []).length === 0 && same(valueInBase(base, at), value);
  const { changes: _, ...others } = variant;
  if (isAsBase) return rest.length > 0 ? { ...variant, changes: rest } : others;
  const index = (variant.changes ?? []).findIndex(isAt);
  const change = { ...at, value };
  return {
    ...variant,
    changes: index < 0 ? [...rest, change] : (variant.changes ?? []).with(index, change),
  };
}

/** What the base says of a field; undefined where it says nothing. */
export function valueInBase(base: BuildFile, { part, field }: At): unknown {
  const steps = findPart(base, part);
  const within = fieldSteps(field);
  return isLost(steps) || !within ? undefined : valueAt(base, [...steps, ...within]);
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Whether a field of the variant differs from the base; false without a variant. */
export function differsFromBase(edited: Edited, path: string): boolean {
  if (edited.variant === null) return false;
  const file = appliedFile(edited);
  const steps = pathSteps(file, path);
  const at = steps && partAndField(file, steps);
  return !!steps && !!at && !same(valueAt(file, steps), valueInBase(edited.file, at));
}

/**
 * Adds a part to a list of the file.
 *
 * @param to address of the list: `axles.front.links`; it is made where there is none yet
 */
export function withPart(edited: Edited, to: string, part: Json & { name: string }): Edit {
  const shown = appliedFile(edited);
  const words = to.split('.');
  const above = findPart(shown, words.length > 1 ? words.slice(0, -1).join('.') : 'build');
  if (isLost(above)) return { ok: false, message: above.message };
  const steps = [...above, words.at(-1) ?? ''];
  const list = valueAt(shown, steps) ?? [];
  if (!Array.isArray(list)) return { ok: false, message: `${to} is no list of parts` };
  if (list.some(item => own(item, 'name') === part.name)) {
    return { ok: false, message: `a part called "${part.name}" is there already` };
  }
  if (edited.variant === null) return withField(edited, steps, [...list, part]);
  return changeVariant(edited, variant => {
    const add = [...(variant.add ?? []), { to, part }];
    return { ...variant, add };
  });
}

/** Takes a part out. @param address of the part: `axles.front.links.lower link` */
export function withoutPart(edited: Edited, address: string): Edit {
  const { file, variant } = edited;
  const steps = findPart(appliedFile(edited), address);
  if (isLost(steps)) return { ok: false, message: steps.message };
  const index = steps.at(-1);
  if (typeof index !== 'number') return { ok: false, message: `${address} is no part of a list` };
  if (variant === null) {
    const list = valueAt(file, steps.slice(0, -1)) as readonly unknown[];
    return withField(edited, steps.slice(0, -1), list.toSpliced(index, 1));
  }
  return changeVariant(edited, own => {
    const isIt = ({ to, part }: { to: string; part: Record<string, unknown> }): boolean =>
      `${to}.${String(part.name)}` === address;
    const added = own.add ?? [];
    // changes of a part that is gone would no longer fit
    const changes = (own.changes ?? []).filter(
      ({ part }) => part !== address && !part.startsWith(`${address}.`),
    );
    const rest = { ...own, changes };
    return added.some(isIt)
      ? { ...rest, add: added.filter(each => !isIt(each)) }
      : { ...rest, remove: [...(own.remove ?? []), address] };
  });
}

/** The file with one of its variants changed. */
export function changeVariant(
  { file, variant }: Edited,
  change: (variant: VariantFile) => VariantFile,
): Edit {
  const variants = file.variants ?? [];
  const index = variants.findIndex(({ name }) => name === variant);
  const found = variants[index];
  if (!found) return { ok: false, message: `no variant is called "${variant}"` };
  return { ok: true, file: { ...file, variants: variants.with(index, change(found)) } };
}
