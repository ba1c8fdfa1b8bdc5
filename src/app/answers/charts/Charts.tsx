/** Measures against travel, flex or steering: one chart a measure, all with one cursor. */
import { useEffect, useMemo, useState } from 'react';
import { sentence } from '../../../../geometry/finding/words.ts';
import { measures } from '../../../../geometry/measure/list.ts';
import { AGAINST, type Against, tableText } from '../../../charts/chartData.ts';
import { useShop } from '../../state/shop.ts';
import { measureGroups } from '../../words/measureWords.ts';
import { choose, useChoices } from '../choices.ts';
import { Picker } from '../Picker.tsx';
import { ChartPanel } from './ChartPanel.tsx';
import './Charts.css';
import { type Columns, useColumns } from './useColumns.ts';

const WORDS: Record<Against, string> = {
  both: 'Both wheels',
  flexed: 'Flexed',
  steering: 'Steering',
};

const AXIS: Record<Against, readonly [low: string, what: string, high: string]> = {
  both: ['down', 'both wheels', 'up'],
  flexed: ['passenger up', 'driver wheel, the passenger wheel as far the other way', 'driver up'],
  steering: ['left', 'inner tire, at the travel of the handle', 'right'],
};

export default function Charts() {
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const against = useChoices(choices =>
    choices.against === 'steering' && rig && !rig.axle.steered ? 'both' : choices.against,
  );
  const ids = useChoices(choices => choices.charts);
  const at = useSettledTravel();
  const chosen = useMemo(
    () =>
      ids.flatMap(id => {
        const measure = measures.find(each => each.id === id);
        const has = rig && measure && measure.targets(rig.axle, rig.build).length > 0;
        return measure && has ? [measure] : [];
      }),
    [ids, rig],
  );
  const columns = useColumns(against, chosen, at);
  const options = useMemo(
    () =>
      measureGroups().flatMap(({ title, measures: list }) =>
        list
          .filter(measure => rig && measure.targets(rig.axle, rig.build).length > 0)
          .map(({ id, label, definition }) => ({
            key: id,
            group: title,
            label: sentence(label),
            definition,
          })),
      ),
    [rig],
  );
  const [low, what, high] = AXIS[against];
  return (
    <>
      <div className="sheet-head charts-head">
        <fieldset className="views" aria-label="Against">
          {AGAINST.filter(each => each !== 'steering' || rig?.axle.steered).map(each => (
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
        <span className="charts-tools">
          <Picker
            label="Measures: choose"
            text="Measures"
            options={options}
            chosen={ids}
            choose={charts => choose({ charts })}
          />
          <button
            type="button"
            className="quiet"
            disabled={!columns}
            title="Save the shown columns as comma-separated values"
            onClick={() => columns && save(columns)}
          >
            CSV
          </button>
        </span>
      </div>
      <div className="charts">
        <p className="charts-axis note">
          <span>◂ {low}</span>
          <span>{what}</span>
          <span>{high} ▸</span>
        </p>
        {rig && columns && (
          <div className="charts-grid">
            {chosen
              .filter(({ id }) => columns.columns.some(column => column.id === id))
              .map(measure => (
                <ChartPanel
                  key={measure.id}
                  rig={rig}
                  measure={measure}
                  columns={columns}
                  unit={unit}
                />
              ))}
          </div>
        )}
        {chosen.length === 0 && (
          <p className="note sheet-note">No measure is chosen. Pick some under Measures.</p>
        )}
        {chosen.length > 0 && !columns && <p className="note sheet-note">Working out the walk.</p>}
      </div>
    </>
  );
}

/** How long the handle rests before lock to lock is worked out anew at its travel, ms. */
const REST_ms = 250;

/** The handle's travels, once it rests. */
function useSettledTravel(): readonly [left: number, right: number] {
  const [at, setAt] = useState<readonly [number, number]>(() => {
    const { left, right } = useShop.getState().shown.handle;
    return [left, right];
  });
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const end = useShop.subscribe(
      shop => shop.shown.handle,
      ({ left, right }) => {
        clearTimeout(timer);
        timer = setTimeout(
          () => setAt(now => (now[0] === left && now[1] === right ? now : [left, right])),
          REST_ms,
        );
      },
    );
    return () => {
      clearTimeout(timer);
      end();
    };
  }, []);
  return at;
}

/** Hands the shown columns over as a file: travels in in, steering input in deg of pitman arm or in of ram. */
function save({ rig, places, columns, against }: Columns): void {
  const isAngle = rig.model.mechanism.steering?.unit !== 'in';
  const text = tableText([
    { head: 'left (in)', values: places.map(({ left }) => left) },
    { head: 'right (in)', values: places.map(({ right }) => right) },
    {
      head: `steer (${isAngle ? 'deg' : 'in'})`,
      values: places.map(({ steer }) => (isAngle ? (steer * 180) / Math.PI : steer)),
    },
    ...columns.map(({ id, target, unit, values }) => {
      const of = target.side ?? target.part;
      return { head: of === null ? `${id} (${unit})` : `${id} [${of}] (${unit})`, values };
    }),
  ]);
  const url = URL.createObjectURL(new Blob([text], { type: 'text/csv' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = `${rig.build.name} ${rig.axle.name} ${against}.csv`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 1000);
}
