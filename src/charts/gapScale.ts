/**
 * The gap scale: how much of the wanted gap is left, in steps. The closer, the more ink; never a blend. Map, walk,
 * steering, findings and the 3D view share it.
 */

export const GAP_STEPS = ['deep', 'touch', 'half', 'short', 'wanted', 'double', 'far'] as const;
export type GapStep = (typeof GAP_STEPS)[number];

/** Overlap from which on it is deep, in. */
export const DEEP_in = 0.25;

/** The CSS variable that holds a step's color. */
export const gapColor = (step: GapStep): `--gap-${GapStep}` => `--gap-${step}`;

/** True where parts overlap: drawn hatched beside its color. */
export const isTouch = (step: GapStep): boolean => step === 'deep' || step === 'touch';

/** What is left as a share of what a pair wants; where it wants nothing, all or less than nothing. */
export function shareOf(gap: number, required: number): number {
  if (required > 0) return gap / required;
  return gap < 0 ? -1 : Number.POSITIVE_INFINITY;
}

/**
 * The step of a gap.
 *
 * @param gap in; negative is overlap
 * @param share of the wanted gap
 */
export function gapStep(gap: number, share: number): GapStep {
  if (gap < -DEEP_in) return 'deep';
  if (gap < 0) return 'touch';
  if (share < 0.5) return 'half';
  if (share < 1) return 'short';
  if (share < 2) return 'wanted';
  return share < 4 ? 'double' : 'far';
}
