/** A mesh added to the build as one step, its file kept beside it. */

import { withPart } from '../../../geometry/build/edit.ts';
import { type MeshPart, meshPart } from '../../../geometry/build/meshPart.ts';
import { change, type Refused } from '../edit/edit.ts';
import { sha256Of } from '../files/sha256.ts';
import { act } from '../state/action.ts';
import { readyForMeshes } from '../state/meshes.ts';
import { keepMeshes } from '../state/open.ts';
import type { OfferedMesh } from './offered.ts';

export type MeshAsked = Omit<MeshPart, 'file' | 'size' | 'sha256'>;

export async function addMesh(
  asked: MeshAsked,
  { name: file, bytes }: OfferedMesh,
): Promise<Refused> {
  await readyForMeshes();
  act(keepMeshes, new Map([[file, bytes]]));
  const part = meshPart({ ...asked, file, size: bytes.length, sha256: await sha256Of(bytes) });
  const path = `solids[${JSON.stringify(part.name)}]`;
  return change(`${part.name}: added`, edited => withPart(edited, 'solids', part), path);
}
