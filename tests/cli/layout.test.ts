import { expect, test } from 'vitest';
import { inColumns, labeled, table, WIDTH, wrap } from '../../src/cli/layout.ts';

const LONG = 'the axle moves sideways as it rises since the track bar swings '.repeat(5).trim();

test('wrapped lines keep every word in order and the width', () => {
  const lines = wrap(LONG, '  ', '      ');
  expect(lines.map(line => line.trim()).join(' ')).toBe(LONG);
  for (const line of lines) expect(line.length).toBeLessThanOrEqual(WIDTH);
  expect(lines[0]).toMatch(/^ {2}\w/);
  expect(lines[1]).toMatch(/^ {6}\w/);
  expect(wrap('x'.repeat(200))).toEqual(['x'.repeat(200)]);
});

test('labels stand in a column of their own', () => {
  expect(
    labeled([
      ['a', 'one'],
      ['long', 'two'],
    ]),
  ).toEqual(['  a      one', '  long   two']);
});

test('a table: first column flush left, others flush right, missing cells empty', () => {
  expect(
    table([
      ['', 'axle', 'left'],
      ['steer', '1.5°'],
      ['toe', '', '-12.5°'],
    ]),
  ).toEqual(['         axle    left', '  steer  1.5°', '  toe          -12.5°']);
  const wide = table([['n'.repeat(200), '1']]);
  expect(wide[0]).toHaveLength(WIDTH);
  expect(wide[0]).toMatch(/n… {2}1$/);
});

test('columns are read down and then across', () => {
  expect(inColumns(['a', 'b', 'c', 'd', 'e'])).toEqual(['a    c    e', 'b    d']);
  expect(inColumns(['x'.repeat(80), 'y'])).toEqual(['x'.repeat(80), 'y']);
});
