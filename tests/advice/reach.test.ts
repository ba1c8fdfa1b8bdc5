/**
 * From the dozen measurements of the start, rounded to an eighth, and a few more in the proposed order, to the findings of
 * the vehicle. The orders, and how many it takes in orders at random, were recorded by `tests/bench/taping.ts`; here they
 * are taped again, and the next one proposed is asked for at a few places.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { findRange } from '../../geometry/cycle/range.ts';
import { atRandom, findingsOf, look, seeded, started } from './orders.ts';
import { difference } from './sameFindings.ts';
import { openedFile, tape } from './taping.ts';
import { vehicles } from './vehicles.ts';

/** Most measurements after the start. */
const MOST = 20;

const recorded = <Each>(name: string): Record<string, Each[]> =>
  JSON.parse(readFileSync(join(import.meta.dirname, name), 'utf8')) as Record<string, Each[]>;

const orders = recorded<string>('orders.json');
/** How many it took at random, with the seeds 1, 2, … */
const counts = recorded<number>('atRandom.json');

describe.each(vehicles)('$example', vehicle => {
  const order = orders[vehicle.example] ?? [];
  const start = started(vehicle);

  test('is walked from a dozen measurements', () => {
    const { axles } = openedFile(start.file);
    for (const { build, axle, model } of axles) {
      const { range } = findRange(build, axle, model);
      expect(range.holdsRide).toBe(true);
      expect(range.pieces).toBe(1);
    }
  });

  test(`tells what the vehicle's own numbers tell after ${order.length} more, at most ${MOST}`, () => {
    expect(order.length).toBeGreaterThan(0);
    expect(order.length).toBeLessThanOrEqual(MOST);
    const taping = order.reduce(tape, start);
    const wanted = findingsOf(taping.example);
    expect(difference(wanted, findingsOf(taping.file))).toEqual({
      missing: [],
      extra: [],
      off: [],
    });
    // and it did not before: the test would see a comparison that takes all for the same
    expect(difference(wanted, findingsOf(start.file)).missing.length).toBeGreaterThan(3);
  });
});

test.each(vehicles)('$example: fewer than in any order at random that was tried', ({ example }) => {
  const taken = orders[example]?.length ?? 0;
  const random = counts[example] ?? [];
  console.log(`${example}: ${taken} as proposed, ${random.join(', ')} at random`);
  expect(random.length).toBeGreaterThan(2);
  expect(taken).toBeLessThan(Math.min(...random));
});

// of the axles that do not steer, which are walked in a second
test.each(vehicles.filter(({ choice }) => choice.name === 'rear'))(
  '$example: at random as recorded (seed 1)',
  vehicle => {
    expect(atRandom(vehicle, seeded(1))).toBe(counts[vehicle.example]?.[0]);
  },
);

const asked = vehicles
  .filter(({ choice }) => choice.name === 'rear')
  .flatMap(vehicle => {
    const order = orders[vehicle.example] ?? [];
    return [0, Math.floor(order.length / 2), order.length - 1].map(count => ({
      vehicle,
      count,
      order,
    }));
  });

test.each(asked)(
  '$vehicle.example: after $count the next one is as recorded',
  ({ vehicle, count, order }) => {
    const { settled } = look(order.slice(0, count).reduce(tape, started(vehicle)));
    expect(settled.next[0]?.spot).toBe(order[count]);
  },
);
