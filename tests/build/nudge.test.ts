import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nudged } from '../../geometry/build/nudge.ts';
import { readEntry } from '../../geometry/build/tape.ts';

const names = new Map([['rail', { value: 3, dimension: 'length' as const }]]);

function read(text: string, unit: 'in' | 'mm' = 'in'): number {
  const result = readEntry(text, { dimension: 'length', unit, names });
  if (!result.ok) throw new Error(result.problem);
  return result.value;
}

function moved(typed: string, by: number, unit: 'in' | 'mm' = 'in'): string {
  return nudged(typed, read(typed, unit), by, { dimension: 'length', unit });
}

describe('an entry that was moved', () => {
  test.each([
    ['23 5/8', 1 / 16, '23 11/16'],
    ['23 5/8', -24, '-3/8'],
    ["1'11 5/8", 3 / 8, '24'],
    ['17.4', 0.1, '17 1/2'],
    ['17 1/2', 0.0123, '17.5123'],
    ['600 mm', 1 / 25.4, '601 mm'],
    ['rail', 1 / 4, 'rail + 1/4'],
    ['rail/2 + 1', 1 / 4, 'rail/2 + 1 1/4'],
    ['rail/2 - 1/4', 1 / 4, 'rail/2'],
    ['rail/2 + 1', -3, 'rail/2 - 2'],
    ['2*(rail + 1)', 1 / 2, '2*(rail + 1) + 1/2'],
    ['rail - 25.4 mm', -1, 'rail - 50.8 mm'],
  ])('%s by %f is written %s', (typed, by, wanted) => {
    const text = moved(typed, by);
    expect(text).toBe(wanted);
    expect(read(text)).toBeCloseTo(read(typed) + by, 4);
  });

  test('in a build in mm it is written in mm, and inches stay inches', () => {
    expect(moved('600', 1 / 25.4, 'mm')).toBe('601');
    expect(moved('23 5/8 in', 1 / 16, 'mm')).toBe('23 11/16 in');
  });

  test('an angle is written in degrees', () => {
    const by = (0.5 * Math.PI) / 180;
    expect(nudged('7 deg', (7 * Math.PI) / 180, by, { dimension: 'angle', unit: 'in' })).toBe(
      '7.5 deg',
    );
  });

  test('there and back is the same place, at any snap', () => {
    const shapes = ['23 5/8', '600 mm', 'rail/2 + 1', 'rail', '-2 1/4', '0'];
    fc.assert(
      fc.property(
        fc.constantFrom(...shapes),
        fc.integer({ min: -400, max: 400 }),
        fc.constantFrom(1 / 16, 1 / 8, 1 / 25.4),
        (typed, steps, snap) => {
          const there = moved(typed, steps * snap);
          // written to a ten-thousandth of an inch
          expect(read(there)).toBeCloseTo(read(typed) + steps * snap, 3.9);
          const back = moved(there, -steps * snap);
          expect(Math.abs(read(back) - read(typed))).toBeLessThan(2e-4);
        },
      ),
      { seed: 11, numRuns: 500 },
    );
  });
});
