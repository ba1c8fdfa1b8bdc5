/** Steps of a measure's own scale: round numbers in the unit that it is read in, few of them. */
import { MEASURE_STEPS } from './palette.ts';

/** Round numbers are 1, 2 and 5 times a power of ten, or on a tape halves down to a sixteenth. */
export type Round = 'decimal' | 'tape';

export interface MeasureScale {
  /** Where a step ends and the next begins, rising; one less than there are steps. */
  levels: number[];
  /** Of each step, which of the palette's colors it has. */
  colors: number[];
}

/**
 * Round steps that hold all values; a constant has one step and no levels.
 *
 * @param perValue what one of the values is in the unit that it is read in, where levels are round
 */
export function measureScale(
  values: ArrayLike<number>,
  perValue = 1,
  round: Round = 'decimal',
): MeasureScale {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const v = values[i] as number;
    if (!Number.isFinite(v)) continue;
    least = Math.min(least, v);
    most = Math.max(most, v);
  }
  if (!(most > least)) return { levels: [], colors: [0] };
  const [low, high] = [least * perValue, most * perValue];
  let step = roundStep((high - low) / MEASURE_STEPS, round);
  let levels = levelsBetween(low, high, step);
  // with a level near either end there may be one step too many
  while (levels.length >= MEASURE_STEPS) {
    step = roundStep(1.01 * step, round);
    levels = levelsBetween(low, high, step);
  }
  levels = levels.map(level => level / perValue);
  const steps = levels.length + 1;
  const colors = Array.from({ length: steps }, (_, i) =>
    steps === 1 ? 0 : Math.round((i * (MEASURE_STEPS - 1)) / (steps - 1)),
  );
  return { levels, colors };
}

/** Multiples of a step between two values. */
function levelsBetween(low: number, high: number, step: number): number[] {
  const first = Math.floor(low / step + 1e-9) + 1;
  const last = Math.ceil(high / step - 1e-9) - 1;
  // no −0, and no 0.30000000000000004
  return Array.from(
    { length: Math.max(0, last - first + 1) },
    (_, k) => Number(((first + k) * step).toPrecision(12)) + 0,
  );
}

/** Which step a value is in. */
export function stepAt({ levels }: MeasureScale, value: number): number {
  if (Number.isNaN(value)) return -1;
  let step = 0;
  while (step < levels.length && value >= (levels[step] as number)) step++;
  return step;
}

/** A round number that is not under what is asked. */
export function roundStep(least: number, round: Round = 'decimal'): number {
  if (round === 'tape' && least <= 1) return 2 ** Math.max(-4, Math.ceil(Math.log2(least) - 1e-9));
  const power = 10 ** Math.floor(Math.log10(least));
  const found = [1, 2, 5, 10].find(each => each * power >= least * (1 - 1e-9));
  return (found ?? 10) * power;
}
