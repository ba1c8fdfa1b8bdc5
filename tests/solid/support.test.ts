import { describe, expect, it } from 'vitest';
import {
  boxPiece,
  cylinderPiece,
  type Piece,
  pointsPiece,
  segmentPiece,
} from '../../geometry/solid/piece.ts';
import { placement } from '../../geometry/solid/placement.ts';
import {
  cornersAround,
  gapAlong,
  gapAlongPoints,
  reach,
  squareTo,
  support,
} from '../../geometry/solid/support.ts';
import { randomFrom } from '../oracle/solidCases.ts';

const turned = placement([0.36, 0.48, -0.8, -0.8, 0.6, 0, 0.48, 0.64, 0.6], [13, -7, 29]);
const axes = [1, 0, 0, 0, 1, 0, 0, 0, 1];
const pieces: [string, Piece][] = [
  ['segment', segmentPiece([1, 2, 3], [-4, 0, 1], 0.5)],
  ['box', boxPiece([1, 0, 0], axes, [3, 2, 1])],
  ['cylinder', cylinderPiece([0, 1, 0], [0.6, 0, 0.8], 2, 3)],
  ['rounded cylinder', cylinderPiece([0, 1, 0], [0, 1, 0], 2, 3, 0.75)],
  ['points', pointsPiece(Float64Array.of(0, 0, 0, 4, 1, 0, 1, 3, 2, -1, 2, 5), 0.25)],
];

const dot = (p: ArrayLike<number>, q: ArrayLike<number>) =>
  [0, 1, 2].reduce((sum, i) => sum + (p[i] as number) * (q[i] as number), 0);

describe('reach and support', () => {
  it.each(pieces)('of a %s agree in every direction (seed 2)', (_, piece) => {
    const random = randomFrom(2);
    const point = new Float64Array(3);
    for (let k = 0; k < 500; k++) {
      const v = [2 * random() - 1, 2 * random() - 1, 2 * random() - 1];
      const n = Float64Array.from(v, each => each / Math.hypot(...v));
      const far = reach(piece, turned, n[0] as number, n[1] as number, n[2] as number);
      support(piece, turned, n, point);
      expect(dot(n, point)).toBeCloseTo(far, 12);
    }
  });

  it('of a cylinder stay on it straight along its axis and beside it by rounding (seed 5)', () => {
    const random = randomFrom(5);
    const here = placement(axes, [0, 0, 0]);
    const point = new Float64Array(3);
    for (let k = 0; k < 2000; k++) {
      const v = [2 * random() - 1, 2 * random() - 1, 2 * random() - 1];
      const axis = v.map(each => each / Math.hypot(...v)) as [number, number, number];
      const cylinder = cylinderPiece([0, 0, 0], axis, 2, 3);
      const [u] = squareTo(...axis);
      const off = k % 2 === 0 ? 0 : 10 ** -Math.floor(9 + 9 * random());
      const scale = 0.1 + 9 * random();
      const n = Float64Array.from(axis, (each, i) => scale * (each + off * (u[i] as number)));
      support(cylinder, here, n, point);
      // the end is at 2 along the axis, and the rim at 3 from it
      expect(Math.abs(dot(axis, point) - 2), `off by ${off}`).toBeLessThan(1e-14);
      const away = Math.hypot(...axis.map((each, i) => (point[i] as number) - 2 * each));
      expect(away, `off by ${off}`).toBeLessThan(3 + 1e-13);
      const far = reach(cylinder, here, n[0] as number, n[1] as number, n[2] as number);
      expect(Math.abs(far / scale - 2 - 3 * off), `off by ${off}`).toBeLessThan(1e-14);
    }
  });

  it('bound a gap from below along a direction, with the slack of each point', () => {
    const a = segmentPiece([0, 0, 0], [2, 0, 0], 0.5);
    const b = boxPiece([10, 0, 0], axes, [3, 2, 1]);
    const here = placement(axes, [0, 0, 0]);
    expect(gapAlong(a, here, b, here, 1, 0, 0)).toBeCloseTo(4.5, 14);
    expect(gapAlong(a, here, b, here, 0.8, 0.6, 0)).toBeCloseTo(0.8 * 7 - 0.6 * 2 - 1.6 - 0.5, 14);
    const p = Float64Array.of(0, 0, 0, 2, 0, 0);
    const q = Float64Array.of(7, 1, 0, 9, 1, 0);
    expect(gapAlongPoints(p, null, 0.5, q, null, 0, 1, 0, 0)).toBeCloseTo(4.5, 14);
    // the first points of both count: 7 − 0.125 − (0 + 5)
    const slacks = [Float64Array.of(5, 0.25), Float64Array.of(0.125, 1)] as const;
    expect(gapAlongPoints(p, slacks[0], 0, q, slacks[1], 0, 1, 0, 0)).toBeCloseTo(
      2 - 0.125 + 0,
      12,
    );
  });

  it('prove nothing by a slack that is not finite', () => {
    const p = Float64Array.of(0, 0, 0, 2, 0, 0);
    for (const slack of [Number.NaN, Number.POSITIVE_INFINITY]) {
      const slacks = Float64Array.of(0, slack);
      const bound = gapAlongPoints(p, slacks, 0, p, null, 0, 1, 0, 0);
      expect(bound >= -1e9).toBe(false);
      expect(gapAlongPoints(p, null, 0, p, slacks, 0, 1, 0, 0) >= -1e9).toBe(false);
    }
  });

  it('of the corners around a core are not under its own, and equal where it has corners', () => {
    const random = randomFrom(4);
    for (const [name, piece] of pieces) {
      const corners = cornersAround(piece, 12);
      for (let k = 0; k < 300; k++) {
        const v = [2 * random() - 1, 2 * random() - 1, 2 * random() - 1];
        const n = v.map(each => each / Math.hypot(...v)) as [number, number, number];
        const here = placement(axes, [0, 0, 0]);
        const own = reach(piece, here, ...n) - piece.radius;
        const around = Math.max(
          ...Array.from({ length: corners.length / 3 }, (_, i) => dot(n, corners.subarray(3 * i))),
        );
        expect(around, name).toBeGreaterThan(own - 1e-12);
        if (!name.includes('cylinder')) expect(around, name).toBeLessThan(own + 1e-12);
        // a prism of twelve sides reaches beyond a circle of 3 in by 3 (1 / cos 15° − 1) at most
        else expect(around).toBeLessThan(own + 3 * (1 / Math.cos(Math.PI / 12) - 1) + 1e-12);
      }
    }
  });

  it('squareTo gives a square frame for every direction', () => {
    for (const n of [
      [1, 0, 0],
      [0, -1, 0],
      [0, 0, 1],
      [0.6, 0, -0.8],
      [0.36, 0.48, 0.8],
    ] as const) {
      const [u, v] = squareTo(n[0], n[1], n[2]);
      expect(dot(u, n)).toBeCloseTo(0, 15);
      expect(dot(v, n)).toBeCloseTo(0, 15);
      expect(dot(u, v)).toBeCloseTo(0, 15);
      expect(dot(u, u)).toBeCloseTo(1, 15);
      expect(dot(v, v)).toBeCloseTo(1, 15);
    }
  });
});
