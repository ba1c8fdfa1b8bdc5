/** Reading the mesh files that a build names: from its own folder and below, and from nowhere else. */

import { createHash } from 'node:crypto';
import { closeSync, fstatSync, openSync, readFileSync, realpathSync } from 'node:fs';
import { dirname, isAbsolute, resolve, sep } from 'node:path';
import { problemLine, shown } from '../../geometry/build/problem.ts';
import { drawnMesh, type MeshShape } from '../../geometry/gap/drawnMesh.ts';
import type { MeshReader } from '../../geometry/gap/parts.ts';
import type { Made } from '../../geometry/solid/solid.ts';

/** A text STL of a million triangles has some 280 MB. */
const LARGEST_MESH_bytes = 512 * 1024 * 1024;

const HERE = "a file in the build file's folder or below it";

/**
 * A reader of the meshes of one build file. Each file is read once; what is wrong comes back as one line that names
 * the field, and nothing in a file makes it throw.
 *
 * @param path of the build file as typed, relative to `folder`
 */
export function meshReader(path: string, folder: string): MeshReader {
  const top = dirname(resolve(folder, path));
  const made = new Map<string, Made>();
  return (shape, name) => {
    const key = JSON.stringify(shape);
    let solid = made.get(key);
    if (!solid) {
      solid = makeMesh(shape, name, top);
      made.set(key, solid);
    }
    return solid;
  };
}

function makeMesh(shape: MeshShape, name: string, top: string): Made {
  const at = `solids[${JSON.stringify(name)}].mesh`;
  const refuse = (field: string, found: string, message: string, wanted: string): Made => ({
    problem: problemLine({ path: `${at}.${field}`, found, message, wanted }),
  });
  const got = bytesOf(shape.file, top);
  if ('message' in got) return refuse('file', shown(shape.file), got.message, got.wanted);
  const notes: string[] = [];
  if (shape.sha256 !== null) {
    const found = createHash('sha256').update(got.bytes).digest('hex');
    if (found !== shape.sha256.toLowerCase()) {
      notes.push(`${shape.file} is not the file that it was when the build was written (sha256)`);
    }
  }
  const made = drawnMesh(shape, got.bytes, notes);
  return 'problem' in made ? refuse('file', '', made.problem, 'another export of the mesh') : made;
}

type Bytes = { bytes: Uint8Array } | { message: string; wanted: string };

function bytesOf(file: string, top: string): Bytes {
  const away = (message: string): Bytes => ({ message, wanted: HERE });
  if (isAbsolute(file) || /^[A-Za-z]:/.test(file) || file.includes('\\')) {
    return away('it does not stand in the folder of the build file');
  }
  const path = resolve(top, file);
  if (!isBelow(path, top)) return away('the path climbs out of the folder of the build file');
  let handle: number | null = null;
  try {
    // a link may lead out of the folder too
    if (!isBelow(realpathSync(path), realpathSync(top))) {
      return away('it leads out of the folder of the build file');
    }
    handle = openSync(path, 'r');
    const status = fstatSync(handle);
    if (!status.isFile()) return away('that is no file');
    if (status.size > LARGEST_MESH_bytes) {
      return {
        message: `it has ${(status.size / 1024 / 1024).toFixed(0)} MiB`,
        wanted: `at most ${LARGEST_MESH_bytes / 1024 / 1024} MiB: thin the mesh out`,
      };
    }
    return { bytes: readFileSync(handle) };
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    if (code === 'ENOENT' || code === 'ENOTDIR') return away('there is no file of that name');
    return away(`the file can't be read (${code || 'no reason given'})`);
  } finally {
    if (handle !== null) closeSync(handle);
  }
}

const isBelow = (path: string, top: string): boolean =>
  path.startsWith(top.endsWith(sep) ? top : top + sep);
