/** An offset from a place as somebody types it: its amount, and its way where it says one. */
import type { TapedOffset } from '../../../geometry/build/offsets.ts';
import { change, type Refused } from './edit.ts';

const MINUS = /^[-−–]\s*/;

/** Words for ways, back and on along each axis; of a mirrored part sideways is inboard and outboard. */
const BACK = [
  /^(?:rearward|back|behind|aft)$/,
  /^(?:right|inboard|inward)$/,
  /^(?:down|below|under)$/,
];
const ON = [/^(?:forward|ahead|fore)$/, /^(?:left|outboard|outward)$/, /^(?:up|above|over)$/];

/**
 * @param way of what stands there: that of an amount that says none
 * @param seats what the driver and the passenger side are along the second axis: back or on
 * @example readOffset('5 1/2 down', 2, 1) // { typed: '5 1/2', way: -1 }
 */
export function readOffset(
  text: string,
  axis: 0 | 1 | 2,
  way: 1 | -1,
  seats: Readonly<Record<string, 1 | -1>> = {},
): { typed: string; way: 1 | -1 } {
  const [, amount = '', word = ''] =
    /^(.*?)\s+([a-z]+)(?: of it| side| it)?$/i.exec(text.trim()) ?? [];
  const said = word.toLowerCase();
  const isSaid = (words: readonly RegExp[]): boolean => words[axis]?.test(said) ?? false;
  const named = isSaid(ON) ? 1 : isSaid(BACK) ? -1 : axis === 1 ? seats[said] : undefined;
  const typed = named === undefined ? text.trim() : amount.replace(/\s+to(?: the)?$/, '');
  const positive = typed.replace(MINUS, '');
  const along = named ?? way;
  // a minus turns it round
  if (positive === typed) return { typed, way: along };
  return /[+]|\s[-−–]\s/.test(positive)
    ? { typed, way: along }
    : { typed: positive, way: along === 1 ? -1 : 1 };
}

/** Writes a coordinate of a point as it was taped from a place. */
export async function typeOffset(
  path: string,
  words: string,
  offset: TapedOffset,
): Promise<Refused> {
  const { withOffset } = await import('../../../geometry/build/offsets.ts');
  return change(words, edited => withOffset(edited, path, offset), path);
}
