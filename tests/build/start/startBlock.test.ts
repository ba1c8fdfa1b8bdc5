/** The start of a build in its file: written, read back, kept as it stands, refused where it is wrong. */
import { expect, test } from 'vitest';
import { problemLines, readBuild } from '../../../geometry/build/read.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import type { Start } from '../../../geometry/build/start/answers.ts';
import { axleChoice } from '../../../geometry/build/start/layouts.ts';
import { propose } from '../../../geometry/build/start/propose.ts';
import { startIn } from '../../../geometry/build/start/startIn.ts';
import { writeBuild } from '../../../geometry/build/write.ts';
import { allLayouts } from './starts.ts';

const start: Start = {
  name: 'hay truck',
  unit: 'in',
  layout: {
    driverSide: 'right',
    axles: [
      axleChoice('front', { steering: 'dragLinkToTieRod', assistRam: true }, 'right'),
      axleChoice('rear', { straps: 'left' }, 'right'),
    ],
  },
  stands: { rise: '2 1/2', rake: '1 deg' },
  answers: {
    wheelbase: { value: `9'4"` },
    'front.wheelHeight': { value: { left: '18 1/2', right: '18 3/8' } },
    'front.lowerFrameHeight': { value: { left: '-3', right: '-3 1/8' }, from: 'railBottom' },
    'rear.lowerAxleHeight': { value: '-3 1/2', from: 'wheelCenter' },
    'front.pinionAngle': { value: '7 deg' },
  },
  near: ['rail', 'bumper'],
};

const opened = (file: object): BuildFile => {
  const read = readBuild(JSON.stringify(file));
  if (!read.ok) throw new Error(problemLines(read.problems).join('\n'));
  return read.file;
};

test('what was answered is read back from the file as it was typed', () => {
  expect(startIn(opened(propose(start).file))).toEqual(start);
  for (const layout of allLayouts()) {
    const from: Start = { name: 'truck', unit: 'mm', layout, answers: {} };
    expect(startIn(opened(propose(from).file))).toEqual(from);
  }
});

test('saved, opened and saved again it is the same to the byte, whatever order it was written in', () => {
  const { start: block, ...rest } = propose(start).file;
  for (const file of [
    { ...rest, start: block },
    { start: block, ...rest },
  ]) {
    const text = writeBuild(file);
    expect(writeBuild(opened(JSON.parse(text)))).toBe(text);
  }
});

test('a build without it is read as before, and the build that is walked knows nothing of it', () => {
  const { start: _, ...rest } = propose(start).file;
  expect(startIn(opened(rest))).toBeNull();
  const [withIt, without] = [propose(start).file, rest].map(file =>
    readBuild(JSON.stringify(file)),
  );
  if (!withIt?.ok || !without?.ok) throw new Error('both open');
  expect(withIt.build).toEqual(without.build);
});

const { file } = propose(start);
test.each<[change: object, ...lines: string[]]>([
  [{ rules: 'new' }, 'start.rules: found "new"; wanted: the version of the rules, a whole number'],
  [{ rules: 0 }, 'start.rules: found 0; wanted: the version of the rules, from 1'],
  [
    { axles: [{ name: 'front', links: 'threelinks' }] },
    'start.axles["front"].links: found "threelinks"; wanted: "threeLinks", "fourLinks", "radiusArms", "triangulated" or "wishbone"',
  ],
  [
    { axles: [{ name: 'rear', steering: 'doubleRam' }] },
    'start.axles[0].steering: found "doubleRam": a rear axle does not steer; wanted: no "steering"',
  ],
  [
    { axles: [{ name: 'front' }, { name: 'front' }] },
    'start.axles[1].name: found "front": it is there already; wanted: "front" and "rear"',
  ],
  [
    { answers: { wheelbase: '112 kg', 'front.tireHeight': { left: '40', right: 'x' } } },
    'start.answers.wheelbase: found "112 kg": 112 kg is a mass; wanted: a length such as 23 5/8 or 600 mm',
    'start.answers["front.tireHeight"]: found left and right: it has no sides',
  ],
  [
    { answers: { 'front.wheelHight': '18' } },
    'start.answers["front.wheelHight"]: found "18": nobody asks for it; wanted: "front.wheelHeight"',
  ],
  [{ answers: { wheelbase: [112] } }, 'start.answers.wheelbase: found a list; wanted: "22 1/2"'],
  [
    { answers: { 'front.wheelHeight': { left: '18' } } },
    'start.answers["front.wheelHeight"].right: missing',
  ],
  [{ near: ['bumpers'] }, 'start.near[0]: found "bumpers": nobody asks for it; wanted: "bumper"'],
  [
    { stands: { rise: '2 kg' } },
    'start.stands.rise: found "2 kg": 2 kg is a mass; wanted: a length such as 23 5/8 or 600 mm',
  ],
  [
    { anwsers: {} },
    'start.anwsers: found an object { … }: there is no such field; wanted: the field "answers"',
  ],
])('wrong by hand: %j', (change, ...lines) => {
  const read = readBuild(JSON.stringify({ ...file, start: { ...file.start, ...change } }));
  if (read.ok) throw new Error('it should be refused');
  const told = problemLines(read.problems);
  for (const line of lines)
    expect(
      told.some(each => each.startsWith(line)),
      told.join('\n'),
    ).toBe(true);
});
