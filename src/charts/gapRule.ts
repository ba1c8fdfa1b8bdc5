/**
 * The one rule that findings hang on: a scale of lengths with overlap left of its zero and gap right of it.
 * Lengths in inches; places as shares of the rule's width, 0 to 1.
 */

export interface GapRule {
  /** Ends, in: the left one negative. */
  from: number;
  to: number;
  ticks: RuleTick[];
}

export interface RuleTick {
  /** Place on the rule, 0 to 1. */
  at: number;
  /** 0 a small mark, 1 a middle one, 2 a long one with a number. */
  weight: 0 | 1 | 2;
  /** Size without sign, in; only of long marks. */
  label: number | null;
}

/** What a rule has to show: a gap (negative: overlap) and the gap that is wanted, in. */
export interface OnRule {
  gap: number;
  required: number | null;
}

/** Steps of each unit, in: small mark, middle mark, and how far apart numbers and ends may be. */
const STEPS = {
  in: { small: 1 / 8, middle: 1 / 2, ends: [1, 2, 3, 4, 6, 8, 12, 24, 48] },
  mm: {
    small: 5 / 25.4,
    middle: 10 / 25.4,
    ends: [20, 40, 60, 80, 100, 200, 400, 600, 1200].map(mm => mm / 25.4),
  },
};

/** Small marks closer than this share of the rule run into each other. */
const CLOSEST = 1 / 52;

/**
 * A rule that holds all of these.
 *
 * @example gapRule([{ gap: -1.12, required: 1.5 }], 'in') // from −2 to 2
 */
export function gapRule(all: readonly OnRule[], unit: 'in' | 'mm'): GapRule {
  const { small, middle, ends } = STEPS[unit];
  const overlap = Math.max(0, ...all.map(({ gap }) => -gap));
  const room = Math.max(0, ...all.map(({ gap, required }) => Math.max(gap, required ?? 0)));
  const holding = (size: number): number =>
    ends.find(end => end >= size - 1e-9) ?? (ends.at(-1) as number);
  const from = -holding(overlap);
  const to = holding(room);
  const step = [small, middle, ...ends].find(each => each / (to - from) >= CLOSEST) ?? to;
  const isWhole = (value: number, of: number): boolean =>
    Math.abs(value / of - Math.round(value / of)) < 1e-6;
  const ticks: RuleTick[] = [];
  for (let k = Math.round(from / step); k <= Math.round(to / step); k++) {
    const value = k * step;
    const isEnd = Math.abs(value - from) < 1e-9 || Math.abs(value - to) < 1e-9;
    const isLong = isEnd || k === 0;
    ticks.push({
      at: (value - from) / (to - from),
      weight: isLong ? 2 : isWhole(value, middle) ? 1 : 0,
      label: isLong ? Math.abs(value) : null,
    });
  }
  return { from, to, ticks };
}

/** Place of a length on the rule, 0 to 1; beyond its ends, the end. */
export function onRule({ from, to }: GapRule, inches: number): number {
  return (Math.min(to, Math.max(from, inches)) - from) / (to - from);
}
