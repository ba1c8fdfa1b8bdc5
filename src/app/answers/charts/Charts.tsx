/** Measures against travel, flex or steering: one chart a measure, all with one cursor. */
import { useEffect, useMemo, useState } from 'react';
import { type Against, tableText } from '../../../charts/chartData.ts';
import { useShop } from '../../state/shop.ts';
import { AgainstViews, MeasurePicker, useChartsChosen } from './ChartChoices.tsx';
import { ChartPanel } from './ChartPanel.tsx';
import './Charts.css';
import { type Columns, useColumns } from './useColumns.ts';

const AXIS: Record<Against, readonly [low: string, what: string, high: string]> = {
  both: ['down', 'both wheels', 'up'],
  flexed: ['passenger up', 'driver wheel, the passenger wheel as far the other way', 'driver up'],
  steering: ['left', 'inner tire, at the travel of the handle', 'right'],
};

export default function Charts() {
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const of = useMemo(() => (rig ? [rig] : []), [rig]);
  const { against, measures: chosen } = useChartsChosen(of);
  const at = useSettledTravel();
  const columns = useColumns(against, chosen, at);
  const [low, what, high] = AXIS[against];
  return (
    <>
      <div className="sheet-head charts-head">
        <AgainstViews of={of} against={against} />
        <span className="charts-tools">
          <MeasurePicker of={rig} />
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
