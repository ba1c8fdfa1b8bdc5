import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Build } from '../../geometry/build/build.ts';
import { choicesOf, type RideBody, withChoice } from '../../geometry/build/partChoices.ts';
import { readBuild } from '../../geometry/build/read.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import { writeBuild } from '../../geometry/build/write.ts';

const long: BuildFile = JSON.parse(
  readFileSync(new URL('../../examples/long-arm-front.axlewalk.json', import.meta.url), 'utf8'),
);
const bodies: RideBody[] = [
  { on: 'chassis', axle: null, words: 'Frame' },
  { on: 'axle', axle: 'front', words: 'Axle' },
];
const of = (path: string, file = long, variant: string | null = null) =>
  choicesOf({ file, variant }, path, bodies).map(({ field, now }) => [field, now]);
const BAR = 'axles["front"].links["track bar"]';

const chosen = (
  path: string,
  field: string,
  to: string | boolean | null,
  variant: string | null = null,
) => {
  const edit = withChoice({ file: long, variant }, path, { field }, to, bodies);
  if (!edit.ok) throw new Error(edit.message);
  const read = readBuild(writeBuild(edit.file), { variant });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return { file: edit.file, build: read.build };
};

describe('what is chosen of a part', () => {
  test('of a link its kind and joints, of a solid what it rides on', () => {
    expect(of(BAR)).toEqual([
      ['kind', 'track bar'],
      ['axle.joint', 'track bar rod end'],
      ['chassis.joint', 'track bar rod end'],
    ]);
    expect(of('solids["oil pan"]')).toEqual([
      ['on', null],
      ['new', null],
      ['mayBeCut', null],
    ]);
    expect(of('axles["front"].shocks["shock"]')).toEqual([]);
    expect(of('wheelbase')).toEqual([]);
  });

  test('an end takes another joint, or none, and stays where it is', () => {
    const endOf = (build: Build) =>
      build.axles[0]?.links.find(({ name }) => name === 'track bar')?.axle;
    const before = readBuild(writeBuild(long));
    if (!before.ok) throw new Error('it opens');
    const { at } = endOf(before.build) ?? {};
    const bushed = endOf(chosen(BAR, 'axle.joint', 'track bar bushing').build);
    expect(bushed).toMatchObject({ kind: 'bushing', at });
    const bare = endOf(chosen(BAR, 'axle.joint', null).build);
    expect(bare).toMatchObject({ kind: 'rodEnd', limit: null, at });
  });

  test('a solid takes the axle of its body along, and leaves it', () => {
    const { file, build } = chosen('solids["oil pan"]', 'on', 'axle');
    expect(build.solids.find(({ name }) => name === 'oil pan')).toMatchObject({
      on: 'axle',
      axle: 'front',
    });
    const edit = withChoice(
      { file, variant: null },
      'solids["oil pan"]',
      { field: 'on' },
      null,
      bodies,
    );
    expect(edit.ok && edit.file.solids?.find(({ name }) => name === 'oil pan')).toEqual(
      long.solids?.find(({ name }) => name === 'oil pan'),
    );
  });

  test('in a variant it is the variant that has it', () => {
    const { file, build } = chosen('solids["oil pan"]', 'mayBeCut', true, 'short arms');
    expect(build.solids.find(({ name }) => name === 'oil pan')?.mayBeCut).toBe(true);
    expect(file.solids).toEqual(long.solids);
  });
});
