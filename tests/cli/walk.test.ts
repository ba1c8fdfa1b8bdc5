import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import type { AxleName } from '../../geometry/build/build.ts';
import { coarseGrid } from '../../geometry/cycle/grid.ts';
import { axleOf, type OpenedBuild, openBuild } from '../../geometry/cycle/open.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import { type WalkName, walkPoses } from '../../geometry/cycle/walk.ts';
import { type AxleWalk, walkReport } from '../../geometry/cycle/walkReport.ts';
import type { Finding } from '../../geometry/finding/finding.ts';
import type { Screen } from '../../src/cli/io.ts';
import { edgeAlong } from '../../src/cli/rangeText.ts';
import type { FullWalkReport, Walked } from '../../src/cli/walk.ts';
import { walkCsv } from '../../src/cli/walkCsv.ts';
import { walkPicture } from '../../src/cli/walkPicture.ts';
import { walkText } from '../../src/cli/walkText.ts';
import { axleIn, axlewalk, FIXTURES, type Ran, TRUCK, withFile } from './terminal.ts';

const PLAIN: Screen = { colors: 0, isTerminal: false, columns: null };

const truck = openBuild(readFileSync(join(FIXTURES, TRUCK))) as { ok: true } & OpenedBuild;

/** An axle of the fixture walked along these paths, without the search for extremes. */
function walked(name: AxleName, paths: readonly WalkName[]): Walked {
  const opened = axleOf(truck, name);
  if (!opened) throw new Error(name);
  const { build, axle, model } = opened;
  const { range, reach } = findRange(build, axle, model);
  const grid = coarseGrid(range, reach, { left: 3, right: 3, steer: 1 });
  const walks = paths.map(path => ({ name: path, poses: walkPoses(path, range, reach) }));
  const walk: AxleWalk = {
    build,
    axle,
    model,
    range,
    reach,
    grid,
    finder: null,
    extremes: [],
    walks,
  };
  return { walk, report: walkReport(walk) };
}

let front: Walked;
let rear: Walked;
let json: Ran;
beforeAll(async () => {
  front = walked('front', ['both', 'lock-to-lock']);
  rear = walked('rear', ['crossed-left-up']);
  // the whole way once, on the axle with fewer measures
  json = await axlewalk([
    'walk',
    TRUCK,
    '--axle',
    'rear',
    '--grid',
    '3x3x1',
    '--path',
    'both',
    '--json',
  ]);
}, 120_000);

const full = (each: readonly Walked[], findings: Finding[] = []): FullWalkReport => ({
  build: truck.build.name,
  variant: null,
  axles: each.map(({ report }) => report),
  findings,
});

test('walk --json: one object an axle, its findings, and the exit code that follows from them', () => {
  const report = JSON.parse(json.out) as FullWalkReport;
  expect(json.err).toBe('');
  expect(report.build).toBe('fence truck');
  const [axle] = report.axles;
  expect(report.axles).toHaveLength(1);
  expect(axle?.axle).toBe('rear');
  expect(axle?.grid).toEqual({ left: 3, right: 3, steer: 1 });
  expect(axle?.walks.map(({ name }) => name)).toEqual(['both']);
  expect(axle?.range.edge.length).toBeGreaterThan(8);
  expect(axle?.extremes.length).toBeGreaterThan(20);
  const mustFix = report.findings.some(({ severity }) => severity === 'mustFix');
  expect(json.code).toBe(mustFix ? 1 : 0);
  expect(json.out).not.toMatch(/NaN|Infinity/);
});

test('the range in words: how far each way, what ends it, how far it steers', () => {
  const text = walkText(full([front]), [front], truck.build, PLAIN);
  expect(text).toMatch(/^fence truck: front axle, \d+ poses? in the range$/m);
  // the pad's height as drawn is 5 1/16 in; the solid height 0: both wheels go up by about that
  expect(text).toMatch(
    /^ {2}both wheels up +(5|5 1\/16|5 1\/8) in: bump stop bottomed, (left|right)/m,
  );
  expect(text).toMatch(/^ {2}both wheels down +\d.* in: /m);
  expect(text).toMatch(/^ {2}driver side flexed up +.* in up and as much down: /m);
  expect(text).toMatch(/^ {2}steered left, at ride +\d+\.\d° of pitman arm: steering stop/m);
  expect(text).toMatch(/^ {2}what ends travel +/m);
  expect(text).toMatch(/^findings, worst first\n {2}none$/m);
  expect(text).toMatch(/check the finished vehicle on stands/);
  expect(text).not.toMatch(/\bsafe/i);
  for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(100);
});

test('findings keep their order and name the axle where there are two', () => {
  const finding = (severity: Finding['severity'], text: string, assumed: boolean): Finding => ({
    kind: 'limitBroken',
    severity,
    axle: 'front',
    parts: ['brake hose'],
    pose: { left_in: 0, right_in: 0, steer: null, linkRoll_deg: null },
    where: 'ride height',
    amount: { value: 1, unit: 'in' },
    text,
    hangsOn: [],
    assumed,
  });
  const findings = [
    finding('mustFix', 'The brake hose is 1 in too short.', true),
    finding('note', 'The ram is never closed.', false),
  ];
  const one = walkText(full([front], findings), [front], truck.build, PLAIN);
  expect(one).toMatch(
    /^ {2}MUST FIX {2}The brake hose is 1 in too short\. Hangs on something assumed\.\n {2}note {6}The ram/m,
  );
  const two = walkText(full([front, rear], findings), [front, rear], truck.build, PLAIN);
  expect(two).toMatch(/^ {2}MUST FIX {2}front axle: The brake hose/m);
});

test('a ray leaves a polygon where it first meets it', () => {
  const corner = (left_in: number, right_in: number, part: string) => ({
    left_in,
    right_in,
    by: 'strap' as const,
    part,
    side: null,
  });
  // counterclockwise; each side carries the name of its first corner
  const square = [corner(-2, -1, 'a'), corner(4, -1, 'b'), corner(4, 3, 'c'), corner(-2, 3, 'd')];
  expect(edgeAlong(square, [1, 1])).toMatchObject({ left_in: 3, right_in: 3, part: 'c' });
  expect(edgeAlong(square, [1, -1])).toMatchObject({ left_in: 1, right_in: -1, part: 'a' });
  expect(edgeAlong(square, [1, 0])).toMatchObject({ left_in: 4, right_in: 0, part: 'b' });
  // a notch from above between 3 and 4 keeps the axle from what lies behind it
  const notched = [
    corner(-2, -1, 'a'),
    corner(5, -1, 'b'),
    corner(5, 1, 'c'),
    corner(4, 1, 'd'),
    corner(4, -0.5, 'e'),
    corner(3, -0.5, 'f'),
    corner(3, 1, 'g'),
    corner(-2, 1, 'h'),
  ];
  expect(edgeAlong(notched, [1, 0])).toMatchObject({ left_in: 3, part: 'f' });
  expect(edgeAlong([], [1, 0])).toBeNull();
});

/** Cells of a table of comma-separated values without quotes in it. */
const cells = (csv: string): string[][] =>
  csv
    .trimEnd()
    .split('\n')
    .map(line => line.split(','));

test('walk --csv: left, right, steer, then the measures, then axle and walk', () => {
  const [head = [], ...rows] = cells(walkCsv([front.report, rear.report]));
  expect(head.slice(0, 3)).toEqual(['left (in)', 'right (in)', 'steer (deg)']);
  expect(head.slice(-2)).toEqual(['axle', 'walk']);
  expect(head).toContain('bumpSteer (deg)');
  expect(head).toContain('camber [left] (deg)');
  expect(head).toContain('shockLength [left shock] (in)');
  expect(new Set(head).size).toBe(head.length);
  for (const row of rows) expect(row).toHaveLength(head.length);

  const walks = [...front.report.walks, ...rear.report.walks];
  expect(rows).toHaveLength(walks.reduce((sum, { poses }) => sum + poses.length, 0));
  const at = (row: string[] | undefined, name: string): string => row?.[head.indexOf(name)] ?? '?';
  const both = front.report.walks[0];
  const bump = both?.columns.find(({ id }) => id === 'bumpSteer')?.values;
  expect(Number(at(rows[3], 'bumpSteer (deg)'))).toBe(bump?.[3]);
  expect(Number(at(rows[3], 'left (in)'))).toBe(both?.poses[3]?.left_in);
  expect(at(rows[3], 'walk')).toBe('both');
  // the rear axle does not steer, and has no bump steer
  expect(at(rows.at(-1), 'axle')).toBe('rear');
  expect(at(rows.at(-1), 'steer (deg)')).toBe('');
  expect(at(rows.at(-1), 'bumpSteer (deg)')).toBe('');
});

test('a part whose name has a comma or a quote stays one cell (RFC 4180)', () => {
  const report = structuredClone(rear.report);
  for (const walk of report.walks) {
    for (const column of walk.columns)
      if (column.part === 'left rear shock') column.part = 'a "b", c';
  }
  expect(walkCsv([report])).toContain(',"shockLength [a ""b"", c] (in)",');
});

test('the picture shows where the axle can go, and only where a terminal can', () => {
  expect(walkPicture(front.walk, PLAIN)).toEqual([]);
  expect(walkPicture(front.walk, { colors: 256, isTerminal: true, columns: 60 })).toEqual([]);

  const lines = walkPicture(front.walk, { colors: 256, isTerminal: true, columns: 100 });
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the sequences that make colors
  const plain = lines.map(line => line.replace(/\u001b\[[\d;]*m/g, ''));
  expect(plain[0]).toBe('  bump steer, wheels straight, over the range (+ is ride height)');
  for (const line of plain) expect(line.length).toBeLessThanOrEqual(72);
  const map = plain.slice(1, 29);
  expect(map.filter(line => line.slice(8).includes('+'))).toHaveLength(1);
  // a kite: the left wheel is down at the top and up at the bottom of the picture
  const middle = (line = ''): number => (line.search(/[▀▄]/) + line.length) / 2;
  expect(middle(map[2])).toBeLessThan(middle(map[14]));
  expect(middle(map[14])).toBeLessThan(middle(map[25]));
  expect(plain.at(-1)).toMatch(/^ +-\d+\.\d\d° ▀{21} \d+\.\d\d°$/);
});

test('stops that do not allow ride height: told, and nothing walked', async () => {
  const tooLong = (build: Record<string, unknown>): void => {
    const [shock] = axleIn(build, 1).shocks as Record<string, unknown>[];
    if (shock) shock.shortest = 24;
  };
  await withFile(tooLong, async path => {
    const { code, out } = await axlewalk(['walk', path, '--axle', 'rear']);
    expect(out).toMatch(/stops do not even allow ride height \(shock bottomed, (left|right) rear/);
    expect(code).toBeLessThanOrEqual(1);
    const asJson = await axlewalk(['walk', path, '--axle', 'rear', '--json']);
    expect(JSON.parse(asJson.out)).toMatchObject({
      axles: [{ range: { edge: [], holdsRide: false } }],
    });
  });
});

test('progress is drawn where a person sees stderr, past half a second, and taken away', async () => {
  const walk = ['walk', TRUCK, '--axle', 'rear', '--grid', '2x2x1', '--path', 'both', '--csv'];
  let clock = 0;
  const slow = { isErrTerminal: true, now: () => (clock += 400) };
  const { err } = await axlewalk(walk, slow);
  expect(err).toMatch(/█+░* \d+ % rear axle/);
  expect(err.endsWith('\r\u001b[K')).toBe(true);
  expect(json.err).toBe('');
}, 60_000);
