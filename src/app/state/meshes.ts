/**
 * Mesh files of a build. What makes solids of them is large and few builds need it: it is loaded when one does.
 */
import type { Build } from '../../../geometry/build/build.ts';
import type { drawnMesh } from '../../../geometry/gap/drawnMesh.ts';
import type { MeshReader } from '../../../geometry/gap/parts.ts';
import { meshesFrom } from '../../worker/meshes.ts';

type Files = ReadonlyMap<string, Uint8Array>;

let draw: typeof drawnMesh | null = null;
/** One reader for each set of files, so that a mesh is made once however often its build is placed. */
const readers = new WeakMap<Files, MeshReader>();

/** Names of the mesh files that a build asks for, each once. */
export function meshNames(build: Build): string[] {
  const names = build.solids.flatMap(({ shape }) => (shape.kind === 'mesh' ? [shape.file] : []));
  return [...new Set(names)];
}

/** Those that were not given. */
export const missingMeshes = (build: Build, files: Files): string[] =>
  meshNames(build).filter(name => !files.has(name));

/** Has what reads meshes at hand before a build with meshes is placed. */
export async function readyFor(build: Build, files: Files): Promise<void> {
  if (meshNames(build).some(name => files.has(name))) await readyForMeshes();
}

/** The same for a build that is going to have one. */
export async function readyForMeshes(): Promise<void> {
  if (draw) return;
  ({ drawnMesh: draw } = await import('../../../geometry/gap/drawnMesh.ts'));
}

export function meshReader(files: Files): MeshReader {
  const reader = readers.get(files) ?? meshesFrom(files, draw);
  if (draw) readers.set(files, reader);
  return reader;
}
