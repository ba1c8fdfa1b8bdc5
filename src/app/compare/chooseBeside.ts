/** What the axle on the page can be compared with: a variant, an alternative of one part, an example, another file. */

import { LARGEST_FILE_bytes, tooLarge } from '../../../geometry/build/fileSize.ts';
import type { OpenedBuild } from '../../../geometry/cycle/open.ts';
import { axleOf } from '../../../geometry/cycle/openAxle.ts';
import { guarded } from '../files/openFiles.ts';
import { askForFiles } from '../files/pickFiles.ts';
import { textOf, theReader } from '../files/reader.ts';
import { BASE, capital, variantNames } from '../frame/variantNames.ts';
import { act } from '../state/action.ts';
import { loadExample } from '../state/examples.ts';
import { readyFor } from '../state/meshes.ts';
import { refuse, tell } from '../state/open.ts';
import { makeRig } from '../state/rig.ts';
import { type Document, useShop } from '../state/shop.ts';
import { titleOf } from '../state/titleOf.ts';
import { endComparing, setBeside, startComparing } from './comparing.ts';

/** Sets a variant of the open build, or with null its base, beside the axle on the page. */
export async function besideVariant(variant: string | null): Promise<void> {
  const { document } = useShop.getState();
  if (!document) return;
  await guarded(document.fileName, async isNewest => {
    await setFile(document, variant, capital(variant ?? BASE), isNewest);
  });
}

/** One candidate for a part, with all that it needs. */
export async function besideCandidate(alternative: string, option: string): Promise<void> {
  const { document } = useShop.getState();
  if (!document) return;
  await guarded(document.fileName, async isNewest => {
    const { baseOf } = await theReader();
    const { candidatesOf, withCandidate } = await import('../../../geometry/compare/candidates.ts');
    const file = baseOf(document.text);
    const found = candidatesOf(file, alternative).find(each => each.option === option);
    if (!found) return;
    const made = withCandidate(file, found);
    // a file of its own: it holds this candidate alone
    const fileName = document.fileName.replace(
      /(\.axlewalk)?\.json$/,
      ` with ${option}.axlewalk.json`,
    );
    const { meshes } = document;
    const text = JSON.stringify(made.file);
    await setFile({ fileName, text, meshes }, made.variant, capital(option), isNewest);
  });
}

export async function besideExample(fileName: string): Promise<void> {
  await guarded(titleOf(fileName), async isNewest => {
    await setFile(await loadExample(fileName), null, titleOf(fileName), isNewest);
  });
}

/** A file that was chosen for it. */
export async function besideFile(file: File): Promise<void> {
  if (file.size > LARGEST_FILE_bytes) {
    act(refuse, { fileName: file.name, problems: [tooLarge(file.size)] });
    return;
  }
  await guarded(file.name, async isNewest => {
    const text = textOf(new Uint8Array(await file.arrayBuffer()));
    await setFile({ fileName: file.name, text, meshes: new Map() }, null, file.name, isNewest);
  });
}

/** Asks for a build file with the browser's own dialog. */
export function pickBeside(): void {
  askForFiles('.json', async ([file]) => {
    if (file) await besideFile(file);
  });
}

async function setFile(
  document: Document,
  variant: string | null,
  name: string,
  isNewest: () => boolean,
): Promise<void> {
  const { read } = await theReader();
  const opened = read(document.text, variant);
  if (!opened.ok) {
    if (isNewest()) act(refuse, { fileName: document.fileName, problems: opened.problems });
    return;
  }
  await readyFor(opened.build, document.meshes);
  if (isNewest()) setOpened(document, opened, name);
}

function setOpened(document: Document, opened: OpenedBuild, name: string): void {
  const { axleName } = useShop.getState();
  const axle = axleOf(opened, axleName);
  if (!axle) {
    act(tell, `${name} has no ${axleName ?? ''} axle to compare with.`);
    return;
  }
  act(setBeside, { document, opened, rig: makeRig(axle, document.meshes), name });
}

/**
 * Begins to compare, or ends it. It begins with what lies nearest: from a variant its base, from the base the first
 * variant; without variants something is to be chosen.
 */
export function toggleComparing(): void {
  const state = useShop.getState();
  if (state.comparing) {
    act(endComparing);
    return;
  }
  if (!state.rig) return;
  act(startComparing);
  const [first] = variantNames(state);
  if (first !== undefined) void besideVariant(state.variant === null ? first : null);
}
