import { expect, test } from 'vitest';
import { valuesOf, withTyped } from '../../../src/app/answers/parts/optionValues.ts';

const at = { part: 'axles.front.links.track bar', field: 'through' };

test('an entry is one value, a point three, and a bend three each', () => {
  expect(valuesOf('1 3/4')).toEqual([{ steps: [], suffix: '', typed: '1 3/4' }]);
  expect(valuesOf({ value: 8, from: 'measured' }).map(({ typed }) => typed)).toEqual(['8']);
  expect(valuesOf([1, '2 1/2', { value: '3' }]).map(({ suffix }) => suffix)).toEqual([
    '[0]',
    '[1]',
    '[2]',
  ]);
  expect(
    valuesOf([
      [1, 2, 3],
      [4, 5, 6],
    ])[4],
  ).toEqual({
    steps: [1, 1],
    suffix: '[1][1]',
    typed: '5',
  });
});

test('names and words are no values', () => {
  const end = { on: 'axle', at: { from: 'rail bottom', by: [0, 1, 2] } };
  expect(valuesOf(end).map(({ suffix }) => suffix)).toEqual([
    '.at.by[0]',
    '.at.by[1]',
    '.at.by[2]',
  ]);
  expect(valuesOf(null)).toEqual([]);
});

test('one is typed anew and the others stay, with where it came from', () => {
  const bent = { ...at, value: [[1, { value: 2, from: 'measured', tolerance: '1/8' }, 3]] };
  expect(withTyped(bent, [0, 1], '2 1/4')).toEqual({
    ...at,
    value: [[1, { value: '2 1/4', from: 'measured', tolerance: '1/8' }, 3]],
  });
  expect(withTyped({ ...at, value: 4 }, [], '5')).toEqual({ ...at, value: '5' });
});
