/** Solids that somebody drew, and whatever else has no drawing of its own: the proof's own pieces, as they are. */
import { BufferAttribute, BufferGeometry, Vector3 } from 'three';
import { ConvexGeometry } from 'three/examples/jsm/geometries/ConvexGeometry.js';
import type { Axle, Build } from '../../../geometry/build/build.ts';
import type { Part } from '../../../geometry/gap/part.ts';
import { BOX, CYLINDER, type Piece, SEGMENT } from '../../../geometry/solid/piece.ts';
import type { TriangleMesh } from '../../../geometry/solid/triangleMesh.ts';
import { add, norm, scale, sub, unit, type V3 } from '../../../geometry/vector.ts';
import type { LookName } from '../looks.ts';
import { drawer, type Palette } from './shape.ts';

/** What a part without a drawing of its own looks like. */
export function lookOfDrawn(part: Part): LookName {
  if (part.motion.kind !== 'rigid') return 'added';
  return part.motion.body === 'chassis' ? 'frame' : 'added';
}

const drawnFrom = ({ name }: Part, _axle: Axle, { solids }: Build) => ({
  shape: solids.find(each => each.name === name)?.shape ?? null,
});

export const drawSolid = drawer(drawnFrom, (part, { shape }, palette) => {
  const look = lookOfDrawn(part);
  if (part.solid.mesh) {
    palette.put({ look, geometry: meshGeometry(part.solid.mesh) });
    return;
  }
  if (shape?.kind === 'bentTube') {
    const { points, radius } = shape;
    palette.in(look).tube(points, radius, 16, 2 * radius);
    return;
  }
  for (const piece of part.solid.pieces) drawPiece(piece, look, palette);
});

function drawPiece(piece: Piece, look: LookName, palette: Palette): void {
  const d = piece.data;
  const at = (i: number): V3 => [d[i] as number, d[i + 1] as number, d[i + 2] as number];
  const shaper = palette.in(look);
  if (piece.core === SEGMENT) {
    shaper.capsule(at(0), at(3), piece.radius);
  } else if (piece.core === CYLINDER) {
    const half = (d[6] as number) + piece.radius;
    const edge = Math.max(0.12, Math.min(piece.radius, half));
    shaper.drum(at(0), unit(at(3)), (d[7] as number) + piece.radius, 2 * half, 28, edge);
  } else if (piece.core === BOX) {
    const [x, y, z] = [at(3), at(6), at(9)];
    const r = piece.radius;
    const half: V3 = [(d[12] as number) + r, (d[13] as number) + r, (d[14] as number) + r];
    const sense =
      x[0] * (y[1] * z[2] - y[2] * z[1]) +
      x[1] * (y[2] * z[0] - y[0] * z[2]) +
      x[2] * (y[0] * z[1] - y[1] * z[0]);
    shaper.block(at(0), [x, y, sense < 0 ? scale(z, -1) : z], half);
  } else {
    const geometry = hullGeometry(d, piece.radius);
    if (geometry) shaper.also(geometry);
  }
}

/** The hull of points, grown by a radius: each point gets a few more about it. */
function hullGeometry(data: Float64Array, radius: number): BufferGeometry | null {
  const points: Vector3[] = [];
  for (let i = 0; i < data.length; i += 3) {
    const p: V3 = [data[i] as number, data[i + 1] as number, data[i + 2] as number];
    if (radius < 0.02) points.push(new Vector3(...p));
    else for (const n of BALL) points.push(new Vector3(...add(p, scale(n, radius))));
  }
  if (points.length < 4) return null;
  return new ConvexGeometry(points);
}

/** Directions of a coarse ball. */
const BALL: readonly V3[] = [-1, 0, 1].flatMap(x =>
  [-1, 0, 1]
    .flatMap(y => [-1, 0, 1].map((z): V3 => [x, y, z]))
    .filter(p => norm(p) > 0)
    .map(unit),
);

/** A scan: its own triangles, smooth over small steps. */
export function meshGeometry({ positions, triangles }: TriangleMesh): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3));
  geometry.setIndex(new BufferAttribute(triangles, 1));
  geometry.computeVertexNormals();
  return geometry;
}

/** Half sizes and middle of what a part fills, vehicle axes as drawn. */
export function extentOf(part: Part): { low: V3; high: V3 } {
  let low: V3 = [Infinity, Infinity, Infinity];
  let high: V3 = [-Infinity, -Infinity, -Infinity];
  const take = (p: V3, r: number): void => {
    low = [Math.min(low[0], p[0] - r), Math.min(low[1], p[1] - r), Math.min(low[2], p[2] - r)];
    high = [Math.max(high[0], p[0] + r), Math.max(high[1], p[1] + r), Math.max(high[2], p[2] + r)];
  };
  const { mesh, pieces, bound } = part.solid;
  if (mesh) {
    const n = mesh.nodes;
    const center: V3 = [n[0] as number, n[1] as number, n[2] as number];
    const half: V3 = [n[3] as number, n[4] as number, n[5] as number];
    take(add(center, half), 0);
    take(sub(center, half), 0);
  }
  for (const piece of pieces) {
    const d = piece.data;
    const at = (i: number): V3 => [d[i] as number, d[i + 1] as number, d[i + 2] as number];
    if (piece.core === SEGMENT) {
      take(at(0), piece.radius);
      take(at(3), piece.radius);
    } else if (piece.core === BOX) {
      for (let k = 0; k < 8; k++) {
        let p = at(0);
        for (const i of [0, 1, 2]) {
          p = add(p, scale(at(3 + 3 * i), (k & (1 << i) ? 1 : -1) * (d[12 + i] as number)));
        }
        take(p, piece.radius);
      }
    } else if (piece.core === CYLINDER) {
      const axis = at(3);
      const r = (d[7] as number) + piece.radius;
      for (const way of [-1, 1]) {
        const end = add(at(0), scale(axis, way * (d[6] as number)));
        const spread: V3 = [
          r * Math.sqrt(Math.max(0, 1 - axis[0] ** 2)),
          r * Math.sqrt(Math.max(0, 1 - axis[1] ** 2)),
          r * Math.sqrt(Math.max(0, 1 - axis[2] ** 2)),
        ];
        take(add(end, spread), 0);
        take(sub(end, spread), 0);
      }
    } else {
      for (let i = 0; i < 3 * piece.count; i += 3) take(at(i), piece.radius);
    }
  }
  if (!Number.isFinite(low[0])) {
    take([bound[0] as number, bound[1] as number, bound[2] as number], bound[3] as number);
  }
  return { low, high };
}

/** The middle of what a part fills, vehicle axes as drawn; of a rod the middle of its own line. */
export function centerOf(part: Part): V3 {
  const { motion } = part;
  if (motion.kind === 'ends') return scale(add(motion.from.at, motion.to.at), 0.5);
  const { low, high } = extentOf(part);
  return scale(add(low, high), 0.5);
}
