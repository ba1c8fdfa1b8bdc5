/** The gap scale: its steps are those of the legend, at their edges too. */
import { describe, expect, test } from 'vitest';
import { gapRuns, sampleAt } from '../../src/charts/gapRuns.ts';
import { GAP_STEPS, gapStep, isOverlap, shareOf } from '../../src/charts/gapScale.ts';

describe('gapStep', () => {
  // share of what is wanted, gap in in, step
  test.each([
    [-3, -0.26, 'deep'],
    [-0.3, -0.25, 'touch'],
    [-0.001, -0.0005, 'touch'],
    [0, 0, 'half'],
    [0.49, 0.24, 'half'],
    [0.5, 0.25, 'short'],
    [0.99, 0.49, 'short'],
    [1, 0.5, 'wanted'],
    [1.99, 0.99, 'wanted'],
    [2, 1, 'double'],
    [4, 2, 'far'],
    [Number.POSITIVE_INFINITY, 9, 'far'],
  ])('%s of what is wanted, %s in: %s', (share, gap, step) => {
    expect(GAP_STEPS[gapStep(share, gap)]).toBe(step);
  });

  test('where there is no gap there is no step', () => {
    expect(gapStep(Number.NaN, Number.NaN)).toBe(-1);
    expect([0, 1, 2, 3].map(isOverlap)).toEqual([true, true, false, false]);
  });
});

test('a pair that wants nothing counts only where it touches, as rods do', () => {
  expect(shareOf(0.75, 1.5)).toBe(0.5);
  expect(shareOf(0.1, 0)).toBe(Number.POSITIVE_INFINITY);
  expect(shareOf(-0.25, 0)).toBe(-0.5);
});

describe('gapRuns', () => {
  const samples = { share: [2.5, 1.5, -0.5], gap: [1.25, 0.75, -0.25] };

  test('between two samples values go straight; beyond the ends they are held', () => {
    expect(sampleAt(samples.share, 0.5)).toBe(2);
    expect(sampleAt(samples.share, 1.25)).toBe(1);
    expect(sampleAt(samples.share, -3)).toBe(2.5);
    expect(sampleAt(samples.share, 9)).toBe(-0.5);
    expect(sampleAt([7], 0.4)).toBe(7);
    // an infinite share has no straight line to it
    expect(sampleAt([Number.POSITIVE_INFINITY, 1], 0.5)).toBe(Number.POSITIVE_INFINITY);
    expect(sampleAt([Number.POSITIVE_INFINITY, 1], 1)).toBe(1);
  });

  test('runs cover all pixels, and change where the share does', () => {
    // 200 px over two samples' distance: 2 at 50, 1 at 125, 1/2 at 150, 0 at 175
    const runs = gapRuns(samples, 0, 200, x => x / 100);
    expect(runs.map(({ step }) => GAP_STEPS[step])).toEqual([
      'double',
      'wanted',
      'short',
      'half',
      'touch',
    ]);
    expect(runs.map(({ to }) => to)).toEqual([50, 125, 150, 175, 200]);
    expect(runs.slice(1).every((run, i) => run.from === runs[i]?.to)).toBe(true);
  });
});
