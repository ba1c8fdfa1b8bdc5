/**
 * Differences of long and short arms against those of the oracle's two records: other code that finds poses by
 * another method and measures from the words of the definitions (tests/oracle). All measures, at every recorded pose.
 *
 * Tolerance: each of the two values holds to 1e-9 of its size or of 1 (tests/measure/oracle.test.ts).
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { lengthRowsOf } from '../../geometry/compare/hardware.ts';
import { placeAt } from '../../geometry/compare/places.ts';
import { type Row, rowsOf } from '../../geometry/compare/rows.ts';
import { tableOf } from '../../geometry/compare/table.ts';
import { rollingParts } from '../../geometry/measure/rolling.ts';
import { examplesFolder } from '../examples/summary.ts';
import { type RecordedPose, recordedCases } from '../measure/records.ts';
import { exampleSide } from './sides.ts';

const TOLERANCE = 1e-9;

const recordOf = (name: string): RecordedPose[] => recordedCases(`${name}.json`)[0]?.poses ?? [];
const [ofLong, ofShort] = [recordOf('long-arm-front'), recordOf('short-arm-front')];

const [long, short] = [
  exampleSide('long-arm-front').walks[0],
  exampleSide('long-arm-front', { variant: 'short arms' }).walks[0],
];
if (!long || !short) throw new Error('both have an axle');

const places = ofLong.map(({ left_in, right_in, steer }) =>
  placeAt(left_in, right_in, ((steer ?? 0) * Math.PI) / 180),
);
const rows = rowsOf(long, short, tableOf(long, short, places));

type Named = Pick<Row, 'id' | 'part' | 'side'>;
interface At {
  left_in: number;
  right_in: number;
  steer: number | null;
}

function recordedDifference(at: At, { id, part, side }: Named): number | null {
  const [a, b] = [ofLong, ofShort].map(poses => {
    const pose = poses.find(
      each =>
        each.left_in === at.left_in && each.right_in === at.right_in && each.steer === at.steer,
    );
    return pose?.measures?.find(m => m.id === id && m.part === part && m.side === side)?.value;
  });
  return a == null || b == null ? null : b - a;
}

/** Links that something holds from rolling; the oracle leaves each free to roll. */
const held = new Set(
  [...rollingParts(long.axle).values(), ...rollingParts(short.axle).values()].flatMap(part =>
    part.joints.some(joint => joint.holds) || part.holders.length > 0
      ? [part.name, ...part.joints.map(joint => joint.name)]
      : [],
  ),
);
const ABOUT_ROLL = new Set(['misalignment', 'misalignmentFreeRoll', 'linkRollWindow']);

test('all differences are those of the records', () => {
  let count = 0;
  for (const row of rows) {
    const { at, difference, a, b } = row;
    if (difference === null || a === null || b === null) continue;
    if (ABOUT_ROLL.has(row.id) && held.has(row.part ?? '')) continue;
    const steer = at.steer === null ? null : Math.round(at.steer.value * 1e6) / 1e6;
    const expected = recordedDifference({ ...at, steer }, row);
    if (expected === null) continue;
    count++;
    const size = Math.max(1, Math.abs(a), Math.abs(b));
    const what = `${row.id} ${row.part ?? row.side ?? ''} at ${at.left_in}/${at.right_in}, ${steer}`;
    expect.soft(Math.abs(difference - expected) / size, what).toBeLessThan(2 * TOLERANCE);
  }
  expect(count).toBeGreaterThan(1000);
});

interface Expected extends Named {
  what: string;
  at: At;
  difference: number;
  unit: string;
  from: 'oracle' | 'closed form';
  tolerance: number;
}

const { measures, lengths } = JSON.parse(
  readFileSync(`${examplesFolder}long-arm-front.differences.json`, 'utf8'),
) as { measures: Expected[]; lengths: { name: string; difference_in: number }[] };

test.each(measures)('beside the example: $what', expected => {
  const row = rows.find(
    ({ id, part, side, at }) =>
      id === expected.id &&
      part === expected.part &&
      side === expected.side &&
      at.left_in === expected.at.left_in &&
      at.right_in === expected.at.right_in &&
      Math.abs((at.steer?.value ?? 0) - (expected.at.steer ?? 0)) < 1e-9,
  );
  expect(row?.unit).toBe(expected.unit);
  const off = Math.abs((row?.difference ?? Number.NaN) - expected.difference);
  expect(off).toBeLessThanOrEqual(expected.tolerance);
  // the record itself holds that number, written to the last digit
  expect(recordedDifference(expected.at, expected)).toBe(expected.difference);
});

test('there are five or more of them', () => expect(measures.length).toBeGreaterThanOrEqual(5));

test('lengths of the links differ as their mount points say (Pythagoras)', () => {
  const found = lengthRowsOf(long, short);
  for (const { name, difference_in } of lengths) {
    expect(found.find(row => row.name === name)?.difference).toBeCloseTo(difference_in, 9);
  }
  // frame end taken 14 ahead and 3/4 down, from (36.5, ±2, 5.5) away to (22.5, ±2, 4.75)
  const [first] = lengths;
  expect(first?.difference_in).toBeCloseTo(Math.hypot(22.5, 2, 4.75) - Math.hypot(36.5, 2, 5.5), 9);
});
