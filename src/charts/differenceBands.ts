/** What differs between two maps on one grid, as areas of one color each: brown where there is less, blue where more. */
import type { Bands, Places } from './bands.ts';
import { extended, rings } from './contour.ts';
import { type Round, roundStep } from './measureScale.ts';
import { DIFFERENCE_STEPS } from './palette.ts';

/** Over a grid, what is left of the wanted gap, in parts of it, of the pair that has the least of that. */
export interface Shares extends Places {
  share: Float64Array;
}

/** A place where something is greatest. */
export interface Spot {
  left: number;
  right: number;
  value: number;
}

export interface DifferenceBands {
  bands: Bands;
  /** Where a step ends and the next begins, rising, as many below zero as above; none where nothing differs. */
  levels: number[];
  /** Where there is most more, and most less; null where that is under the first level. */
  most: Spot | null;
  least: Spot | null;
}

/** Parts of the wanted gap. */
const ROOM_LEVELS = [1 / 16, 1 / 8, 1 / 4, 1 / 2] as const;
/** What is left over this many times the wanted gap is room enough: there nothing differs. */
const MOST_share = 2;
const SIDE = (DIFFERENCE_STEPS - 1) / 2;

/**
 * How much more room the second has, in parts of the wanted gap. Each axle's tightest pair counts, by its share: inches
 * would jump where one pair takes over from another that wants more.
 */
export function roomDifference(a: Shares, b: Shares): DifferenceBands {
  const held = (share: number): number => Math.min(share, MOST_share);
  const values = a.share.map((share, k) => held(b.share[k] as number) - held(share));
  return banded(a, b, values, bothWays(ROOM_LEVELS));
}

/**
 * How much more of a measure the second has.
 *
 * @param perValue what one of the values is in the unit that the legend is read in
 */
export function measureDifference(
  a: Places & { values: Float64Array },
  b: Places & { values: Float64Array },
  perValue: number,
  round: Round,
): DifferenceBands {
  const values = a.values.map((value, k) => (b.values[k] as number) - value);
  let most = 0;
  for (const [k, value] of values.entries()) {
    if (isIn(a, b, k) && Number.isFinite(value)) most = Math.max(most, Math.abs(value));
  }
  if (most * perValue < LEAST) return banded(a, b, values, []);
  const step = roundStep((most * perValue) / (SIDE + 0.999), round) / perValue;
  return banded(a, b, values, bothWays(Array.from({ length: SIDE }, (_, i) => (i + 1) * step)));
}

/** Differences under this are the solver's, in any unit. */
const LEAST = 1e-4;

const bothWays = (levels: readonly number[]): number[] => [
  ...levels.map(level => -level).reverse(),
  ...levels,
];

const isIn = (a: Places, b: Places, k: number): boolean => a.inside[k] === 1 && b.inside[k] === 1;

/** Places beyond the known ones to which values are carried on. */
const BEYOND = 3;

function banded(a: Places, b: Places, values: Float64Array, levels: number[]): DifferenceBands {
  const bands: Bands = {
    of: 'differences',
    areas: [],
    squares: [],
    touch: [],
    line: [],
    scale: null,
  };
  const middle = (DIFFERENCE_STEPS - 1) / 2;
  if (levels.length === 0) {
    bands.areas.push({ color: middle, rings: null });
    return { bands, levels, most: null, least: null };
  }
  const field = extended({ x: a.left, y: a.right, values }, BEYOND);
  bands.areas.push({ color: levels.length, rings: null });
  for (let i = levels.length - 1; i >= 0; i--) {
    const found = rings(field, levels[i] as number);
    if (found.length > 0) bands.areas.push({ color: i, rings: found });
  }
  const first = levels[SIDE] as number;
  const most = spotOf(a, b, values, 1);
  const least = spotOf(a, b, values, -1);
  return {
    bands,
    levels,
    most: most && most.value >= first ? most : null,
    least: least && least.value <= -first ? least : null,
  };
}

function spotOf(a: Places, b: Places, values: Float64Array, way: 1 | -1): Spot | null {
  let best: Spot | null = null;
  for (const [k, value] of values.entries()) {
    if (!isIn(a, b, k) || !Number.isFinite(value)) continue;
    if (best && way * value <= way * best.value) continue;
    const n = a.left.length;
    best = { left: a.left[k % n] as number, right: a.right[Math.floor(k / n)] as number, value };
  }
  return best;
}
