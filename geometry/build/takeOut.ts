/**
 * A part taken out of a build with all that hangs on it: what the file, read without the part, no longer finds. Nothing
 * here knows what may hang on what; the reader's own problems say it, one round after another.
 */
import { addressOf, pathSteps, valueAt, withValue } from './address.ts';
import {
  appliedFile,
  type Edit,
  type Edited,
  withField,
  withoutField,
  withoutPart,
} from './edit.ts';
import type { Problem } from './problem.ts';
import type { BuildFile } from './schema/file.ts';

/** Something that goes with a part. `path` is where it stands, as messages write it. */
export interface Hanging {
  what:
    | 'part'
    /** A joint that an end names, which then has a plain rod end. */
    | 'joint'
    /** Box, rods, rams and knuckles: the axle then does not steer. */
    | 'steering'
    /** A band, a gap or a mute of a pair that names the part. */
    | 'wish'
    /** A taped reading from it or to it. */
    | 'reading'
    /** What a variant or an alternative does to it. */
    | 'change'
    | 'option';
  path: string;
}

export type TakenOut =
  | { ok: true; file: BuildFile; hanging: Hanging[] }
  | { ok: false; message: string; problem?: Problem };

/** Rounds: each takes out what hung on what the last one took. */
const MOST_ROUNDS = 12;

/**
 * @param path of the part as entries write it: `axles["front"].links["track bar"]`
 * @param problemsOf what is wrong with a file, as the reader tells it; none: it stands
 */
export function takenOut(
  edited: Edited,
  path: string,
  problemsOf: (file: BuildFile) => readonly Problem[],
): TakenOut {
  const first = hangingAt(path) ?? { what: 'part', path };
  const taken = fitted(edited, without(edited, first), first.path, problemsOf);
  // a rod or the box is no less than all of the steering
  if (!taken.ok || first.what !== 'steering') return taken;
  return { ...taken, hanging: [first, ...taken.hanging].filter(isWhole) };
}

/**
 * A change of a part, with all that does not fit it any more taken out.
 *
 * @param edit the file with that change
 * @param path of what was changed: where that itself is wrong, nothing is taken out for it
 */
export function fitted(
  edited: Edited,
  edit: Edit,
  path: string,
  problemsOf: (file: BuildFile) => readonly Problem[],
): TakenOut {
  if (!edit.ok) return edit;
  const hanging: Hanging[] = [];
  let { file } = edit;
  for (let i = 0; i < MOST_ROUNDS; i++) {
    const problems = problemsOf(file);
    if (problems.length === 0) return { ok: true, file, hanging: hanging.filter(isWhole) };
    const round: Hanging[] = [];
    for (const problem of problems) {
      const next = hangingAt(problem.path);
      const isKnown = next?.path === path || hanging.some(each => each.path === next?.path);
      // what stays wrong without it, or is no part of a list, is why it cannot be
      if (!next || isKnown || /^datums\[/.test(path)) {
        return { ok: false, message: problem.message, problem };
      }
      if (!round.some(each => each.path === next.path)) round.push(next);
    }
    const less = withoutAll({ ...edited, file }, round);
    if (!less.ok) return less;
    file = less.file;
    hanging.push(...round);
  }
  return { ok: false, message: 'too much hangs on it' };
}

/** What goes with something that goes too is not told by itself. */
const isWhole = ({ path }: Hanging, _: number, all: readonly Hanging[]): boolean =>
  !all.some(each => path.startsWith(`${each.path}.`));

const NAME = String.raw`\["(?:[^"\\]|\\.)*"\]`;
const ITEM = String.raw`(?:${NAME}|\[\d+\])`;

/** What a field belongs to, from the inside out, that can go by itself; the first pattern that fits counts. */
const OWNERS: readonly (readonly [RegExp, Hanging['what']])[] = [
  [new RegExp(`^variants${ITEM}\\.(?:changes|add|remove|choose)\\[\\d+\\]`), 'change'],
  [new RegExp(`^alternatives${ITEM}\\.options${ITEM}`), 'option'],
  [new RegExp(`^alternatives${ITEM}`), 'option'],
  [/^wanted\.(?:bands|gaps|muted)\[\d+\]/, 'wish'],
  [/^taped\[\d+\]/, 'reading'],
  [new RegExp(`^axles${NAME}\\.links${NAME}\\.(?:chassis|axle(?:\\[\\d\\])?)\\.joint$`), 'joint'],
  [new RegExp(`^axles${NAME}\\.steering\\.rams${NAME}`), 'part'],
  [new RegExp(`^axles${NAME}\\.steering\\.pitmanArm`), 'part'],
  [new RegExp(`^axles${NAME}\\.(?:steering|knuckles|steered)\\b`), 'steering'],
  [new RegExp(`^axles${NAME}\\.(?:swayBar|driveline|housing)\\b`), 'part'],
  [new RegExp(`^axles${NAME}\\.\\w+${NAME}`), 'part'],
  [new RegExp(`^(?:solids|datums)${NAME}`), 'part'],
];

function hangingAt(path: string): Hanging | null {
  for (const [pattern, what] of OWNERS) {
    const [found] = pattern.exec(path) ?? [];
    if (found === undefined) continue;
    // steering goes whole, whichever piece of it is missed
    return { what, path: what === 'steering' ? found.replace(/\.\w+$/, '.steering') : found };
  }
  return null;
}

/** Positions in lists hold as long as nothing before them goes: the last ones go first. */
function withoutAll(edited: Edited, all: readonly Hanging[]): Edit {
  const position = ({ path }: Hanging): number => Number(/\[(\d+)\]$/.exec(path)?.[1] ?? 0);
  return [...all]
    .sort((a, b) => position(b) - position(a))
    .reduce<Edit>(
      (edit, each) => (edit.ok ? without({ ...edited, file: edit.file }, each) : edit),
      { ok: true, file: edited.file },
    );
}

function without(edited: Edited, { what, path }: Hanging): Edit {
  switch (what) {
    case 'change':
    case 'option':
      return withoutItem(edited.file, path);
    case 'steering':
      return withoutSteering(edited, path.replace(/\.steering$/, ''));
    case 'joint':
      return withoutFieldAt(edited, path);
    case 'wish':
    case 'reading':
      return withoutListed(edited, path);
    case 'part':
      return withoutWhole(edited, path);
  }
}

/** A part of a list, or a field; nothing where what it stood in is gone already. */
function withoutWhole(edited: Edited, path: string): Edit {
  if (pathSteps(appliedFile(edited), path) === null) return { ok: true, file: edited.file };
  return path.endsWith('"]') ? withoutPart(edited, addressOf(path)) : withoutFieldAt(edited, path);
}

const withoutFieldAt = (edited: Edited, path: string): Edit => {
  const steps = pathSteps(appliedFile(edited), path);
  return steps ? withoutField(edited, steps) : { ok: true, file: edited.file };
};

/** Box, rods, rams and knuckles, and that the axle steers. @param axle its path */
function withoutSteering(edited: Edited, axle: string): Edit {
  let edit: Edit = { ok: true, file: edited.file };
  for (const field of ['steering', 'knuckles']) {
    if (edit.ok) edit = withoutFieldAt({ ...edited, file: edit.file }, `${axle}.${field}`);
  }
  const steps = pathSteps(appliedFile(edited), axle);
  if (!edit.ok || !steps) return edit;
  return withField({ ...edited, file: edit.file }, [...steps, 'steered'], false);
}

/** An item of a list whose items have no names; a list that gets empty stays. */
function withoutListed(edited: Edited, path: string): Edit {
  const steps = pathSteps(appliedFile(edited), path);
  const index = steps?.at(-1);
  if (!steps || typeof index !== 'number') return { ok: true, file: edited.file };
  const above = steps.slice(0, -1);
  const list = valueAt(appliedFile(edited), above) as readonly unknown[];
  return withField(edited, above, list.toSpliced(index, 1));
}

/** A change of a variant, or an alternative or one of its options: these are the base's own. */
function withoutItem(file: BuildFile, path: string): Edit {
  const steps = pathSteps(file, path);
  const index = steps?.at(-1);
  if (!steps || typeof index !== 'number') return { ok: true, file };
  const above = steps.slice(0, -1);
  const list = valueAt(file, above) as readonly unknown[];
  // an alternative without options is none
  const isLast = list.length === 1 && above.at(-1) === 'options';
  if (isLast) return withoutItem(file, path.replace(/\.options[^.]*$/, ''));
  return { ok: true, file: withValue(file, above, list.toSpliced(index, 1)) as BuildFile };
}

/** Whether a thing of the file can be taken out of it, by its path. */
export function canGo(path: string): boolean {
  const whole = hangingAt(path);
  if (whole?.what === 'steering') return /\.(?:box|dragLink|tieRod|knuckles)$/.test(path);
  return whole?.what === 'part' && whole.path === path;
}
