import { describe, expect, test } from 'vitest';
import { negated, supplement } from '../../geometry/build/negated.ts';
import { readEntry } from '../../geometry/build/tape.ts';

const names = new Map([['railFace', { value: 13.5, dimension: 'length' as const }]]);
const inches = (text: string | number): number => {
  const read = readEntry(text, { dimension: 'length', unit: 'in', names });
  if (!read.ok) throw new Error(read.problem);
  return read.value;
};

describe('an entry of the other sign', () => {
  test.each([
    ['23 5/8', '-23 5/8'],
    ['23-5/8', '-23-5/8'],
    ["1'11 5/8", "-1'11 5/8"],
    ['5 ft 3 in', '-5 ft 3 in'],
    ['600 mm', '-600 mm'],
    ['railFace', '-railFace'],
    ['railFace/2', '-railFace/2'],
    ['railFace + 2', '-(railFace + 2)'],
    ['(railFace + 2) * 2', '-(railFace + 2) * 2'],
    ['-railFace + 2', '-(-railFace + 2)'],
  ])('%s and %s are one another', (one, other) => {
    expect(negated(one)).toBe(other);
    expect(negated(other)).toBe(one);
    // the reader says whether that is the other sign
    expect(inches(other)).toBe(-inches(one));
  });

  test('other minus signs are taken off too', () => {
    expect(negated('−23 5/8')).toBe('23 5/8');
    expect(negated('- 3')).toBe('3');
  });

  test('a number stays a number, and nothing stays as typed', () => {
    expect(negated(2.5)).toBe(-2.5);
    expect(Object.is(negated(0), 0)).toBe(true);
    for (const zero of ['0', '0 in', '0.0', '0"', '.0']) expect(negated(zero)).toBe(zero);
    expect(negated('0.5')).toBe('-0.5');
  });

  test('where it came from and how well it is known stay', () => {
    expect(negated({ value: '17 1/2', from: 'measured', tolerance: '1/16' })).toEqual({
      value: '-17 1/2',
      from: 'measured',
      tolerance: '1/16',
    });
  });
});

test('an angle in the mirror is the rest of half a turn, and back again', () => {
  expect(supplement(30)).toBe(150);
  expect(supplement('30 deg')).toBe('180 deg - (30 deg)');
  expect(supplement('180 deg - (30 deg)')).toBe('30 deg');
  const read = readEntry('180 deg - (30 deg)', { dimension: 'angle', unit: 'in' });
  expect(read.ok && read.value).toBeCloseTo((150 * Math.PI) / 180, 12);
});
