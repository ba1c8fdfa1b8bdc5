/** Bands that a build asks for: what is refused, with which remedy, and in which unit bounds are read. */
import { expect, test } from 'vitest';
import { problemLine } from '../../geometry/build/problem.ts';
import { problemsOfWanted } from '../../geometry/finding/wanted.ts';
import { built, sample } from '../build/sample.ts';
import { faultless, findingsOf } from './faultless.ts';

const lines = (bands: unknown[]): string[] =>
  problemsOfWanted(built({ ...sample(), wanted: { bands } })).map(problemLine);

test('good bands are taken', () => {
  expect(
    lines([
      { measure: 'lateralShift', least: '-1/2', greatest: '12 mm' },
      { measure: 'axleSteer', least: -2, greatest: '3 deg' },
      { measure: 'brakeAntiDive', least: '20 %', greatest: 120 },
    ]),
  ).toEqual([]);
});

test.each<[unknown, RegExp]>([
  [
    { measure: 'latralShift', least: 0 },
    /^wanted\.bands\[0\]\.measure: found "latralShift": there is no such measure; wanted: "lateralShift"$/,
  ],
  [{ measure: 'happiness', least: 0 }, /wanted: one of lateralShift, /],
  [
    { measure: 'lateralShift', least: '2 deg' },
    /^wanted\.bands\[0\]\.least: found "2 deg": lateralShift is in in; wanted: a length such as /,
  ],
  [{ measure: 'axleSteer', greatest: '3 mm' }, /wanted: an angle such as /],
  [
    { measure: 'axleSteer', greatest: '30 %' },
    /^wanted\.bands\[0\]\.greatest: found "30 %": axleSteer is in deg/,
  ],
  [
    { measure: 'lateralShift', least: 2, greatest: 1 },
    /^wanted\.bands\[0\]\.least: found 2: it is above "greatest"/,
  ],
  [
    { measure: 'bind', part: 'uper link', least: 2 },
    /\.part: found "uper link": bind is not measured of it; wanted: "upper link"$/,
  ],
])('%j is refused with what would be right', (band, line) => {
  const told = lines([band]);
  expect(told).toHaveLength(1);
  expect(told[0]).toMatch(line);
});

test('a bare bound is in the unit of its measure, one with a unit in its own', () => {
  const band = (greatest: number, isBare: boolean) => ({
    wanted: {
      bands: [
        {
          measure: 'pinionChange',
          axle: null,
          part: null,
          least: null,
          greatest,
          inUnitOfMeasure: { least: false, greatest: isBare },
        },
      ],
      gaps: [],
      muted: [],
      assumedTravel: null,
    },
  });
  const over = (greatest: number, isBare: boolean): number | undefined =>
    findingsOf(faultless(), band(greatest, isBare)).find(({ kind }) => kind === 'outOfBand')?.amount
      .value;
  const bare = over(0.1, true);
  expect(bare).toBeGreaterThan(0);
  expect(over((0.1 * Math.PI) / 180, false)).toBeCloseTo(bare ?? Number.NaN, 9);
});

test('a band of what the build has nothing of is told, and not refused', () => {
  const bands = [
    {
      measure: 'antiSquat',
      axle: null,
      part: null,
      least: 0,
      greatest: null,
      inUnitOfMeasure: { least: true, greatest: false },
    },
  ];
  const all = findingsOf(faultless(), {
    wanted: { bands, gaps: [], muted: [], assumedTravel: null },
  });
  expect(
    all.filter(({ kind }) => kind === 'bandNotChecked').map(({ severity }) => severity),
  ).toEqual(['note']);
});
