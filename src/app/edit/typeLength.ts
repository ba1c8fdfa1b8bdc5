/** The length of a link or rod, given by hand: an adjuster turned, a longer one tried; or as drawn again. */
import { withGivenLength } from '../../../geometry/build/givenLength.ts';
import { change, type Refused } from './edit.ts';

/**
 * @param path of the part
 * @param typed null: as drawn
 */
export function giveLength(path: string, name: string, typed: string | null): Promise<Refused> {
  const words = typed === null ? `${name}: as long as drawn` : `${name}: length ${typed}`;
  // what can't be assembled is told of the axle's links or of its steering, by the names of both sides
  const above = /^axles\["\w+"\]\.(?:links|steering)/.exec(path)?.[0] ?? path;
  return change(words, edited => withGivenLength(edited, path, typed), above).then(
    refused => refused?.replace(PARTS, 'Out of reach: $1').replace(ELSEWHERE, '$1: $2') ?? null,
  );
}

/** Where links come apart on the way to their lengths. */
const PARTS = /^(the links part after .*?);.*$/;
/** What another part of the axle can't do then, with its path and what would be right there. */
const ELSEWHERE = /^axles\[[^:]*\["([^"\]]+)"\][^:]*: (.*?);.*$/;

/** The next whole mark of a tape past a length, in: 37.89 by 1/16 → 37 15/16. */
export function nextMark(inches: number, sense: 1 | -1, mark: number): number {
  const marks = inches / mark;
  const on = Math.round(marks);
  const isOn = Math.abs(marks - on) < ON_MARK;
  const next = isOn ? on + sense : sense === 1 ? Math.ceil(marks) : Math.floor(marks);
  return next * mark;
}

/** Nearer to a mark than this share of it, it is on it. */
const ON_MARK = 1e-6;
