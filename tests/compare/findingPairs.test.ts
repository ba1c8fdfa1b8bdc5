/** Findings of two builds: the same trouble is known when its worst pose, its amount or its worst piece changed. */
import { expect, test } from 'vitest';
import { type FindingComparison, findingPairsOf } from '../../geometry/compare/findingPairs.ts';
import type { Finding } from '../../geometry/finding/finding.ts';
import { compared, exampleSide } from './sides.ts';

const finding = (more: Partial<Finding>): Finding => ({
  kind: 'partsTouch',
  severity: 'mustFix',
  axle: 'front',
  parts: ['drag link', 'track bar'],
  pose: { left_in: 1, right_in: 2, steer: null, linkRoll_deg: null },
  where: '',
  amount: { value: 0.5, unit: 'in' },
  text: '',
  hangsOn: [],
  assumed: false,
  ...more,
});

const counts = ({ fixed, new: added, unchanged }: FindingComparison): number[] => [
  fixed.length,
  added.length,
  unchanged.length,
];
const pairs = (a: Finding[], b: Finding[]): FindingComparison =>
  findingPairsOf({ findings: a, gaps: [] }, { findings: b, gaps: [] });

test('another pose, another amount, the parts the other way round: unchanged', () => {
  const moved = finding({
    pose: { left_in: -4, right_in: 5, steer: null, linkRoll_deg: null },
    amount: { value: 0.1, unit: 'in' },
    parts: ['track bar', 'drag link'],
  });
  expect(counts(pairs([finding({})], [moved]))).toEqual([0, 0, 1]);
});

test('other parts, or the other axle: one fixed, one new', () => {
  expect(counts(pairs([finding({})], [finding({ parts: ['drag link', 'ram'] })]))).toEqual([
    1, 1, 0,
  ]);
  expect(counts(pairs([finding({})], [finding({ axle: 'rear' })]))).toEqual([1, 1, 0]);
});

test('a hit that is now only near is fixed, and the other way round new; both keep both findings', () => {
  const near = finding({ kind: 'gapShort', severity: 'watch' });
  const better = pairs([finding({})], [near]);
  expect(counts(better)).toEqual([1, 0, 0]);
  expect(better.fixed[0]).toEqual({ a: finding({}), b: near });
  expect(counts(pairs([near], [finding({})]))).toEqual([0, 1, 0]);
});

test('a joint that passes its limit at the other end of its link is the same trouble', () => {
  const joint = (part: string, kind: string): Finding =>
    finding({ kind, limit: 'jointMisalignment', parts: [part] });
  const [a, b] = ['left lower link.axle', 'left lower link.chassis'];
  if (!a || !b) throw new Error('two joints');
  expect(counts(pairs([joint(a, 'jointPastLimit')], [joint(b, 'jointNearLimit')]))).toEqual([
    0, 0, 1,
  ]);
  expect(counts(pairs([joint(a, 'x')], [joint('right lower link.axle', 'x')]))).toEqual([1, 1, 0]);
});

test('bands are told apart by their measure, and two troubles of one kind are two', () => {
  const band = (text: string): Finding => finding({ kind: 'outOfBand', parts: [], text });
  const [steer, caster] = [band('Bump steer comes to 2°'), band('Caster comes to 9°')];
  expect(counts(pairs([steer], [caster]))).toEqual([1, 1, 0]);
  expect(counts(pairs([steer], [band('Bump steer comes to 3°')]))).toEqual([0, 0, 1]);
  expect(counts(pairs([steer, steer], [steer]))).toEqual([1, 0, 1]);
});

test('long arms against short ones: the same hits at other poses, what the short ones add', () => {
  const [long, short] = [
    exampleSide('long-arm-front', { gaps: true }),
    exampleSide('short-arm-front', { gaps: true }),
  ];
  const { findings, gaps } = compared(long, short);
  const hit = findings.unchanged.find(
    ({ a }) => a?.kind === 'partsTouch' && a.parts.includes('drag link'),
  );
  // with the differential in both, at poses half an inch apart
  expect(hit?.b?.kind).toBe('partsTouch');
  expect(hit?.a?.pose).not.toEqual(hit?.b?.pose);
  const kinds = findings.new.map(({ b }) => `${b?.limit ?? b?.kind} ${b?.parts[0] ?? ''}`);
  expect(kinds).toContain('jointMisalignment left lower link.chassis');
  expect(kinds).toContain('outOfBand ');
  // exchanged: what was new is fixed
  const back = compared(short, long).findings;
  expect(counts(back)).toEqual([
    findings.new.length,
    findings.fixed.length,
    findings.unchanged.length,
  ]);
  // gaps: each pair once, exchanged with the other sign
  const others = compared(short, long).gaps;
  expect(gaps.length).toBeGreaterThan(20);
  for (const row of gaps) {
    const other = others.find(each => [...each.pair].sort().join() === [...row.pair].sort().join());
    expect([other?.a, other?.b]).toEqual([row.b, row.a]);
    if (row.difference !== null) expect(other?.difference).toBe(0 - row.difference);
  }
});
