/** Measures of both against travel, flex or steering: A in ink, B in dashed dye, what differs shaded. */
import { useMemo } from 'react';
import { sentence } from '../../../geometry/finding/words.ts';
import { measures } from '../../../geometry/measure/list.ts';
import { AGAINST, type Against } from '../../charts/chartData.ts';
import { choose, useChoices } from '../answers/choices.ts';
import '../answers/charts/Charts.css';
import { Picker } from '../answers/Picker.tsx';
import { useSettled } from '../drive/useSettled.ts';
import { measureGroups } from '../words/measureWords.ts';
import { ChartOfBoth } from './ChartOfBoth.tsx';
import { Scroll } from './Scroll.tsx';
import { type BothKnown, useBoth } from './useBoth.ts';
import { useColumnsOfBoth } from './useColumnsOfBoth.ts';

const WORDS: Record<Against, string> = {
  both: 'Both wheels',
  flexed: 'Flexed',
  steering: 'Steering',
};

export default function ChartsOfBoth() {
  const both = useBoth();
  return both ? <Shown both={both} /> : <p className="note compared-note">Measuring both axles.</p>;
}

function Shown({ both }: { both: BothKnown }) {
  const { a, b } = both;
  const isSteered = a.axle.steered && b.axle.steered;
  const against = useChoices(choices =>
    choices.against === 'steering' && !isSteered ? 'both' : choices.against,
  );
  const ids = useChoices(choices => choices.charts);
  const { left, right } = useSettled();
  const chosen = useMemo(
    () =>
      ids.flatMap(id => {
        const measure = measures.find(each => each.id === id);
        const has = [a, b].every(({ axle, build }) => measure?.targets(axle, build).length);
        return measure && has ? [measure] : [];
      }),
    [ids, a, b],
  );
  const columns = useColumnsOfBoth(a, b, against, chosen, [left, right]);
  const options = useMemo(
    () =>
      measureGroups().flatMap(({ title, measures: list }) =>
        list
          .filter(measure => measure.targets(a.axle, a.build).length > 0)
          .map(({ id, label, definition }) => ({
            key: id,
            group: title,
            label: sentence(label),
            definition,
          })),
      ),
    [a],
  );
  return (
    <>
      <div className="numbers-head">
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
        <Picker
          label="Measures: choose"
          text="Measures"
          options={options}
          chosen={ids}
          choose={charts => choose({ charts })}
        />
      </div>
      <Scroll label="Charts of both">
        {columns ? (
          <div className="charts-grid">
            {chosen.map(measure => (
              <ChartOfBoth key={measure.id} both={both} measure={measure} columns={columns} />
            ))}
          </div>
        ) : (
          <p className="note">Working out both walks.</p>
        )}
      </Scroll>
    </>
  );
}
