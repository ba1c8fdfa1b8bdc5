import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { problemLines, readBuild } from '../../geometry/build/read.ts';
import { edited, steered, type Written } from './sample.ts';

/** Printed by fast-check with each failure; fixed, so that a run can be repeated. */
const SEED = 20260301;

const plain = JSON.parse(
  readFileSync(new URL('fixtures/plain.axlewalk.json', import.meta.url), 'utf8'),
) as Written;

/** Places of all values in a file, as steps. */
function placesIn(value: unknown, steps: string[] = []): string[][] {
  if (typeof value !== 'object' || value === null) return [steps];
  const inner = Object.entries(value).flatMap(([key, item]) => placesIn(item, [...steps, key]));
  return steps.length === 0 ? inner : [steps, ...inner];
}

const numbers = fc.oneof(
  fc.constantFrom(0, -1, 1e-300, 1e300, -1e5, 1 / 3),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
);
const entries = fc.constantFrom(
  '1/0',
  '23 5/8',
  '-2',
  '0',
  '90 deg',
  '3 kg',
  'railFace',
  '',
  '1e308 * 10',
);
const words = fc.constantFrom(
  'left',
  'mirror',
  'front',
  'rear',
  'bushing',
  'ram rod',
  'drag link',
  'chassis',
);
const junk = fc.oneof(
  numbers,
  entries,
  words,
  fc.constantFrom(null, true, false, [], {}, [0, 0, 0], [0, 0, 1], {
    from: 'front axle',
    by: [0, 0, 0],
  }),
  fc.string(),
  fc.jsonValue(),
);

const finite = (value: unknown): boolean =>
  typeof value === 'number'
    ? Number.isFinite(value)
    : typeof value !== 'object' || value === null || Object.values(value).every(finite);

/** Whatever stands in it, a file gives a Build of finite numbers or lines that can be read. */
function expectVerdict(text: string): 'taken' | 'refused' {
  const read = readBuild(text);
  if (read.ok) {
    expect(finite(read.build)).toBe(true);
    return 'taken';
  }
  const lines = problemLines(read.problems);
  expect(lines.length).toBeGreaterThan(0);
  for (const line of lines) {
    expect(line).toMatch(/^\S.*: .*\S$/u);
    expect(line).not.toMatch(/\p{Cc}|\bNaN\b|\[object|Invalid input/u);
  }
  return 'refused';
}

test('any few values of a build replaced by anything: a Build or problems, never a throw', {
  timeout: 60_000,
}, () => {
  const bases = [plain, steered()];
  const change = (base: Written) =>
    fc.array(fc.tuple(fc.constantFrom(...placesIn(base)), fc.option(junk, { nil: undefined })), {
      minLength: 1,
      maxLength: 3,
    });
  const files = fc.oneof(...bases.map(base => fc.tuple(fc.constant(base), change(base))));
  const count = { taken: 0, refused: 0 };
  fc.assert(
    fc.property(files, ([base, changes]) => {
      let file = base;
      for (const [steps, value] of changes) {
        try {
          file = edited(file, { [steps.join('.')]: value });
        } catch {
          // An earlier change took away the place of this one.
        }
      }
      count[expectVerdict(JSON.stringify(file))]++;
    }),
    { seed: SEED, numRuns: 800 },
  );
  // Both verdicts have to occur, else the test tests nothing.
  expect(count.taken).toBeGreaterThan(25);
  expect(count.refused).toBeGreaterThan(250);
});

test('any text, and a build with any bytes changed: a Build or problems, never a throw', {
  timeout: 60_000,
}, () => {
  const bytes = new TextEncoder().encode(JSON.stringify(plain));
  const flips = fc.array(fc.tuple(fc.nat(bytes.length - 1), fc.nat(255)), { maxLength: 3 });
  fc.assert(
    fc.property(flips, changes => {
      const copy = bytes.slice();
      for (const [at, byte] of changes) copy[at] = byte;
      const read = readBuild(copy);
      expect(read.ok || read.problems.length > 0).toBe(true);
    }),
    { seed: SEED, numRuns: 500 },
  );
  fc.assert(
    fc.property(fc.oneof(fc.string(), fc.json()), text => {
      expect(expectVerdict(text)).toBe('refused');
    }),
    { seed: SEED, numRuns: 1000 },
  );
});
