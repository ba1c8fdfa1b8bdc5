/**
 * A build against its mirror image: what has no side is alike with both wheels up or down, what points to a side
 * points to the other one, and only where sides are named does anything else differ.
 */
import { expect, test } from 'vitest';
import type { Build, Vec3 } from '../../geometry/build/build.ts';
import { axlePairsOf, comparisonOf, type Side } from '../../geometry/compare/compare.ts';
import { openAxle } from '../../geometry/cycle/openAxle.ts';
import { walkAxle } from '../../geometry/cycle/walkReport.ts';
import { exampleSide } from './sides.ts';

const swapped = (name: string): string =>
  name.replace(/left|right/g, side => (side === 'left' ? 'right' : 'left'));

const isVec = (value: unknown): value is Vec3 =>
  Array.isArray(value) && value.length === 3 && value.every(v => typeof v === 'number');

/** Points and directions with y negated, left and right swapped in every name, clocking and phase negated. */
function mirrored<T>(value: T): T {
  if (typeof value === 'string') return swapped(value) as T;
  if (isVec(value)) return [value[0], -value[1], value[2]] as T;
  if (Array.isArray(value)) return value.map(mirrored) as T;
  if (typeof value !== 'object' || value === null) return value;
  const out: Record<string, unknown> = {};
  for (const [key, item] of Object.entries(value)) {
    if (key === 'clocking' || key === 'phase') out[key] = -(item as number);
    // the box's ends: to the right, to the left
    else if (key === 'sweep' && Array.isArray(item)) out[key] = item.map(end => -end).reverse();
    else out[swapped(key)] = mirrored(item);
  }
  return out as T;
}

function sideOf(build: Build): Side {
  const walks = build.axles.map(axle => {
    const opened = openAxle(build, axle);
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    const options = { extremes: false, path: 'both' } as const;
    return walkAxle(build, axle, opened.axle.model, options);
  });
  return { build, walks, gaps: [], findings: [] };
}

/** Values that point to a side. */
const ODD = /^(lateralShift|meanSteer|axleSteer$|knuckleSteer|bumpSteer|steeringWheelToStraight)/;
/** Ends of travel are found to 1e-9 in; rates by travel multiply that. */
const CLOSE = 1e-6;

test('the mirror image differs only where sides are named', () => {
  const { build } = exampleSide('long-arm-front');
  // the paths of entries name parts by their place in the file: the bands alone look at them, and have no side
  const image: Build = { ...mirrored({ ...build, entries: [] }), entries: build.entries };
  const [a, b] = [
    sideOf({ ...build, driverSide: 'left' }),
    sideOf({ ...image, driverSide: 'left' }),
  ];
  const pairs = axlePairsOf(a.walks, b.walks);
  const report = comparisonOf(a, b, pairs, null);
  const level = report.rows.filter(
    ({ at }) => at.reachedBy === 'both' && ['ride', 'fullBump', 'fullDroop'].includes(at.pose),
  );
  let odd = 0;
  let even = 0;
  for (const row of level) {
    const size = Math.max(1, Math.abs(row.a ?? 0));
    const what = `${row.id} at ${row.at.pose}`;
    if (row.part !== null || row.side !== null) {
      // the same thing of the other side, or of the other part, in the other build
      const other = level.find(
        each =>
          each.id === row.id &&
          each.at.pose === row.at.pose &&
          each.part === (row.part && swapped(row.part)) &&
          each.side === (row.side && swapped(row.side)),
      );
      if (row.a === null || other?.b == null) continue;
      const sign = row.id === 'steer' ? -1 : 1;
      expect.soft(Math.abs(other.b - sign * row.a) / size, what).toBeLessThan(CLOSE);
    } else if (ODD.test(row.id)) {
      odd++;
      expect.soft(Math.abs((row.b ?? 1) + (row.a ?? 1)) / size, what).toBeLessThan(CLOSE);
    } else if (row.difference !== null) {
      even++;
      expect.soft(Math.abs(row.difference) / size, what).toBeLessThan(CLOSE);
    }
  }
  expect(odd).toBeGreaterThan(15);
  expect(even).toBeGreaterThan(30);
  // every sentence names a side: a way to turn, a side of the vehicle, or a flexed pose or lock, which do
  expect(report.sentences.length).toBeGreaterThan(2);
  for (const { text } of report.sentences) expect(text).toMatch(/left|right|driver|passenger/);
  expect(report.lengths).toEqual([]);
});
