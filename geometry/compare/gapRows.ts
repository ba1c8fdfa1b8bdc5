/** Least gaps of the same pairs of parts in two builds. All holds for rigid parts. */
import type { AxleName } from '../build/build.ts';
import type { PoseName } from '../cycle/walkReport.ts';
import { type AxleGaps, named } from '../gap/gapReport.ts';
import { type GapStatus, type PairGap, SAME_GAP_in } from '../gap/pairGap.ts';
import type { Of } from './places.ts';

/** What is known of a pair in one of the two. */
export interface GapThere {
  status: GapStatus;
  gap_in: number;
  /** No pose of the range has a gap under this; null: nothing is proved. */
  lower_in: number | null;
  required_in: number;
  pose: PoseName;
}

export interface GapRow {
  axle: AxleName;
  pair: [string, string];
  /** What each is a piece of: a differential and its cover are one. */
  of: [string, string];
  /** Null where the pair is not there, or is not compared. */
  a: GapThere | null;
  b: GapThere | null;
  /** b − a. */
  difference: number | null;
  /** What the difference is worth by the tolerances of what was taped, in; null where that is not known. */
  tolerance: number | null;
  /** Which of the two lacks less of what is asked; null where they lack alike. */
  toward: Of | null;
  /** True where the difference is no more than its tolerance, or than what least gaps are searched to. */
  isNone: boolean;
}

/** Gaps with this much over what is asked, in both, are left out: a far pair is looked at coarsely, in. */
export const NEAR_in = 1;

/** A pair of parts as it was found in each of the two; null where it is not there. */
export interface NearPair {
  key: string;
  a: PairGap | null;
  b: PairGap | null;
}

/** Pairs that come near in one of the two. */
export function nearPairsOf(a: AxleGaps, b: AxleGaps): NearPair[] {
  const [ofA, ofB] = [byPair(a), byPair(b)];
  const keys = [...ofA.keys(), ...[...ofB.keys()].filter(key => !ofA.has(key))];
  return keys
    .map(key => ({ key, a: ofA.get(key) ?? null, b: ofB.get(key) ?? null }))
    .filter(({ a: inA, b: inB }) => isNear(inA) || isNear(inB));
}

/**
 * Pairs that come near in one of the two, the one with the least left first.
 *
 * @param tolerances of the differences by `key` of the pair, in; without them a difference counts as soon as it is
 *   more than what least gaps are searched to
 */
export function gapRowsOf(
  a: AxleGaps,
  b: AxleGaps,
  tolerances: ReadonlyMap<string, number | null> | null = null,
): GapRow[] {
  return nearPairsOf(a, b)
    .map(({ key, a: inA, b: inB }) =>
      rowOf(a.walk.axle.name, inA, inB, tolerances?.get(key) ?? null),
    )
    .sort((p, q) => left(p) - left(q));
}

const byPair = ({ gaps }: AxleGaps): Map<string, PairGap> =>
  new Map(gaps.map(each => [JSON.stringify([each.pair.a.name, each.pair.b.name].sort()), each]));

const isNear = (found: PairGap | null): boolean =>
  found !== null && found.gap < found.pair.required + NEAR_in;

function rowOf(axle: AxleName, a: PairGap | null, b: PairGap | null, worth: number | null): GapRow {
  const pair = (a ?? b)?.pair;
  const difference = a && b ? b.gap - a.gap : null;
  const isNone = difference !== null && Math.abs(difference) <= Math.max(SAME_GAP_in, worth ?? 0);
  const more = a && b && !isNone ? lack(a) - lack(b) : 0;
  return {
    axle,
    pair: [pair?.a.name ?? '', pair?.b.name ?? ''],
    of: [pair?.a.of ?? '', pair?.b.of ?? ''],
    a: a && there(a),
    b: b && there(b),
    difference: difference === 0 ? 0 : difference,
    tolerance: difference === null ? null : worth,
    toward: more > 0 ? 'b' : more < 0 ? 'a' : null,
    isNone,
  };
}

const lack = ({ gap, pair }: PairGap): number => Math.max(0, pair.required - gap);

const there = (found: PairGap): GapThere => ({
  status: found.status,
  gap_in: found.gap,
  lower_in: found.lower,
  required_in: found.pair.required,
  pose: named(found),
});

const left = ({ a, b }: GapRow): number =>
  Math.min(
    ...[a, b].map(each => (each ? each.gap_in - each.required_in : Number.POSITIVE_INFINITY)),
  );
