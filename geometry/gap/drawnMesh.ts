/** The solid of a mesh file that a build names: its bytes read, scaled and set into its place. */
import type { Shape } from '../build/build.ts';
import { mesh, solidOfMesh } from '../solid/mesh.ts';
import { placement } from '../solid/placement.ts';
import { readMesh } from '../solid/readMesh.ts';
import type { Made } from '../solid/solid.ts';

export type MeshShape = Extract<Shape, { kind: 'mesh' }>;

/**
 * Makes the solid of a mesh file, vehicle axes as drawn, in; or says what is wrong with the file, never throws.
 *
 * @param notes sentences on the file itself that come before those on its triangles
 */
export function drawnMesh(
  shape: MeshShape,
  bytes: Uint8Array,
  notes: readonly string[] = [],
): Made {
  const read = readMesh(shape.file, bytes);
  if ('problem' in read) return read;
  const [x, y, z] = shape.axes;
  // the rows of `axes` are the mesh's own axes in vehicle axes
  const rotation = [0, 1, 2].flatMap(c => [x[c] as number, y[c] as number, z[c] as number]);
  const solid = mesh({ ...read.mesh, scale: shape.scale, place: placement(rotation, shape.at) });
  if ('problem' in solid) return solid;
  const tree = solid.solid.mesh;
  const all = [...notes, ...read.notes, ...(tree?.notes ?? [])];
  return tree ? { solid: solidOfMesh({ ...tree, notes: all }) } : solid;
}
