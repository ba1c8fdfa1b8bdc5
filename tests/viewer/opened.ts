/** An example's axle with its parts, for tests of the view. */
import { readFileSync } from 'node:fs';
import { axleOf, openBuild } from '../../geometry/cycle/open.ts';
import { drawnMesh } from '../../geometry/gap/drawnMesh.ts';
import { type MeshReader, partsOf } from '../../geometry/gap/parts.ts';

export const EXAMPLES = [
  'long-arm-front',
  'radius-arm-front',
  'triangulated-rear',
  'wishbone-rear',
  'double-ram-front',
  'whole-vehicle',
] as const;

export const readMesh: MeshReader = shape =>
  drawnMesh(shape, new Uint8Array(readFileSync(`examples/${shape.file}`)));

export function open(example: string, name: 'front' | 'rear' | null = null) {
  const opened = openBuild(readFileSync(`examples/${example}.axlewalk.json`, 'utf8'));
  if (!opened.ok) throw new Error(`${example} does not open`);
  const axle = axleOf(opened, name);
  if (!axle) throw new Error(`${example} has no such axle`);
  const { parts } = partsOf(axle.build, axle.axle, readMesh);
  return { ...axle, parts, file: opened.file };
}
