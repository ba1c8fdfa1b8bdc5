/** Gaps along a line of samples as runs of one color. */
import { gapStep } from './gapScale.ts';

export interface GapRun {
  /** px, whole; `to` is where the next begins. */
  from: number;
  to: number;
  step: number;
}

export interface GapSamples {
  share: ArrayLike<number>;
  gap: ArrayLike<number>;
}

/** A value between two samples. */
export function sampleAt(values: ArrayLike<number>, at: number): number {
  const last = values.length - 1;
  const held = Math.min(last, Math.max(0, at));
  const i = Math.min(last - 1, Math.floor(held));
  if (last <= 0) return values[0] ?? Number.NaN;
  const [a, b] = [values[i] as number, values[i + 1] as number];
  const t = held - i;
  if (t === 0) return a;
  if (t === 1) return b;
  // what is far goes on to where something is near
  if (a === Number.POSITIVE_INFINITY || b === Number.POSITIVE_INFINITY) return Math.max(a, b);
  return a + t * (b - a);
}

/**
 * Runs over whole pixels.
 *
 * @param at place among the samples, a fraction of an index, of a pixel's middle
 */
export function gapRuns(
  samples: GapSamples,
  from: number,
  to: number,
  at: (x: number) => number,
): GapRun[] {
  const out: GapRun[] = [];
  if (samples.share.length === 0) return out;
  for (let x = Math.floor(from); x < to; x++) {
    const where = at(x + 0.5);
    const step = gapStep(sampleAt(samples.share, where), sampleAt(samples.gap, where));
    const last = out.at(-1);
    if (last && last.step === step) last.to = x + 1;
    else out.push({ from: x, to: x + 1, step });
  }
  return out;
}
