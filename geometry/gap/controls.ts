/** Points of a part whose hull holds it, roundness aside: what bounds their motion bounds that of all its points. */
import { type Piece, SEGMENT } from '../solid/piece.ts';
import { unmoved } from '../solid/placement.ts';
import type { Solid } from '../solid/solid.ts';
import { reach } from '../solid/support.ts';
import type { V3 } from '../vector.ts';
import type { Part } from './part.ts';

export interface Controls {
  points: readonly V3[];
  /** Ends of segments, as indices of points, where the points are the pieces' own; else all points count for any. */
  ends: ReadonlyMap<Piece, readonly [number, number]>;
}

/** More own points than this are exchanged for the corners of a box. */
const MOST = 8;

export function controlsOf(part: Part): Controls {
  const solids = part.open ? [part.solid, part.open] : [part.solid];
  const own = ownPoints(solids);
  return own ?? { points: boxAround(solids), ends: new Map() };
}

function ownPoints(solids: readonly Solid[]): Controls | null {
  const points: V3[] = [];
  const ends = new Map<Piece, [number, number]>();
  const take = (d: Float64Array, i: number): number => {
    const p: V3 = [d[i] as number, d[i + 1] as number, d[i + 2] as number];
    const known = points.findIndex(q => q[0] === p[0] && q[1] === p[1] && q[2] === p[2]);
    if (known >= 0) return known;
    points.push(p);
    return points.length - 1;
  };
  for (const { pieces, mesh } of solids) {
    if (mesh) return null;
    for (const piece of pieces) {
      if (piece.core !== SEGMENT) return null;
      ends.set(piece, [take(piece.data, 0), take(piece.data, 3)]);
      if (points.length > MOST) return null;
    }
  }
  return { points, ends };
}

/** Corners of a box around solids, drawn axes. */
function boxAround(solids: readonly Solid[]): V3[] {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  const here = unmoved();
  for (const { pieces, mesh } of solids) {
    for (let c = 0; c < 3; c++) {
      const [x, y, z] = [0, 1, 2].map(k => (k === c ? 1 : 0)) as [number, number, number];
      for (const piece of pieces) {
        high[c] = Math.max(high[c] as number, reach(piece, here, x, y, z));
        low[c] = Math.min(low[c] as number, -reach(piece, here, -x, -y, -z));
      }
      if (!mesh) continue;
      const middle = mesh.nodes[c] as number;
      const half = mesh.nodes[3 + c] as number;
      high[c] = Math.max(high[c] as number, middle + half);
      low[c] = Math.min(low[c] as number, middle - half);
    }
  }
  return Array.from({ length: 8 }, (_, k) =>
    [0, 1, 2].map(c => ((k >> c) & 1 ? high[c] : low[c]) as number),
  ) as unknown as V3[];
}
