/** The numbers in the guide's text are those of the examples, to the last digit that is printed. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readEntry } from '../../geometry/build/tape.ts';
import { numbers } from './numbers.ts';

const GUIDE = join(import.meta.dirname, '../../docs/guide');
const pages = readdirSync(GUIDE).filter(name => name.endsWith('.md'));
const textOf = (name: string): string => readFileSync(join(GUIDE, name), 'utf8');

/** A key, and the number that stands behind it: `<!--n longUp-->5 1/8`. */
const MARKED = /<!--n (\w+)-->([-−]?\d[\d,]*(?:\.\d+)?(?: \d+\/\d+)?(?:\/\d+)?)/g;

interface Told {
  page: string;
  key: string;
  typed: string;
}

const told: Told[] = pages.flatMap(page =>
  [...textOf(page).matchAll(MARKED)].map(([, key = '', typed = '']) => ({ page, key, typed })),
);

/** Half of the last place that is printed: a fraction is told to a sixteenth. */
function halfOfLast(typed: string): number {
  const decimals = /\.(\d+)$/.exec(typed)?.[1];
  return decimals === undefined ? 1 / 32 : 0.5 * 10 ** -decimals.length;
}

test.each(told)('$page: $key is $typed', ({ key, typed }) => {
  const entry = readEntry(typed.replace('−', '-').replaceAll(',', ''), {
    dimension: 'length',
    unit: 'in',
  });
  if (!entry.ok) throw new Error(entry.problem);
  const value = numbers[key]?.();
  if (value === undefined) throw new Error(`the guide has a number ${key} that nothing computes`);
  // a bound that is told on its clear side is rounded to that side: one sixteenth in place of half of it
  const off = key === 'hitClearBelow' ? 1 / 16 : halfOfLast(typed);
  expect(
    Math.abs(value - entry.value),
    `${typed} stands there, ${value} it is`,
  ).toBeLessThanOrEqual(off + 1e-6);
});

test('every marked number can be read, and every number that is computed stands somewhere', () => {
  const marks = pages.flatMap(page => textOf(page).match(/<!--n/g) ?? []);
  expect(told).toHaveLength(marks.length);
  expect(Object.keys(numbers).filter(key => !told.some(each => each.key === key))).toEqual([]);
});

test('every page and drawing that the guide names is there, and each is named', () => {
  const there = readdirSync(GUIDE);
  const named = pages.flatMap(page =>
    [...textOf(page).matchAll(/\]\(([\w.-]+)\)/g)].map(([, name = '']) => name),
  );
  for (const name of named) expect(there).toContain(name);
  for (const name of there.filter(each => each !== 'README.md')) expect(named).toContain(name);
});

test('a wrong number would be found', () => {
  expect(halfOfLast('5 1/8')).toBe(1 / 32);
  expect(halfOfLast('−0.55')).toBeCloseTo(0.005, 12);
  expect([...'<!--n longUp-->5 1/8 in'.matchAll(MARKED)][0]?.[2]).toBe('5 1/8');
  expect([...'<!--n hitGap-->−0.57 in'.matchAll(MARKED)][0]?.[2]).toBe('−0.57');
});
