import { readGlb } from './readGlb.ts';
import { readObj } from './readObj.ts';
import { readStl } from './readStl.ts';
import type { ReadTriangles } from './triangles.ts';

/**
 * Reads a mesh file by its name's ending: STL (binary or text), OBJ or GLB. Problems come back in one line that
 * begins with the file's name; nothing in the file makes it throw.
 *
 * @example
 *   const read = readMesh('engine bay.stl', bytes);
 *   const made = 'problem' in read ? read : mesh({ ...read.mesh, scale: INCHES_OF_UNIT.mm });
 */
export function readMesh(file: string, bytes: Uint8Array): ReadTriangles {
  const read = byEnding(file, bytes);
  return 'problem' in read ? { problem: `${file}: ${read.problem}` } : read;
}

function byEnding(file: string, bytes: Uint8Array): ReadTriangles {
  const ending = /\.([^./\\]*)$/.exec(file)?.[1]?.toLowerCase();
  if (ending === 'stl') return readStl(bytes);
  if (ending === 'obj') return readObj(bytes);
  if (ending === 'glb') return readGlb(bytes);
  if (ending === 'gltf') return { problem: 'a .gltf leans on other files: export it as one .glb' };
  return { problem: `its name ends in '${ending ?? ''}'; .stl, .obj and .glb are read` };
}
