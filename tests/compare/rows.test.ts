/** Measures side by side: nothing against itself, the other sign when exchanged, at equal travel and steering. */
import { describe, expect, test } from 'vitest';
import { placesOf } from '../../geometry/compare/places.ts';
import { measures } from '../../geometry/measure/list.ts';
import { compared, exampleSide } from './sides.ts';

const long = exampleSide('long-arm-front');
const short = exampleSide('long-arm-front', { variant: 'short arms' });
const there = compared(long, short);
const back = compared(short, long);

const keyOf = ({ axle, id, part, side, at }: (typeof there.rows)[number]): string =>
  JSON.stringify([axle, id, part, side, { ...at, reachedBy: null }]);

test('a build against itself differs in nothing, exactly', () => {
  const self = compared(long, exampleSide('long-arm-front'), true);
  expect(self.rows.length).toBeGreaterThan(700);
  for (const row of self.rows) {
    if (row.a === null && row.b === null) continue;
    expect(row).toMatchObject({ difference: 0, isNone: true, toward: null });
  }
  expect(self.rows.every(({ tolerance }) => tolerance === null || tolerance === 0)).toBe(true);
  const { points, lengths, fields, solids, paragraph, gaps } = self;
  expect({ points, lengths, fields, solids, paragraph, gaps }).toEqual({
    points: [],
    lengths: [],
    fields: [],
    solids: [],
    paragraph: [],
    gaps: [],
  });
  for (const { difference } of self.range.front?.ways ?? []) expect(difference).toBe(0);
});

test('exchanged, every difference has the other sign and every wish points the other way', () => {
  const others = new Map(back.rows.map(row => [keyOf(row), row]));
  expect(others.size).toBe(there.rows.length);
  let count = 0;
  for (const row of there.rows) {
    const other = others.get(keyOf(row));
    expect([other?.a, other?.b]).toEqual([row.b, row.a]);
    if (row.difference === null) continue;
    count++;
    expect(Number(other?.difference) + row.difference).toBe(0);
    const turned = { a: 'b', b: 'a', none: null }[row.toward ?? 'none'];
    expect(other?.toward).toBe(turned);
  }
  expect(count).toBeGreaterThan(700);
});

test('every measure stands at ride, both wheels up and down, flexed both ways and at both locks', () => {
  const common = there.rows.filter(({ at }) => at.reachedBy === 'both');
  const places = new Set(common.map(({ at }) => at.pose));
  expect([...places]).toEqual([
    'ride',
    'fullBump',
    'fullDroop',
    'crossedLeftUp',
    'crossedRightUp',
    'fullLeft',
    'fullRight',
  ]);
  const { build, axle } = long.walks[0] ?? { build: null, axle: null };
  if (!build || !axle) throw new Error('it has an axle');
  for (const measure of measures) {
    if (measure.targets(axle, build).length === 0) continue;
    const seen = new Set(common.filter(({ id }) => id === measure.id).map(({ at }) => at.pose));
    expect(seen, measure.id).toEqual(places);
  }
});

test('a pose that one alone reaches is told as such, and has no difference', () => {
  const alone = there.rows.filter(({ at }) => at.reachedBy !== 'both');
  // the short arms let the shocks go further when flexed, and less far in droop
  expect(new Set(alone.map(({ at }) => `${at.pose} ${at.reachedBy}`))).toEqual(
    new Set(['fullBump a', 'fullDroop a', 'crossedLeftUp b', 'crossedRightUp b']),
  );
  for (const { at, a, b, difference, reason } of alone) {
    expect(difference).toBeNull();
    expect(at.reachedBy === 'a' ? b : a).toBeNull();
    expect(reason).toMatch(at.reachedBy === 'a' ? /b: it does not reach/ : /a: it does not reach/);
  }
  for (const { way, a, b } of there.range.front?.ways ?? []) {
    const at = alone.find(row => row.at.pose === way)?.at;
    if (!at) continue;
    const furthest = Math.max(a?.value ?? 0, b?.value ?? 0);
    expect(Math.max(Math.abs(at.left_in), Math.abs(at.right_in))).toBe(furthest);
  }
});

describe('what the builds ask for', () => {
  const rowOf = (id: string, pose: string) =>
    there.rows.find(({ id: own, at }) => own === id && at.pose === pose && at.reachedBy === 'both');

  test('of two that are out of a band, the nearer one', () => {
    // asked: within 2.5° of axle steer; the short arms go past it
    const row = rowOf('axleSteer', 'crossedLeftUp');
    expect(Math.abs(row?.a ?? 9)).toBeLessThan(2.5);
    expect(Math.abs(row?.b ?? 0)).toBeGreaterThan(2.5);
    expect(row?.toward).toBe('a');
  });

  test('where both keep the band, neither', () => {
    const row = rowOf('pinionChange', 'fullBump');
    expect(Math.abs(row?.difference ?? 0)).toBeGreaterThan(0.5);
    expect(row?.toward).toBeNull();
  });

  test('of what nothing is asked of, neither', () => {
    expect(rowOf('foreAftShift', 'fullDroop')?.toward).toBeNull();
  });
});

test('a difference of no more than its tolerance is called none', () => {
  const worth = compared(long, short, true);
  const none = worth.rows.filter(({ isNone, difference }) => isNone && difference !== 0);
  expect(none.length).toBeGreaterThan(0);
  for (const { difference, tolerance, isNone } of worth.rows) {
    if (difference === null || tolerance === null) continue;
    // what is under 1e-7 is the solver's last digits
    if (Math.abs(difference) > tolerance + 1e-4) expect(isNone).toBe(false);
    if (Math.abs(difference) <= tolerance) expect(isNone).toBe(true);
  }
});

test('two kinds of steering input are compared at equal steer of the wheels', () => {
  const ram = exampleSide('double-ram-front');
  const [one, two] = [long.walks[0], ram.walks[0]];
  if (!one || !two) throw new Error('both have an axle');
  const places = placesOf(one, two).filter(({ name, short: s }) => name === 'fullLeft' && !s);
  expect(places).toHaveLength(1);
  const rows = compared(long, ram).rows.filter(
    ({ id, at }) => id === 'meanSteer' && at.pose === 'fullLeft' && at.reachedBy === 'both',
  );
  expect(rows).toHaveLength(1);
  // halved to the last digit of the input
  expect(Math.abs(rows[0]?.difference ?? 1)).toBeLessThan(1e-9);
  expect(rows[0]?.at).toMatchObject({ steer: null });
  expect(rows[0]?.at.meanSteer_deg).toBeGreaterThan(20);
});
