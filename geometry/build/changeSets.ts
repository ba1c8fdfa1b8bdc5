/** What a variant or an option of an alternative does to the base, changed by hand. */
import { fieldSteps, findPart, isLost, pathSteps, valueAt, withValue } from './address.ts';
import { type Choice, changedOption, type Option } from './alternatives.ts';
import { changeVariant, type Edit, type Edited, withField } from './edit.ts';
import { fieldPath } from './problem.ts';
import type { BuildFile } from './schema/file.ts';

export type ChangeSet = Pick<Option, 'changes' | 'add' | 'remove'>;
export type Change = NonNullable<Option['changes']>[number];
export type At = Pick<Change, 'part' | 'field'>;

/** Whose changes they are. */
export type Owner = Choice | { variant: string };

/** With a field that differs from the base; in place of what was said of that field before. */
export const withChange = (file: BuildFile, owner: Owner, change: Change): Edit =>
  changedSet(file, owner, set => {
    const changes = set.changes ?? [];
    const index = changes.findIndex(isAt(change));
    return {
      ...set,
      changes: index < 0 ? [...changes, change] : changes.with(index, change),
    };
  });

/** With that field as in the base. */
export const withoutChange = (file: BuildFile, owner: Owner, at: At): Edit =>
  changedSet(file, owner, set => ({
    ...set,
    changes: orNone((set.changes ?? []).filter(each => !isAt(at)(each))),
  }));

/** Without a part that it adds, or with one that it takes out. @param address of that part */
export const withoutPartOf = (file: BuildFile, owner: Owner, address: string): Edit =>
  changedSet(file, owner, set => ({
    ...set,
    add: orNone((set.add ?? []).filter(each => addressOfAdded(each) !== address)),
    remove: orNone((set.remove ?? []).filter(each => each !== address)),
  }));

/** An empty list is left out of the file. */
const orNone = <Item>(list: Item[]): Item[] | undefined => (list.length > 0 ? list : undefined);

/**
 * A field of the shown variant as the base has it, however the variant came to it: by a change of its own, by one of the
 * whole point that it is a coordinate of, or by an option that it chooses.
 *
 * @param path as entries write it
 */
export function asInBase(edited: Edited, path: string): Edit {
  const { file, variant } = edited;
  const steps = pathSteps(file, path);
  if (variant === null || !steps) return { ok: true, file };
  const value = valueAt(file, steps);
  const changes = (file.variants ?? []).find(({ name }) => name === variant)?.changes ?? [];
  for (const change of changes) {
    const part = findPart(file, change.part);
    const within = fieldSteps(change.field);
    if (isLost(part) || !within) continue;
    const at = [...part, ...within];
    if (!at.every((step, i) => step === steps[i])) continue;
    const rest = steps.slice(at.length);
    const whole = rest.length > 0 ? withValue(change.value, rest, value) : undefined;
    const isAsBase = JSON.stringify(whole) === JSON.stringify(valueAt(file, at));
    if (whole === undefined || isAsBase) return withoutChange(file, { variant }, change);
    return withChange(file, { variant }, { ...change, value: whole });
  }
  return withField(edited, steps, value);
}

/** Where a change stands in the base, as entries write paths; null where the base has no such part. */
export function pathOfChange(file: BuildFile, { part, field }: At): string | null {
  const steps = findPart(file, part);
  const within = fieldSteps(field);
  return isLost(steps) || !within ? null : fieldPath(file, [...steps, ...within]);
}

export const addressOfAdded = ({ to, part }: NonNullable<Option['add']>[number]): string =>
  `${to}.${String(part.name)}`;

const isAt =
  (at: At) =>
  ({ part, field }: At): boolean =>
    part === at.part && field === at.field;

function changedSet(
  file: BuildFile,
  owner: Owner,
  change: <Set extends ChangeSet>(set: Set) => Set,
): Edit {
  return 'variant' in owner
    ? changeVariant({ file, variant: owner.variant }, change)
    : changedOption(file, owner, change);
}
