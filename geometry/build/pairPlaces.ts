/** Where a file writes something once for both sides, and where its halves stand once they are taken apart. */
import type { Json } from './address.ts';
import type { Side } from './build.ts';
import { appliedFile, type Edited } from './edit.ts';
import { own } from './problem.ts';

/** Whether a part of the file stands for both sides at once, or is one half of a pair that could. */
export type Pairing = 'alike' | 'apart' | null;

/** One place of the file where something stands for both sides. */
export interface Pair {
  /** Address in words: keys, names and indices. `once` is taken by `left` and `right` when it is taken apart. */
  once: Words;
  left: Words;
  right: Words;
}

export type Words = readonly (string | number)[];
/**
 * @param address of a part as a change names it: `axles.front.links.lower link`, `axles.front.knuckles`
 */
export function pairingOf(edited: Edited, address: string): Pairing {
  const file = appliedFile(edited);
  const pairs = pairsAt(file, address);
  if (pairs.length === 0) return null;
  return pairs.some(({ once }) => isOnce(at(file, once))) ? 'alike' : 'apart';
}

/** The pairs that an address leads to: those of a sway bar are its arms and its end links. */
export function pairsAt(file: Json, address: string): Pair[] {
  const words = address.split('.');
  const last = words.at(-1) ?? '';
  if (last === 'swayBar') {
    return ['arms', 'endLinks'].map(key => {
      const list = [...words, key];
      return { once: [...list, 0], left: [...list, 0], right: [...list, 1] };
    });
  }
  const part = at(file, words);
  const within = (side: Side): Words => [...words, side];
  const isKnuckles = last === 'knuckles' && part !== undefined && words.length === 3;
  const isRods = last === 'tieRod' && (isOnce(part) || own(part, 'left') !== undefined);
  if (isKnuckles || isRods) return [{ once: words, left: within('left'), right: within('right') }];
  if (own(part, 'name') === undefined) return [];
  const list = words.slice(0, -1);
  const pair = (name: string): Pair => ({
    once: [...list, name],
    left: [...list, `left ${name}`],
    right: [...list, `right ${name}`],
  });
  if (isOnce(part)) return [pair(last)];
  const name = /^(?:left|right) (.*)$/.exec(last)?.[1];
  if (name === undefined) return [];
  const found = pair(name);
  const halves = [at(file, found.left), at(file, found.right)];
  return halves.every(half => half !== undefined && !isOnce(half)) ? [found] : [];
}

export const isOnce = (part: unknown): boolean => own(part, 'sides') === 'mirror';

/** What stands at an address in words. */
export function at(file: unknown, words: Words): unknown {
  return words.reduce<unknown>((here, word) => {
    if (!Array.isArray(here)) return own(here, String(word));
    return typeof word === 'number' ? here[word] : here.find(each => own(each, 'name') === word);
  }, file);
}

/** Where the half of a side stands: arms of a sway bar say their side, in any order. */
export function sideOf(file: Json, pair: Pair, side: Side): Words {
  const words = [pair.left, pair.right];
  return words.find(each => own(at(file, each), 'side') === side) ?? pair[side];
}
