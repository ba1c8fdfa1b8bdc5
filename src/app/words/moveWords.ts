/** How far something was moved, in words of the shop. */
import { formatLength } from '../../../geometry/build/format.ts';
import type { V3 } from '../../../geometry/vector.ts';

/** Ways along the axes that coordinates are typed in, forward and back of each. */
const WAYS = [
  ['forward', 'back'],
  ['left', 'right'],
  ['up', 'down'],
] as const;

/** '3/16 up', '1 1/4 back, 1/8 up'; of a point that is written once for both sides, sideways is out and in. */
export function byWords(by: V3, unit: 'in' | 'mm', isMirrored = false): string {
  const ways = [2, 0, 1].flatMap(axis => {
    const amount = by[axis as 0];
    if (amount === 0) return [];
    const [more, less] =
      axis === 1 && isMirrored ? ['out', 'in'] : (WAYS[axis as 0] as readonly string[]);
    return [
      `${formatLength(Math.abs(amount), { unit, denominator: 64 })} ${amount > 0 ? more : less}`,
    ];
  });
  return ways.length > 0 ? ways.join(', ') : 'not moved';
}
