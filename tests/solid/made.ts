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

/** commonFromBody as seen from elsewhere: newFromCommon · commonFromBody. */
export function moved(newFromCommon: Placement, commonFromBody: Placement): Placement {
  const m = (i: number) => newFromCommon[i] as number;
  const b = (i: number) => commonFromBody[i] as number;
  const out = new Float64Array(12);
  for (let row = 0; row < 3; row++) {
    for (let column = 0; column < 3; column++) {
      out[3 * row + column] =
        m(3 * row) * b(column) + m(3 * row + 1) * b(3 + column) + m(3 * row + 2) * b(6 + column);
    }
    out[9 + row] = m(3 * row) * b(9) + m(3 * row + 1) * b(10) + m(3 * row + 2) * b(11) + m(9 + row);
  }
  return out;
}

/**
 * How far a point (common frame) is from the surface of a shape, in: from the shape's own numbers, not by the
 * code that is tested. Of a bent tube, hull or mesh only how far it lies outside of its pieces' reach is told.
 */
export function onSurface(shape: Shape, place: Place, point: readonly number[]): number {
  const R = place.rotation;
  const d = point.map((p, i) => p - (place.translation[i] as number));
  const local = [0, 1, 2].map(
    i =>
      (R[i] as number) * (d[0] as number) +
      (R[3 + i] as number) * (d[1] as number) +
      (R[6 + i] as number) * (d[2] as number),
  ) as [number, number, number];
  switch (shape.kind) {
    case 'sphere':
      return Math.abs(far(local, shape.center) - shape.radius);
    case 'capsule':
      return Math.abs(fromLine(local, shape.from, shape.to) - shape.radius);
    case 'bentTube': {
      const lines = shape.points.slice(1).map((to, i) => {
        const from = shape.points[i] ?? to;
        return Math.abs(fromLine(local, from, to) - shape.radius);
      });
      return Math.min(...lines);
    }
    case 'box': {
      const q = local.map(
        (p, i) => Math.abs(p - (shape.center[i] as number)) - (shape.half[i] as number),
      );
      return Math.abs(Math.max(...q));
    }
    case 'cylinder':
    case 'tire':
      return Math.abs(fromRound(shape, local));
    case 'hull':
      return 0;
    default:
      return 0;
  }
}

const far = (p: readonly number[], q: readonly number[]): number =>
  Math.hypot(...p.map((each, i) => each - (q[i] as number)));

function fromLine(p: readonly number[], from: readonly number[], to: readonly number[]): number {
  const line = to.map((each, i) => each - (from[i] as number));
  const square = line.reduce((sum, each) => sum + each * each, 0);
  const dot = line.reduce(
    (sum, each, i) => sum + each * ((p[i] as number) - (from[i] as number)),
    0,
  );
  const t = square > 0 ? Math.min(1, Math.max(0, dot / square)) : 0;
  return far(
    p,
    from.map((each, i) => each + t * (line[i] as number)),
  );
}

function fromRound(
  shape: Extract<Shape, { kind: 'cylinder' | 'tire' }>,
  p: readonly number[],
): number {
  const isTire = shape.kind === 'tire';
  const line = isTire ? shape.axis : shape.to.map((each, i) => each - (shape.from[i] as number));
  const length = Math.hypot(...line);
  const center = isTire
    ? shape.center
    : shape.from.map((each, i) => (each + (shape.to[i] as number)) / 2);
  const shoulder = isTire ? shape.shoulder : 0;
  const half = (isTire ? shape.width : length) / 2 - shoulder;
  const radius = (isTire ? shape.diameter / 2 : shape.radius) - shoulder;
  const d = p.map((each, i) => each - (center[i] as number));
  const along = d.reduce((sum, each, i) => sum + (each * (line[i] as number)) / length, 0);
  const away = Math.sqrt(
    Math.max(0, d.reduce((sum, each) => sum + each * each, 0) - along * along),
  );
  const e = Math.abs(along) - half;
  const s = away - radius;
  const out = Math.hypot(Math.max(0, e), Math.max(0, s));
  return (out > 0 ? out : Math.max(e, s)) - shoulder;
}
