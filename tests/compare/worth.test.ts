/**
 * What a difference is worth, against 10,000 seeded draws of the taped values through a closed form that shares no
 * code with the solver.
 *
 * Draws are normal with the tolerance as their standard deviation. The standard deviation of n normal values is itself
 * known to 1/√(2n) = 0.71 %; three times that is allowed. What (1) of geometry/compare/worth.ts leaves out (curvature)
 * is some 1e-5 of the result for these sizes, from the second derivatives 1/L.
 */
import { expect, test } from 'vitest';
import { axlePairsOf } from '../../geometry/compare/compare.ts';
import { tapedOf } from '../../geometry/compare/worth.ts';
import { type Entry, parallelogram, type Sizes, shiftOf } from './parallelogram.ts';
import { deviation, normal } from './random.ts';
import { sideOf, worthOf } from './sides.ts';

const SEED = 20260;
const DRAWS = 10_000;

const BASE: Record<keyof Sizes, Entry> = {
  armRun: { value: 36, tolerance: 1 / 8 },
  armRise: { value: 5, tolerance: 1 / 4 },
  barRun: { value: 37, tolerance: 1 / 8 },
  barRise: { value: 2.75, tolerance: 3 / 16 },
};
/** Shorter arms, taped for themselves; the rest is the same vehicle, taped once. */
const OTHER: Partial<Record<keyof Sizes, Entry>> = { armRun: { value: 22, tolerance: 1 / 8 } };

const text = parallelogram(BASE, OTHER);
const [a, b] = [sideOf(text), sideOf(text, { variant: 'other' })];
const pairs = axlePairsOf(a.walks, b.walks);
const [pair] = pairs;
const worth = worthOf(a, b, pairs)[0]?.table;
if (!pair || !worth) throw new Error('there is one axle');

/** Tolerance and difference of a measure of the axle at a place. */
function told(
  id: string,
  place: string,
): { tolerance: number; difference: number; travel: number } {
  const { columns, places, values } = pair?.table ?? { columns: [], places: [], values: null };
  const p = places.findIndex(each => each.name === place && each.short === null);
  const i = p * columns.length + columns.findIndex(({ measure }) => measure.id === id);
  return {
    tolerance: Number(worth?.[i]),
    difference: Number(values?.b[i]) - Number(values?.a[i]),
    travel: places[p]?.left ?? Number.NaN,
  };
}

/** The sizes of one build with what was drawn for each taped value. */
const drawn = (sizes: Record<keyof Sizes, Entry>, errors: Record<keyof Sizes, number>): Sizes => {
  const size = (key: keyof Sizes): number =>
    sizes[key].value + errors[key] * (sizes[key].tolerance ?? 0);
  return {
    armRun: size('armRun'),
    armRise: size('armRise'),
    barRun: size('barRun'),
    barRise: size('barRise'),
  };
};

const CASES = [
  ['foreAftShift', 'fullBump', 0],
  ['foreAftShift', 'fullDroop', 0],
  ['lateralShift', 'fullBump', 1],
  ['lateralShift', 'fullDroop', 1],
] as const;

test.each(CASES)(
  `%s at %s: the draws spread as much as is told (seed ${SEED})`,
  (id, place, axis) => {
    const { tolerance, difference, travel } = told(id, place);
    const other = { ...BASE, ...OTHER };
    const exact =
      shiftOf(drawn(other, NONE), travel)[axis] - shiftOf(drawn(BASE, NONE), travel)[axis];
    expect(difference).toBeCloseTo(exact, 9);
    const next = normal(SEED);
    const alone: number[] = [];
    const differences = Array.from({ length: DRAWS }, () => {
      const errors = { armRun: next(), armRise: next(), barRun: next(), barRise: next() };
      const ofA = shiftOf(drawn(BASE, errors), travel)[axis];
      alone.push(ofA);
      // the arms of the other build were taped for themselves; all else is the same tape
      return shiftOf(drawn(other, { ...errors, armRun: next() }), travel)[axis] - ofA;
    });
    const spread = deviation(differences);
    const own = 1 / Math.sqrt(2 * DRAWS);
    expect(Math.abs(spread / tolerance - 1)).toBeLessThan(3 * own);
    // that the two share values is what makes the difference better known than either: counted twice it would not be
    if (id === 'lateralShift') expect(deviation(alone)).toBeGreaterThan(5 * tolerance);
  },
);

const NONE = { armRun: 0, armRise: 0, barRun: 0, barRise: 0 };

test('a value is shared where it stands at the same place, alike in value, tolerance and origin', () => {
  const taped = tapedOf(a.build.entries, b.build.entries);
  const of = (name: string) =>
    taped.filter(({ entry }) => entry.path.includes(name)).map(each => each.of.join(''));
  expect(of('armRise')).toEqual(['ab']);
  expect(of('armRun')).toEqual(['a', 'b']);
  const [entry] = a.build.entries.filter(each => each.tolerance !== null);
  if (!entry) throw new Error('there are taped values');
  for (const change of [{ value: 1 }, { tolerance: 1 }, { from: 'assumed' as const }]) {
    expect(tapedOf([entry], [{ ...entry, ...change }]).map(each => each.of)).toEqual([
      ['a'],
      ['b'],
    ]);
  }
  expect(tapedOf([{ ...entry, tolerance: null }], [{ ...entry, tolerance: 0 }])).toEqual([]);
});

test('a build against itself: every value is shared, so that nothing is left of any tolerance', () => {
  const twin = sideOf(text);
  const both = axlePairsOf(a.walks, twin.walks);
  const none = worthOf(a, twin, both)[0]?.table ?? [];
  expect(none.length).toBeGreaterThan(50);
  expect(new Set(none)).toEqual(new Set([0]));
});
