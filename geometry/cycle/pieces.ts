/** Whether what the stops allow hangs together. */
import { EDGE_in, type EdgePoint, type Ground, inside } from './edge.ts';

/** Grid on which separate pieces are looked for, in. */
const PIECE_GRID_in = 1;
/** How far around the traced piece others are looked for, in. */
const PIECE_REACH_in = 4;
/** Pieces of what the stops allow: the traced one, and others on a grid around it, by flooding. */
export function countPieces(ground: Ground, edge: readonly EdgePoint[]): number {
  const spread = (pick: (p: EdgePoint) => number): [number, number] => [
    Math.min(...edge.map(pick)) - PIECE_REACH_in,
    Math.max(...edge.map(pick)) + PIECE_REACH_in,
  ];
  const [l0, l1] = spread(p => p.left);
  const [r0, r1] = spread(p => p.right);
  const columns = Math.ceil((l1 - l0) / PIECE_GRID_in) + 1;
  const rows = Math.ceil((r1 - r0) / PIECE_GRID_in) + 1;
  const apart = new Uint8Array(columns * rows);
  for (let r = 0; r < rows; r++) {
    for (let k = 0; k < columns; k++) {
      // to and fro, so that each pose starts from its neighbor
      const c = r % 2 === 0 ? k : columns - 1 - k;
      const left = l0 + c * PIECE_GRID_in;
      const right = r0 + r * PIECE_GRID_in;
      if (inside(edge, left, right)) continue;
      // chords leave slivers of the traced piece outside
      if (ground.travel(left, right).margin > EDGE_in) apart[r * columns + c] = 1;
    }
  }
  let pieces = 1;
  for (let start = 0; start < apart.length; start++) {
    if (apart[start] !== 1) continue;
    pieces++;
    const open = [start];
    apart[start] = 0;
    while (open.length > 0) {
      const cell = open.pop() as number;
      const c = cell % columns;
      const neighbors = [
        c > 0 ? cell - 1 : -1,
        c < columns - 1 ? cell + 1 : -1,
        cell - columns,
        cell + columns,
      ];
      for (const next of neighbors) {
        if (apart[next] !== 1) continue;
        apart[next] = 0;
        open.push(next);
      }
    }
  }
  return pieces;
}
