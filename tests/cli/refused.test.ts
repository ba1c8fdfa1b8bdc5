import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Screen } from '../../src/cli/io.ts';
import { axlewalk, type Ran, TRUCK, withFile } from './terminal.ts';

/** Exit 2, nothing on stdout, and one line a problem without a stack trace. */
function expectRefused({ code, out, err }: Ran, ...lines: RegExp[]): void {
  expect({ code, out }).toEqual({ code: 2, out: '' });
  const told = err.trimEnd().split('\n');
  expect(told).toEqual(lines.map(line => expect.stringMatching(line)));
  expect(err).not.toMatch(/^\s+at /m);
}

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'axlewalk-'));
  const put = (name: string, text: string | Uint8Array): void =>
    writeFileSync(join(folder, name), text);
  put('empty.json', '');
  put('cut.json', '{ "axlewalk": 1');
  put('twice.json', '{ "axlewalk": 1, "name": "a", "name": "b" }');
  put('bytes.json', Uint8Array.from([0, 255, 254]));
  put('deep.json', '['.repeat(100_000));
  put('large.json', '');
  truncateSync(join(folder, 'large.json'), 8 * 1024 * 1024 + 1);
});
afterAll(() => rmSync(folder, { recursive: true }));

test.each([
  ['missing.json', /"missing\.json": found no file of that name; wanted: a build file/],
  ['.', /"\.": found a folder; wanted: a build file/],
  ['empty.json/below.json', /found no file of that name/],
  ['large.json', /found 8\.0 MiB; wanted: at most 8 MiB/],
  ['/dev/zero', /"\/dev\/zero": found more than that; wanted: at most 8 MiB/],
  ['n\u0000.json', /found a file that can't be read/],
  [`${'n'.repeat(300)}.json`, /found a name that is too long/],
  ['empty.json', /the file: found an empty file; wanted: a build file/],
  ['cut.json', /the file: .*line 1/],
  ['twice.json', /^name: found "name" on line 1 again/],
  ['bytes.json', /the file: found/],
  ['deep.json', /at most 64 lists and objects inside each other/],
])('a file that cannot be a build: %s', async (name, line) => {
  for (const verb of ['check', 'pose', 'walk']) {
    expectRefused(await axlewalk([verb, name], { folder }), line);
  }
});

test('a name with control characters stays on one line and off the terminal', async () => {
  const { err } = await axlewalk(['check', 'a\u001b[2J\nb.json']);
  expect(err.trimEnd()).toMatch(/^[^\p{Cc}]+$/u);
});

test.each<[words: string[], ...lines: RegExp[]]>([
  [[], /^no verb is given/],
  [['chek', TRUCK], /did you mean check\?/],
  [['pose', TRUCK, '--lefft', '1'], /did you mean --left\?/],
  [
    ['gaps', TRUCK, '--pair', 'drag lnk', 'track bar'],
    /^--pair: found "drag lnk": no part is called that; wanted: a part's name, such as "drag link"$/,
  ],
  [['gaps', TRUCK, '--resolution', '0'], /^--resolution: found "0": nothing is as fine as that/],
  [
    ['new', TRUCK],
    /^"truck\.axlewalk\.json": found a file that is there already; wanted: another name, or --replace/,
  ],
  [
    ['pose', TRUCK, '--left', 'abc'],
    /^--left: found "abc": abc is no dimension of this build; wanted/,
  ],
  [
    ['pose', TRUCK, '--left', '1/0'],
    /^--left: found "1\/0": 1\/0 divides by zero; wanted: a length/,
  ],
  [['pose', TRUCK, '--left', '3 kg'], /3 kg is a mass; wanted: a length such as/],
  [['pose', TRUCK, '--left', '10-3'], /^--left: found "10-3"/],
  [
    ['pose', TRUCK, '--steer', '3 in'],
    /^--steer: found "3 in": 3 in is a length; wanted: an angle/,
  ],
  [
    ['pose', TRUCK, '--steer', '400'],
    /^--steer: found "400": a pitman arm has no more than half a turn/,
  ],
  [
    ['pose', TRUCK, '--left', 'x', '--right', 'y', '--steer', 'z'],
    /^--left: found "x"/,
    /^--right: found "y"/,
    /^--steer: found "z"/,
  ],
  [
    ['pose', TRUCK, '--axle', 'rear', '--steer', '3'],
    /^--steer: found "3": the rear axle does not steer; wanted: no --steer, or --axle front$/,
  ],
  [['walk', TRUCK, '--travel', '5,-4'], /^--travel: found "-4": .*wanted: up-travel and droop/],
  [['walk', TRUCK, '--travel', '5,q'], /^--travel: found "q"/],
  [
    ['walk', TRUCK, '--axle', 'rear', '--path', 'lock-to-lock'],
    /^--path: found "lock-to-lock": the rear axle does not steer; wanted: another walk$/,
  ],
])('refused: %j', async (words, ...lines) => {
  expectRefused(await axlewalk(words), ...lines);
});

test('an axle that the build has not', async () => {
  const onlyRear = (truck: Record<string, unknown>): void => {
    truck.axles = (truck.axles as unknown[]).slice(1);
    truck.variants = [];
    truck.solids = [];
    truck.wanted = {};
  };
  await withFile(onlyRear, async path => {
    const wanted = /^--axle: found front: the build has no front axle; wanted: --axle rear$/;
    expectRefused(await axlewalk(['pose', path, '--axle', 'front']), wanted);
    expectRefused(await axlewalk(['walk', path, '--axle', 'front']), wanted);
    expect((await axlewalk(['pose', path])).code).toBe(0);
  });
});

test('a band of a measure that there is none of', async () => {
  const change = (truck: Record<string, unknown>): void => {
    truck.wanted = { bands: [{ measure: 'bumpSter', greatest: 1 }] };
  };
  await withFile(change, async path => {
    for (const verb of ['check', 'pose', 'walk']) {
      expectRefused(
        await axlewalk([verb, path]),
        /^wanted\.bands\[0\]\.measure: found "bumpSter".*bumpSteer/,
      );
    }
  });
});

test('more than fifty problems: fifty lines and a count', async () => {
  const change = (truck: Record<string, unknown>): void => {
    truck.solids = Array.from({ length: 60 }, (_, i) => ({ name: `s${i}`, box: 7 }));
  };
  await withFile(change, async path => {
    const { code, out, err } = await axlewalk(['check', path]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    const lines = err.trimEnd().split('\n');
    expect(lines).toHaveLength(51);
    expect(lines.at(-1)).toMatch(/^and \d+ more$/);
  });
});

test('an error of our own is one line that asks to be reported', async () => {
  const broken = { screen: null as unknown as Screen };
  expectRefused(await axlewalk(['check', TRUCK], broken), /^internal error, please report it/);
});

test('help of all and of each verb exits 0', async () => {
  for (const words of [['--help'], ['check', '--help'], ['pose', '--help'], ['walk', '--help']]) {
    expect(await axlewalk(words)).toMatchObject({ code: 0, err: '', out: /./s });
  }
});
