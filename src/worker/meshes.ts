/** Meshes of a build from bytes that the page holds. */
import type { drawnMesh } from '../../geometry/gap/drawnMesh.ts';
import type { MeshReader } from '../../geometry/gap/parts.ts';
import type { Made } from '../../geometry/solid/solid.ts';

/**
 * A reader over files by their name in the build. The solid of each mesh is kept as it was last asked for.
 *
 * @param draw makes the solid of a mesh; null where none of the files is needed, since it is large to load
 */
export function meshesFrom(
  files: ReadonlyMap<string, Uint8Array>,
  draw: typeof drawnMesh | null,
): MeshReader {
  const made = new Map<string, { of: string; solid: Made }>();
  return (shape, name) => {
    const of = JSON.stringify(shape);
    const known = made.get(name);
    let solid = known?.of === of ? known.solid : undefined;
    if (!solid) {
      const bytes = draw ? files.get(shape.file) : undefined;
      solid = bytes && draw ? draw(shape, bytes) : { problem: '' };
      if ('problem' in solid) {
        const problem = bytes ? solid.problem : `give ${shape.file} too`;
        solid = { problem: `solids[${JSON.stringify(name)}].mesh.file: ${problem}` };
      }
      made.set(name, { of, solid });
    }
    return solid;
  };
}
