/** A map's areas: which color stands where, told by rings of known fields. */
import { describe, expect, test } from 'vitest';
import { type Bands, gapBands, measureBands, nearestPlace } from '../../src/charts/bands.ts';
import type { Ring } from '../../src/charts/contour.ts';
import { GAP_STEPS, gapStep } from '../../src/charts/gapScale.ts';

const N = 41;
const axis = Float64Array.from({ length: N }, (_, i) => -5 + (10 * i) / (N - 1));
const at = (k: number): [number, number] => [
  axis[k % N] as number,
  axis[Math.floor(k / N)] as number,
];
const over = (f: (l: number, r: number) => number): Float64Array =>
  Float64Array.from({ length: N * N }, (_, k) => f(...at(k)));

/** Whether a point lies within rings, even-odd, as a canvas fills them. */
function isIn(rings: readonly Ring[], x: number, y: number): boolean {
  let odd = false;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      const j = (i + 2) % ring.length;
      const [ax, ay, bx, by] = [ring[i], ring[i + 1], ring[j], ring[j + 1]] as number[] as [
        number,
        number,
        number,
        number,
      ];
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) odd = !odd;
    }
  }
  return odd;
}

/** The color that a canvas shows at a point: that of the last area over it. */
const colorAt = ({ areas }: Bands, x: number, y: number): number =>
  areas.findLast(({ rings }) => !rings || isIn(rings, x, y))?.color ?? -1;

describe('gapBands', () => {
  // 1/2 in is wanted; a plane, so that lines between places are exact
  const gap = (l: number, r: number): number => 0.6 * l + 0.2 * r - 0.4;
  const map = {
    isCoarse: false,
    left: axis,
    right: axis,
    inside: new Uint8Array(N * N).fill(1),
    gap: over(gap),
    share: over((l, r) => gap(l, r) / 0.5),
  };

  test('at every point the color is the step of the gap there', () => {
    const bands = gapBands(map);
    let seen = new Set<number>();
    for (let x = -4.93; x < 5; x += 0.3127) {
      for (let y = -4.97; y < 5; y += 0.29) {
        const step = gapStep(gap(x, y) / 0.5, gap(x, y));
        expect(colorAt(bands, x, y)).toBe(step);
        seen = seen.add(step);
      }
    }
    expect([...seen].sort()).toEqual(GAP_STEPS.map((_, i) => i));
  });

  test('touch is within its line, and what is short within its own', () => {
    const { touch, line } = gapBands(map);
    expect(isIn(touch, 0, 0)).toBe(true);
    expect(isIn(touch, 1, 0)).toBe(false);
    expect(isIn(line, 1, 0)).toBe(true);
    expect(isIn(line, 2, 0)).toBe(false);
  });

  test('values beyond what is known go on, so that colors reach the edge', () => {
    const known = over((l, r) => (Math.hypot(l, r) < 3 ? -1 : Number.NaN));
    const bands = gapBands({ ...map, gap: known, share: known });
    // three places of 1/4 in further
    expect(colorAt(bands, 3.4, 0)).toBe(0);
    expect(colorAt(bands, 3.6, 0)).toBe(6);
  });

  test('a coarse map is shown as squares about its places', () => {
    const { squares, areas } = gapBands({ ...map, isCoarse: true });
    expect(areas).toEqual([]);
    expect(squares.length).toBe(N * N);
    const middle = squares.find(
      s => s.left < 0 && s.left + s.width > 0 && s.right < 0 && s.right + s.height > 0,
    );
    expect(middle?.color).toBe(gapStep(gap(0, 0) / 0.5, gap(0, 0)));
    expect(middle?.isOverlap).toBe(true);
  });
});

test('measureBands colors each step of the scale, with a line at zero', () => {
  const value = (l: number, r: number): number => l - 0.5 * r;
  const bands = measureBands(
    { left: axis, right: axis, inside: new Uint8Array(N * N).fill(1), values: over(value) },
    1,
    'decimal',
  );
  const { levels = [], colors = [] } = bands.scale ?? {};
  expect(levels).toContain(0);
  for (let x = -4.9; x < 5; x += 0.7) {
    for (let y = -4.95; y < 5; y += 0.7) {
      const step = levels.filter(level => value(x, y) >= level).length;
      expect(colorAt(bands, x, y)).toBe(colors[step]);
    }
  }
  expect(isIn(bands.line, -1, 0)).toBe(true);
  expect(isIn(bands.line, 1, 0)).toBe(false);
});

test('nearestPlace reads places of the range alone', () => {
  const inside = Uint8Array.from({ length: N * N }, (_, k) => (at(k)[0] <= 0 ? 1 : 0));
  const places = { left: axis, right: axis, inside };
  expect(at(nearestPlace(places, [4, 1.1]) ?? -1)).toEqual([0, 1]);
  expect(nearestPlace({ ...places, inside: new Uint8Array(N * N) }, [0, 0])).toBeNull();
});
