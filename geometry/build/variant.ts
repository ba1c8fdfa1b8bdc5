/**
 * Variants and alternatives of a build file: sets of changes on the base.
 *
 * A change set first takes parts out, then adds some, then changes fields. A variant takes the options that
 * it chooses, in their order, and then does what it says itself. Nothing here looks at what the values
 * mean: the changed file is read like any other.
 */
import {
  fieldSteps,
  findPart,
  isLost,
  type Json,
  type Steps,
  valueAt,
  withValue,
} from './address.ts';
import { nearest } from './nearest.ts';
import { fieldPath, own, type Problem, shown } from './problem.ts';
import type { BuildFile } from './schema/file.ts';

type VariantFile = NonNullable<BuildFile['variants']>[number];
type Option = NonNullable<BuildFile['alternatives']>[number]['options'][number];
type ChangeSet = Pick<VariantFile, 'changes' | 'add' | 'remove'>;

export type Applied = { ok: true; file: Json } | { ok: false; problems: Problem[] };

/** Fields of the file that no change may touch: they say what the changes are made to. */
const fixed = new Set(['axlewalk', 'variants', 'alternatives']);

/**
 * The base with a variant applied. All of its changes that do not fit the base are told at once.
 *
 * @param base a build file that the schema takes
 */
export function applyVariant(base: BuildFile, name: string): Applied {
  const variants = base.variants ?? [];
  const index = variants.findIndex(variant => variant.name === name);
  const variant = variants[index];
  if (variant === undefined) return unknownVariant(name, variants);
  const problems: Problem[] = [];
  const path = `variants${fieldPath(variants, [index])}`;
  const options = chosen(base, variant, path, problems);
  let file: Json = base;
  for (const option of options) file = change(file, option.set, option.path, problems);
  file = change(file, variant, path, problems);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, file };
}

/** Whether every variant, and every option of an alternative, still fits the base. */
export function checkVariants(base: BuildFile): Problem[] {
  const problems: Problem[] = [];
  const variants = base.variants ?? [];
  tellRepeated(variants, 'variants', problems);
  for (const { name } of variants) {
    const applied = applyVariant(base, name);
    if (!applied.ok) problems.push(...applied.problems);
  }
  const alternatives = base.alternatives ?? [];
  tellRepeated(alternatives, 'alternatives', problems);
  alternatives.forEach((alternative, i) => {
    const path = `alternatives${fieldPath(alternatives, [i])}`;
    const part = findPart(base, alternative.part);
    if (isLost(part))
      problems.push({ path: `${path}.part`, found: shown(alternative.part), ...part });
    tellRepeated(alternative.options, `${path}.options`, problems);
    alternative.options.forEach((option, j) => {
      const at = `${path}.options${fieldPath(alternative.options, [j])}`;
      change(base, option, at, problems);
      (option.needs ?? []).forEach((need, k) => {
        findOption(base, need, `${at}.needs[${k}]`, problems);
      });
    });
  });
  return problems;
}

interface Choice {
  alternative: string;
  option: string;
}

interface Chosen {
  set: Option;
  path: string;
}

/** The options that a variant chooses, each with what it needs among the choices. */
function chosen(
  base: BuildFile,
  variant: VariantFile,
  path: string,
  problems: Problem[],
): Chosen[] {
  const choices = variant.choose ?? [];
  const has = (need: Choice) =>
    choices.some(
      ({ alternative, option }) => alternative === need.alternative && option === need.option,
    );
  return choices.flatMap((choice, i) => {
    const at = `${path}.choose[${i}]`;
    const found = findOption(base, choice, at, problems);
    for (const need of found?.set.needs ?? []) {
      if (has(need)) continue;
      problems.push({
        path: at,
        found: shown(choice.option),
        message: `it needs "${need.option}" of "${need.alternative}"`,
        wanted: 'that choice beside it',
      });
    }
    return found === null ? [] : [found];
  });
}

function findOption(
  base: BuildFile,
  choice: Choice,
  path: string,
  problems: Problem[],
): Chosen | null {
  const alternatives = base.alternatives ?? [];
  const i = alternatives.findIndex(({ name }) => name === choice.alternative);
  const options = alternatives[i]?.options ?? [];
  if (i < 0) {
    const names = alternatives.map(({ name }) => name);
    tellUnknown(`${path}.alternative`, choice.alternative, 'alternative', names, problems);
    return null;
  }
  const j = options.findIndex(({ name }) => name === choice.option);
  const set = options[j];
  if (set === undefined) {
    const names = options.map(({ name }) => name);
    tellUnknown(`${path}.option`, choice.option, 'option', names, problems);
    return null;
  }
  return { set, path: fieldPath(base, ['alternatives', i, 'options', j]) };
}

/** The file after one change set; what does not fit is told and left out. */
function change(base: Json, set: ChangeSet, path: string, problems: Problem[]): Json {
  let file = base;
  (set.remove ?? []).forEach((address, i) => {
    const removed = withoutPart(file, address);
    if ('message' in removed) tell(`${path}.remove[${i}]`, address, removed);
    else file = removed.file;
  });
  (set.add ?? []).forEach(({ to, part }, i) => {
    const added = withPart(file, to, part);
    if ('message' in added) tell(`${path}.add[${i}].to`, to, added);
    else file = added.file;
  });
  (set.changes ?? []).forEach(({ part, field, value }, i) => {
    const steps = findPart(file, part);
    if (isLost(steps)) {
      tell(`${path}.changes[${i}].part`, part, steps);
      return;
    }
    const changed = withField(file, steps, field, value ?? null);
    if ('message' in changed) tell(`${path}.changes[${i}].field`, field, changed);
    else file = changed.file;
  });
  return file;

  function tell(at: string, found: string, fault: { message: string; wanted: string }): void {
    problems.push({ path: at, found: shown(found), message: fault.message, wanted: fault.wanted });
  }
}

type Outcome = { file: Json } | { message: string; wanted: string };

function withoutPart(file: Json, address: string): Outcome {
  const steps = findPart(file, address);
  if (isLost(steps)) return steps;
  const index = steps.at(-1);
  const list = valueAt(file, steps.slice(0, -1));
  if (!Array.isArray(list) || typeof index !== 'number' || steps[0] === 'variants') {
    return { message: 'it is no part of a list', wanted: 'the address of a named part in a list' };
  }
  return { file: withValue(file, steps.slice(0, -1), list.toSpliced(index, 1)) as Json };
}

function withPart(file: Json, to: string, part: unknown): Outcome {
  const words = to.split('.');
  const above = findPart(file, words.length > 1 ? words.slice(0, -1).join('.') : 'build');
  if (isLost(above)) return above;
  const key = words.at(-1) ?? '';
  const list = valueAt(file, [...above, key]) ?? [];
  const wanted = 'the address of a list, such as "axles.front.links"';
  if (!Array.isArray(list) || fixed.has(words[0] ?? ''))
    return { message: 'it is no list of parts', wanted };
  const name = own(part, 'name');
  // what has no name, such as a muted pair, is one more of its kind
  if (name !== undefined && list.some(item => own(item, 'name') === name)) {
    return {
      message: `a part called ${shown(name)} is there already`,
      wanted: 'a part with a name of its own',
    };
  }
  const changed = withValue(file, [...above, key], [...list, part]);
  return changed === undefined
    ? { message: 'it is no list of parts', wanted }
    : { file: changed as Json };
}

function withField(file: Json, part: Steps, field: string, value: unknown): Outcome {
  const wanted = 'a field of this part, such as "chassis.at" or "chassis.at[2]"';
  const within = fieldSteps(field);
  const target = valueAt(file, part);
  if (within === null || Array.isArray(target)) return { message: '', wanted };
  if (fixed.has(String([...part, ...within][0]))) {
    return { message: 'no change may touch it', wanted: 'a field of a part' };
  }
  const changed = withValue(file, [...part, ...within], value);
  return changed === undefined
    ? { message: 'there is no such field', wanted }
    : { file: changed as Json };
}

function unknownVariant(name: string, variants: readonly VariantFile[]): Applied {
  const problems: Problem[] = [];
  tellUnknown(
    'variants',
    name,
    'variant',
    variants.map(variant => variant.name),
    problems,
  );
  return { ok: false, problems };
}

function tellUnknown(
  path: string,
  name: string,
  what: string,
  known: readonly string[],
  problems: Problem[],
): void {
  const near = nearest(name, known);
  const listed = known.map(item => `"${item}"`).join(', ');
  const wanted =
    near !== null
      ? `"${near}"`
      : known.length > 0
        ? `one of ${listed}`
        : `no ${what}, since the build has none`;
  problems.push({ path, found: shown(name), message: `there is no such ${what}`, wanted });
}

function tellRepeated(parts: readonly { name: string }[], path: string, problems: Problem[]): void {
  const names = new Set<string>();
  parts.forEach(({ name }, i) => {
    if (names.has(name)) {
      problems.push({
        path: `${path}[${i}].name`,
        found: shown(name),
        message: 'it stands twice',
        wanted: 'a name of its own',
      });
    }
    names.add(name);
  });
}
