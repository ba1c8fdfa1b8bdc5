/** Outlines of where a signed distance is negative: sampled finely only where a surface can be. */
import { rings } from './contour.ts';

/** A point of a plane, in. */
export type P2 = readonly [x: number, y: number];
/** A closed line. */
export type Outline = P2[];

/**
 * Closed outlines of the inside of a field within a square about the origin, the inside on their left. Where the
 * inside goes on beyond the square its outline runs along the rim.
 *
 * The field changes by no more than the way that is gone (a distance does), so that a square whose middle is further
 * from the surface than its corners are from the middle has no surface in it: it is filled with that value.
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
  const count = cells + 1;
  const marks = Float64Array.from({ length: count }, (_, i) => i * size - half);
  const values = new Float64Array(count * count);
  const isSampled = new Uint8Array(count * count);
  const sample = (i: number, j: number): number => field(i * size - half, j * size - half);
  const fill = (i: number, j: number, n: number, value: number): void => {
    for (let row = j; row <= j + n; row++) {
      for (let k = row * count + i; k <= row * count + i + n; k++) {
        // corners that a neighbor has sampled stay as they are
        if (isSampled[k] === 0) values[k] = value;
      }
    }
  };
  const split = (i: number, j: number, n: number): void => {
    if (n === 1) {
      for (const [p, q] of [
        [i, j],
        [i + 1, j],
        [i, j + 1],
        [i + 1, j + 1],
      ] as const) {
        const k = q * count + p;
        if (isSampled[k] === 1) continue;
        values[k] = sample(p, q);
        isSampled[k] = 1;
      }
      return;
    }
    const h = n / 2;
    const middle = sample(i + h, j + h);
    if (Math.abs(middle) > (n * size) / Math.SQRT2) {
      fill(i, j, n, middle);
      return;
    }
    split(i, j, h);
    split(i + h, j, h);
    split(i, j + h, h);
    split(i + h, j + h, h);
  };
  split(0, 0, cells);
  return rings({ x: marks, y: marks, values }, 0).map(ring =>
    Array.from(
      { length: ring.length / 2 },
      (_, i): P2 => [ring[2 * i] as number, ring[2 * i + 1] as number],
    ),
  );
}
