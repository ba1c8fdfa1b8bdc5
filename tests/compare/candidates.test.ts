/** Alternatives of one part: what each brings along, and which of its pairs clear. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { partName } from '../../geometry/build/address.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import {
  candidateRow,
  candidatesOf,
  rowAsBuilt,
  withCandidate,
} from '../../geometry/compare/candidates.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { exampleSide, sideOf } from './sides.ts';

const long = readFileSync(
  new URL('../../examples/long-arm-front.axlewalk.json', import.meta.url),
  'utf8',
);

function fileOf(variant: string | null): BuildFile {
  const opened = openBuild(long, { variant });
  if (!opened.ok) throw new Error('it opens');
  return opened.file;
}

test('a part is called by the last word of its address', () => {
  expect(partName('axles.front.links.track bar')).toBe('track bar');
  expect(partName('axles.front.steering.tieRod')).toBe('tie rod');
  expect(partName('axles.front.tire')).toBe('tire');
});

test('an option brings along what it needs, and what that changes', () => {
  const [ram] = candidatesOf(fileOf(null), 'assist ram');
  expect(ram).toMatchObject({
    alternative: 'assist ram',
    option: 'slim ram',
    needs: [{ alternative: 'tie rod', option: 'straight tie rod' }],
  });
  expect(ram?.touches).toEqual(['assist ram', 'ram bracket', 'tie rod']);
  expect(candidatesOf(fileOf(null)).map(({ option }) => option)).toHaveLength(5);
  expect(candidatesOf(fileOf(null), 'none of them')).toEqual([]);
});

test('a candidate opens in the base and in a variant; one that does not fit is refused by name', () => {
  const [straight] = candidatesOf(fileOf(null), 'track bar');
  if (!straight) throw new Error('there is one');
  for (const variant of [null, 'short arms']) {
    const { file, variant: name } = withCandidate(fileOf(variant), straight);
    const opened = openBuild(JSON.stringify(file), { variant: name });
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    expect(opened.build.variant).toBe('straight bar');
    const links = opened.build.axles[0]?.links ?? [];
    expect(links.find(each => each.name === 'track bar')?.through).toEqual([]);
    // the rest is the variant's
    expect(links.some(each => each.name === 'left upper link')).toBe(variant !== null);
  }
  const base = fileOf(null);
  const [axle] = base.axles;
  if (!axle) throw new Error('it has an axle');
  const without: BuildFile = {
    ...base,
    axles: [{ ...axle, links: (axle.links ?? []).filter(each => each.name !== 'track bar') }],
  };
  const { file, variant } = withCandidate(without, straight);
  const refused = openBuild(JSON.stringify(file), { variant });
  expect(refused.ok).toBe(false);
  expect(refused.ok || refused.problems[0]?.path).toMatch(/alternatives\["track bar"\]/);
});

test('the straight bar enters the differential that the bent one clears', () => {
  const travel = { up: 5.5, down: 5.5 };
  const base = exampleSide('long-arm-front', { gaps: true, travel });
  const [straight] = candidatesOf(base.file, 'track bar');
  if (!straight) throw new Error('there is one');
  const { file, variant } = withCandidate(base.file, straight);
  const side = sideOf(JSON.stringify(file), { variant, gaps: true, travel });
  const row = candidateRow(base, side, straight);
  const names = (list: typeof row.touches) => list.map(({ pair }) => `${pair.a.of} ${pair.b.of}`);
  const inDifferential = /differential.*track bar|track bar.*differential/;
  expect(names(row.touches).join()).toMatch(inDifferential);
  const asBuilt = rowAsBuilt(base, straight.part);
  expect(names(asBuilt.touches).join()).not.toMatch(inDifferential);
  for (const { touches, short, clear } of [row, asBuilt]) {
    const own = touches.length + short.length + clear;
    const pairs = (touches === row.touches ? side : base).gaps.flatMap(each => each.gaps);
    const ofBar = pairs.filter(({ pair }) => [pair.a.name, pair.b.name].includes('track bar'));
    expect(own).toBe(ofBar.length);
  }
  // a bend moves no mount: the room is all that changes
  expect(new Set(row.changes.map(({ about }) => about))).toEqual(new Set(['gap']));
});
