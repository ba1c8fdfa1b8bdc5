/** How both parts of a pair are rolled at a pose. */
import type { Pose } from '../pose/pose.ts';
import type { Placement } from '../solid/placement.ts';
import type { PairGap } from './pairGap.ts';
import type { Pair } from './pairs.ts';
import type { Part } from './part.ts';
import { placePart, placeRolled } from './place.ts';
import { isHeld, type RollRange, rollRange } from './roll.ts';

/** Shares of their windows at which both parts of a pair are rolled, 0 to 1; 0 for a part that is not free to. */
export type RollShares = readonly [a: number, b: number];

/** Rolls of both parts of a pair, rad; null for a part that stands as it is held. */
export type Rolls = readonly [a: number | null, b: number | null];

export const HELD: Rolls = [null, null];

/** Which parts of a pair are free to roll; one rod that moves both is searched as the first one's. */
export function freeOf({ a, b }: Pair): [a: boolean, b: boolean] {
  const free = a.roll !== null && !isHeld(a.roll);
  const other = b.roll !== null && !isHeld(b.roll);
  return [free, other && !(free && a.roll?.of === b.roll?.of)];
}

/** Rolls at shares of the windows at a pose. */
export function rollsAt(pair: Pair, pose: Pose, [a, b]: RollShares): Rolls {
  const [free, other] = freeOf(pair);
  const at = ({ from, to }: RollRange, share: number): number => from + share * (to - from);
  const one = free && pair.a.roll ? at(rollRange(pair.a.roll, pose), a) : null;
  if (one !== null && pair.a.roll?.of === pair.b.roll?.of) return [one, one];
  return [one, other && pair.b.roll ? at(rollRange(pair.b.roll, pose), b) : null];
}

/** At which shares of their windows the parts of a pair are rolled where their gap was found. */
export function sharesOf({ pair, pose, rollA, rollB }: PairGap): RollShares {
  const share = ({ roll }: Part, angle: number): number => {
    if (!roll) return 0;
    const { from, to } = rollRange(roll, pose);
    return to > from ? Math.max(0, Math.min(1, (angle - from) / (to - from))) : 0;
  };
  const [free, other] = freeOf(pair);
  return [free ? share(pair.a, rollA) : 0, other ? share(pair.b, rollB) : 0];
}

/** Places a part at a roll, or as it stands; false where it can not be rolled so. */
export function stand(part: Part, pose: Pose, roll: number | null, out: Placement): boolean {
  if (roll !== null) return placeRolled(part, pose, roll, out);
  placePart(part, pose, out);
  return true;
}
