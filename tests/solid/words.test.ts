import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Words } from '../../geometry/solid/words.ts';
import { bytesOf } from './files.ts';

const numberIn = (text: string) => new Words(bytesOf(text)).takeNumber();

describe('words of a text', () => {
  it('are taken one by one, line by line', () => {
    const words = new Words(bytesOf('\ufeffone  TWO\r\n\r\nthree \\\n four\rfive'));
    expect([words.next(), words.take('two'), words.next(), words.line]).toEqual([
      'one',
      true,
      null,
      1,
    ]);
    expect([words.toNext(), words.line, words.next(), words.next()]).toEqual([
      true,
      3,
      'three',
      'four',
    ]);
    expect([words.toNext(), words.take('fiv'), words.take('five'), words.toNext()]).toEqual([
      true,
      false,
      true,
      false,
    ]);
  });

  it.each([
    ['1', 1],
    ['-1.50', -1.5],
    ['+.25', 0.25],
    ['5.', 5],
    ['1e3', 1000],
    ['-2.5E-3', -0.0025],
    ['0.1', 0.1],
    ['123456789012345678', 123456789012345680],
    ['0.30000000000000004', 0.30000000000000004],
    ['0.0000000000000000000000000001', 1e-28],
    ['-0', 0],
  ])('the number %s', (text, value) => {
    expect(numberIn(text)).toBe(value);
  });

  it.each([
    '',
    '.',
    '-',
    '+.',
    '1.2.3',
    '1,5',
    '0x10',
    'nan',
    'Infinity',
    '1e',
    '--1',
    '1e999',
    'e5',
  ])("'%s' is no number, and still the next word", text => {
    const words = new Words(bytesOf(text));
    expect(Number.isFinite(words.takeNumber())).toBe(false);
    expect(words.next()).toBe(text === '' ? null : text);
  });

  it('numbers are those of the engine to the last bit', () => {
    const number = fc.double({ noNaN: true, noDefaultInfinity: true });
    const digits = fc.integer({ min: 1, max: 21 });
    fc.assert(
      fc.property(number, digits, (x, n) =>
        [String(x), x.toPrecision(n), x.toFixed(Math.min(n, 12))].every(
          text => numberIn(text) === Number(text),
        ),
      ),
      { seed: 1, numRuns: 5000 },
    );
  });
});
