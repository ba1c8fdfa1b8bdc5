/** `axlewalk compare`, and `gaps --alternative`. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { CandidatesReport } from '../../src/cli/candidates.ts';
// read in with the test file, so that the first test does not wait for it
import '../../src/cli/compare.ts';
import type { Comparison } from '../../geometry/compare/compare.ts';
import { CAUTIONS } from '../../src/cli/cautions.ts';
import { escaped, htmlTable } from '../../src/cli/html.ts';
import { axlewalk, FIXTURES, TRUCK, withFile } from './terminal.ts';

const VARIANT = `${TRUCK}#long upper`;
const FRONT = ['--axle', 'front', '--travel', '2,2'];

describe('a build and its variant', async () => {
  const ran = await axlewalk(['compare', TRUCK, VARIANT, ...FRONT, '--json']);
  const report = JSON.parse(ran.out) as Comparison;

  test('--json holds all that the contract names, and nothing that JSON has no number for', () => {
    expect(ran.code).toBe(1);
    expect(report.a).toEqual({ build: 'fence truck', variant: null, name: 'fence truck' });
    expect(report.b).toEqual({
      build: 'fence truck',
      variant: 'long upper',
      name: 'long upper',
    });
    for (const list of [report.rows, report.points, report.gaps, report.paragraph]) {
      expect(Array.isArray(list)).toBe(true);
    }
    expect(Object.keys(report.findings)).toEqual(['fixed', 'new', 'unchanged']);
    expect(Object.keys(report.range)).toEqual(['front']);
    expect(report.rows.length).toBeGreaterThan(400);
    for (const row of report.rows) {
      expect(row.axle).toBe('front');
      if (row.a === null || row.b === null) expect(row.reason).toMatch(/^[ab]: /);
      else expect(row.difference).toBeCloseTo(row.b - row.a, 12);
    }
    expect(ran.out).not.toMatch(/NaN|Infinity/);
  });

  test('a longer upper link turns the pinion, and the taped link is told as longer', () => {
    const caster = report.rows.find(({ id, at }) => id === 'caster' && at.pose === 'ride');
    expect(Math.abs(caster?.difference ?? 0)).toBeGreaterThan(0.1);
    expect(report.fields).toContainEqual(
      expect.objectContaining({ part: 'upper link', field: 'length', a: null, b: 33.125 }),
    );
    expect(report.lengths.map(({ name }) => name)).toContain('upper link');
    // a link that is longer moves no bracket
    expect(report.points).toEqual([]);
  });

  test('the same run gives the same bytes', async () => {
    const again = await axlewalk(['compare', TRUCK, VARIANT, ...FRONT, '--json']);
    expect(again.out).toBe(ran.out);
  });
});

test('as text: both names, the trade, findings, ranges, measures, gaps, parts, cautions', async () => {
  const { out } = await axlewalk(['compare', TRUCK, VARIANT, ...FRONT]);
  for (const text of [
    /^A fence truck$/m,
    /^B fence truck, variant long upper$/m,
    /^bought and paid with long upper against fence truck, biggest first$/m,
    /^ {2}fixed by B: \d+ finding/m,
    /^how far the front axle goes$/m,
    /^measures that differ, at equal travel and steering$/m,
    /^ {2}At ride height$/m,
    /^least gaps of near pairs, parts rigid; searched, not proved$/m,
    /^built differently$/m,
    /kill/,
  ]) {
    expect(out).toMatch(text);
  }
  for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110);
  expect(out).not.toMatch(/\bsafe\b/);
});

test('both axles where both have them, and the one that one has alone is told', async () => {
  await withFile(
    truck => {
      truck.axles = (truck.axles as unknown[]).slice(0, 1);
    },
    async path => {
      const { out } = await axlewalk(['compare', path, TRUCK, '--travel', '1,1', '--json']);
      const report = JSON.parse(out) as Comparison;
      expect(report.alone).toEqual([{ axle: 'rear', of: 'b' }]);
      expect(new Set(report.rows.map(({ axle }) => axle))).toEqual(new Set(['front']));
      // no further than was asked
      const travels = report.rows.map(({ at }) => Math.abs(at.left_in));
      expect(Math.max(...travels)).toBeCloseTo(1, 6);
    },
  );
});

describe('--html', async () => {
  const { out } = await axlewalk(['compare', TRUCK, VARIANT, ...FRONT, '--html']);

  test('is one page with its cautions, without scripts and without anything from elsewhere', () => {
    expect(out).toMatch(/^<!doctype html>/);
    expect(out).toContain(CAUTIONS.slice(0, 40));
    expect(out).toContain('Local law');
    expect(out).not.toMatch(/<script|<link|<img|<iframe|@import|url\(|https?:|\bon\w+=/i);
    expect(out).not.toMatch(/\bsafe\b|NaN|undefined/);
  });

  test('prints, and takes the dark', () => {
    expect(out).toContain('@media print');
    expect(out).toContain('prefers-color-scheme:dark');
  });

  test('opens what it closes', () => {
    for (const tag of ['table', 'tr', 'td', 'th', 'ul', 'li', 'section', 'svg', 'p', 'h2']) {
      const open = out.match(new RegExp(`<${tag}[ >]`, 'g'))?.length ?? 0;
      expect(out.match(new RegExp(`</${tag}>`, 'g'))?.length ?? 0, tag).toBe(open);
    }
  });

  test('shows a name for what it is, not for markup', () => {
    expect(escaped(`<img src=x onerror='y'> & "z"`)).toBe(
      '&#60;img src=x onerror=&#39;y&#39;&#62; &#38; &#34;z&#34;',
    );
    expect(htmlTable(['<b>'], [['<i>', '<u>']])).not.toMatch(/<[biu]>/);
    expect(htmlTable(['a'], [])).toBe('');
  });
});

test('a file that is wrong is refused, with its name where both are', async () => {
  const none = await axlewalk(['compare', TRUCK, 'none.json']);
  expect(none).toMatchObject({ code: 2, out: '', err: expect.stringMatching(/^"none\.json": /) });
  const both = await axlewalk(['compare', 'none.json', `${TRUCK}#no such`]);
  expect(both.code).toBe(2);
  expect(both.err.split('\n')[1]).toMatch(
    /^truck\.axlewalk\.json#no such: variants: found "no such"/,
  );
  const axle = await axlewalk(['compare', TRUCK, TRUCK, '--travel', '0,1']);
  expect(axle).toMatchObject({ code: 2, out: '' });
  expect(axle.err.trim().split('\n')).toHaveLength(1);
});

describe('gaps --alternative', () => {
  const bar = (name: string, od: number) => ({
    name,
    changes: [{ part: 'axles.front.links.track bar', field: 'tube', value: { od } }],
  });
  const bars =
    (...options: unknown[]) =>
    (truck: Record<string, unknown>): void => {
      truck.alternatives = [{ name: 'track bar', part: 'axles.front.links.track bar', options }];
    };
  const words = (path: string): string[] => [
    'gaps',
    path,
    '--axle',
    'front',
    '--travel',
    '1,1',
    '--alternative',
    'track bar',
  ];

  test('one row for the build as it stands and one for each option; what cannot be built says why', async () => {
    await withFile(bars(bar('thick bar', 4), bar('odd bar', -1)), async path => {
      const { out } = await axlewalk([...words(path), '--json']);
      const report = JSON.parse(out) as CandidatesReport;
      expect(report).toMatchObject({
        alternative: 'track bar',
        part: 'axles.front.links.track bar',
      });
      expect(report.options.map(({ option }) => option)).toEqual([null, 'thick bar', 'odd bar']);
      const [asBuilt, thick, odd] = report.options;
      expect(odd?.refused[0]).toMatch(/tube\.od/);
      const short = (each: typeof asBuilt) =>
        (each?.touches.length ?? 0) + (each?.short.length ?? 0);
      expect(short(thick)).toBeGreaterThan(short(asBuilt));
    });
  });

  test('as text', async () => {
    await withFile(bars(bar('odd bar', -1)), async path => {
      const { out } = await axlewalk(words(path));
      expect(out).toMatch(/^fence truck: candidates for the track bar$/m);
      expect(out).toMatch(/^ {2}odd bar .*can't be built$/m);
      expect(out).toContain('kill');
      for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110);
    });
  });

  test('a name that is none is refused, and so is --pair beside it', async () => {
    await withFile(bars(bar('thick bar', 4)), async path => {
      const { code, err } = await axlewalk(['gaps', path, '--alternative', 'trak bar']);
      expect(code).toBe(2);
      expect(err).toMatch(/^--alternative: found "trak bar": .*wanted: "track bar"$/m);
    });
    const { err } = await axlewalk(['gaps', TRUCK, '--alternative', 'x', '--csv']);
    expect(err).toMatch(/wanted: a build with alternatives/);
    expect(err).toMatch(/--csv and --alternative are both given/);
  });
});

test('the fixture has the variant that is compared', () => {
  expect(readFileSync(join(FIXTURES, TRUCK), 'utf8')).toContain('long upper');
});
