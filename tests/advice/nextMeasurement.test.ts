/** What is worth taping next, and how much of the answer is settled. */
import { describe, expect, test } from 'vitest';
import { movedBuild } from '../../geometry/advice/movedBuild.ts';
import { erf, nextMeasurements } from '../../geometry/advice/nextMeasurement.ts';
import { sensitivities } from '../../geometry/advice/sensitivity.ts';
import { spotOf, spotWords } from '../../geometry/advice/spots.ts';
import { type EntrySlope, entrySlopes } from '../../geometry/build/entrySlopes.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import { Shifts } from '../../geometry/build/shift.ts';
import { exampleFile, noMeshes, openedFile, proposedFor, walked } from './taping.ts';
import { vehicles } from './vehicles.ts';

const [vehicle] = vehicles;
if (!vehicle) throw new Error('a vehicle');
const file = proposedFor(vehicle, exampleFile(vehicle));
const opened = openedFile(file);
const slopes = entrySlopes(opened.file, opened.build);
const { axles } = walked(opened);

const rank = (some: readonly EntrySlope[]) => nextMeasurements(opened.build, axles, some, noMeshes);

test('error function (Abramowitz and Stegun, table 7.1, from memory)', () => {
  // 7.1.26 is good to 1.5e-7
  expect(erf(0)).toBeCloseTo(0, 6);
  expect(erf(0.5)).toBeCloseTo(0.5204999, 6);
  expect(erf(1)).toBeCloseTo(0.8427008, 6);
  expect(erf(2)).toBeCloseTo(0.9953223, 6);
});

test('a moved build is the build of the shifted file, through datums, dimensions and mirrors', () => {
  const shifts = new Shifts(opened.file, null);
  // not those whose direction is normalized: they follow their slope to first order only
  for (const { path, leaves } of slopes.filter(each => each.dimension === 'length')) {
    const by = 1 / 16;
    const shifted = shifts.build(path, by);
    expect(shifted, path).not.toBeNull();
    const { axles: a, solids: s } = movedBuild(opened.build, leaves, by);
    expect(flat([a, s]), path).toEqual(flat([shifted?.axles, shifted?.solids]));
  }
});

/** Numbers to 1e-9, so that rounding does not count. */
const flat = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (_, each) =>
      typeof each === 'number' ? Number(each.toFixed(9)) + 0 : each,
    ),
  );

test('where nothing is open all is settled, and there is nothing to tape', () => {
  expect(rank([])).toMatchObject({ share: 1, next: [] });
});

test('a single open number settles its gap to the share erf(d / √2 τ)', () => {
  const path = 'solids["fender"].box.center.by[2]';
  const [slope] = slopes.filter(each => each.path === path);
  if (!slope) throw new Error('a fender');
  const rows = sensitivities(opened.build, axles, [slope], noMeshes);
  const row = rows.find(
    ({ margin }) => margin.decides === 'whether the driver tire clears the driver fender',
  );
  if (!row) throw new Error('the gap of tire and fender');
  // the fender is flat and level over the tire: up by an inch is an inch of gap, or nearly where it touches the shoulder
  expect(row.by[0]).toBeGreaterThan(0.9 * slope.tolerance);
  expect(row.by[0]).toBeLessThan(1.001 * slope.tolerance);
  const d = Math.min(...row.margin.turns.map(turn => Math.abs(turn - row.margin.now)));
  const settled = erf(Math.max(d, row.margin.fine) / (Math.SQRT2 * (row.by[0] ?? 0)));
  expect(settled).toBeGreaterThan(0);
  const { share, next, questions } = rank([slope]);
  expect(next.map(({ spot }) => spot)).toEqual(['solids["fender"]']);
  // every other margin is settled, and the two fenders are alike but for the tire's scrub
  expect(1 - share).toBeGreaterThan((1 - settled) / (3 * questions));
  expect(next[0]?.reason).toMatch(
    /^The fender decides whether the (driver|passenger) tire clears the (driver|passenger) fender: tape it\.$/,
  );
});

test('what is measured closely is left, what is loose is told to be taped more closely', () => {
  const of = (tolerance: number): EntrySlope[] =>
    slopes
      .filter(({ path }) => path.startsWith('solids["fender"]'))
      .map(slope => ({ ...slope, from: 'measured', tolerance }));
  expect(rank(of(1 / 32)).next).toEqual([]);
  expect(rank(of(2)).next[0]?.reason).toMatch(/tape it more closely\.$/);
  expect(rank(of(2)).share).toBeLessThan(rank(of(1)).share);
});

test('ranks the same twice, worth most first, each spot once', () => {
  const some = slopes.filter(({ path }) => /solids|shocks|bumpStops/.test(path));
  const [one, two] = [rank(some), rank(some)];
  // what was solved before leaves the last bits of a pose to where its search began
  expect(one.next.map(({ spot, reason }) => [spot, reason])).toEqual(
    two.next.map(({ spot, reason }) => [spot, reason]),
  );
  for (const [i, { worth }] of one.next.entries())
    expect(worth).toBeCloseTo(two.next[i]?.worth ?? 0, 9);
  const worths = one.next.map(({ worth }) => worth);
  expect(worths).toEqual([...worths].sort((a, b) => b - a));
  expect(new Set(one.next.map(({ spot }) => spot)).size).toBe(one.next.length);
  for (const { paths, leading } of one.next) {
    expect([1, 2]).toContain(leading.length);
    expect(paths).toEqual(expect.arrayContaining(leading));
  }
  for (const { spot, paths } of one.next)
    for (const path of paths) expect(path.startsWith(spot)).toBe(true);
  expect(one.share).toBeGreaterThan(0);
  expect(one.share).toBeLessThan(1);
});

test('a stop that makes a pose takes the pose along: as walking the moved build does', () => {
  const path = 'axles["rear"].shocks["shock"].shortest';
  const slope = slopes.find(each => each.path === path);
  if (!slope) throw new Error('a shock');
  const by = 0.1;
  const rows = sensitivities(opened.build, axles, [{ ...slope, tolerance: by }], noMeshes);
  const now = axles[0]?.gaps?.gaps ?? [];
  const then = walked(openedFile(withShortest(file, by))).axles[0]?.gaps?.gaps ?? [];
  const checked: string[] = [];
  for (const { margin, by: effects } of rows.filter(each => each.margin.kind === 'gap')) {
    const before = now.find(each => each.gap === margin.now && each.isRefined);
    const after = then.find(
      each => each.pair.a.name === before?.pair.a.name && each.pair.b.name === before?.pair.b.name,
    );
    const effect = effects[0] ?? 0;
    if (!before || !after?.isRefined || effect < 0.05) continue;
    // gaps are searched to 0.005 in each, and their slope changes by some percent over a tenth of an inch
    expect(Math.abs(after.gap - before.gap), margin.decides).toBeGreaterThan(0.9 * effect - 0.01);
    expect(Math.abs(after.gap - before.gap), margin.decides).toBeLessThan(1.1 * effect + 0.01);
    checked.push(margin.decides);
  }
  expect(checked).toContain('whether the driver tire clears the bed');
});

function withShortest(from: BuildFile, by: number): object {
  const copy = JSON.parse(JSON.stringify(from)) as { axles: { shocks: { shortest: object }[] }[] };
  const [shock] = copy.axles[0]?.shocks ?? [];
  const built = opened.build.axles[0]?.shocks[0];
  if (shock && built)
    shock.shortest = { value: built.shortest + by, from: 'assumed', tolerance: 1 };
  return copy;
}

describe('spots', () => {
  test.each([
    [
      'axles["front"].links["lower link"].chassis.at[2]',
      'axles["front"].links["lower link"]',
      'the lower link with its ends',
    ],
    [
      'axles["front"].links["track bar"].through[1][0]',
      'axles["front"].links["track bar"]',
      'the track bar with its ends',
    ],
    [
      'axles["front"].links["track bar"].tube.od',
      'axles["front"].links["track bar"]',
      'the track bar with its ends',
    ],
    ['axles["rear"].shocks["shock"].chassis.by[0]', 'axles["rear"].shocks["shock"]', 'the shock'],
    [
      'axles["rear"].joints["bar end"].limit',
      'axles["rear"].joints["bar end"]',
      'the largest angle of the bar end',
    ],
    [
      'axles["front"].steering.dragLink.to.at[2]',
      'axles["front"].steering.dragLink',
      'the drag link with its ends',
    ],
    [
      'axles["front"].steering.tieRod.through[0][2]',
      'axles["front"].steering.tieRod',
      'the tie rod with its ends',
    ],
    ['axles["front"].steering.box.sweep[0]', 'axles["front"].steering.box', 'the steering box'],
    [
      'axles["front"].steering.rams["assist ram"].rod.at[1]',
      'axles["front"].steering.rams["assist ram"]',
      'the assist ram',
    ],
    [
      'axles["front"].knuckles.kingpin.upper[2]',
      'axles["front"].knuckles.kingpin',
      'the ball joints of the knuckle',
    ],
    [
      'axles["front"].knuckles.left.kingpin.upper[2]',
      'axles["front"].knuckles.left.kingpin',
      'the kingpin',
    ],
    [
      'axles["front"].housing.differential.cover.radius',
      'axles["front"].housing.differential',
      'the differential',
    ],
    [
      'axles["front"].driveline.pinion.axis.up',
      'axles["front"].driveline',
      'the driveshaft with both of its joints',
    ],
    ['axles["front"].tire.rim.width', 'axles["front"].tire', 'the tire'],
    ['solids["oil pan"].box.center[2]', 'solids["oil pan"]', 'the oil pan'],
    ['wheelbase', 'wheelbase', 'the wheelbase'],
  ])('%s', (path, spot, words) => {
    expect(spotOf(path)).toBe(spot);
    expect(spotWords(opened.build, opened.build.axles[0] ?? null, spot)).toBe(words);
  });

  test('every entry of a proposal has a spot that its path begins with, and words', () => {
    for (const { path } of opened.build.entries) {
      const spot = spotOf(path);
      expect(path.startsWith(spot)).toBe(true);
      expect(spotWords(opened.build, opened.build.axles[0] ?? null, spot)).toMatch(
        /^[a-z][a-zA-Z -]+$/,
      );
    }
  });
});
