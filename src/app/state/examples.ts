/** The example builds, each loaded when it is opened. */
import firstAddress from 'virtual:first-example';
import type { Build } from '../../../geometry/build/build.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import type { OpenedBuild } from '../../../geometry/cycle/open.ts';
import { openAxle } from '../../../geometry/cycle/openAxle.ts';
import type { Document } from './shop.ts';

const files = import.meta.glob<string>('../../../examples/*.axlewalk.json', {
  query: '?url',
  import: 'default',
  eager: true,
});
const meshFiles = import.meta.glob<string>('../../../examples/*.stl', {
  query: '?url',
  import: 'default',
  eager: true,
});

const baseName = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

/** File names of the examples. */
export const EXAMPLES: readonly string[] = Object.keys(files).map(baseName);

/** Loads an example with the meshes that it names. @throws where it is not there */
export async function loadExample(fileName: string): Promise<Document> {
  const url = Object.entries(files).find(([path]) => baseName(path) === fileName)?.[1];
  if (!url) throw new Error(`no example is called ${fileName}`);
  const text = await (await fetched(url)).text();
  const meshes = new Map<string, Uint8Array>();
  for (const [path, meshUrl] of Object.entries(meshFiles)) {
    const name = baseName(path);
    if (!text.includes(JSON.stringify(name))) continue;
    meshes.set(name, new Uint8Array(await (await fetched(meshUrl)).arrayBuffer()));
  }
  return { fileName, text, meshes };
}

async function fetched(url: string): Promise<Response> {
  const response = await fetch(url);
  if (!response.ok) throw new TypeError(`${url}: ${response.status}`);
  return response;
}

/** What the build of the page has read of the first example. */
interface FirstRead {
  fileName: string;
  text: string;
  build: Build;
  file: BuildFile;
}

/** The first example as it was read when the page was built, settled; null where it has to be read here. */
export async function loadFirst(): Promise<{ document: Document; opened: OpenedBuild } | null> {
  if (firstAddress === null) return null;
  const { fileName, text, build, file }: FirstRead = await (await fetched(firstAddress)).json();
  const axles = build.axles.map(axle => openAxle(build, axle));
  const settled = axles.flatMap(each => (each.ok ? [each.axle] : []));
  if (settled.length < axles.length) return null;
  const document: Document = { fileName, text, meshes: new Map() };
  return { document, opened: { build, file, axles: settled } };
}
