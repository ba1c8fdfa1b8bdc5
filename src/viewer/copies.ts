/** Colors of single copies: the lugs of a tire that touch are marked. */
import { Color, type InstancedMesh, Matrix4, Vector3 } from 'three';
import { colorOf, type LookName, type Theme, TONES } from './looks.ts';

const plain = new Color();
const marked = new Color();
const matrix = new Matrix4();
const middle = new Vector3();

/** All copies in their own color. */
export function colorCopies(mesh: InstancedMesh, look: LookName, theme: Theme): void {
  plain.set(colorOf(look, theme));
  for (let i = 0; i < mesh.count; i++) mesh.setColorAt(i, plain);
  if (mesh.instanceColor) mesh.instanceColor.needsUpdate = true;
}

/**
 * Marks the copies about a point.
 *
 * @param at in the frame of the copies
 * @param reach how far a copy's middle may be off, in
 */
export function markCopies(
  mesh: InstancedMesh,
  look: LookName,
  theme: Theme,
  at: Vector3,
  reach: number,
  color = TONES[theme].touch,
): void {
  plain.set(colorOf(look, theme));
  marked.set(color);
  const sphere = mesh.geometry.boundingSphere;
  if (!sphere) mesh.geometry.computeBoundingSphere();
  for (let i = 0; i < mesh.count; i++) {
    mesh.getMatrixAt(i, matrix);
    middle.copy(mesh.geometry.boundingSphere?.center ?? middle.set(0, 0, 0)).applyMatrix4(matrix);
    mesh.setColorAt(i, middle.distanceTo(at) < reach ? marked : plain);
  }
  if (mesh.instanceColor) mesh.instanceColor.needsUpdate = true;
}
