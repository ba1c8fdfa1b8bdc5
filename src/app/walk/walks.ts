/** The walks by name, in words of the shop. */
import type { Axle } from '../../../geometry/build/build.ts';
import { sentence } from '../../../geometry/finding/words.ts';
import type { PathName, StripMark } from '../../worker/protocol.ts';

export const WALK_NAMES: readonly PathName[] = [
  'shop',
  'both',
  'crossed',
  'driver',
  'passenger',
  'lock-to-lock',
  'edge',
];

/** 'All eight poses, lock to lock'. */
export function walkLabel(walk: PathName, { steered }: Pick<Axle, 'steered'>): string {
  switch (walk) {
    case 'shop':
      return steered ? 'All eight poses, lock to lock' : 'All poses of the shop';
    case 'both':
      return 'Both wheels up and down';
    case 'crossed':
      return 'Flexed one way, then the other';
    case 'driver':
      return 'Driver wheel alone';
    case 'passenger':
      return 'Passenger wheel alone';
    case 'lock-to-lock':
      return 'Lock to lock, where it stands';
    case 'edge':
      return 'Along the travel edge';
  }
}

/** What a mark is called on the tape: 'Both up'. */
export const markName = ({ name }: StripMark): string => sentence(name);

/**
 * Where a place of the strip is, by its marks: 'Driver up, full right', 'between Ride and Both up'.
 *
 * @param at a fraction of an index
 */
export function placeWords(marks: readonly StripMark[], at: number): string {
  const near = marks.find(mark => Math.abs(mark.at - at) < 0.5);
  const locks = { pose: '', left: ', full left', right: ', full right' };
  if (near) return `${markName(near)}${locks[near.kind]}`;
  const before = marks.findLast(mark => mark.at <= at);
  const after = marks.find(mark => mark.at > at);
  if (!before && !after) return '';
  const from = before ? markName(before) : 'Ride';
  const to = after ? markName(after) : 'Ride';
  if (from !== to) return `from ${from} to ${to}`;
  return before || at >= 0.5 ? `${from}, part turned` : from;
}
