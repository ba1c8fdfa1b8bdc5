/**
 * The gap scale: how much of what a pair wants is left, in steps. The closer, the more ink. Map, steering, walk and
 * findings share it.
 */

/** Steps, closest first; an index into a palette's `gaps`. */
export const GAP_STEPS = ['deep', 'touch', 'half', 'short', 'wanted', 'double', 'far'] as const;
export type GapStep = (typeof GAP_STEPS)[number];

/** Shares of what is wanted at which a step ends and the next begins: touch, half, wanted, twice, four times. */
export const GAP_LEVELS = [0, 0.5, 1, 2, 4] as const;

/** An overlap over this is the deepest step, in. */
export const DEEP_in = 0.25;

/** The share that is told where a pair wants nothing: as rods would, once it touches. */
const ROD_in = 0.5;

/** Which step a gap is, of the seven; −1 where there is none. */
export function gapStep(share: number, gap: number): number {
  if (Number.isNaN(share)) return -1;
  if (share < 0) return gap < -DEEP_in ? 0 : 1;
  let step = 2;
  for (let i = 1; i < GAP_LEVELS.length && share >= (GAP_LEVELS[i] as number); i++) step++;
  return step;
}

/** A gap as a share of what its pair wants; of a pair that wants nothing an overlap counts as that of rods. */
export function shareOf(gap: number, required: number): number {
  if (required > 0) return gap / required;
  return gap < 0 ? gap / ROD_in : Number.POSITIVE_INFINITY;
}

/** Whether a step is an overlap, which is hatched. */
export const isOverlap = (step: number): boolean => step === 0 || step === 1;
