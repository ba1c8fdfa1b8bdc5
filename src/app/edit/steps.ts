/** The steps of the build that can be undone and done again. */
import { useStore } from 'zustand';
import { type Remembered, useShop } from '../state/shop.ts';

export const history = () => useShop.temporal.getState();

/** Another build has no steps yet. */
export const forgetSteps = (): void => history().clear();

interface Steps {
  /** What was done, oldest first, in words. */
  done: string[];
  /** What was undone, next first. */
  undone: string[];
}

const wordsOf = ({ document }: Partial<Remembered>): string => document?.step ?? 'As opened';

/** The steps in words: each is what was done to come to a state. */
export function useSteps(): Steps {
  const past = useStore(useShop.temporal, ({ pastStates }) => pastStates);
  const future = useStore(useShop.temporal, ({ futureStates }) => futureStates);
  const now = useShop(({ document }) => document?.step);
  const states = [...past.slice(1).map(wordsOf), ...(past.length > 0 && now ? [now] : [])];
  return { done: states, undone: future.map(wordsOf).toReversed() };
}
