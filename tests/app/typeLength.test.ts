import { expect, test } from 'vitest';
import { nextMark } from '../../src/app/edit/typeLength.ts';

test('a press goes to the next mark of the tape, from a mark by one', () => {
  expect(nextMark(37.89, 1, 1 / 16)).toBe(37.9375);
  expect(nextMark(37.89, -1, 1 / 16)).toBe(37.875);
  expect(nextMark(37.875, 1, 1 / 16)).toBe(37.9375);
  expect(nextMark(37.875, -1, 1 / 16)).toBe(37.8125);
  expect(nextMark(10 / 25.4, 1, 1 / 25.4) * 25.4).toBeCloseTo(11, 9);
});
