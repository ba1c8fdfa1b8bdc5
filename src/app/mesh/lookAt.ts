/** A mesh file looked at before it is added: whether it can be read, how large it is, and what is to know of it. */
import type { Vec3 } from '../../../geometry/build/build.ts';
import type { FileAxis, MeshUnit } from '../../../geometry/build/meshPart.ts';
import { mesh } from '../../../geometry/solid/mesh.ts';
import { readMesh } from '../../../geometry/solid/readMesh.ts';
import type { Triangles } from '../../../geometry/solid/triangles.ts';
import { INCHES_OF_UNIT } from '../../../geometry/solid/triangles.ts';

export interface Looked {
  triangles: number;
  /** Along its own axes, in the file's unit. */
  size: Vec3;
  /** What to know of it, such as that it is not closed. */
  notes: readonly string[];
  /** The unit that it most likely is in. */
  unit: MeshUnit;
  forward: FileAxis;
  up: FileAxis;
}

/** Something of a vehicle is no larger than this, in its unit, and not much smaller. */
const LONGEST: readonly (readonly [most: number, unit: MeshUnit])[] = [
  [6, 'm'],
  [240, 'in'],
];

export function lookAt(name: string, bytes: Uint8Array): Looked | { problem: string } {
  const read = readMesh(name, bytes);
  if ('problem' in read) return read;
  const size = sizeOf(read.mesh);
  // glTF 2.0 settles both: meters, Y up, Z forward
  const isGlb = /\.glb$/i.test(name);
  const unit = isGlb ? 'm' : (LONGEST.find(([most]) => Math.max(...size) <= most)?.[1] ?? 'mm');
  const solid = mesh({ ...read.mesh, scale: INCHES_OF_UNIT[unit] });
  if ('problem' in solid) return { problem: `${name}: ${solid.problem}` };
  return {
    triangles: read.mesh.triangles.length / 3,
    size,
    notes: [...read.notes, ...(solid.solid.mesh?.notes ?? [])],
    unit,
    forward: isGlb ? '+z' : '+x',
    up: isGlb ? '+y' : '+z',
  };
}

function sizeOf({ positions, triangles }: Triangles): Vec3 {
  const least = [Infinity, Infinity, Infinity];
  const most = [-Infinity, -Infinity, -Infinity];
  for (const vertex of triangles) {
    for (let i = 0; i < 3; i++) {
      const at = positions[3 * vertex + i] as number;
      least[i] = Math.min(least[i] as number, at);
      most[i] = Math.max(most[i] as number, at);
    }
  }
  return [0, 1, 2].map(i => (most[i] as number) - (least[i] as number)) as unknown as Vec3;
}

/** 'engine_bay-v2.stl' → 'engine bay v2', as a part may be called. */
export const nameOf = (file: string): string =>
  (file.split('/').at(-1) ?? '')
    .replace(/\.[^.]*$/, '')
    .replace(/[.#[\]"_-]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .slice(0, 80)
    .trim();
