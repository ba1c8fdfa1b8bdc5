import { expect, test } from 'vitest';
import type { Finding } from '../../geometry/finding/finding.ts';
import type { PairReport } from '../../geometry/gap/gapReport.ts';
import { whatItDid } from '../../src/app/edit/whatItDid.ts';

const pair = (a: string, b: string, gap_in: number, required_in = 0.5): PairReport => ({
  a,
  b,
  gap_in,
  required_in,
  status: 'searched' as PairReport['status'],
  lower_in: null,
  pose: {} as PairReport['pose'],
  pointA: [0, 0, 0],
  pointB: [0, 0, 0],
  alongA: null,
  alongB: null,
  beyond: [],
  isCoarse: false,
});
const finding = (kind: Finding['kind'], parts: string[], text = ''): Finding =>
  ({ kind, parts, text, axle: 'front', limit: null }) as unknown as Finding;
const known = (pairs: PairReport[], findings: Finding[] = []) => ({ findings, gaps: { pairs } });
const itself = (part: string): string => part;

test('what touches anew comes first, then what is clear, then what only comes nearer', () => {
  const did = whatItDid(
    known([pair('rod', 'pan', 0.3), pair('rod', 'coil', -0.5), pair('tire', 'gear', 0.2, 1)]),
    known([pair('rod', 'pan', 0.1), pair('rod', 'coil', 0.1), pair('tire', 'gear', -0.1, 1)]),
    itself,
  );
  expect(did.gaps.map(({ a, b, before, after }) => [a, b, before, after])).toEqual([
    ['tire', 'gear', 0.2, -0.1],
    ['rod', 'coil', -0.5, 0.1],
    ['rod', 'pan', 0.3, 0.1],
  ]);
});

test('a pair that lacks nothing is not told, one that did not change is counted', () => {
  const did = whatItDid(
    known([pair('a', 'b', 2), pair('a', 'c', 0.2), pair('a', 'd', 0.2)]),
    known([pair('a', 'b', 3), pair('a', 'c', 0.21), pair('a', 'd', 0.6)]),
    itself,
  );
  expect(did.gaps.map(({ b }) => b)).toEqual(['d']);
  expect(did.unchanged).toBe(1);
});

test('pieces of one thing are told once, by the one with the least left', () => {
  const did = whatItDid(
    known([pair('bar', 'differential', 0.3), pair('bar', 'cover', 0.1)]),
    known([pair('bar', 'differential', 0.2), pair('bar', 'cover', 0.4)]),
    part => (part === 'cover' ? 'differential' : part),
  );
  expect(did.gaps).toMatchObject([{ before: 0.1, after: 0.2 }]);
});

test('findings that are no gaps went and came by what they are of, wherever their pose', () => {
  const slack = finding('slackUsedUp', ['brake hose']);
  const band = finding('outOfBand', [], 'Bump steer comes to 2°.');
  const did = whatItDid(
    known([], [slack, band, finding('partsTouch', ['a', 'b'])]),
    known([], [finding('outOfBand', [], 'Bump steer comes to 3°.'), finding('unstopped', [])]),
    itself,
  );
  expect(did.went).toEqual([slack]);
  expect(did.came.map(({ kind }) => kind)).toEqual(['unstopped']);
});
