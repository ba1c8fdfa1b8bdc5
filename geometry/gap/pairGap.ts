/** What is known of the gap of one pair of parts over the range of an axle. All holds for rigid parts. */
import type { End } from '../cycle/reach.ts';
import type { Pose } from '../pose/pose.ts';
import type { V3 } from '../vector.ts';
import type { Pair } from './pairs.ts';

/**
 * `touches`: a pose of the range was found where the parts overlap;
 * `clear`: no pose of the range has a gap under the required one;
 * `close`: a pose was found with less than that, and none where they touch;
 * `undecided`: not proved, at this resolution or at all.
 */
export type GapStatus = 'clear' | 'close' | 'touches' | 'undecided';

/** Least gaps of one pair that differ by no more than this are the same: they are searched to that, in. */
export const SAME_GAP_in = 0.02;

/** The first touch beyond a stop: how much of that stop's margin there is. */
export interface BeyondStop extends End {
  /** Travel or steering past the stop at which the parts first touch. */
  past: number;
  unit: 'in' | 'rad';
  pose: Pose;
}

export interface PairGap {
  pair: Pair;
  status: GapStatus;
  /** Least gap found, in; negative is overlap. Occurs at `pose`, which lies inside the range. */
  gap: number;
  /** No pose of the range has a gap under this, in; null: nothing is proved. */
  lower: number | null;
  pose: Pose;
  /** Roll of each part about its own line at that pose, from where it was drawn, rad. */
  rollA: number;
  rollB: number;
  /** Points on both surfaces there, vehicle axes. */
  pointA: V3;
  pointB: V3;
  /** 0 to 1 from each part's first end; null for a part that has none. */
  alongA: number | null;
  alongB: number | null;
  beyond: BeyondStop[];
  /** False for a far pair: `gap` is then the least of the coarse cycle, not searched further. */
  isRefined: boolean;
}

/** The rolls of a pair that are not as drawn, rad, by what rolls: the part itself, or what it rides or hangs on. */
export function rollsOf({ pair, rollA, rollB }: PairGap): Record<string, number> {
  const rolls: Record<string, number> = {};
  if (rollA !== 0) rolls[pair.a.roll?.of.name ?? pair.a.name] = rollA;
  if (rollB !== 0) rolls[pair.b.roll?.of.name ?? pair.b.name] = rollB;
  return rolls;
}

/**
 * What a least gap that was found and a bound that was proved say together.
 *
 * @param gap least gap found, in
 * @param lower no pose of the range has less, in; null: nothing is proved
 * @param required gap asked for, in
 */
export function statusOf(gap: number, lower: number | null, required: number): GapStatus {
  if (gap < 0) return 'touches';
  if (lower === null) return 'undecided';
  if (lower >= required) return 'clear';
  return gap < required && lower >= 0 ? 'close' : 'undecided';
}
