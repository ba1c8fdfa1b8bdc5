/** Changes of the build by hand, undone and redone. One committed change is one step; a wrong one changes nothing. */

import {
  type Edit,
  type Edited,
  type TypedEntry,
  withEntry,
} from '../../../geometry/build/edit.ts';
import type { Problem } from '../../../geometry/build/problem.ts';
import { type PairWish, withPairWish } from '../../../geometry/build/wishes.ts';
import { writeBuild } from '../../../geometry/build/write.ts';
import { type Reader, readerAtHand, theReader } from '../files/reader.ts';
import { act } from '../state/action.ts';
import { takeEdit, tell } from '../state/open.ts';
import { useShop } from '../state/shop.ts';
import { dropTrial, type Trial } from '../state/trial.ts';
import { byWords } from '../words/moveWords.ts';
import { history } from './steps.ts';

/** Why a change was not taken, for beside the field; null where it was. */
export type Refused = string | null;

/** Types an entry anew; what is wrong with it is told and the last good state stays. */
export const typeEntry = (
  path: string,
  words: string,
  entry: Partial<TypedEntry>,
): Promise<Refused> => change(words, edited => withEntry(edited, path, entry), path);

/** Writes what is wished of a pair of parts: a gap of its own, or to leave it out. */
export const wishPair = (
  pair: readonly [string, string],
  wish: PairWish,
  words: string,
): Promise<Refused> => change(words, edited => withPairWish(edited, pair, wish), 'wanted');

/**
 * Makes any change of the file, as one step; what a hand holds is let go before.
 *
 * @param path of what is changed: its own problems are told first
 * @param variant that is shown after it; unless given the one that is shown now
 */
export async function change(
  step: string,
  edit: (edited: Edited, reader: Reader) => Edit,
  path: string,
  variant?: string | null,
): Promise<Refused> {
  await keepTrial();
  return changed(step, edit, path, variant);
}

/** The file that a change gives is read like any other, and refused where it is wrong. */
async function changed(
  step: string,
  edit: (edited: Edited, reader: Reader) => Edit,
  path: string,
  shown?: string | null,
): Promise<Refused> {
  const reader = await theReader();
  const { document, variant } = useShop.getState();
  if (!document) return 'no build is open';
  const result = edit({ file: reader.baseOf(document.text), variant }, reader);
  if (!result.ok) return result.message;
  const text = writeBuild(result.file);
  const opened = reader.read(text, shown === undefined ? variant : shown);
  if (!opened.ok) return wordsOf(opened.problems, path);
  act(takeEdit, { document: { ...document, text, step }, opened, words: step });
  return null;
}

/** What is wrong, in a line: the problem of the field itself first. */
function wordsOf(problems: readonly Problem[], path: string): string {
  const [first] = [...problems.filter(problem => problem.path.startsWith(path)), ...problems];
  if (!first) return 'the build would not be read';
  const isOwn = first.path.startsWith(path);
  const why = [isOwn ? '' : first.path, first.message].filter(Boolean).join(': ');
  return [why, first.wanted && `write ${first.wanted}`].filter(Boolean).join('; ');
}

/** The file's text with what a hand moves just now, for keeping; null where it moves nothing. */
export function trialText(): { text: string; step: string } | null {
  const { trial, opened, document, variant } = useShop.getState();
  const reader = readerAtHand();
  if (!trial || !opened || !document || trial.moves.length === 0 || !reader) return null;
  const edited = { file: reader.baseOf(document.text), variant };
  const edit = reader.withMoves(edited, opened.build, trial.moves);
  if (!edit.ok) return null;
  return { text: writeBuild(edit.file), step: stepOf(trial, opened.build.unit) };
}

let keeping: Promise<Refused> | null = null;

/** Writes what a hand has moved, as one step; nothing where it holds nothing. Asked twice at a time it is done once. */
export function keepTrial(): Promise<Refused> {
  keeping ??= keep().finally(() => {
    keeping = null;
  });
  return keeping;
}

async function keep(): Promise<Refused> {
  const { trial, opened } = useShop.getState();
  if (!trial || !opened) return null;
  if (trial.moves.length === 0) {
    act(dropTrial);
    return null;
  }
  const { build } = opened;
  const refused = await changed(
    stepOf(trial, build.unit),
    (before, { withMoves }) => withMoves(before, build, trial.moves),
    '',
  );
  if (refused === null) return null;
  act(dropTrial);
  act(tell, `It could not be moved so: ${refused}`);
  return refused;
}

/** 'Lower link, frame end: 3/16 up, 1/8 in'. */
function stepOf({ words, by }: Trial, unit: 'in' | 'mm'): string {
  return `${words}: ${byWords(by, unit)}`;
}

/** Goes back, or with a negative count forward, by so many steps. */
export async function undo(count = 1): Promise<void> {
  // what is held is a step of its own, and the one that is undone
  await keepTrial();
  const { pastStates, futureStates } = history();
  if (count > 0 ? pastStates.length === 0 : futureStates.length === 0) return;
  const reader = await theReader();
  const before = useShop.getState().document;
  const meshes = before?.meshes;
  if (count > 0) history().undo(count);
  else history().redo(-count);
  const { document, variant } = useShop.getState();
  if (!document) return;
  const opened = reader.read(document.text, variant);
  // what was undone to was read before
  if (opened.ok)
    act(takeEdit, {
      document: { ...document, ...(meshes ? { meshes } : {}) },
      opened,
      words: count > 0 ? `Undone: ${before?.step ?? ''}` : `Done again: ${document.step ?? ''}`,
      isStepBack: true,
    });
  else act(tell, 'That state of the build can no longer be read.');
}

export const redo = (count = 1): Promise<void> => undo(-count);
