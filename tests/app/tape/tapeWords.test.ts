/** How the tape's screens call what was taped, and from where to where. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { withEntry } from '../../../geometry/build/edit.ts';
import { readBuild } from '../../../geometry/build/read.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import type { Start } from '../../../geometry/build/start/answers.ts';
import { axleChoice } from '../../../geometry/build/start/layouts.ts';
import { measurementsFor } from '../../../geometry/build/start/measurements.ts';
import { propose } from '../../../geometry/build/start/propose.ts';
import { assemble } from '../../../geometry/mechanism/assemble.ts';
import type { Rig } from '../../../src/app/state/rig.ts';
import {
  placesOf,
  placeWords,
  type Reading,
  readingWords,
} from '../../../src/app/tape/placeWords.ts';
import { keptByHand, tapedWords, wrongWords } from '../../../src/app/tape/starting.ts';

/** As much of a rig as words need. */
function rigOf(example: string): Rig {
  const url = new URL(`../../../examples/${example}.axlewalk.json`, import.meta.url);
  const read = readBuild(readFileSync(url, 'utf8'));
  const axle = read.ok ? read.build.axles[0] : undefined;
  const assembly = axle && assemble(axle);
  if (!read.ok || !axle || !assembly?.ok) throw new Error('the example opens');
  return { build: read.build, axle, model: { mechanism: assembly.mechanism } } as unknown as Rig;
}

test('places are called as the shop calls them, each once', () => {
  const rig = rigOf('long-arm-front');
  const words = placesOf(rig).map(place => placeWords(rig, place));
  expect(new Set(words).size).toBe(words.length);
  expect(words.filter(each => /^(from|to|strike|center|tip|chassis|pad) end/.test(each))).toEqual(
    [],
  );
  expect(words).toEqual(
    expect.arrayContaining([
      'frame end of the driver lower link',
      'strike plane of the driver bump stop',
      'center of the driver front wheel',
      'upper ball joint of the driver knuckle',
      'middle of the front axle',
    ]),
  );
  const ends = { from: 'left lower link.axle', to: 'left lower link.chassis' };
  expect(readingWords(rig, { ...ends, length: 36 } as Reading).words).toBe(
    'driver lower link, axle end to frame end',
  );
});

test('an answer reads in one form however it was typed', () => {
  const [length] = measurementsFor({ driverSide: 'left', axles: [axleChoice('front')] }).filter(
    ({ id }) => id === 'front.lowerLength',
  );
  if (!length) throw new Error('the lower link is asked for');
  const words = (value: string | { left: string; right: string }, unit: 'in' | 'mm' = 'in') =>
    tapedWords(length, { value }, unit);
  expect(['27-¼', '27 1/4', '27.25', '2\' 3 1/4"'].map(each => words(each))).toEqual(
    Array(4).fill('27 1/4'),
  );
  expect(words({ left: '27.5', right: '27-5/8' })).toBe('27 1/2 | 27 5/8');
  // no mark of a tape in inches: a fraction would be another length
  expect(words('700 mm')).toBe('700 mm');
  expect(words('700.5', 'mm')).toBe('700.5');
  expect(words('abc')).toBeNull();
});

test('a stray word is told as one who has named no dimension would understand it', () => {
  expect(wrongWords('abc', 'length', 'in')).toMatch(
    /^"?abc"? is neither a number nor a unit; write a length such as 23 5\/8/,
  );
});

test('what was taped on its own since the proposal is told apart from what was changed by hand', () => {
  const start: Start = {
    name: 'truck',
    unit: 'in',
    layout: { driverSide: 'left', axles: [axleChoice('front')] },
    answers: {},
  };
  const { file } = propose(start);
  const edited = (path: string, entry: object): BuildFile => {
    const edit = withEntry({ file, variant: null }, path, entry);
    if (!edit.ok) throw new Error(edit.message);
    return edit.file;
  };
  const path = 'axles["front"].tire.width';
  const taped = keptByHand(start, edited(path, { value: '12 3/4', from: 'measured' }));
  const changed = keptByHand(start, edited(path, { value: '12 3/4' }));
  expect([taped.paths, taped.paths.map(taped.isTaped)]).toEqual([[path], [true]]);
  expect([changed.paths, changed.paths.map(changed.isTaped)]).toEqual([[path], [false]]);
});
