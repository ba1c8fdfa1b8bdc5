import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LARGEST_FILE_bytes } from '../../geometry/build/fileSize.ts';
import { readJson } from '../../geometry/build/json.ts';
import { fieldPath, own, problemLine, shown } from '../../geometry/build/problem.ts';
import { readText } from '../../geometry/build/text.ts';

function lines(text: string | Uint8Array): string[] {
  const result = readText(text);
  return result.ok ? [] : result.problems.map(problemLine);
}

const bytes = (text: string) => new TextEncoder().encode(text);

describe('what is a JSON object is read as JSON.parse reads it', () => {
  test.each([
    '{}',
    ' { } ',
    '{"a":[]}',
    '{"a":[1,2.5,-3e-2,0,-0,1E+2]}',
    '{"a":true,"b":false,"c":null}',
    '{"a":{"b":{"c":[{"d":[[]]}]}}}',
    '{"":1," ":2,"a.b":3,"0":4}',
    String.raw`{"a":"\"\\\/\b\f\n\r\té\ud83d\ude00\ud800"}`,
    '{"a":"23⅝ ″ 😀 \u007f \u0085 \u2028"}',
    '{\r\n\t"a" :\t1\r}',
    '{"constructor":{"prototype":1},"toString":2}',
  ])('%s', text => {
    for (const input of [text, bytes(text)]) {
      // A lone surrogate has no UTF-8: as an escape it has.
      const result = readText(input);
      expect(result.ok && result.value).toEqual(JSON.parse(text));
    }
  });

  test('with a byte order mark', () => {
    expect(readText('\uFEFF{"a":1}')).toMatchObject({ ok: true, value: { a: 1 } });
    expect(readText(bytes('\uFEFF{"a":1}'))).toMatchObject({ ok: true, value: { a: 1 } });
  });

  test('any value, in any layout', () => {
    const json = fc.object({
      maxDepth: 6,
      values: [fc.double(), fc.string(), fc.boolean(), fc.constant(null)],
    });
    fc.assert(
      fc.property(json, fc.constantFrom('', '\t', '  '), (value, indent) => {
        const text = JSON.stringify(value, null, indent);
        fc.pre(!text.includes('"__proto__"'));
        const result = readText(text);
        expect(result.ok && result.value).toEqual(JSON.parse(text));
      }),
      { seed: 31, numRuns: 1000 },
    );
  });
});

describe('what is not JSON is refused at its place', () => {
  test.each([
    ['{', 'the end of the file at line 1, column 2', 'a key in double quotes'],
    ['{"a":1', 'the end of the file at line 1, column 7', 'a comma or }'],
    ['{"a":[1,\n2', 'the end of the file at line 2, column 2', 'a comma or ]'],
    ['{"a":"x', 'the end of the line at line 1, column 8', 'a double quote that ends the text "x"'],
    ['{"a":"x\n"}', 'the end of the line at line 1, column 8', 'ends the text "x"'],
    ['{"a"', 'the end of the file at line 1, column 5', 'a colon after the key'],
    ['{"a":', 'the end of the file at line 1, column 6', 'a value: text in double quotes'],
    ['{"a":1,\n}', '"}" at line 2, column 1', 'no comma before }'],
    ['{"a":[1,]}', '"]" at line 1, column 9', 'no comma before ]'],
    ['{"a":[,1]}', '"," at line 1, column 7', 'a value'],
    ['{,}', '"," at line 1, column 2', 'a key in double quotes'],
    ['{"a":1 "b":2}', '"\\"" at line 1, column 8', 'a comma or }'],
    ['{"a" 1}', '"1" at line 1, column 6', 'a colon after the key'],
    ['{a:1}', '"a" at line 1, column 2', 'a key in double quotes'],
    ["{'a':1}", '"\'a\'" at line 1, column 2', 'a key in double quotes'],
    ['{"a":\'x\'}', '"\'x\'" at line 1, column 6', 'text in double quotes'],
    ['{"a":“x”}', '"“" at line 1, column 6', 'text in double quotes'],
    ['{"a":front}', '"front" at line 1, column 6', 'double quotes around text: "front"'],
    ['{"a":True}', '"True" at line 1, column 6', 'double quotes around text: "True"'],
    ['{"a":NaN}', '"NaN" at line 1, column 6', 'a number, or null for none'],
    ['{"a":-Infinity}', '"-Infinity" at line 1, column 6', 'a number, or null for none'],
    ['{"a":05}', '"05" at line 1, column 6', 'a number such as 0.5'],
    ['{"a":.5}', '".5" at line 1, column 6', 'a number such as 0.5'],
    ['{"a":5.}', '"5." at line 1, column 6', 'a number such as 0.5'],
    ['{"a":+5}', '"+5" at line 1, column 6', 'a number such as 0.5'],
    ['{"a":1e999}', '"1e999" at line 1, column 6', 'a number below 1.8e308'],
    ['{"a":5 1/2}', '"1" at line 1, column 8', 'a tape entry in double quotes: "23 5/8"'],
    ['{"a":5/8}', '"/" at line 1, column 7', 'a tape entry in double quotes'],
    ['{"a":5 in}', '"in" at line 1, column 8', 'a tape entry in double quotes'],
    ['{"a":5in}', '"5in" at line 1, column 6', 'a tape entry in double quotes'],
    ['{"a":"x\ty"}', '"\\t" at line 1, column 8', 'no control characters in text'],
    [String.raw`{"a":"x\q"}`, String.raw`"\\q" at line 1, column 8`, String.raw`one of \"`],
    [String.raw`{"a":"\u12g4"}`, String.raw`"\\u" at line 1, column 7`, String.raw`one of \"`],
    ['{"a":1}}', '"}" at line 1, column 8', 'the end of the file'],
    ['{"a":1}\n{"a":1}', '"{" at line 2, column 1', 'the end of the file'],
    ['// note\n{}', '"/" at line 1, column 1', 'no comments'],
    ['{"a":1, /* b */ "b":2}', '"/" at line 1, column 9', 'no comments'],
    ['{"a":1\u00a0}', '"\\u00a0" at line 1, column 7', 'a comma or }'],
    ['<xml/>', '"<" at line 1, column 1', 'a value'],
  ])('%s', (text, found, wanted) => {
    const [line, ...others] = lines(text);
    expect(line).toContain(`found ${found}`);
    expect(line?.split('; wanted: ')[1]).toContain(wanted);
    expect(others).toEqual([]);
    // JSON.parse, too, refuses each of them but the number, of which it makes Infinity.
    if (!text.includes('1e999')) expect(() => JSON.parse(text)).toThrow(SyntaxError);
  });

  test('with the path of the place', () => {
    const text = '{"axles":[{"name":"front","links":[{"name":"lower link","axle":{"at":[1,x]}}]}]}';
    expect(lines(text)[0]).toMatch(
      /^axles\["front"\]\.links\["lower link"\]\.axle\.at\[1\]: found "x"/,
    );
  });

  test('wherever a good file is cut off', () => {
    const text = JSON.stringify({ a: [1, { b: 'x\n' }], c: { d: true }, e: -1.5e-3 }, null, 1);
    for (let length = 1; length < text.length; length++) {
      expect(lines(text.slice(0, length)), text.slice(0, length)).toHaveLength(1);
    }
  });

  test('wherever one character of a good file is wrong, just as by JSON.parse', () => {
    const text = JSON.stringify({ a: [1, { b: 'x\n' }], c: { d: true }, e: -1.5e-3 });
    const place = fc.nat({ max: text.length - 1 });
    fc.assert(
      fc.property(place, fc.string({ unit: 'binary-ascii', maxLength: 2 }), (at, piece) => {
        const broken = text.slice(0, at) + piece + text.slice(at + 1);
        const result = readText(broken);
        let parsed: unknown;
        try {
          parsed = JSON.parse(broken);
        } catch {
          expect(result.ok).toBe(false);
          return;
        }
        if (result.ok) expect(result.value).toEqual(parsed);
        else
          expect(result.problems.map(problemLine).join()).toMatch(/again, first on|below 1.8e308/);
      }),
      { seed: 32, numRuns: 3000 },
    );
  });
});

describe('repeated keys', () => {
  test('are all told, with key, path and both lines', () => {
    const text = `{
      "axles": [ { "name": "front", "links": [
        { "name": "lower link",
          "length": 36,
          "length": 37 } ] } ],
      "unit": "in",
      "unit": "mm" }`;
    expect(lines(text)).toEqual([
      'axles["front"].links["lower link"].length: found "length" on line 5 again, first on line 4; ' +
        'wanted: the key "length" once',
      'unit: found "unit" on line 7 again, first on line 6; wanted: the key "unit" once',
    ]);
  });

  test('are the same key however they are escaped', () => {
    expect(lines(String.raw`{"unit":1,"un\u0069t":2}`)).toHaveLength(1);
  });

  test('may be the same in different objects', () => {
    expect(lines('{"a":{"x":1},"b":{"x":1},"c":[{"x":1},{"x":1}]}')).toEqual([]);
  });

  test('are told together with the place where the text breaks off', () => {
    expect(lines('{"a":1,"a":2,')).toHaveLength(2);
  });

  test('beyond a hundred are given up', () => {
    expect(lines(`{${'"a":0,'.repeat(100_000)}"a":0}`)).toHaveLength(101);
  });
});

describe('hostile files', () => {
  test('__proto__ as a key is refused and changes no object', () => {
    const text = '{"__proto__":{"polluted":1},"a":{"__proto__":{"polluted":1}}}';
    expect(lines(text)).toEqual([
      '__proto__: found "__proto__" on line 1; wanted: a key of the build file',
      'a.__proto__: found "__proto__" on line 1; wanted: a key of the build file',
    ]);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
    expect(Object.getPrototypeOf(readJson(text).value)).toBe(Object.prototype);
    expect(lines('{"constructor":{"prototype":{"polluted":1}}}')).toEqual([]);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  test.each([
    ['lists', '['.repeat(100_000)],
    ['objects', '{"a":'.repeat(100_000)],
    ['both', '[{"a":'.repeat(100_000)],
  ])('%s nested a hundred thousand deep', (_, text) => {
    const [line, ...others] = lines(text);
    expect(line).toContain('wanted: at most 64 lists and objects inside each other');
    expect(others).toEqual([]);
    expect(line?.length).toBeLessThan(400);
  });

  test('64 levels are read, 65 are not', () => {
    const nested = (levels: number) => `{"a":${'['.repeat(levels - 1)}${']'.repeat(levels - 1)}}`;
    expect(lines(nested(64))).toEqual([]);
    expect(lines(nested(65))).toHaveLength(1);
  });

  test('more than 8 MiB are refused unread, in bytes as in characters', () => {
    const wanted = /the file: found 8\.0 MiB; wanted: at most 8 MiB/;
    const full = `{"a":"${'x'.repeat(LARGEST_FILE_bytes - 8)}"}`;
    expect(lines(full)).toEqual([]);
    expect(lines(bytes(full))).toEqual([]);
    expect(lines(`${full} `)[0]).toMatch(wanted);
    expect(lines(bytes(`${full} `))[0]).toMatch(wanted);
    expect(lines(`{"a":"${'é'.repeat(LARGEST_FILE_bytes / 2)}"}`)[0]).toMatch(wanted);
    expect(lines(new Uint8Array(LARGEST_FILE_bytes + 1))[0]).toMatch(wanted);
  });

  test.each([
    ['nothing', new Uint8Array(0), 'an empty file'],
    ['blanks', bytes(' \n\t '), 'an empty file'],
    ['a byte order mark alone', bytes('\uFEFF'), 'an empty file'],
    ['zero bytes', new Uint8Array(10), 'zero bytes, as in a binary file'],
    [
      'a picture',
      new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a]),
      'a byte that is no UTF-8 on line 1',
    ],
    [
      'Latin-1',
      new Uint8Array([...bytes('{\n"a":"'), 0xe9, ...bytes('"}')]),
      'a byte that is no UTF-8 on line 2',
    ],
    ['UTF-16', new Uint8Array([0xff, 0xfe, 0x7b, 0, 0x7d, 0]), 'text in UTF-16'],
    [
      'an overlong code',
      new Uint8Array([0x7b, 0xc0, 0x80, 0x7d]),
      'a byte that is no UTF-8 on line 1',
    ],
  ])('%s', (_, input, found) => {
    expect(lines(input)).toHaveLength(1);
    expect(lines(input)[0]).toContain(`the file: found ${found}`);
  });

  test.each([
    ['[]', 'an empty list'],
    ['[{"axlewalk":1}]', 'a list'],
    ['"axlewalk"', '"axlewalk"'],
    ['3', '3'],
    ['null', 'null'],
  ])('%s at the top is no build', (text, found) => {
    expect(lines(text)).toEqual([
      `the file: found ${found}; wanted: a build file: { "axlewalk": 1, "name": …, … }`,
    ]);
  });

  test('any bytes give a value or problems of one line each', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), input => {
        for (const line of lines(input)) expect(line).toMatch(/^\P{Cc}+$/u);
      }),
      { seed: 33, numRuns: 3000 },
    );
  });
});

describe('lines', () => {
  const text = `{ "axles": [
    { "name": "front",
      "links": [ { "name": "upper link" },
        { "name": "lower \\"left\\" link", "axle": {
          "at": [ 1,
            2, 3 ] } } ] } ],
    "odd key": 1 }`;
  const result = readText(`\r\n${text}`);

  test.each([
    ['', 2],
    ['axles', 2],
    ['axles["front"]', 3],
    ['axles[0]', 3],
    ['axles["front"].links["upper link"]', 4],
    ['axles["front"].links["lower \\"left\\" link"].axle.at[0]', 6],
    ['axles["front"].links[1].axle.at[1]', 7],
    ['["odd key"]', 8],
    ['axles["front"].links[1].length', 5],
    ['axles["rear"].links', 2],
    ['axles["front"].links.constructor', 4],
    ['axles[0', null],
    ['axles..', null],
  ])('%s is on line %s', (path, line) => {
    expect(result.ok && result.lineOf(path)).toBe(line);
  });
});

describe('problems', () => {
  test('a path goes by names that are its list’s own, else by index', () => {
    const file = {
      axles: [
        { name: 'front', links: [{ name: 'a' }, { name: 'b' }, { name: 'b' }, {}, { name: '' }] },
      ],
      'odd key': { 'x-y': [[1]] },
    };
    expect(fieldPath(file, ['axles', 0, 'links', 0, 'at', 1])).toBe(
      'axles["front"].links["a"].at[1]',
    );
    expect(fieldPath(file, ['axles', 0, 'links', 1])).toBe('axles["front"].links[1]');
    expect(fieldPath(file, ['axles', 0, 'links', 3])).toBe('axles["front"].links[3]');
    expect(fieldPath(file, ['axles', 0, 'links', 4, 'x'])).toBe('axles["front"].links[4].x');
    expect(fieldPath(file, ['odd key', 'x-y', 0, 0])).toBe('["odd key"]["x-y"][0][0]');
    expect(fieldPath(file, ['missing', 'also', 3])).toBe('missing.also[3]');
    expect(fieldPath(file, [])).toBe('');
  });

  test('what stands there is shown on one line, without control characters, and short', () => {
    expect(shown('3 kg')).toBe('"3 kg"');
    expect(shown('a\n\u001b[31m\u009b\u2028\u202e')).toBe('"a\\n\\u001b[31m\\u009b\\u2028\\u202e"');
    expect(shown('\ud800')).toBe('"\\ud800"');
    expect(shown('x'.repeat(100))).toBe(`"${'x'.repeat(59)}…"`);
    expect(shown(3)).toBe('3');
    expect(shown(null)).toBe('null');
    expect(shown(undefined)).toBe('nothing');
    expect(shown([])).toBe('an empty list');
    expect(shown([1])).toBe('a list');
    expect(shown({})).toBe('an object { … }');
  });

  test('only what a value itself holds is its own', () => {
    expect(own({ a: 1 }, 'a')).toBe(1);
    for (const value of [{}, [], null, undefined, 'x', 3])
      expect(own(value, 'toString')).toBeUndefined();
  });

  test('a line holds what there is', () => {
    const problem = { path: 'unit', found: '3', message: '', wanted: '"in" or "mm"' };
    expect(problemLine(problem)).toBe('unit: found 3; wanted: "in" or "mm"');
    expect(problemLine({ ...problem, message: 'it is a number' })).toBe(
      'unit: found 3: it is a number; wanted: "in" or "mm"',
    );
    expect(problemLine({ path: '', found: '', message: 'no bytes', wanted: '' })).toBe(
      'the file: no bytes',
    );
    expect(problemLine({ ...problem, path: 'x\u0007'.repeat(1000) }).length).toBeLessThan(900);
  });
});
