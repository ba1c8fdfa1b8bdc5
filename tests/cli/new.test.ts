/** `axlewalk new`: asked in the terminal or taken from a file; nothing is written over, nothing answered is lost. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { axlewalk, type Ran } from './terminal.ts';
import '../../src/cli/new.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'axlewalk-new-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const inFolder = (name: string): string => join(folder, name);
const textOf = (name: string): string => readFileSync(inFolder(name), 'utf8');

/** Types these lines, one for each question, and then no more. */
function typing(lines: readonly string[], words = ['new', 'truck.axlewalk.json']): Promise<Ran> {
  const left = [...lines];
  return axlewalk(words, { folder, line: async () => left.shift() ?? null });
}

const REAR = {
  name: 'bale truck',
  unit: 'in',
  axles: [{ name: 'rear', links: 'triangulated', straps: 'both' }],
  near: ['rail'],
  answers: {
    wheelbase: '118',
    'rear.wheelHeight': '19 1/8',
    'rear.lowerAxleHeight': { value: '-3 5/8', from: 'wheelCenter' },
    'rear.lowerFrameHeight': { left: '22', right: '21 7/8' },
  },
};

const fromFile = (start: object, words: string[] = []): Promise<Ran> => {
  writeFileSync(inFolder('answers.json'), JSON.stringify(start));
  return axlewalk(['new', 'truck.axlewalk.json', '--answers', 'answers.json', ...words], {
    folder,
  });
};

test('answers from a file make a build that can be walked, and say what to tape next', async () => {
  const { code, out, err } = await fromFile(REAR);
  expect(err).toBe('');
  expect(code).toBe(0);
  expect(out).toMatch(/4 of 14 measurements are yours/);
  expect(out).toMatch(/\d+ % of the answer is settled/);
  expect(out).toMatch(
    /what to tape next, worth most first\n {2}1 {2}The [\s\S]* decides? whether [\s\S]*: tape\s+it/,
  );
  const check = await axlewalk(['check', 'truck.axlewalk.json', '--json'], { folder });
  expect(check.code).toBe(0);
  expect(JSON.parse(check.out)).toMatchObject({ build: 'bale truck', valid: true });
  const file = JSON.parse(textOf('truck.axlewalk.json')) as { wheelbase: unknown; start: unknown };
  expect(file.wheelbase).toMatchObject({ value: '118', from: 'measured' });
  // with what it was made from, to be gone on with on the page
  expect(file.start).toMatchObject({ near: ['rail'], answers: REAR.answers });
});

test('a file that is there is left alone unless it is told otherwise', async () => {
  writeFileSync(inFolder('truck.axlewalk.json'), 'mine');
  const first = await fromFile(REAR);
  expect(first).toMatchObject({ code: 2, out: '' });
  expect(first.err).toMatch(/a file that is there already; wanted: another name, or --replace/);
  expect(textOf('truck.axlewalk.json')).toBe('mine');
  expect((await fromFile(REAR, ['--replace'])).code).toBe(0);
  expect(textOf('truck.axlewalk.json')).toMatch(/bale truck/);
});

test.each<[change: object, ...lines: RegExp[]]>([
  [{ name: '' }, /^name: found "": wanted: what the build is called|^name: found ""; wanted: what/],
  [{ unit: 'cm' }, /^unit: found "cm"; wanted: (one of|"mm")/],
  [{ axles: [] }, /^axles: found an empty list; wanted: a list of one or two axles/],
  [
    { axles: [{ name: 'rear', links: 'triangulate' }] },
    /^axles\[0\]\.links: found "triangulate"; wanted: "triangulated"$/m,
  ],
  [
    { axles: [{ name: 'rear', steering: 'doubleRam' }] },
    /^axles\[0\]\.steering: found "doubleRam": a rear axle does not steer/,
  ],
  [
    { answers: { wheelbse: '118' } },
    /^answers\["wheelbse"\]: .*nobody asks for it; wanted: "wheelbase"$/m,
  ],
  [
    { answers: { wheelbase: '118 kg' } },
    /^answers\["wheelbase"\]: found "118 kg": 118 kg is a mass/,
  ],
  [
    { answers: { wheelbase: '11' } },
    /^answers\["wheelbase"\]: found "11": too small to be right; wanted: from 60 to 240 in/,
  ],
  [{ answers: { wheelbase: [118] } }, /^answers\["wheelbase"\]: found a list; wanted: "22 1\/2"/],
  [{ anwsers: {} }, /^anwsers: found an object { … }: there is no such field; wanted: "answers"$/m],
  [
    {
      answers: { 'rear.lowerAxleHeight': '15', 'rear.lowerFrameHeight': '50', wheelbase: '1' },
      stands: { rise: true },
    },
    /^answers\["wheelbase"\]: found "1": too small/m,
    /^stands\.rise: found true; wanted: a tape entry/m,
  ],
])('refused from a file: %j', async (change, ...lines) => {
  const { code, out, err } = await fromFile({ ...REAR, ...change });
  expect(code).toBe(2);
  expect(out).toBe('');
  for (const line of lines) expect(err).toMatch(line);
  expect(existsSync(inFolder('truck.axlewalk.json'))).toBe(false);
});

test('answers that contradict each other are told by their measurement, and nothing is written', async () => {
  const { code, err } = await fromFile({
    ...REAR,
    answers: {
      'rear.lowerAxleHeight': '15',
      'rear.lowerFrameHeight': '50',
      'rear.lowerLength': '30',
    },
  });
  expect(code).toBe(2);
  expect(err).toMatch(/^rear\.lowerFrameHeight: found "50": steeper than a link can be/);
  expect(existsSync(inFolder('truck.axlewalk.json'))).toBe(false);
});

/** Name, unit, driver, axles; links, straps; rise, rake; near. */
const LAYOUT = ['mine', '', '', 'rear', '4', '2', '', '', '1'];

test('asked in the terminal: a bad answer is asked again, and the build is written at the end', async () => {
  const wrong = ['12 kg', '900', '118 1/4'];
  // wheel height, tire, track, rail … are skipped
  const rest = Array.from({ length: 13 }, () => '');
  const { code, out, err } = await typing([...LAYOUT, ...wrong, ...rest]);
  expect(code).toBe(0);
  expect(err).toMatch(/wheelbase: found "12 kg": 12 kg is a mass/);
  expect(err).toMatch(/wheelbase: found "900": too large to be right; wanted: from 60 to 240 in/);
  expect(out).toMatch(/1 of 14 measurements are yours/);
  const file = JSON.parse(textOf('truck.axlewalk.json')) as { name: string; wheelbase: unknown };
  expect(file.name).toBe('mine');
  expect(file.wheelbase).toMatchObject({ value: '118 1/4', from: 'measured' });
  expect(existsSync(inFolder('truck.answers.json'))).toBe(false);
});

test('back goes to the question before, whose answer stays until it is changed', async () => {
  const { err, code } = await typing([...LAYOUT, '118', '19 1/4', 'back', 'back', '119', '']);
  expect(code).toBe(0);
  expect(err.match(/How far is it from the front wheel center/g)).toHaveLength(2);
  const kept = JSON.parse(textOf('truck.answers.json')) as { answers: Record<string, unknown> };
  expect(kept.answers).toMatchObject({
    wheelbase: { value: '119' },
    'rear.wheelHeight': { value: '19 1/4' },
  });
});

test('at the end of the input what was answered is kept, and the same command takes it up', async () => {
  const first = await typing([...LAYOUT, '118']);
  expect(first.code).toBe(0);
  expect(first.out).toMatch(/What was answered is kept in .*truck\.answers\.json/);
  expect(existsSync(inFolder('truck.axlewalk.json'))).toBe(false);
  const second = await typing(['19 1/4 | 19 1/8', ...Array.from({ length: 12 }, () => '')]);
  expect(second.err).toMatch(/taking up what was answered/);
  expect(second.err).not.toMatch(/What is the build called/);
  expect(second.code).toBe(0);
  const file = JSON.parse(textOf('truck.axlewalk.json')) as { wheelbase: unknown; axles: object[] };
  expect(file.wheelbase).toMatchObject({ value: '118' });
  expect(file.axles[0]).toMatchObject({
    wheelHeights: { left: { value: '19 1/4' }, right: { value: '19 1/8' } },
  });
});

test('without a single answer nothing is written', async () => {
  const { out, code } = await typing([]);
  expect(code).toBe(0);
  expect(out).toMatch(/nothing was written/);
  expect(existsSync(inFolder('truck.answers.json'))).toBe(false);
});

test('a folder that is not there is told', async () => {
  writeFileSync(inFolder('answers.json'), JSON.stringify(REAR));
  const words = ['new', 'no/such/truck.axlewalk.json', '--answers', 'answers.json'];
  const { code, err, out } = await axlewalk(words, { folder });
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err).toMatch(/it can't be written \(ENOENT\); wanted: a folder that is there/);
});
