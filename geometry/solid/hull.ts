import { Deepest } from './deepest.ts';
import { Depth } from './depth.ts';
import { APART, Gjk } from './gjk.ts';
import { numbers } from './numbers.ts';
import { type Piece, PLACED_SIZE, pointsPiece, segmentPiece } from './piece.ts';
import { unmoved } from './placement.ts';
import { firstOf, type Made, problemOfPoint, problemOfSize, solidOf } from './solid.ts';
import { SMALLEST_in } from './tolerances.ts';

export interface HullShape {
  /** In, frame of the body; the hull is the smallest convex body that holds them all. */
  readonly points: readonly ArrayLike<number>[];
  /** Radius by which the hull is grown (rounded edges), in; 0 unless given. */
  readonly radius?: number;
}

/** Most points of a hull: each is looked at in every step of a search, and a scan belongs in a mesh. */
export const MOST_POINTS = 20_000;

/**
 * The convex hull of points, which may lie in one plane (a plate); it has no first end. Points that are no
 * corners of the hull are left out.
 *
 * @example hull({ points: [[0, 0, 0], [4, 0, 0], [0, 3, 0], [0, 0, 2]] })
 */
export function hull({ points, radius = 0 }: HullShape): Made {
  const problem = firstOf(
    points.length < 3 ? `points has ${points.length} points; a hull needs 3 or more` : null,
    points.length > MOST_POINTS
      ? `points has ${points.length} points; at most ${MOST_POINTS} make a hull: take a mesh`
      : null,
    ...points.map((point, i) => problemOfPoint(`points[${i}]`, point)),
    radius === 0 ? null : problemOfSize('radius', radius),
  );
  if (problem !== null) return { problem };
  const all = numbers(3 * points.length);
  for (const [i, point] of points.entries()) {
    for (let k = 0; k < 3; k++) all[3 * i + k] = point[k] as number;
  }
  const around = pointsPiece(all);
  if ((around.bound[3] as number) < SMALLEST_in) {
    return { problem: 'points are all the same point; a hull needs an extent' };
  }
  const piece = pointsPiece(cornersOf(around), radius);
  placeInner(piece);
  return { solid: solidOf('hull', [piece]) };
}

/**
 * The points that are corners of the hull (Clarkson, 1994, from memory): each point is measured against the hull of
 * the corners so far; one that is outside names a direction in which some point is farthest, and that is a
 * corner. A point nearer than TOUCHING_in to the hull of the corners is none.
 */
function cornersOf(all: Piece): Float64Array {
  const data = all.data;
  const gjk = new Gjk();
  const here = unmoved();
  const spot = segmentPiece([0, 0, 0], [0, 0, 0], 0);
  const kept = pointsPiece(new Float64Array(data.length));
  kept.count = 0;
  const isCorner = new Uint8Array(all.count);
  const keep = (i: number) => {
    kept.data.set(data.subarray(3 * i, 3 * i + 3), 3 * kept.count);
    kept.count++;
    isCorner[i] = 1;
  };
  keep(farthestAlong(data, 1, 0, 0));
  for (let i = 0; i < all.count; i++) {
    const point = data.subarray(3 * i, 3 * i + 3);
    spot.data.set(point, 0);
    spot.data.set(point, 3);
    while (isCorner[i] === 0) {
      gjk.v.set(point);
      gjk.begin(spot, here, kept, here);
      if (gjk.run() !== APART) break;
      const corner = farthestAlong(data, gjk.v[0], gjk.v[1], gjk.v[2]);
      keep(isCorner[corner] === 1 ? i : corner);
    }
  }
  return kept.data.slice(0, 3 * kept.count);
}

/** Of several points equally far along a direction the last in dictionary order, which is a corner. */
function farthestAlong(data: Float64Array, x: number, y: number, z: number): number {
  let best = -Infinity;
  let found = 0;
  for (let i = 0; 3 * i < data.length; i++) {
    const p = data[3 * i] as number;
    const q = data[3 * i + 1] as number;
    const r = data[3 * i + 2] as number;
    const each = x * p + y * q + z * r;
    if (each < best) continue;
    if (each === best) {
      const bp = data[3 * found] as number;
      const bq = data[3 * found + 1] as number;
      const br = data[3 * found + 2] as number;
      if (p < bp || (p === bp && (q < bq || (q === bq && r < br)))) continue;
    }
    best = each;
    found = i;
  }
  return found;
}

/**
 * Finds the largest ball inside the hull: the least signed distance over each plane z = const, which is
 * convex in z, by golden sections.
 */
function placeInner(piece: Piece): void {
  const [x = 0, y = 0, z = 0, , hx = 0, hy = 0, hz = 0] = piece.bound;
  const gjk = new Gjk();
  const deepest = new Deepest(gjk, new Depth());
  const here = unmoved();
  const placed = numbers(PLACED_SIZE);
  const leastAt = (height: number): number => {
    deepest.corners.set([
      x - hx,
      y - hy,
      height,
      x + 3 * hx,
      y - hy,
      height,
      x - hx,
      y + 3 * hy,
      height,
    ]);
    deepest.run(piece, here, placed, Infinity);
    if (deepest.least < best) {
      best = deepest.least;
      piece.inner.set(deepest.point);
      piece.inner[3] = piece.radius - Math.min(0, best);
    }
    return deepest.least;
  };
  let best = Infinity;
  const share = (Math.sqrt(5) - 1) / 2;
  let from = z - hz;
  let to = z + hz;
  let p = to - share * (to - from);
  let q = from + share * (to - from);
  let fp = leastAt(p);
  let fq = leastAt(q);
  // 40 sections leave 4e-9 of the height
  for (let k = 0; k < 40; k++) {
    if (fp <= fq) {
      to = q;
      q = p;
      fq = fp;
      p = to - share * (to - from);
      fp = leastAt(p);
    } else {
      from = p;
      p = q;
      fp = fq;
      q = from + share * (to - from);
      fq = leastAt(q);
    }
  }
}
