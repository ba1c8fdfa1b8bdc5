/** Keys and the list of commands. */
import { expect, test } from 'vitest';
import { COMMANDS, keyWords, search } from '../../../src/app/keyboard/commands.ts';
import { commandOf } from '../../../src/app/keyboard/keys.ts';

const press = (
  key: string,
  more: Partial<Record<'ctrlKey' | 'metaKey' | 'altKey', boolean>> = {},
) => commandOf({ key, ctrlKey: false, metaKey: false, altKey: false, ...more }, true)?.id;

test('no key and no name is taken twice', () => {
  const keys = COMMANDS.flatMap(({ key }) => (key ? [key] : []));
  expect(new Set(keys).size).toBe(keys.length);
  expect(new Set(COMMANDS.map(({ id }) => id)).size).toBe(COMMANDS.length);
});

test('a key finds its command, with Control or Command alike', () => {
  expect(press(' ')).toBe('togglePlay');
  expect(press('N')).toBe('nextFinding');
  expect(press('o', { ctrlKey: true })).toBe('openFile');
  expect(press('o', { metaKey: true })).toBe('openFile');
  expect(press('n', { altKey: true })).toBeUndefined();
  expect(press('n', { ctrlKey: true })).toBeUndefined();
});

test('letters can be turned off; Space, Escape and Control stay', () => {
  const off = (key: string, ctrlKey = false) =>
    commandOf({ key, ctrlKey, metaKey: false, altKey: false }, false)?.id;
  expect(off('n')).toBeUndefined();
  expect(off('1')).toBeUndefined();
  expect(off('?')).toBeUndefined();
  expect(off(' ')).toBe('togglePlay');
  expect(off('Escape')).toBe('putAway');
  expect(off('o', true)).toBe('openFile');
});

test('a search wants all of its words', () => {
  expect(search('').length).toBe(COMMANDS.length);
  expect(search('both down').map(({ id }) => id)).toEqual(['bothDown']);
  expect(search('keys HELP').map(({ id }) => id)).toEqual(['commands']);
  expect(search('nowhere')).toEqual([]);
});

test('keys as they are written on keyboards', () => {
  expect(keyWords('Ctrl+o')).toEqual(['Ctrl', 'O']);
  expect(keyWords(' ')).toEqual(['Space']);
});
