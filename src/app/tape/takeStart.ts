/** Starting a build, and each answer after it: a proposal is made anew and opened like any file, as one step. */
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import type { Start } from '../../../geometry/build/start/answers.ts';
import { writeBuild } from '../../../geometry/build/write.ts';
import { setAside } from '../files/autosave.ts';
import { type Reader, theReader } from '../files/reader.ts';
import { type Action, act } from '../state/action.ts';
import { openDocument, takeEdit } from '../state/open.ts';
import { type Document, useShop } from '../state/shop.ts';
import { whileTyping } from '../state/study.ts';
import { theStarter } from './starter.ts';
import { startOf } from './startOf.ts';

/** A number off the tape is how it is, and no change to be kept or put back. */
export const isNoTrial: Action = {
  name: 'isNoTrial',
  label: 'Take a change as it is',
  run: () => ({ did: null }),
};

/** Why something was not taken, in a line; null where it was. */
export type Refused = string | null;

const STEP = 'Start a new build';

/** Starts a build. What was open before is one step back. */
export async function beginBuild(start: Start): Promise<Refused> {
  const [starter, reader] = await Promise.all([theStarter(), theReader()]);
  const text = writeBuild(starter.propose(start).file);
  const opened = reader.read(text);
  if (!opened.ok) return whyNot(opened.problems);
  const fileName = `${start.name.trim().replace(/[^\p{L}\p{N}]+/gu, '-') || 'new-build'}.axlewalk.json`;
  const document: Document = { fileName, text, step: STEP, meshes: new Map() };
  setAside();
  act(openDocument, { document, opened });
  return null;
}

/** Answers more, or something else; what was changed by hand in between stays. */
export async function changeStart(
  words: string,
  change: (start: Start) => Start,
): Promise<Refused> {
  const [starter, reader] = await Promise.all([theStarter(), theReader()]);
  const shop = useShop.getState();
  const start = startOf(shop);
  if (!shop.document || !start) return 'this build was not started from a tape';
  const before = starter.propose(start).file;
  const after = starter.propose(change(start)).file;
  const now = reader.baseOf(shop.document.text);
  // what is kept of a file in inches keeps its inches in one in millimeters
  const [was, is] =
    after.unit === now.unit ? [before, now] : [before, now].map(starter.withUnitNamed);
  return take(reader, starter.carriedOver(was ?? before, is ?? now, after), words);
}

/** Changes the file as it is, like an edit by hand; `change` gives the file, or says why there is none. */
export async function changeFile(
  words: string,
  change: (file: BuildFile, variant: string | null) => BuildFile | string,
): Promise<Refused> {
  const reader = await theReader();
  const { document, variant } = useShop.getState();
  if (!document) return 'no build is open';
  const file = change(reader.baseOf(document.text), variant);
  return typeof file === 'string' ? file : take(reader, file, words);
}

function take(reader: Reader, file: BuildFile, words: string): Refused {
  whileTyping();
  const { document, variant } = useShop.getState();
  if (!document) return 'no build is open';
  const text = writeBuild(file);
  const opened = reader.read(text, variant);
  if (!opened.ok) return whyNot(opened.problems);
  act(takeEdit, { document: { ...document, text, step: words }, opened, words });
  act(isNoTrial);
  return null;
}

const whyNot = ([first]: readonly { path: string; message: string; wanted: string }[]): string =>
  first
    ? [`${first.path}: ${first.message}`, first.wanted].filter(Boolean).join('; ')
    : 'the build would not be read';
