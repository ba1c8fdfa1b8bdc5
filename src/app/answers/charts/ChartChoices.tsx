/** What charts run against, and which measures they show: the same for one axle and for two. */
import { useMemo } from 'react';
import type { Axle, Build } from '../../../../geometry/build/build.ts';
import { sentence } from '../../../../geometry/finding/words.ts';
import { measures } from '../../../../geometry/measure/list.ts';
import type { Measure } from '../../../../geometry/measure/measure.ts';
import { AGAINST, type Against } from '../../../charts/chartData.ts';
import { measureGroups } from '../../words/measureWords.ts';
import { choose, useChoices } from '../choices.ts';
import { Picker } from '../Picker.tsx';

const WORDS: Record<Against, string> = {
  both: 'Both wheels',
  flexed: 'Flexed',
  steering: 'Steering',
};

/** An axle of a build that is charted. */
export interface Charted {
  axle: Axle;
  build: Build;
}

export interface ChartsChosen {
  against: Against;
  /** That every axle has a value of. */
  measures: readonly Measure[];
}

/** @param of the axles that are charted; steering is offered where all of them steer */
export function useChartsChosen(of: readonly Charted[]): ChartsChosen {
  const isSteered = isAllSteered(of);
  const against = useChoices(choices =>
    choices.against === 'steering' && !isSteered ? 'both' : choices.against,
  );
  const ids = useChoices(choices => choices.charts);
  const chosen = useMemo(
    () =>
      ids.flatMap(id => {
        const measure = measures.find(each => each.id === id);
        return measure && of.length > 0 && of.every(each => has(measure, each)) ? [measure] : [];
      }),
    [ids, of],
  );
  return { against, measures: chosen };
}

const isAllSteered = (of: readonly Charted[]): boolean => of.every(({ axle }) => axle.steered);
const has = (measure: Measure, { axle, build }: Charted): boolean =>
  measure.targets(axle, build).length > 0;

export function AgainstViews({ of, against }: { of: readonly Charted[]; against: Against }) {
  const isSteered = isAllSteered(of);
  return (
    <fieldset className="views" aria-label="Against">
      {AGAINST.filter(each => each !== 'steering' || isSteered).map(each => (
        <button
          key={each}
          type="button"
          aria-pressed={against === each}
          onClick={() => choose({ against: each })}
        >
          {WORDS[each]}
        </button>
      ))}
    </fieldset>
  );
}

/** @param of null: there is nothing to chart yet */
export function MeasurePicker({ of }: { of: Charted | null }) {
  const ids = useChoices(choices => choices.charts);
  const options = useMemo(
    () =>
      measureGroups().flatMap(({ title, measures: list }) =>
        list
          .filter(measure => of && has(measure, of))
          .map(({ id, label, definition }) => ({
            key: id,
            group: title,
            label: sentence(label),
            definition,
          })),
      ),
    [of],
  );
  return (
    <Picker
      label="Measures: choose"
      text="Measures"
      options={options}
      chosen={ids}
      choose={charts => choose({ charts })}
    />
  );
}
