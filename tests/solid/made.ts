/** Solids and placements of the seeded cases, and small helpers of the tests of solids. */
import { bentTube } from '../../geometry/solid/bentTube.ts';
import { box } from '../../geometry/solid/box.ts';
import { capsule } from '../../geometry/solid/capsule.ts';
import { cylinder } from '../../geometry/solid/cylinder.ts';
import { hull } from '../../geometry/solid/hull.ts';
import { mesh } from '../../geometry/solid/mesh.ts';
import { type Placement, placement } from '../../geometry/solid/placement.ts';
import type { Made, Solid } from '../../geometry/solid/solid.ts';
import { sphere } from '../../geometry/solid/sphere.ts';
import { tire } from '../../geometry/solid/tire.ts';
import { hulls, meshes, type Place, type Shape } from '../oracle/solidCases.ts';

/** The solid, or an error that names its problem. */
export function solidIn(made: Made): Solid {
  if ('problem' in made) throw new Error(made.problem);
  return made.solid;
}

const hullPool = hulls.map(points => solidIn(hull({ points })));
const meshPool = meshes.map(({ positions, triangles }) =>
  solidIn(
    mesh({ positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) }),
  ),
);

/** The solid of a seeded case. */
export function solidOfCase(shape: Shape): Solid {
  switch (shape.kind) {
    case 'sphere':
      return solidIn(sphere(shape));
    case 'capsule':
      return solidIn(capsule(shape));
    case 'bentTube':
      return solidIn(bentTube(shape));
    case 'box':
      return solidIn(box(shape));
    case 'cylinder':
      return solidIn(cylinder(shape));
    case 'tire':
      return solidIn(tire(shape));
    case 'hull':
      return hullPool[shape.pool] as Solid;
    default:
      return meshPool[shape.pool] as Solid;
  }
}

export function placementOf({ rotation, translation }: Place): Placement {
  return placement(rotation, translation);
}
