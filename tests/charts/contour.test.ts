/** Contours against closed forms: circles, straight lines, saddles. */
import { describe, expect, test } from 'vitest';
import { extended, type Field, type Ring, rings } from '../../src/charts/contour.ts';

function field(n: number, half: number, f: (x: number, y: number) => number): Field {
  const axis = Float64Array.from({ length: n }, (_, i) => -half + (2 * half * i) / (n - 1));
  return {
    x: axis,
    y: axis,
    values: Float64Array.from({ length: n * n }, (_, k) =>
      f(axis[k % n] as number, axis[Math.floor(k / n)] as number),
    ),
  };
}

/** Area by the shoelace formula: positive where the inside lies on the left. */
function areaOf(ring: Ring): number {
  let sum = 0;
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    sum +=
      (ring[i] as number) * (ring[j + 1] as number) - (ring[j] as number) * (ring[i + 1] as number);
  }
  return sum / 2;
}

describe('rings', () => {
  test('a cone: one circle, its points on it and its area πr²', () => {
    const r = 2.3;
    const found = rings(
      field(81, 4, (x, y) => Math.hypot(x, y)),
      r,
    );
    expect(found.length).toBe(1);
    const [ring] = found as [Ring];
    // linear between places h = 0.1 apart: off by h²/8r at most, twice that aslant
    const off = (0.1 * 0.1) / (8 * r) + 1e-3;
    for (let i = 0; i < ring.length; i += 2) {
      expect(Math.abs(Math.hypot(ring[i] as number, ring[i + 1] as number) - r)).toBeLessThan(off);
    }
    expect(areaOf(ring)).toBeCloseTo(Math.PI * r * r, 1);
    expect(areaOf(ring)).toBeGreaterThan(0);
  });

  test('what stands over the level inside is a hole: its ring goes the other way', () => {
    const found = rings(
      field(81, 4, (x, y) => Math.abs(Math.hypot(x, y) - 2)),
      0.8,
    );
    expect(found.length).toBe(2);
    const areas = found.map(areaOf).sort((a, b) => a - b);
    expect(areas[0]).toBeCloseTo(-Math.PI * 1.2 * 1.2, 1);
    expect(areas[1]).toBeCloseTo(Math.PI * 2.8 * 2.8, 1);
  });

  test('a plane is cut exactly where it has the level, and closed along the grid', () => {
    const [ring, ...rest] = rings(
      field(5, 1, (x, y) => x + 0.25 * y),
      0.1,
    );
    expect(rest).toEqual([]);
    // left of x = 0.1 − y/4, from −1 to 1: 2 × 1.1
    expect(areaOf(ring as Ring)).toBeCloseTo(2.2, 12);
  });

  test('a saddle holds together what its middle is with', () => {
    const saddle = (a: number, b: number): Field => ({
      x: Float64Array.of(0, 1),
      y: Float64Array.of(0, 1),
      values: Float64Array.of(a, b, b, a),
    });
    // the corners on the diagonal are under the level; the mean says whether the middle is too
    expect(rings(saddle(-2, 1), 0).length).toBe(1);
    expect(rings(saddle(-1, 2), 0).length).toBe(2);
  });

  test('places without a value stand over every level', () => {
    const one = field(5, 2, (x, y) => (Math.hypot(x, y) < 0.5 ? -1 : Number.NaN));
    const found = rings(one, 0);
    // the place alone has no extent: the wall's side is at its own neighbors' corner
    expect(found.length).toBe(1);
    expect(
      rings(
        field(3, 1, () => Number.NaN),
        0,
      ),
    ).toEqual([]);
  });
});

test('extended gives the neighbors of what is known its value, ring by ring', () => {
  const one = field(7, 3, (x, y) => (x === 0 && y === 0 ? 5 : Number.NaN));
  const count = (f: Field): number => f.values.filter(v => !Number.isNaN(v)).length;
  expect(count(extended(one, 1))).toBe(9);
  expect(count(extended(one, 2))).toBe(25);
  expect([...extended(one, 2).values].filter(v => !Number.isNaN(v)).every(v => v === 5)).toBe(true);
});
