/** Solids that the user draws, on whatever body. */
import type { Axle, Build, Solid as Drawn } from '../build/build.ts';
import { bentTube } from '../solid/bentTube.ts';
import { box } from '../solid/box.ts';
import { capsule } from '../solid/capsule.ts';
import { cylinder } from '../solid/cylinder.ts';
import { hull } from '../solid/hull.ts';
import type { Made } from '../solid/solid.ts';
import { sphere } from '../solid/sphere.ts';
import { scale } from '../vector.ts';
import type { MeshShape } from './drawnMesh.ts';
import type { Motion, Part } from './part.ts';
import type { PartList } from './partList.ts';

/** The solid that a mesh file makes, or what is wrong with the file. `name`: the solid's own, for messages. */
export type MeshReader = (shape: MeshShape, name: string) => Made;

/** Those that ride on the chassis or on this axle, after its own parts are in the list. */
export function drawnParts(build: Build, axle: Axle, readMesh: MeshReader, list: PartList): void {
  const own = new Map(list.parts.map(part => [part.body, part]));
  for (const drawn of build.solids) {
    if (drawn.on !== 'chassis' && drawn.axle !== axle.name) continue;
    const { isNew, mayBeCut, give } = drawn;
    const more = { ...rideOf(drawn, own), isNew, mayBeCut, give };
    list.put(drawn.name, 'drawn', more.motion, solidOf(drawn, readMesh), more);
  }
}

/**
 * How a drawn solid moves. Halves of shocks and rams are bodies as `left shock.body`. On a part that is stretched
 * between two ends it is carried rigidly by its first end.
 */
function rideOf(drawn: Drawn, own: ReadonlyMap<string, Part>): { motion: Motion; body: string } {
  const rigid = (body: string) => ({ motion: { kind: 'rigid', body } as const, body });
  if (drawn.on === 'sway bar') return rigid('chassis');
  const part = own.get(drawn.on.replace(/\.(body|shaft|rod)$/, ' $1'));
  if (!part) return rigid(drawn.on);
  const { motion, body } = part;
  if (motion.kind !== 'ends') return { motion, body };
  return { motion: { kind: 'aim', at: motion.from, towards: motion.to }, body };
}

/** Solids by their shape, each made once: hulls are dear. */
const made = new WeakMap<Drawn['shape'], Made>();

function solidOf({ shape, name }: Drawn, readMesh: MeshReader): Made {
  // the reader keeps its own
  if (shape.kind === 'mesh') return readMesh(shape, name);
  const known = made.get(shape) ?? solidOfShape(shape);
  made.set(shape, known);
  return known;
}

function solidOfShape(shape: Exclude<Drawn['shape'], { kind: 'mesh' }>): Made {
  switch (shape.kind) {
    case 'sphere':
      return sphere(shape);
    case 'capsule':
      return capsule(shape);
    case 'bentTube':
      return bentTube(shape);
    case 'cylinder':
      return cylinder(shape);
    case 'box':
      return box({
        center: shape.center,
        half: scale(shape.size, 0.5),
        axes: shape.axes.flatMap(row => [...row]),
      });
    case 'hull':
      return hull(shape);
  }
}
