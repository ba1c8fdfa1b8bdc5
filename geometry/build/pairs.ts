/**
 * Pairs of parts: one that is written once for both sides taken apart into a left and a right one, and the way back.
 * Everything stands where it stood: whatever would move is refused with the reason. Names of images (`left NAME`,
 * `right NAME`) hold for the halves, and variants and alternatives that change the part change both.
 */
import type { z } from 'zod';
import { type Json, type Steps, valueAt } from './address.ts';
import type { Build, Side } from './build.ts';
import { appliedFile, type Edit, type Edited, withField, withoutPart, withPart } from './edit.ts';
import { type Names, NoImage, rewritten, type Turn } from './otherSide.ts';
import { changesAlike, changesApart } from './pairChanges.ts';
import { at, isOnce, type Pair, pairsAt, sideOf, type Words } from './pairPlaces.ts';
import { own } from './problem.ts';
import { readValue } from './read.ts';
import { isSameBuild } from './sameBuild.ts';
import { type BuildFile, buildFile } from './schema/file.ts';
import { schemaOf, settled } from './schema/walk.ts';

/** A part as it is written. */
export type Fields = Readonly<Record<string, unknown>>;

/** The file with parts that are written once for both sides written for each. */
export const withSidesApart = (edited: Edited, addresses: readonly string[]): Edit =>
  tried(() => {
    const names = namesOf(edited);
    const half = (side: Side) => (part: unknown, schema: z.core.$ZodType) =>
      rewritten(schema, part, { from: 'mirrored', to: side }, names);
    const file = each(edited, addresses, (now, address) => {
      const shown = appliedFile(now);
      const pairs = pairsAt(shown, address).filter(({ once }) => isOnce(at(shown, once)));
      if (pairs.length === 0) throw new NoImage(`${address} is not written once for both sides`);
      return pairs.map(pair => (pairNow: Edited): BuildFile => {
        const part = at(shown, pair.once) as Fields;
        const schema = schemaAt(shown, pair.once);
        const [left, right] = (['left', 'right'] as const).map(side =>
          asHalf(half(side)(part, schema) as Fields, side),
        ) as [Fields, Fields];
        const apart = done(replaced(pairNow, pair, { apart: [left, right] }));
        if (edited.variant !== null) return apart;
        return done(changesApart({ file: apart, pair, part, schema, half }));
      });
    });
    return stillStands(edited, file);
  });

/**
 * The file with both halves of pairs written once, after one of them: the other is its mirror image from then on.
 */
export const withSidesAlike = (edited: Edited, addresses: readonly string[], after: Side): Edit =>
  tried(() => {
    const names = namesOf(edited);
    const turn = (turned: Turn, whole: unknown, schema: z.core.$ZodType) =>
      rewritten(schema, whole, turned, names);
    const file = each(edited, addresses, (now, address) => {
      const shown = appliedFile(now);
      const pairs = pairsAt(shown, address).filter(({ once, left }) =>
        typeof left.at(-1) === 'number' ? !isOnce(at(shown, once)) : true,
      );
      if (pairs.length === 0) throw new NoImage(`${address} has no twin on the other side`);
      return pairs.map(pair => (pairNow: Edited): BuildFile => {
        const words = sideOf(shown, pair, after);
        const schema = schemaAt(shown, words);
        const once = (part: unknown): Fields =>
          asOnce(turn({ from: after, to: 'mirrored' }, part, schema) as Fields, pair);
        const alike = done(replaced(pairNow, pair, { once: once(at(shown, words)) }));
        if (edited.variant !== null) return alike;
        const across = (turned: Turn, whole: unknown) => turn(turned, whole, schema);
        return done(changesAlike({ file: alike, shown, pair, after, once, turn: across }));
      });
    });
    return reads(edited, file);
  });

/** One pair after the other, each on the file that the one before has left. */
function each(
  edited: Edited,
  addresses: readonly string[],
  toDo: (now: Edited, address: string) => ((now: Edited) => BuildFile)[],
): BuildFile {
  let now = edited;
  for (const address of addresses) {
    for (const step of toDo(now, address)) now = { ...now, file: step(now) };
  }
  return now.file;
}

/** @throws NoImage where the edit was refused */
function done(edit: Edit): BuildFile {
  if (!edit.ok) throw new NoImage(edit.message);
  return edit.file;
}

const refuse = (message: string): Edit => ({ ok: false, message });

function tried(edit: () => Edit): Edit {
  try {
    return edit();
  } catch (error) {
    if (error instanceof NoImage) return refuse(error.message);
    throw error;
  }
}

/** A part without what makes it a mirrored one, by the name of its side. */
function asHalf(part: Fields, side: Side): Fields {
  const { sides: _, ...rest } = part;
  if (typeof rest.name === 'string') return { ...rest, name: `${side} ${rest.name}` };
  return 'tip' in rest || ('axle' in rest && Object.keys(rest).length <= 2)
    ? { side, ...rest }
    : rest;
}

function asOnce(part: Fields, { once }: Pair): Fields {
  const { side: _, name, ...rest } = part;
  if (name === undefined) return { sides: 'mirror', ...rest };
  return { name: once.at(-1), sides: 'mirror', ...rest };
}

/** The file with the pair written the other way; in a variant as what the variant does. */
function replaced(
  edited: Edited,
  pair: Pair,
  by: { apart: readonly [Fields, Fields] } | { once: Fields },
): Edit {
  const last = pair.once.at(-1);
  const file = appliedFile(edited);
  const isListed = pair.left.length === pair.once.length;
  if (typeof last === 'number') {
    const list = stepsOf(file, pair.once.slice(0, -1));
    return withField(edited, list, 'apart' in by ? by.apart : [by.once]);
  }
  if (!isListed) {
    const steps = stepsOf(file, pair.once);
    if ('once' in by) return withField(edited, steps, by.once);
    const [left, right] = by.apart;
    // notes are of both
    const { notes, ...own } = left;
    const { notes: _, ...other } = right;
    return withField(edited, steps, {
      left: own,
      right: other,
      ...(notes === undefined ? {} : { notes }),
    });
  }
  const list = pair.once.slice(0, -1).join('.');
  const parts = 'apart' in by ? by.apart : [by.once];
  const gone = 'apart' in by ? [pair.once] : [pair.left, pair.right];
  if (edited.variant === null) {
    const steps = stepsOf(file, pair.once.slice(0, -1));
    const items = valueAt(file, steps) as Fields[];
    const places = gone.map(words => items.findIndex(each => each.name === words.at(-1)));
    const first = Math.min(...places);
    const rest = items.filter((_, i) => !places.includes(i));
    return withField(edited, steps, rest.toSpliced(first, 0, ...parts));
  }
  let edit: Edit = { ok: true, file: edited.file };
  const then = (step: (now: Edited) => Edit): void => {
    if (edit.ok) edit = step({ ...edited, file: edit.file });
  };
  for (const words of gone) then(now => withoutPart(now, words.join('.')));
  for (const part of parts) then(now => withPart(now, list, part as Json & { name: string }));
  return edit;
}

function stepsOf(file: Json, words: Words): Steps {
  const steps: PropertyKey[] = [];
  words.reduce<unknown>((here, word) => {
    const isList = Array.isArray(here);
    const step =
      isList && typeof word === 'string'
        ? here.findIndex(each => own(each, 'name') === word)
        : word;
    steps.push(step);
    return isList ? here[Number(step)] : own(here, String(step));
  }, file);
  return steps;
}

/** The schema of what stands at an address. */
function schemaAt(file: Json, words: Words): z.core.$ZodType {
  let here: z.core.$ZodType = buildFile;
  let value: unknown = file;
  for (const step of stepsOf(file, words)) {
    const of = settled(here, value);
    const next = of && schemaOf(of, step);
    if (!next) throw new NoImage(`${words.join('.')} is no part of this build`);
    here = next;
    value = valueAt(value, [step]);
  }
  return here;
}

/** What names mean in the build that is edited. */
function namesOf({ file, variant }: Edited): Names {
  const read = reading(file, variant);
  if (!read.ok) throw new NoImage('the build is not read');
  const places = new Map(read.build.places.map(({ name, at: point }) => [name, point]));
  const joints = new Map<string, ReturnType<Names['joint']>>();
  for (const joint of read.file.axles.flatMap(({ joints: list }) => list ?? [])) {
    const mirrored = joint.sides === 'mirror';
    const called = mirrored ? [`left ${joint.name}`, `right ${joint.name}`] : [joint.name];
    for (const name of called) joints.set(name, { mirrored, written: joint as Fields });
  }
  const bodies = bodiesOf(read.build);
  return {
    place: name => places.get(name) ?? null,
    joint: name => joints.get(name) ?? null,
    body: name => bodies.has(name),
  };
}

function bodiesOf(build: Build): Set<string> {
  const bodies = new Set(['chassis', 'axle', 'pitman arm', 'driveshaft', 'sway bar', 'ram rod']);
  for (const side of ['left', 'right']) {
    for (const body of ['knuckle', 'sway bar arm', 'sway bar link']) bodies.add(`${side} ${body}`);
  }
  for (const { links, radiusArms, shocks, steering } of build.axles) {
    const rods = [steering?.dragLink, ...(steering?.tieRods ?? [])];
    for (const part of [...links, ...radiusArms, ...rods]) if (part) bodies.add(part.name);
    for (const { name } of shocks) bodies.add(`${name}.body`).add(`${name}.shaft`);
    for (const { name } of steering?.rams ?? []) bodies.add(`${name}.body`).add(`${name}.rod`);
  }
  return bodies;
}

// The proof: everything stands where it stood

const variantsOf = ({ file, variant }: Edited): (string | null)[] =>
  variant === null ? [null, ...(file.variants ?? []).map(({ name }) => name)] : [variant];

const readings = new WeakMap<BuildFile, Map<string | null, ReturnType<typeof readValue>>>();

/** What a file reads as; read once. */
function reading(file: BuildFile, variant: string | null): ReturnType<typeof readValue> {
  const known = readings.get(file) ?? new Map<string | null, ReturnType<typeof readValue>>();
  readings.set(file, known);
  const read = known.get(variant) ?? readValue(file, { variant });
  known.set(variant, read);
  return read;
}

/** The edit, if the base and every variant of it give the same Build as before. */
function stillStands(before: Edited, file: BuildFile): Edit {
  for (const variant of variantsOf(before)) {
    const was = reading(before.file, variant);
    const is = reading(file, variant);
    if (!was.ok || !is.ok) return refuse(problemOf(is));
    if (isSameBuild(was.build, is.build)) continue;
    const { measuredAt, axles } = was.file;
    const leans =
      measuredAt?.roll != null || axles.some(({ wheelHeights }) => wheelHeights != null);
    const where = variant === before.variant ? '' : ` in variant "${variant}"`;
    return refuse(
      leans
        ? 'it was taped on a vehicle or axle that leans (see roll and wheel heights), where what is read on one side does not hold on the other; tape the other side and enter it as a part of its own'
        : `the right one would not stay where it is${where}: what it hangs on is not alike on both sides`,
    );
  }
  return { ok: true, file };
}

function reads(before: Edited, file: BuildFile): Edit {
  for (const variant of variantsOf(before)) {
    const is = reading(file, variant);
    if (!is.ok) return refuse(problemOf(is));
  }
  return { ok: true, file };
}

function problemOf(read: ReturnType<typeof readValue>): string {
  const first = read.ok ? undefined : read.problems[0];
  return first ? `${first.path}: ${first.message || `write ${first.wanted}`}` : 'it is not read';
}
