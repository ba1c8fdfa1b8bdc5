/** What was known before the last change of the build, to be held against what is known after it. */
import type { Action } from './action.ts';
import type { Results, Shop } from './shop.ts';

export interface Did {
  /** What was done, in words; several where one came before the other was checked. */
  steps: readonly string[];
  /** It was undone or done again: the steps say how to go back from there. */
  isStepBack: boolean;
  /** Findings and gaps before. */
  before: Pick<Results, 'findings' | 'gaps'>;
  /** It was put away; the next change shows its own. */
  isPutAway: boolean;
}

/** A change that comes before the last one was checked is told together with it. */
export function didOf(
  { did, trial, results }: Shop,
  words: string,
  isStepBack: boolean,
): Did | null {
  const { findings, gaps, isFinal } = trial?.results ?? results;
  const last = { isStepBack, isPutAway: false };
  if (!isFinal) return did && { ...did, steps: [...did.steps, words], ...last };
  return { steps: [words], before: { findings, gaps }, ...last };
}

/** What it did has been read: the numbers at the handle come back in its place. */
export const putDidAway: Action = {
  name: 'putDidAway',
  label: 'Keep the change, and put away what it did',
  run: ({ did }) => ({ did: did && { ...did, isPutAway: true } }),
};
