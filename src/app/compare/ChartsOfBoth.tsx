/** Measures of both against travel, flex or steering: A in ink, B in dashed dye, what differs shaded. */
import { useMemo } from 'react';
import { AgainstViews, MeasurePicker, useChartsChosen } from '../answers/charts/ChartChoices.tsx';
import '../answers/charts/Charts.css';
import { useSettled } from '../drive/useSettled.ts';
import { ChartOfBoth } from './ChartOfBoth.tsx';
import { Scroll } from './Scroll.tsx';
import { type BothKnown, useBoth } from './useBoth.ts';
import { useColumnsOfBoth } from './useColumnsOfBoth.ts';

export default function ChartsOfBoth() {
  const both = useBoth();
  return both ? <Shown both={both} /> : <p className="note compared-note">Measuring both axles.</p>;
}

function Shown({ both }: { both: BothKnown }) {
  const { a, b } = both;
  const of = useMemo(() => [a, b], [a, b]);
  const { against, measures } = useChartsChosen(of);
  const { left, right } = useSettled();
  const columns = useColumnsOfBoth(a, b, against, measures, [left, right]);
  return (
    <>
      <div className="numbers-head">
        <AgainstViews of={of} against={against} />
        <MeasurePicker of={a} />
      </div>
      <Scroll label="Charts of both">
        {columns ? (
          <div className="charts-grid">
            {measures.map(measure => (
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
