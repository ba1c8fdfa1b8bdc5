import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { resolveDimensions } from '../../geometry/build/dimensions.ts';
import { problemLine } from '../../geometry/build/problem.ts';

const lines = (written: unknown) => resolveDimensions(written, 'in').problems.map(problemLine);

function values(written: unknown, unit: 'in' | 'mm' = 'in') {
  const { values, problems } = resolveDimensions(written, unit);
  expect(problems).toEqual([]);
  return Object.fromEntries([...values].map(([name, { value }]) => [name, value]));
}

describe('dimensions that use each other', () => {
  test('are resolved in whatever order they stand, and kept in that of the file', () => {
    const written = [
      { name: 'armSpread', value: 'frameWidth - 2 * bracket' },
      { name: 'frameWidth', value: '2 * railFace' },
      { name: 'bracket', value: '1 1/2' },
      { name: 'railFace', value: '13 1/2' },
    ];
    expect(values(written)).toEqual({
      armSpread: 24,
      frameWidth: 27,
      bracket: 1.5,
      railFace: 13.5,
    });
    expect([...resolveDimensions(written, 'in').values.keys()]).toEqual(written.map(w => w.name));
  });

  test('take their dimension from their units; bare ones are lengths in the unit of the build', () => {
    const { values, problems } = resolveDimensions(
      [
        { name: 'railFace', value: 254 },
        { name: 'rake', value: '180 deg' },
        { name: 'share', value: '60 %' },
        { name: 'stiff', value: '200 lbf/in' },
        { name: 'part', value: 'share * railFace' },
        { name: 'sag', value: '600 lbf / stiff' },
      ],
      'mm',
    );
    expect(problems).toEqual([]);
    const kinds = [...values].map(([name, { value, dimension }]) => [name, value, dimension]);
    expect(kinds).toEqual([
      ['railFace', 10, 'length'],
      ['rake', Math.PI, 'angle'],
      ['share', 0.6, 'ratio'],
      ['stiff', 200, 'rate'],
      ['part', 6, 'length'],
      ['sag', 3, 'length'],
    ]);
  });

  test('say where they came from, how far off they may be, and on what they hang', () => {
    const { values } = resolveDimensions(
      [
        { name: 'half', value: { value: 'railFace/2', from: 'assumed', tolerance: 'slack' } },
        { name: 'slack', value: '1/4' },
        { name: 'railFace', value: { value: 13, from: 'measured' } },
        { name: 'rake', value: { value: '90 deg', tolerance: 180 } },
      ],
      'in',
    );
    expect(values.get('half')).toEqual({
      value: 6.5,
      dimension: 'length',
      typed: 'railFace/2',
      from: 'assumed',
      tolerance: 0.25,
      uses: ['railFace'],
    });
    expect(values.get('railFace')).toMatchObject({ typed: 13, from: 'measured', tolerance: null });
    expect(values.get('slack')).toMatchObject({ from: null, uses: [] });
    expect(values.get('rake')?.tolerance).toBe(Math.PI);
  });

  test('may be a chain as long as a file allows', () => {
    const count = 20_000;
    const chain = Array.from({ length: count }, (_, i) => ({
      name: `d${i}`,
      value: i + 1 < count ? `d${i + 1} + 1` : '1',
    }));
    expect(resolveDimensions(chain, 'in').values.get('d0')?.value).toBe(count);
  });
});

describe('problems', () => {
  test('a circle is named once, in full, and what hangs on it is not blamed', () => {
    expect(
      lines([
        { name: 'outside', value: 'frameWidth + 1' },
        { name: 'frameWidth', value: '2 * railFace' },
        { name: 'railFace', value: 'spread/2' },
        { name: 'spread', value: 'frameWidth - 3' },
        { name: 'fine', value: 3 },
      ]),
    ).toEqual([
      'dimensions["frameWidth"].value: found "2 * railFace": ' +
        'frameWidth → railFace → spread → frameWidth is a circle; ' +
        'wanted: a value that does not hang on itself',
    ]);
  });

  test('a dimension that uses itself is a circle, and two circles are two problems', () => {
    const problems = lines([
      { name: 'a', value: 'a' },
      { name: 'b', value: 'c' },
      { name: 'c', value: 'b + a' },
    ]);
    expect(problems).toHaveLength(2);
    expect(problems[0]).toContain('a → a is a circle');
    expect(problems[1]).toContain('b → c → b is a circle');
  });

  test('circles that share a dimension are one problem at a time', () => {
    expect(
      lines([
        { name: 'a', value: 'b + c' },
        { name: 'b', value: 'a' },
        { name: 'c', value: 'a' },
      ]),
    ).toHaveLength(1);
  });

  test('of a long circle both ends are named', () => {
    const circle = Array.from({ length: 100 }, (_, i) => ({
      name: `d${i}`,
      value: `d${(i + 1) % 100}`,
    }));
    const [problem] = lines(circle);
    expect(problem).toContain('d0 → d1 → d2');
    expect(problem).toContain('d99 → d0 is a circle');
    expect(problem?.length).toBeLessThan(250);
  });

  test('an unknown name brings the nearest known one, resolved or not', () => {
    expect(
      lines([
        { name: 'half', value: 'raleFace/2' },
        { name: 'railFace', value: '13 1/2' },
        { name: 'other', value: 'zebra' },
      ]),
    ).toEqual([
      'dimensions["half"].value: found "raleFace/2": raleFace is no dimension of this build; ' +
        'wanted: the name railFace',
      'dimensions["other"].value: found "zebra": zebra is no dimension of this build; ' +
        'wanted: the name of a dimension',
    ]);
  });

  test('all are told at once, each with its path', () => {
    expect(
      lines([
        { name: 'a', value: '1/0' },
        { name: 'b', value: '10-3' },
        { name: 'c', value: '3 in * 3 in' },
        { name: 'd', value: { value: '3 in', tolerance: '2 deg' } },
        { name: 'e', value: { value: '3 in', tolerance: '-1/4' } },
        { name: 'g', value: 'sqrt(2)' },
        { name: 'h', value: 'a + 1' },
      ]).map(line => line.split(': ')[0]),
    ).toEqual([
      'dimensions["a"].value',
      'dimensions["b"].value',
      'dimensions["c"].value',
      'dimensions["g"].value',
      'dimensions["d"].value.tolerance',
      'dimensions["e"].value.tolerance',
    ]);
  });

  test.each([
    ['in', 'in is a unit'],
    ['M', 'M is a unit'],
    ['bar', 'bar is a unit'],
    ['mod', 'mod has a meaning of its own'],
    ['true', 'true has a meaning of its own'],
    ['per', 'per has a meaning of its own'],
    ['pi', 'pi has a meaning of its own'],
    ['rail face', 'a name of letters and digits'],
    ['rail-face', 'a name of letters and digits'],
    ['2rails', 'a name of letters and digits'],
    ['RailFace', 'a name of letters and digits'],
    ['__proto__', 'a name of letters and digits'],
    ['', 'a name of letters and digits'],
    ['breite\u00dc', 'a name of letters and digits'],
    ['a'.repeat(61), 'a name of at most 60 characters'],
  ])('%s cannot be a name', (name, part) => {
    const [problem, ...others] = lines([{ name, value: 3 }]);
    expect(problem).toContain(part);
    expect(problem).toMatch(/^dimensions\[.*\]\.name: found "/);
    expect(others).toEqual([]);
  });

  test('a name that stands twice', () => {
    expect(
      lines([
        { name: 'railFace', value: 3 },
        { name: 'railFace', value: 4 },
      ]),
    ).toEqual([
      'dimensions[1].name: found "railFace": another dimension has this name; wanted: a name of its own',
    ]);
  });

  test('names that every object has are as unknown as any', () => {
    for (const name of ['constructor', 'toString', 'hasOwnProperty']) {
      expect(lines([{ name: 'a', value: name }])[0]).toContain('is no dimension of this build');
    }
    expect(values([{ name: 'constructor', value: 3 }])).toEqual({ constructor: 3 });
  });

  test('what is of another shape is left to the schema', () => {
    for (const written of [undefined, null, 3, {}, 'x', [null, 3, {}, { name: 3, value: 3 }]]) {
      expect(resolveDimensions(written, 'in')).toEqual({ values: new Map(), problems: [] });
    }
    expect(values([{ name: 'a' }, { name: 'b', value: [] }, { name: 'c', value: 3 }])).toEqual({
      c: 3,
    });
  });
});

// Any graph of up to eight dimensions: a depth-first reading by hand says which ones have a value.
test('exactly those without a circle below them are resolved', () => {
  const graph = fc.array(fc.array(fc.nat({ max: 7 }), { maxLength: 3 }), {
    minLength: 8,
    maxLength: 8,
  });
  fc.assert(
    fc.property(graph, uses => {
      const written = uses.map((of, i) => ({
        name: `d${i}`,
        value: ['1', ...of.map(use => `d${use}`)].join(' + '),
      }));
      const expected = (i: number, above: number[]): number => {
        if (above.includes(i)) return Number.NaN;
        return (uses[i] ?? []).reduce((sum, use) => sum + expected(use, [...above, i]), 1);
      };
      const { values, problems } = resolveDimensions(written, 'in');
      const isCircle = uses.map((_, i) => Number.isNaN(expected(i, [])));
      uses.forEach((_, i) => {
        expect(values.get(`d${i}`)?.value).toBe(isCircle[i] ? undefined : expected(i, []));
      });
      expect(problems.length > 0).toBe(isCircle.includes(true));
    }),
    { seed: 21, numRuns: 1000 },
  );
});
