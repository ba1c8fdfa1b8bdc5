/** Marks of steel rules in either unit, and steps of a measure's own scale. */
import { describe, expect, test } from 'vitest';
import { tagWords } from '../../src/charts/mapHandle.ts';
import { measureScale, roundStep, stepAt } from '../../src/charts/measureScale.ts';
import { ruleTicks } from '../../src/charts/rule.ts';

describe('ruleTicks', () => {
  test('a rule of 20 in over 320 px has numbers every 2 in and marks every 1/4', () => {
    const ticks = ruleTicks(-10, 10, 320, 'in');
    expect(ticks.length).toBe(81);
    const labels = ticks.flatMap(({ label }) => label ?? []);
    expect(labels).toEqual(['−10', '−8', '−6', '−4', '−2', '0', '+2', '+4', '+6', '+8', '+10']);
    expect(ticks.filter(({ rank }) => rank === 1).map(({ value }) => value)).toEqual([
      -9, -7, -5, -3, -1, 1, 3, 5, 7, 9,
    ]);
  });

  test('where it is short, numbers and marks thin out', () => {
    const ticks = ruleTicks(-10, 10, 160, 'in');
    expect(ticks.flatMap(({ label }) => label ?? [])).toEqual(['−8', '−4', '0', '+4', '+8']);
    expect(ticks.length).toBe(41);
  });

  test('millimeters stand at whole millimeters, in in', () => {
    const ticks = ruleTicks(-10, 10, 400, 'mm');
    const fifty = ticks.find(({ label }) => label === '+50');
    expect(fifty?.value).toBeCloseTo(50 / 25.4, 12);
    expect(ticks.every(({ value }) => value >= -10 && value <= 10)).toBe(true);
  });

  test('a range that begins off its marks begins with the next one', () => {
    expect(ruleTicks(0.1, 3.9, 160, 'in')[0]?.value).toBe(0.25);
  });
});

test('a tag has the sign of the travel, and none at ride height', () => {
  expect(tagWords(8.875, 'in')).toBe('+8 7/8');
  expect(tagWords(-9.3125, 'in')).toBe('−9 5/16');
  expect(tagWords(0.01, 'in')).toBe('0');
  expect(tagWords(-9.3125, 'mm')).toBe('−237');
});

describe('measureScale', () => {
  test('levels are round and few, and every value has a step', () => {
    const { levels, colors } = measureScale([-2.4, 0.3, 1.7]);
    expect(levels).toEqual([-2, -1.5, -1, -0.5, 0, 0.5, 1, 1.5]);
    expect(colors).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    expect([-2.4, -2, -0.1, 0, 1.7].map(v => stepAt({ levels, colors }, v))).toEqual([
      0, 1, 4, 5, 8,
    ]);
  });

  test('never more steps than colors, whatever the values', () => {
    for (let i = 0; i < 500; i++) {
      // from 0.001 to 500, beginning anywhere about zero
      const size = 10 ** (-3 + (5.7 * i) / 499);
      const low = size * Math.sin(i);
      for (const round of ['decimal', 'tape'] as const) {
        if (round === 'tape' && size < 0.1) continue;
        const { levels, colors } = measureScale([low, low + size], 1, round);
        expect(colors.length).toBe(levels.length + 1);
        expect(colors.length).toBeLessThanOrEqual(9);
        expect(levels.every(v => v > low - 1e-9 * size && v < low + size * (1 + 1e-9))).toBe(true);
      }
    }
  });

  test('on a tape steps are halves, in millimeters they are round there', () => {
    expect(roundStep(0.1, 'tape')).toBe(0.125);
    expect(roundStep(0.01, 'tape')).toBe(1 / 16);
    expect(roundStep(3)).toBe(5);
    expect(roundStep(0.2)).toBe(0.2);
    const { levels } = measureScale([0, 1], 25.4);
    expect(levels.map(v => Math.round(v * 25.4 * 1e9) / 1e9)).toEqual([5, 10, 15, 20, 25]);
  });

  test('a constant has one color, and a missing value none', () => {
    expect(measureScale([3, 3, Number.NaN])).toEqual({ levels: [], colors: [0] });
    expect(stepAt({ levels: [1], colors: [0, 8] }, Number.NaN)).toBe(-1);
  });
});
