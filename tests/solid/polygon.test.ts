import { describe, expect, it } from 'vitest';
import { cutPolygon } from '../../geometry/solid/polygon.ts';

/** Vector areas of the triangles, summed, and the sum of their sizes. */
function areasOf(positions: readonly number[], triangles: readonly number[]) {
  const sum = [0, 0, 0];
  let sizes = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map(k => {
      const i = 3 * (triangles[t + k] as number);
      return positions.slice(i, i + 3);
    }) as [number[], number[], number[]];
    const u = b.map((x, i) => x - (a[i] as number));
    const v = c.map((x, i) => x - (a[i] as number));
    const area = [0, 1, 2].map(i => {
      const [j, k] = [(i + 1) % 3, (i + 2) % 3];
      return ((u[j] as number) * (v[k] as number) - (u[k] as number) * (v[j] as number)) / 2;
    });
    area.forEach((x, i) => {
      sum[i] = (sum[i] as number) + x;
    });
    sizes += Math.hypot(...area);
  }
  return { sum, sizes };
}

describe('cutting a polygon', () => {
  // flat polygons by their corners in a plane, and their areas by hand
  const shapes: [string, number[][], number][] = [
    [
      'square',
      [
        [0, 0],
        [2, 0],
        [2, 2],
        [0, 2],
      ],
      4,
    ],
    [
      'arrow with an inward corner',
      [
        [0, 0],
        [4, 0],
        [1, 1],
        [0, 4],
      ],
      4,
    ],
    [
      'inward corner first',
      [
        [1, 1],
        [0, 4],
        [0, 0],
        [4, 0],
      ],
      4,
    ],
    [
      'bracket',
      [
        [0, 0],
        [5, 0],
        [5, 1],
        [1, 1],
        [1, 3],
        [5, 3],
        [5, 4],
        [0, 4],
      ],
      12,
    ],
    [
      'comb',
      [
        [0, 0],
        [7, 0],
        [7, 3],
        [6, 3],
        [6, 1],
        [5, 1],
        [5, 3],
        [4, 3],
        [4, 1],
        [3, 1],
        [3, 3],
        [0, 3],
      ],
      17,
    ],
    [
      'square with corners on its sides',
      [
        [0, 0],
        [1, 0],
        [2, 0],
        [2, 1],
        [2, 2],
        [0, 2],
      ],
      4,
    ],
  ];
  it.each(shapes)('%s: neither overlaps nor leaves out', (_, corners, area) => {
    for (const turned of [false, true]) {
      const run = turned ? corners.toReversed() : corners;
      // laid on an inclined plane with normal (0.6, 0, 0.8)
      const positions = run.flatMap(([u = 0, v = 0]) => [0.8 * v + 3, u - 1, -0.6 * v]);
      const out: number[] = [];
      cutPolygon(
        positions,
        run.map((__, i) => i),
        out,
      );
      expect(out.length).toBe(3 * (run.length - 2));
      const { sum, sizes } = areasOf(positions, out);
      expect(Math.hypot(...sum)).toBeCloseTo(area, 12);
      expect(sizes).toBeCloseTo(area, 12);
    }
  });

  it('ends on polygons that cross themselves or have no area', () => {
    const out: number[] = [];
    cutPolygon([0, 0, 0, 1, 1, 0, 1, 0, 0, 0, 1, 0], [0, 1, 2, 3], out);
    cutPolygon(new Array<number>(30).fill(0), [0, 1, 2, 3, 4, 5, 6, 7, 8, 9], out);
    expect(out.length).toBe(6 + 24);
  });
});
