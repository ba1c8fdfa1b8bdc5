import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { writeBuild } from '../../geometry/build/write.ts';

const folder = new URL('../../examples/', import.meta.url);
const examples = readdirSync(folder).filter(name => name.endsWith('.axlewalk.json'));

describe('a written build', () => {
  test.each(examples)('%s reads back as it was, and is written the same again', name => {
    const file = JSON.parse(readFileSync(new URL(name, folder), 'utf8'));
    const text = writeBuild(file);
    expect(JSON.parse(text)).toEqual(file);
    expect(writeBuild(JSON.parse(text))).toBe(text);
    const lines = text.split('\n').filter(line => !line.includes('"notes"'));
    expect(Math.max(...lines.map(line => line.length))).toBeLessThanOrEqual(100);
  });

  test('one changed number is one changed line', () => {
    const text = readFileSync(new URL('long-arm-front.axlewalk.json', folder), 'utf8');
    const before = writeBuild(JSON.parse(text));
    const file = JSON.parse(text);
    file.axles[0].links[0].axle.at[1].value = '17 5/8';
    const [was, is] = [before.split('\n'), writeBuild(file).split('\n')];
    expect(is.length).toBe(was.length);
    expect(is.filter((line, i) => line !== was[i])).toHaveLength(1);
  });

  test('any plain value reads back', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue()), value => {
        const plain = JSON.parse(JSON.stringify(value));
        const text = writeBuild(plain);
        expect(JSON.parse(text)).toEqual(plain);
        expect(writeBuild(JSON.parse(text))).toBe(text);
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  test('keeps the order of keys and empty lists, and leaves undefined fields out', () => {
    expect(writeBuild({ b: [], a: {}, c: undefined, d: null })).toBe(
      '{ "b": [], "a": {}, "d": null }\n',
    );
  });
});
