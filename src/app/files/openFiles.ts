/** Opening: files that were dropped or chosen, examples, variants. */
import { LARGEST_FILE_bytes, tooLarge } from '../../../geometry/build/fileSize.ts';
import type { OpenedBuild } from '../../../geometry/cycle/open.ts';
import { forgetSteps } from '../edit/steps.ts';
import { offerMeshes } from '../mesh/offered.ts';
import { act } from '../state/action.ts';
import { loadExample, loadFirst } from '../state/examples.ts';
import { FIRST_EXAMPLE } from '../state/firstExample.ts';
import { missingMeshes, readyFor } from '../state/meshes.ts';
import {
  chooseVariant,
  giveMeshes,
  openDocument,
  refuse,
  startReading,
  stopReading,
  tell,
} from '../state/open.ts';
import { type Document, useShop } from '../state/shop.ts';
import { titleOf } from '../state/titleOf.ts';
import { type KeptBuild, leftBehind, setAside, takeOver } from './autosave.ts';
import { textOf, theReader } from './reader.ts';
import { sha256Of } from './sha256.ts';

/** Of several files that are opened one after another, the last one counts. */
let newest = 0;

const MESH = /\.(stl|obj|glb)$/i;
/** Larger meshes fill a browser's memory. */
const LARGEST_MESH_bytes = 256 * 1024 * 1024;

/**
 * Opens what was dropped or chosen: a build with the meshes beside it, or meshes for the build that is open.
 * What is wrong is told on the page; never throws.
 */
export async function openFiles(files: readonly File[]): Promise<void> {
  const given = files.filter(({ name }) => MESH.test(name));
  const meshFiles = given.filter(({ size }) => size <= LARGEST_MESH_bytes);
  const [build, ...others] = files.filter(({ name }) => !MESH.test(name));
  if (build) await openBuildFile(build, meshFiles);
  else if (meshFiles.length > 0) await addMeshes(meshFiles);
  const large = given.find(file => !meshFiles.includes(file));
  if (large)
    act(tell, `${large.name} has more than 256 MiB: thin the mesh out, then drop it again.`);
  else if (others.length > 0 && build) {
    act(tell, `${build.name} alone was opened. Drop builds one by one: one is shown at a time.`);
  }
}

async function openBuildFile(build: File, meshFiles: readonly File[]): Promise<void> {
  if (build.size > LARGEST_FILE_bytes) {
    act(refuse, { fileName: build.name, problems: [tooLarge(build.size)] });
    return;
  }
  await guarded(build.name, async isNewest => {
    const bytes = new Uint8Array(await build.arrayBuffer());
    const meshes = await bytesOf(meshFiles);
    if (isNewest()) await openBytes({ fileName: build.name, bytes, meshes }, isNewest);
  });
}

/** Opens a build that came as text. */
export async function openText(fileName: string, text: string): Promise<void> {
  await guarded(fileName, isNewest =>
    openBytes({ fileName, bytes: text, meshes: new Map() }, isNewest),
  );
}

/** Opens an example of the project. */
export async function openExample(fileName: string): Promise<void> {
  await guarded(titleOf(fileName), async isNewest => {
    const { text, meshes } = await loadExample(fileName);
    await openBytes({ fileName, bytes: text, meshes }, isNewest);
  });
}

/** Opens what a tab that is gone left behind; false where there is nothing, or it can no longer be read. */
async function openLeftBehind(): Promise<boolean> {
  const kept = await leftBehind();
  return kept !== null && (await openKept(kept, 'Your changes of last time are open again.'));
}

async function openKept(kept: KeptBuild, words: string): Promise<boolean> {
  let isOpen = false;
  await guarded(kept.fileName, async isNewest => {
    const { read } = await theReader();
    const opened = read(kept.text, kept.variant);
    if (!opened.ok || !isNewest()) return;
    await readyFor(opened.build, kept.meshes);
    const { fileName, text, step, meshes } = kept;
    openNew({ document: { fileName, text, step, meshes }, opened });
    await takeOver(kept);
    act(tell, words);
    isOpen = true;
  });
  return isOpen;
}

/** Opens a build that the browser keeps; what is open is kept in its turn. */
export async function openKeptBuild(kept: KeptBuild): Promise<void> {
  await openKept(kept, 'Your changes are open again.');
}

/** Opens what was left behind, else the example that the page begins with. */
export async function openFirst(): Promise<void> {
  if (await openLeftBehind()) return;
  let isRead = false;
  await guarded(titleOf(FIRST_EXAMPLE), async isNewest => {
    const first = await loadFirst();
    isRead = first !== null;
    if (first && isNewest()) openNew(first);
  });
  if (!isRead && useShop.getState().notice === null) await openExample(FIRST_EXAMPLE);
}

/** Shows a variant of the open build, or with null the base. */
export async function showVariant(variant: string | null): Promise<void> {
  const { document } = useShop.getState();
  if (!document || useShop.getState().variant === variant) return;
  await guarded(document.fileName, async isNewest => {
    const { read } = await theReader();
    const opened = read(document.text, variant);
    if (!isNewest()) return;
    if (opened.ok) act(chooseVariant, opened);
    else act(refuse, { fileName: document.fileName, problems: opened.problems });
  });
}

interface Given {
  fileName: string;
  bytes: Uint8Array | string;
  meshes: ReadonlyMap<string, Uint8Array>;
}

async function openBytes(given: Given, isNewest: () => boolean): Promise<void> {
  const { fileName, bytes, meshes } = given;
  const { read } = await theReader();
  const opened = read(bytes);
  if (!isNewest()) return;
  if (!opened.ok) {
    act(refuse, { fileName, problems: opened.problems });
    return;
  }
  const named = underNames(missingMeshes(opened.build, new Map()), meshes);
  await readyFor(opened.build, named);
  if (!isNewest()) return;
  const text = typeof bytes === 'string' ? bytes : textOf(bytes);
  const document: Document = { fileName, text, meshes: named };
  const other = await otherFiles(opened.build, named);
  openNew({ document, opened });
  tellOther(other);
}

/** Another build: its steps begin anew, and what was changed in the one before is kept. */
function openNew(fresh: { document: Document; opened: OpenedBuild }): void {
  setAside();
  act(openDocument, fresh);
  forgetSteps();
}

/** Meshes for the build that is open; those that it does not name can be added to it. */
async function addMeshes(files: readonly File[]): Promise<void> {
  const { document, opened } = useShop.getState();
  if (!document || !opened) {
    act(tell, 'A mesh belongs to a build: drop the build file with it.');
    return;
  }
  await guarded(files[0]?.name ?? '', async isNewest => {
    const read = await bytesOf(files);
    const given = underNames(missingMeshes(opened.build, new Map()), read);
    await readyFor(opened.build, given);
    const other = await otherFiles(opened.build, given);
    if (!isNewest()) return;
    if (given.size > 0) act(giveMeshes, given);
    act(stopReading);
    tellOther(other);
    const known = new Set(given.values());
    offerMeshes(new Map([...read].filter(([, bytes]) => !known.has(bytes))));
  });
}

/** Names of mesh files that are not the ones that the build was written with. */
async function otherFiles(
  { solids }: OpenedBuild['build'],
  files: ReadonlyMap<string, Uint8Array>,
): Promise<string[]> {
  const names = new Set<string>();
  for (const { shape } of solids) {
    const bytes = shape.kind === 'mesh' ? files.get(shape.file) : undefined;
    if (!bytes || shape.kind !== 'mesh' || shape.sha256 === null) continue;
    const sum = await sha256Of(bytes);
    if (sum !== null && sum !== shape.sha256.toLowerCase()) names.add(shape.file);
  }
  return [...names];
}

function tellOther(names: readonly string[]): void {
  if (names.length === 0) return;
  const all = names.join(', ');
  act(
    tell,
    `${all}: not the file that it was when the build was written. It is used all the same.`,
  );
}

/** Files under the names that the build has for them: a path in the build is met by its last part. */
function underNames(
  wanted: readonly string[],
  files: ReadonlyMap<string, Uint8Array>,
): ReadonlyMap<string, Uint8Array> {
  const last = (path: string): string => path.slice(path.lastIndexOf('/') + 1).toLowerCase();
  const found = new Map<string, Uint8Array>();
  for (const [name, bytes] of files) {
    const match =
      wanted.find(each => each === name) ?? wanted.find(each => last(each) === last(name));
    if (match) found.set(match, bytes);
  }
  return found;
}

async function bytesOf(files: readonly File[]): Promise<ReadonlyMap<string, Uint8Array>> {
  const read = files.map(async file => {
    return [file.name, new Uint8Array(await file.arrayBuffer())] as const;
  });
  return new Map(await Promise.all(read));
}

/** Does it, the newest wish winning, and tells on the page where a file could not be fetched or read. */
export async function guarded(
  name: string,
  work: (isNewest: () => boolean) => Promise<void>,
): Promise<void> {
  const mine = ++newest;
  act(startReading, name);
  try {
    await work(() => mine === newest);
  } catch (error) {
    console.info(error);
    if (mine === newest) act(tell, `${name} could not be read: ${reasonOf(error)}`);
  }
}

const reasonOf = (error: unknown): string =>
  error instanceof TypeError
    ? 'part of the page did not come through. Check the connection and try again.'
    : error instanceof Error
      ? error.message
      : String(error);
