/**
 * What longer arms buy, by the closed form of an arc: a longer radius turns less and runs less fore and aft at the same
 * travel. Derived: an axle on a pivot line a level R behind it and held sideways by an endless bar rises by z where
 * it turns by asin(z/R), and comes nearer to the pivot by R (1 − cos); a track bar of length L, level as drawn, moves
 * its axle end aside by L − √(L² − z²).
 */
import { expect, test } from 'vitest';
import type { Axle, DrivelineEnd } from '../../geometry/build/build.ts';
import { type Measured, placeAt } from '../../geometry/compare/places.ts';
import { rowsOf } from '../../geometry/compare/rows.ts';
import { tableOf } from '../../geometry/compare/table.ts';
import { opened } from '../cycle/made.ts';
import { link } from '../pose/layouts.ts';
import { axleAt, bar, FAR, MM, pair, single } from '../published/planar.ts';

/** Arms from an axle 500 mm up to one pivot line R mm in the way of + X, level with the wheel centers. */
const onArms = (R: number): Measured =>
  opened(
    axleAt(
      [0, 500],
      [
        ...pair('lower link', [0, 400], [R, 500], 450),
        single('upper link', [-30, 650], [R, 500], 60),
        bar([0, -500, 500]),
      ],
      { driveline: shaft },
    ),
  );

const end = (joint: DrivelineEnd['joint'], way: 1 | -1): DrivelineEnd => ({
  joint,
  axis: [way, 0, 0],
  kind: 'single',
  limit: null,
});
const shaft: Axle['driveline'] = {
  pinion: end([8, 0, 500 * MM], 1),
  transferCase: end([50, 0, 500 * MM], -1),
  slip: null,
  phase: 0,
  tubeOd: null,
  axleRatio: null,
};

/** Straight up on endless links, with a level bar of L mm. */
const onBar = (L: number): Measured =>
  opened(
    axleAt(
      [0, 500],
      [
        ...pair('lower link', [0, 400], [FAR / MM, 400], 450),
        single('upper link', [0, 650], [FAR / MM, 650], 60),
        link('track bar', [-100 * MM, -400 * MM, 600 * MM], [-100 * MM, (L - 400) * MM, 600 * MM]),
      ],
    ),
  );

/** Differences b − a of measures of the axle at level travels, mm. */
function differences(a: Measured, b: Measured, travels: readonly number[]) {
  const places = travels.map(z => placeAt(z * MM, z * MM));
  const rows = rowsOf(a, b, tableOf(a, b, places));
  return (id: string): number[] =>
    rows
      .filter(row => row.id === id && row.part === null && row.side === null)
      .map(({ difference }) => Number(difference));
}

const TRAVELS = [-150, -75, 50, 100, 150];
const [SHORT, LONG] = [600, 950];
const DEG = 180 / Math.PI;
// endless bars turn by 1e-6 (see planar.ts)
const CLOSE = 6;

test('arms: less turn of the pinion, less way fore and aft', () => {
  const of = differences(onArms(SHORT), onArms(LONG), TRAVELS);
  const turn = (R: number, z: number): number => Math.asin(z / R) * DEG;
  // the pivot line is ahead: with the axle up, the pinion, which points ahead, turns nose down
  for (const [i, z] of TRAVELS.entries()) {
    const expected = -turn(LONG, z) + turn(SHORT, z);
    expect(of('pinionChange')[i]).toBeCloseTo(expected, CLOSE);
    const ahead = (R: number): number => (R - Math.sqrt(R * R - z * z)) * MM;
    expect(of('foreAftShift')[i]).toBeCloseTo(ahead(LONG) - ahead(SHORT), CLOSE);
    // an advantage at every travel: nearer to nothing
    expect(Math.abs(turn(LONG, z))).toBeLessThan(Math.abs(turn(SHORT, z)));
  }
});

test('track bars: less way aside', () => {
  const of = differences(onBar(SHORT), onBar(LONG), TRAVELS);
  for (const [i, z] of TRAVELS.entries()) {
    const aside = (L: number): number => (L - Math.sqrt(L * L - z * z)) * MM;
    expect(of('lateralShiftArc')[i]).toBeCloseTo(aside(LONG) - aside(SHORT), CLOSE);
  }
});
