/** The sentences: made from the numbers, biggest first, turned round when the two are exchanged. */
import { expect, test } from 'vitest';
import type { GapRow } from '../../geometry/compare/gapRows.ts';
import { namesOf, shopOf } from '../../geometry/compare/names.ts';
import { type Sentence, sentencesOf, type Told } from '../../geometry/compare/paragraph.ts';
import type { At } from '../../geometry/compare/places.ts';
import type { RangeComparison } from '../../geometry/compare/ranges.ts';
import type { Row } from '../../geometry/compare/rows.ts';
import { compared, exampleSide } from './sides.ts';

const long = exampleSide('long-arm-front');
const short = exampleSide('short-arm-front');
const there = compared(long, short);
const back = compared(short, long);

/** A sentence taken apart; null where it is of another form. */
function parsed(text: string) {
  const form =
    /^With (?<name>[^,]+), (?<what>.+?) (?<more>less far|more|less|higher|lower|further|wider|narrower|greater|smaller)\b(?<of>[^:(]*?)(?: \(a (?<kind>gain|cost)\))?: (?<b>.+) against (?<a>.+?), (?<where>(?:both|flexed|at|between)\b.+)\.$/;
  return form.exec(text)?.groups ?? null;
}

const TURNED: Record<string, string> = {
  more: 'less',
  less: 'more',
  higher: 'lower',
  lower: 'higher',
  further: 'less far',
  'less far': 'further',
  wider: 'narrower',
  narrower: 'wider',
  greater: 'smaller',
  smaller: 'greater',
  gain: 'cost',
  cost: 'gain',
  'long arms': 'short arms',
  'short arms': 'long arms',
};
const turned = (word: string | undefined): string | undefined =>
  word === undefined ? undefined : (TURNED[word] ?? word);

test('exchanging the two turns every sentence round', () => {
  expect(there.sentences.length).toBeGreaterThan(8);
  expect(back.sentences).toHaveLength(there.sentences.length);
  for (const sentence of there.sentences) {
    const one = parsed(sentence.text);
    expect(one, sentence.text).not.toBeNull();
    const same = back.sentences
      .filter(each => each.about === sentence.about)
      .map(each => parsed(each.text));
    expect(same, sentence.text).toContainEqual({
      ...one,
      name: turned(one?.name),
      more: turned(one?.more),
      kind: turned(one?.kind),
      a: one?.b,
      b: one?.a,
    });
  }
});

test('biggest first, and nothing against itself', () => {
  const sizes = there.sentences.map(({ size }) => size);
  expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
  expect(compared(long, exampleSide('long-arm-front')).paragraph).toEqual([]);
});

test('the numbers in a sentence are those of its row', () => {
  const told = there.sentences.filter(({ about }) => about === 'pinionChange');
  const rows = there.rows.filter(({ id, at }) => id === 'pinionChange' && at.reachedBy === 'both');
  const change = (r: Row): number => Math.abs(r.b ?? 0) - Math.abs(r.a ?? 0);
  const most = rows.reduce((best, row) => (change(row) > change(best) ? row : best));
  expect(most.at.pose).toBe('fullBump');
  const text = told.find(({ buys }) => buys === false)?.text ?? '';
  expect(text).toBe(
    `With short arms, the pinion turns ${change(most).toFixed(1)}° more (a cost): ` +
      `${Math.abs(most.b ?? 0).toFixed(1)}° nose down against ${Math.abs(most.a ?? 0).toFixed(1)}° nose down, both wheels 5 up.`,
  );
});

// Rows made by hand, so that each rule can be seen alone.

const at: At = {
  pose: 'fullBump',
  left_in: 4,
  right_in: 4,
  steer: null,
  reachedBy: 'both',
};
const row = (a: number, b: number, more: Partial<Row> = {}): Row => ({
  axle: 'front',
  id: 'pinionChange',
  part: null,
  side: null,
  at,
  a,
  b,
  difference: b - a,
  tolerance: 0.05,
  unit: 'deg',
  toward: null,
  isNone: false,
  ...more,
});
const still: RangeComparison = {
  ways: [],
  area_in2: { a: 0, b: 0, difference: 0 },
  holdsRide: { a: true, b: true },
};

function said(rows: readonly Row[], more: Partial<Told> = {}): Sentence[] {
  const axle = long.build.axles[0];
  if (!axle) throw new Error('it has an axle');
  const told: Told = {
    axles: { a: axle, b: axle },
    rows,
    gaps: [],
    clearances: { a: [], b: [] },
    range: still,
    ...more,
  };
  return sentencesOf([told], { a: 'one', b: 'two' }, { unit: 'in', driverSide: 'left' });
}
const texts = (...rows: Row[]): string[] => said(rows).map(({ text }) => text);

test('what is called none is not said, nor what one alone reaches', () => {
  expect(texts(row(1, 3, { isNone: true }))).toEqual([]);
  expect(texts(row(1, 3, { at: { ...at, reachedBy: 'a' } }))).toEqual([]);
  expect(texts(row(1, 3, { b: null, difference: null }))).toEqual([]);
});

test('two values of one size that point two ways are told as that', () => {
  expect(texts(row(-1.2, 1.2))).toEqual([
    'With two, the pinion turns the other way: 1.2° nose up against 1.2° nose down, both wheels 4 up.',
  ]);
});

test('less without its sign is the better one, whichever way it points', () => {
  expect(said([row(-2, 0.5)])[0]).toMatchObject({ buys: true, a: -2, b: 0.5 });
  expect(said([row(0.5, -2)])[0]).toMatchObject({ buys: false });
});

test('what the builds ask for goes before that', () => {
  expect(said([row(-2, 0.5, { toward: 'a' })])[0]).toMatchObject({ buys: false });
});

test('a gain in one place and a cost in another are both told', () => {
  const other = { ...at, pose: 'fullDroop' as const, left_in: -4, right_in: -4 };
  const both = said([row(1, 3), row(2.5, 1, { at: other })]);
  expect(both.map(({ buys }) => buys)).toEqual([false, true]);
  expect(both.map(({ text }) => /both wheels 4 (up|down)/.exec(text)?.[1])).toEqual(['up', 'down']);
});

test('lateral shift is told by the seats, and an axle by its name where there are two', () => {
  const [text] = texts(row(0.5, 1.5, { id: 'lateralShiftArc', unit: 'in' }));
  expect(text).toBe(
    'With two, the arc of the track bar moves the axle aside 1 in more (a cost): 1 1/2 in to the driver side against 1/2 in to the driver side, both wheels 4 up.',
  );
  const [axle] = long.build.axles;
  if (!axle) throw new Error('it has an axle');
  const front: Told = {
    axles: { a: axle, b: axle },
    rows: [row(0, 2)],
    gaps: [],
    clearances: { a: [], b: [] },
    range: still,
  };
  const rear: Told = { ...front, rows: [], axles: { a: { ...axle, name: 'rear' }, b: axle } };
  const [first] = sentencesOf(
    [front, rear],
    { a: 'one', b: 'two' },
    { unit: 'in', driverSide: 'left' },
  );
  expect(first?.text).toMatch(/^Front axle: with two, /);
});

test('room over what is asked is no gain, and pieces of one thing are told once', () => {
  const pose = { left_in: 0, right_in: 0, steer: null, linkRoll_deg: null };
  const gap = (a: number, b: number, piece: string): GapRow => {
    const there = (gap_in: number) => ({
      status: 'undecided' as const,
      gap_in,
      lower_in: null,
      required_in: 0.5,
      pose,
    });
    return {
      axle: 'front',
      pair: ['drag link', piece],
      of: ['drag link', 'differential'],
      a: there(a),
      b: there(b),
      difference: b - a,
      tolerance: null,
      toward: null,
      isNone: false,
    };
  };
  expect(said([], { gaps: [gap(0.6, 2, 'differential')] })).toEqual([]);
  const told = said([], {
    gaps: [gap(-0.25, 0.125, 'differential'), gap(0.25, 0.5, 'differential cover')],
  });
  expect(told.map(({ text }) => text)).toEqual([
    'With two, there is 3/8 in more room between the drag link and the differential (a gain): a gap of 1/8 in against 1/4 in of overlap, at the tightest pose of each, parts rigid.',
  ]);
});

test('names: what two have in common is left out, variants go by their own', () => {
  const named = (name: string, variant: string | null = null) => ({ name, variant });
  expect(namesOf(named('truck, long arms'), named('truck, short arms'))).toEqual({
    a: 'long arms',
    b: 'short arms',
  });
  expect(namesOf(named('truck'), named('truck', 'stiff'))).toEqual({ a: 'truck', b: 'stiff' });
  expect(namesOf(named('truck'), named('truck'))).toEqual({ a: 'the first', b: 'the second' });
  expect(namesOf(named('a, b'), named('c, d'))).toEqual({ a: 'a, b', b: 'c, d' });
  const [inches, millimeters] = (['in', 'mm'] as const).map(unit => ({
    unit,
    driverSide: 'right' as const,
  }));
  if (!inches || !millimeters) throw new Error('two shops');
  expect(shopOf(inches, millimeters)).toEqual({ unit: 'in', driverSide: 'right' });
});
