/**
 * Lines of equal value over a grid, by marching squares: each square that a level crosses has one or two pieces
 * of the line, linear between its corners; pieces are joined into rings that go around what lies under the level.
 *
 * A saddle (two opposite corners under the level) is told by the mean of the four: under it, what is under the level
 * holds together. Around the grid stands a wall of values over every level, so that all rings close.
 */

/** Values over a grid, row by row of y, x running. NaN stands over every level. */
export interface Field {
  x: Float64Array;
  y: Float64Array;
  values: Float64Array;
}

/** A closed line: x, y, x, y …; what is under the level lies on its left (x to the right, y up). */
export type Ring = Float64Array;

/**
 * Rings around all that is under a level.
 *
 * @example rings({ x, y, values }, 0) // around what touches
 */
export function rings({ x, y, values }: Field, level: number): Ring[] {
  const [nx, ny] = [x.length, y.length];
  // with the wall: rows and columns −1 … n
  const value = (i: number, j: number): number => {
    if (i < 0 || j < 0 || i >= nx || j >= ny) return WALL;
    const v = values[j * nx + i] as number;
    return Number.isNaN(v) ? WALL : v;
  };
  const px = (i: number): number => x[Math.min(nx - 1, Math.max(0, i))] as number;
  const py = (j: number): number => y[Math.min(ny - 1, Math.max(0, j))] as number;
  /** Where the line crosses an edge of the grid; edges are numbered, across first, then up. */
  const across = (i: number, j: number): number => 2 * ((j + 1) * (nx + 2) + i + 1);
  const up = (i: number, j: number): number => across(i, j) + 1;
  const next = new Map<number, number>();
  const points = new Map<number, [number, number]>();
  const crossing = (edge: number, i: number, j: number, k: number, l: number): number => {
    if (!points.has(edge)) {
      const [a, b] = [value(i, j), value(k, l)];
      // a wall's side is at the grid's own corner
      const t = a === WALL ? 1 : b === WALL ? 0 : (level - a) / (b - a);
      points.set(edge, [px(i) + t * (px(k) - px(i)), py(j) + t * (py(l) - py(j))]);
    }
    return edge;
  };
  for (let j = -1; j < ny; j++) {
    for (let i = -1; i < nx; i++) {
      const a = value(i, j);
      const b = value(i + 1, j);
      const c = value(i + 1, j + 1);
      const d = value(i, j + 1);
      const which =
        (a < level ? 1 : 0) | (b < level ? 2 : 0) | (c < level ? 4 : 0) | (d < level ? 8 : 0);
      if (which === 0 || which === 15) continue;
      const south = (): number => crossing(across(i, j), i, j, i + 1, j);
      const east = (): number => crossing(up(i + 1, j), i + 1, j, i + 1, j + 1);
      const north = (): number => crossing(across(i, j + 1), i, j + 1, i + 1, j + 1);
      const west = (): number => crossing(up(i, j), i, j, i, j + 1);
      const line = (from: number, to: number): void => void next.set(from, to);
      switch (which) {
        case 1:
          line(south(), west());
          break;
        case 2:
          line(east(), south());
          break;
        case 3:
          line(east(), west());
          break;
        case 4:
          line(north(), east());
          break;
        case 6:
          line(north(), south());
          break;
        case 7:
          line(north(), west());
          break;
        case 8:
          line(west(), north());
          break;
        case 9:
          line(south(), north());
          break;
        case 11:
          line(east(), north());
          break;
        case 12:
          line(west(), east());
          break;
        case 13:
          line(south(), east());
          break;
        case 14:
          line(west(), south());
          break;
        default: {
          // a saddle: a and c under the level, or b and d
          const isTogether = (a + b + c + d) / 4 < level;
          if (which === 5) {
            line(south(), isTogether ? east() : west());
            line(north(), isTogether ? west() : east());
          } else {
            line(east(), isTogether ? north() : south());
            line(west(), isTogether ? south() : north());
          }
        }
      }
    }
  }
  return joined(next, points);
}

/** Over every level; finite, so that a saddle's mean is a number. */
const WALL = 1e12;

function joined(next: Map<number, number>, points: Map<number, [number, number]>): Ring[] {
  const out: Ring[] = [];
  for (const [first] of next) {
    if (!next.has(first)) continue;
    const ring: number[] = [];
    let at: number | undefined = first;
    while (at !== undefined) {
      const to: number | undefined = next.get(at);
      if (to === undefined) break;
      next.delete(at);
      ring.push(...(points.get(at) as [number, number]));
      at = to;
    }
    out.push(Float64Array.from(ring));
  }
  return out;
}

/**
 * Gives places without a value that of the nearest ones with one, some rings outward: lines between colors then run
 * over the edge of what is known instead of along it.
 */
export function extended({ x, y, values }: Field, times: number): Field {
  const [nx, ny] = [x.length, y.length];
  let known = values;
  for (let n = 0; n < times; n++) {
    const next = known.slice();
    for (let j = 0; j < ny; j++) {
      for (let i = 0; i < nx; i++) {
        if (!Number.isNaN(known[j * nx + i] as number)) continue;
        let sum = 0;
        let weight = 0;
        for (let dj = -1; dj <= 1; dj++) {
          for (let di = -1; di <= 1; di++) {
            const [k, l] = [i + di, j + dj];
            if (k < 0 || l < 0 || k >= nx || l >= ny) continue;
            const v = known[l * nx + k] as number;
            if (Number.isNaN(v)) continue;
            // straight neighbors count twice what aslant ones do
            const w = di === 0 || dj === 0 ? 2 : 1;
            sum += w * v;
            weight += w;
          }
        }
        if (weight > 0) next[j * nx + i] = sum / weight;
      }
    }
    known = next;
  }
  return { x, y, values: known };
}
