import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Edit } from '../../geometry/build/edit.ts';
import { readBuild } from '../../geometry/build/read.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import { withPairWish } from '../../geometry/build/wishes.ts';
import { writeBuild } from '../../geometry/build/write.ts';

const file: BuildFile = JSON.parse(
  readFileSync(new URL('../../examples/long-arm-front.axlewalk.json', import.meta.url), 'utf8'),
);
const PAIR = ['left tire', 'gear housing'] as const;
const done = (edit: Edit): BuildFile => {
  if (!edit.ok) throw new Error(edit.message);
  return edit.file;
};
const wanted = (of: BuildFile, variant: string | null = null) => {
  const read = readBuild(writeBuild(of), { variant });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.build.wanted;
};
const base = { file, variant: null };

test('a gap of its own is read as it was written, with its reason', () => {
  const now = done(
    withPairWish(base, PAIR, { kind: 'gap', required: '3/4', why: 'seen on stands' }),
  );
  expect(wanted(now).gaps).toContainEqual({
    pair: [...PAIR],
    required: 0.75,
    why: 'seen on stands',
  });
});

test('a later wish stands in place of an earlier one, whatever the order of the names', () => {
  const first = done(withPairWish(base, PAIR, { kind: 'gap', required: '3/4', why: 'a' }));
  const now = done(
    withPairWish({ ...base, file: first }, [PAIR[1], PAIR[0]], { kind: 'muted', why: 'b' }),
  );
  const is = (each: { pair: readonly string[] }): boolean =>
    PAIR.every(name => each.pair.includes(name));
  expect(wanted(now).gaps.filter(is)).toHaveLength(0);
  expect(wanted(now).muted.filter(is)).toEqual([{ pair: [PAIR[1], PAIR[0]], why: 'b' }]);
  const back = done(withPairWish({ ...base, file: now }, PAIR, { kind: 'none' }));
  expect(wanted(back).muted.filter(is)).toHaveLength(0);
});

test('in a variant the base stays as it was', () => {
  const variant = file.variants?.[0]?.name ?? '';
  const now = done(withPairWish({ file, variant }, PAIR, { kind: 'muted', why: 'c' }));
  expect(wanted(now, variant).muted).toContainEqual({ pair: [...PAIR], why: 'c' });
  expect(wanted(now).muted).toEqual(wanted(file).muted);
});

test('nothing is written where nothing is changed', () => {
  expect(done(withPairWish(base, ['a', 'b'], { kind: 'none' }))).toBe(file);
});
