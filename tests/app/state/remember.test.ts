/** What the page remembers: only what it may, whatever stands in the browser's storage. */
import { expect, test } from 'vitest';
import { keptOf, readKept } from '../../../src/app/state/remember.ts';
import { START } from '../../../src/app/state/shop.ts';

test('what is kept is read back', () => {
  const shop = {
    ...START,
    look: { ...START.look, unit: 'mm' as const, isUnitChosen: true, theme: 'dark' as const },
    play: { ...START.play, speed: 'slow' as const },
  };
  expect(readKept(keptOf(shop))).toMatchObject({ unit: 'mm', theme: 'dark', speed: 'slow' });
});

test('what cannot be kept to is left aside', () => {
  expect(readKept(null)).toEqual({});
  expect(readKept('{ not json')).toEqual({});
  expect(readKept('7')).toEqual({});
  expect(
    readKept('{ "unit": "cubit", "theme": 3, "labels": true, "__proto__": { "grid": true } }'),
  ).toEqual({
    labels: true,
  });
});

test('neither pose nor choice nor an open dialog is kept', () => {
  const kept = Object.keys(JSON.parse(keptOf(START)));
  for (const key of ['finding', 'part', 'dialog', 'framing']) expect(kept).not.toContain(key);
});
