import { describe, expect, test } from 'vitest';
import { measureDifference, roomDifference } from '../../src/charts/differenceBands.ts';
import { DIFFERENCE_STEPS } from '../../src/charts/palette.ts';

const left = Float64Array.from({ length: 9 }, (_, i) => i - 4);
const right = left;
const grid = (value: (l: number, r: number) => number): Float64Array =>
  Float64Array.from({ length: 81 }, (_, k) => value((k % 9) - 4, Math.floor(k / 9) - 4));
const inside = new Uint8Array(81).fill(1);
const of = (share: Float64Array) => ({ left, right, inside, share });

describe('room of two axles', () => {
  test('more where the second has more, less where it has less; the most of each is told', () => {
    const { bands, levels, most, least } = roomDifference(
      of(grid(() => 0.5)),
      of(grid(l => 0.5 + 0.1 * l)),
    );
    expect(levels).toHaveLength(DIFFERENCE_STEPS - 1);
    expect(levels).toEqual([...levels].sort((a, b) => a - b));
    expect(most).toMatchObject({ left: 4 });
    expect(most?.value).toBeCloseTo(0.4, 12);
    expect(least?.left).toBe(-4);
    expect(least?.value).toBeCloseTo(-0.4, 12);
    const colors = bands.areas.map(({ color }) => color);
    expect(Math.max(...colors)).toBe(DIFFERENCE_STEPS - 1);
    expect(Math.min(...colors)).toBeGreaterThan(0);
  });

  test('exchanged, most and least change places', () => {
    const [a, b] = [of(grid(() => 0.5)), of(grid((l, r) => 0.5 + 0.05 * l + 0.02 * r))];
    const [there, back] = [roomDifference(a, b), roomDifference(b, a)];
    expect(back.most?.left).toBe(there.least?.left);
    expect(back.most?.value).toBeCloseTo(-(there.least?.value ?? 0), 12);
  });

  test('what is more than enough in both does not differ', () => {
    const { most, least } = roomDifference(of(grid(() => 3)), of(grid(() => 11)));
    expect([most, least]).toEqual([null, null]);
  });

  test('a place that one alone reaches is no place of most', () => {
    const some = inside.slice();
    some[80] = 0;
    const b = of(grid((l, r) => 0.5 + (l === 4 && r === 4 ? 1 : 0.1)));
    const { most } = roomDifference({ ...of(grid(() => 0.5)), inside: some }, b);
    expect(most?.value).toBeCloseTo(0.1, 12);
  });
});

describe('a measure of two axles', () => {
  test('steps are round in the unit that is read, alike on both sides', () => {
    const values = (factor: number) => ({ left, right, inside, values: grid(l => factor * l) });
    const { levels } = measureDifference(values(1), values(1.3), 1, 'decimal');
    // 1.2 at most: five steps of it would be 0.24, the next round one is 0.5
    expect(levels).toEqual([-2, -1.5, -1, -0.5, 0.5, 1, 1.5, 2]);
  });

  test('nothing differs, nothing is drawn but that', () => {
    const values = { left, right, inside, values: grid(l => l) };
    const { levels, bands } = measureDifference(values, values, 1, 'decimal');
    expect(levels).toEqual([]);
    expect(bands.areas).toEqual([{ color: (DIFFERENCE_STEPS - 1) / 2, rings: null }]);
  });
});
