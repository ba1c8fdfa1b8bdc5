/** What a person picked to see among the answers; kept from visit to visit. */
import { create } from 'zustand';
import { createJSONStorage, persist } from 'zustand/middleware';
import { AGAINST, type Against } from '../../charts/chartData.ts';

export interface Choices {
  /** Keys of live numbers in their order; null: those that the page picks. */
  here: string[] | null;
  /** Ids of measures that are drawn. */
  charts: string[];
  against: Against;
}

const START: Choices = {
  here: null,
  charts: ['axleSteer', 'bumpSteer', 'pinionAngle', 'lateralShift'],
  against: 'both',
};

const isList = (value: unknown): value is string[] =>
  Array.isArray(value) && value.every(each => typeof each === 'string');

/** Stored choices are somebody's text: what is not as it should be is left out. */
function merged(stored: unknown, now: Choices): Choices {
  const of = (typeof stored === 'object' && stored !== null ? stored : {}) as Partial<Choices>;
  return {
    here: isList(of.here) ? of.here : now.here,
    charts: isList(of.charts) ? of.charts : now.charts,
    against: AGAINST.find(each => each === of.against) ?? now.against,
  };
}

export const useChoices = create<Choices>()(
  persist((): Choices => START, {
    name: 'axlewalk.answers',
    storage: createJSONStorage(() => localStorage),
    merge: merged,
  }),
);

export function choose(change: Partial<Choices>): void {
  useChoices.setState(change);
}
