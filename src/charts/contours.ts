/** Outlines of where a field of signed distances is negative: refined cells and marching squares. */

/** A point of a plane, in. */
export type P2 = readonly [x: number, y: number];
/** A closed line. */
export type Outline = P2[];

/**
 * Closed outlines of the inside of a field within a square about the origin. Where the inside goes on beyond the
 * square its outline runs along the rim, a cell outside of it.
 *
 * The field changes by no more than the way that is gone (a distance does), so that a cell whose middle is further
 * from the surface than its corners are from the middle has no surface in it, and is passed over.
 *
 * @param field signed distance, in; negative inside
 * @param half half of the square's side, in
 * @param cells finest cells along a side; a power of two
 */
export function contours(
  field: (x: number, y: number) => number,
  half: number,
  cells: number,
): Outline[] {
  const size = (2 * half) / cells;
  const known = new Map<number, number>();
  /** Value at a corner of the finest grid; outside beyond the rim. */
  const at = (i: number, j: number): number => {
    if (i < 0 || j < 0 || i > cells || j > cells) return size / 2;
    const key = i * (cells + 1) + j;
    let value = known.get(key);
    if (value === undefined) {
      value = field(i * size - half, j * size - half);
      // a corner on the surface itself counts as outside: each crossing then has two ends
      if (value === 0) value = Number.MIN_VALUE;
      known.set(key, value);
    }
    return value;
  };
  const next = new Map<string, { to: string; point: P2 }>();
  const march = (i: number, j: number): void => cellLines(i, j, size, half, at, next);
  const split = (i: number, j: number, n: number): void => {
    if (n > 1) {
      const middle = field((i + n / 2) * size - half, (j + n / 2) * size - half);
      if (Math.abs(middle) > (n * size) / Math.SQRT2) return;
      const h = n / 2;
      split(i, j, h);
      split(i + h, j, h);
      split(i, j + h, h);
      split(i + h, j + h, h);
    } else march(i, j);
  };
  split(0, 0, cells);
  // one ring of cells around the square closes what runs out of it
  for (let k = -1; k <= cells; k++) {
    march(k, -1);
    march(k, cells);
    if (k >= 0 && k < cells) {
      march(-1, k);
      march(cells, k);
    }
  }
  return chained(next);
}

type Next = Map<string, { to: string; point: P2 }>;

/** The lines of one cell, the inside on their left: each leads from the edge where it enters to where it leaves. */
function cellLines(
  i: number,
  j: number,
  size: number,
  half: number,
  at: (i: number, j: number) => number,
  next: Next,
): void {
  // corners counterclockwise from the lower left one; edge k runs from corner k to the next
  const corners: [number, number][] = [
    [i, j],
    [i + 1, j],
    [i + 1, j + 1],
    [i, j + 1],
  ];
  const values = corners.map(([a, b]) => at(a, b));
  const inside = values.map(value => value < 0);
  if (inside.every(Boolean) || !inside.some(Boolean)) return;
  const leaves: number[] = [];
  const enters: number[] = [];
  for (let k = 0; k < 4; k++) {
    const to = (k + 1) % 4;
    if (inside[k] && !inside[to]) leaves.push(k);
    if (!inside[k] && inside[to]) enters.push(k);
  }
  // walking counterclockwise, the surface is left where the cell's rim goes from inside to outside
  const isJoined = values.reduce((sum, value) => sum + value, 0) < 0;
  for (const start of leaves) {
    const end =
      enters.length === 1
        ? enters[0]
        : enters.find(each => (each - start + 4) % 4 === (isJoined ? 1 : 3));
    if (end === undefined) continue;
    next.set(edgeKey(corners, start), {
      to: edgeKey(corners, end),
      point: crossing(corners, values, start, size, half),
    });
  }
}

function edgeKey(corners: readonly [number, number][], k: number): string {
  const [p, q] = [corners[k], corners[(k + 1) % 4]];
  if (!p || !q) return '';
  const isFirst = p[0] < q[0] || p[1] < q[1];
  const [low, high] = isFirst ? [p, q] : [q, p];
  return `${low[0]},${low[1]},${high[0] - low[0]}`;
}

function crossing(
  corners: readonly [number, number][],
  values: readonly number[],
  k: number,
  size: number,
  half: number,
): P2 {
  const to = (k + 1) % 4;
  const [p, q] = [corners[k] ?? [0, 0], corners[to] ?? [0, 0]];
  const [u, v] = [values[k] ?? 0, values[to] ?? 0];
  const t = u / (u - v);
  return [(p[0] + t * (q[0] - p[0])) * size - half, (p[1] + t * (q[1] - p[1])) * size - half];
}

/** Joins lines end to end. */
function chained(next: Next): Outline[] {
  const outlines: Outline[] = [];
  for (const [start] of next) {
    const outline: Outline = [];
    let key = start;
    for (;;) {
      const line = next.get(key);
      if (!line) break;
      next.delete(key);
      outline.push(line.point);
      key = line.to;
    }
    if (outline.length > 2) outlines.push(outline);
  }
  return outlines;
}
