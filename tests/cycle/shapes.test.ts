/**
 * The tracing of the range's edge on regions whose edges are known in closed form: lines and circles.
 *
 * The edge is asked for within 1e-3 in. Points of it are found to 1e-9 in on the edge, so they are asked for
 * within 1e-6; the polygon through them, by distance of the true edge's points, within 1e-3.
 */
import { describe, expect, test } from 'vitest';
import {
  type EdgePoint,
  followEdge,
  type Ground,
  inside,
  refineEdge,
} from '../../geometry/cycle/edge.ts';
import { countPieces } from '../../geometry/cycle/pieces.ts';

type Point = readonly [number, number];

/** Signed distance to the edge, positive inside; `by` is a number of the piece of the edge. */
type Region = (x: number, y: number) => { margin: number; by: number };

const ground = (region: Region): Ground => ({
  travel: (left, right) => {
    const { margin, by } = region(left, right);
    return { pose: null, margin, nearest: { by: 'strap', part: `piece ${by}`, side: null } };
  },
});

const traceEdge = (region: Ground): EdgePoint[] => refineEdge(region, followEdge(region));

/** Intersection and union of regions: the least and the greatest margin. */
const all = (...regions: Region[]): Region => pick(regions, (a, b) => a < b);
const any = (...regions: Region[]): Region => pick(regions, (a, b) => a > b);
const pick =
  (regions: Region[], better: (a: number, b: number) => boolean): Region =>
  (x, y) => {
    const [first, ...rest] = regions.map((region, by) => ({ ...region(x, y), by }));
    if (!first) throw new Error('a region of nothing');
    return rest.reduce((best, each) => (better(each.margin, best.margin) ? each : best), first);
  };
const disc =
  (x0: number, y0: number, r: number): Region =>
  (x, y) => ({ margin: r - Math.hypot(x - x0, y - y0), by: 0 });
/** Where a x + b y < c. */
const half =
  (a: number, b: number, c: number): Region =>
  (x, y) => ({ margin: (c - a * x - b * y) / Math.hypot(a, b), by: 0 });
const outside =
  (region: Region): Region =>
  (x, y) => ({ margin: -region(x, y).margin, by: 0 });
const box = (x0: number, x1: number, y0: number, y1: number): Region =>
  all(half(1, 0, x1), half(-1, 0, -x0), half(0, 1, y1), half(0, -1, -y0));

const polygonArea = (edge: readonly EdgePoint[]): number =>
  edge.reduce((sum, p, i) => {
    const q = edge[(i + 1) % edge.length] as EdgePoint;
    return sum + (p.left * q.right - q.left * p.right) / 2;
  }, 0);

function offChords(edge: readonly EdgePoint[], [x, y]: Point): number {
  return Math.min(
    ...edge.map((p, i) => {
      const q = edge[(i + 1) % edge.length] as EdgePoint;
      const [dx, dy] = [q.left - p.left, q.right - p.right];
      const size = dx * dx + dy * dy;
      const t =
        size === 0 ? 0 : Math.max(0, Math.min(1, ((x - p.left) * dx + (y - p.right) * dy) / size));
      return Math.hypot(p.left + t * dx - x, p.right + t * dy - y);
    }),
  );
}

const line = (from: Point, to: Point, n = 60): Point[] =>
  Array.from({ length: n + 1 }, (_, i) => [
    from[0] + (i / n) * (to[0] - from[0]),
    from[1] + (i / n) * (to[1] - from[1]),
  ]);
const loop = (...corners: Point[]): Point[] =>
  corners.flatMap((corner, i) => line(corner, corners[(i + 1) % corners.length] as Point));
const arc = (x0: number, y0: number, r: number, from: number, to: number, n = 200): Point[] =>
  Array.from({ length: n + 1 }, (_, i) => {
    const a = from + (i / n) * (to - from);
    return [x0 + r * Math.cos(a), y0 + r * Math.sin(a)];
  });

const turn = 2 * Math.PI;
/** The kite's half angle at its left and right tips. */
const tip = 6 * (Math.PI / 180);
const kite: Region = all(
  half(Math.sin(tip), Math.cos(tip), 9 * Math.sin(tip)),
  half(Math.sin(tip), -Math.cos(tip), 9 * Math.sin(tip)),
  half(-Math.sin(tip), Math.cos(tip), 9 * Math.sin(tip)),
  half(-Math.sin(tip), -Math.cos(tip), 9 * Math.sin(tip)),
);
const kiteTop = 9 * Math.tan(tip);

const shapes: [name: string, region: Region, edge: Point[], area: number][] = [
  ['a circle beside ride height', disc(1, -2, 7), arc(1, -2, 7, 0, turn), Math.PI * 49],
  ['a rectangle', box(-6, 5, -7, 4.5), loop([-6, -7], [5, -7], [5, 4.5], [-6, 4.5]), 11 * 11.5],
  [
    'an L, hollow at its inner corner',
    any(box(-6, 6, -6, 1), box(-6, 1, -6, 6)),
    loop([-6, -6], [6, -6], [6, 1], [1, 1], [1, 6], [-6, 6]),
    12 * 7 + 7 * 5,
  ],
  [
    'a disc with a bite out of its rim, hollow and pointed',
    all(disc(0, 0, 8), outside(disc(8, 0, 3))),
    arc(8, 0, 3, Math.acos(-9 / 48), turn - Math.acos(-9 / 48)).filter(
      ([x, y]) => Math.hypot(x, y) < 8,
    ),
    // lens of two circles 8 apart with radii 8 and 3
    Math.PI * 64 -
      (9 * Math.acos(9 / 48) +
        64 * Math.acos((64 + 64 - 9) / 128) -
        0.5 * Math.sqrt(3 * 13 * 3 * 19)),
  ],
  [
    'a kite with tips of 12 degrees',
    kite,
    loop([-9, 0], [0, -kiteTop], [9, 0], [0, kiteTop]),
    2 * 9 * kiteTop,
  ],
  [
    'two rooms joined by a corridor of 1 in',
    any(box(-3, 3, -3, 3), box(2, 7, -0.5, 0.5), box(6, 11, -4, 4)),
    loop(
      [-3, -3],
      [3, -3],
      [3, -0.5],
      [6, -0.5],
      [6, -4],
      [11, -4],
      [11, 4],
      [6, 4],
      [6, 0.5],
      [3, 0.5],
      [3, 3],
      [-3, 3],
    ),
    36 + 3 + 40,
  ],
  [
    'a disc with a hole on the way to both wheels up',
    all(disc(0, 0, 9), outside(disc(3, 3, 1.5))),
    arc(0, 0, 9, 0, turn),
    Math.PI * 81,
  ],
  [
    'a range smaller than the steps of the search',
    disc(0.05, 0, 0.2),
    arc(0.05, 0, 0.2, 0, turn),
    Math.PI * 0.04,
  ],
];

describe.each(shapes)('%s', (_, region, edge, area) => {
  const traced = traceEdge(ground(region));

  test('its points lie on the edge', () => {
    expect(traced.length).toBeGreaterThan(3);
    for (const { left, right } of traced) {
      expect(Math.abs(region(left, right).margin)).toBeLessThan(1e-6);
    }
  });

  test('the edge lies within 1e-3 of its chords', () => {
    for (const point of edge) expect(offChords(traced, point), String(point)).toBeLessThan(1e-3);
  });

  test('it goes once around, the inside on the left', () => {
    // chords cut off at most two thirds of 1e-3 times the length of the edge
    const length = traced.reduce((sum, p, i) => {
      const q = traced[(i + 1) % traced.length] as EdgePoint;
      return sum + Math.hypot(q.left - p.left, q.right - p.right);
    }, 0);
    expect(Math.abs(polygonArea(traced) - area)).toBeLessThan(1e-3 * length);
    expect(inside(traced, 0, 0)).toBe(true);
  });

  test('it is one piece', () => {
    expect(countPieces(ground(region), traced)).toBe(1);
  });

  test('each stretch names its own stop', () => {
    // on the middle of a chord no other piece of the edge is nearer by more than the chord's own error
    for (const [i, p] of traced.entries()) {
      const q = traced[(i + 1) % traced.length] as EdgePoint;
      if (Math.hypot(q.left - p.left, q.right - p.right) < 0.01) continue;
      const { by } = region((p.left + q.left) / 2, (p.right + q.right) / 2);
      expect(p.part).toBe(`piece ${by}`);
    }
  });
});

test('pieces apart are counted, and the one of ride height is traced', () => {
  const region = any(disc(0, 0, 4), disc(7.5, 0, 2.5), box(-9, -6, -1.5, 1.5));
  const traced = traceEdge(ground(region));
  // off a circle's area by chords within 1e-3 of an edge of 25 in
  expect(polygonArea(traced)).toBeCloseTo(Math.PI * 16, 1);
  expect(countPieces(ground(region), traced)).toBe(3);
});
