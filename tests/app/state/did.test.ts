/** What is held against what is known after a change: several changes before a check are told together. */
import { expect, test } from 'vitest';
import { didOf } from '../../../src/app/state/did.ts';
import { type Shop, useShop } from '../../../src/app/state/shop.ts';

const shopWith = (part: Partial<Shop>): Shop => ({ ...useShop.getInitialState(), ...part });

test('a change after a check is held against what the check found', () => {
  const shop = shopWith({});
  const checked = { ...shop, results: { ...shop.results, isFinal: true } };
  const { findings, gaps } = checked.results;
  expect(didOf(checked, 'Track bar: 1/8 up', false)).toEqual({
    steps: ['Track bar: 1/8 up'],
    isStepBack: false,
    before: { findings, gaps },
    isPutAway: false,
  });
});

test('one that comes before the check is told together with it; what is taken back has nothing to put back', () => {
  const shop = shopWith({});
  const checked = { ...shop, results: { ...shop.results, isFinal: true } };
  const first = didOf(checked, 'Track bar: 1/8 up', false);
  const unchecked = { ...shop, results: { ...shop.results, isFinal: false }, did: first };
  const second = didOf(unchecked, 'Undone: Track bar: 1/8 up', true);
  expect(second?.steps).toEqual(['Track bar: 1/8 up', 'Undone: Track bar: 1/8 up']);
  expect(second?.isStepBack).toBe(true);
  expect(second?.before).toBe(first?.before);
});

test('before the first check nothing is known to hold it against', () => {
  const shop = shopWith({});
  expect(didOf({ ...shop, results: { ...shop.results, isFinal: false } }, 'a', false)).toBeNull();
});
