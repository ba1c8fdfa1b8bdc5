/** One measure as a chart, its cursor tied to the pose. */
import { useCallback, useMemo } from 'react';
import { type Measure, MeasureContext, SHOWN } from '../../../../geometry/measure/measure.ts';
import { briefNames, inPageUnit } from '../../../charts/chartData.ts';
import type { ChartSpec } from '../../../charts/measureChart.ts';
import type { Rig } from '../../state/rig.ts';
import type { Shop } from '../../state/shop.ts';
import { directionsOf, measureName, targetWords, valueText } from '../../words/measureWords.ts';
import { pageShop } from '../../words/shopWords.ts';
import { chartBounds } from './bounds.ts';
import { alongIn, axesOf, type Drawn, DrivenChart, placeOn, putRing } from './DrivenChart.tsx';
import { endsOf } from './ends.ts';
import type { Columns } from './useColumns.ts';

export interface ChartPanelProps {
  rig: Rig;
  measure: Measure;
  columns: Columns;
  unit: 'in' | 'mm';
}

export function ChartPanel({ rig, measure, columns, unit }: ChartPanelProps) {
  const shop = useMemo(() => pageShop(rig.build, unit), [rig, unit]);
  const { against } = columns;
  const lines = useMemo(
    () => columns.columns.filter(({ id }) => id === measure.id),
    [columns, measure],
  );
  const spec = useMemo((): ChartSpec => {
    const page = (value: number): number => inPageUnit(value, measure.unit, unit);
    const names = briefNames(lines.map(({ target }) => targetWords(shop, rig.axle, target)));
    return {
      ...axesOf(measure, directionsOf(shop, measure.id), against, unit),
      x: columns.x.map(value => alongIn(against, value, unit)),
      lines: lines.map(({ values }, i) => ({ name: names[i] ?? '', values: values.map(page) })),
      bounds: chartBounds(
        rig,
        shop,
        measure,
        lines.map(({ target }) => target),
      ),
      ends: endsOf(rig, against),
    };
  }, [columns, lines, rig, shop, measure, unit, against]);
  const rings = useMemo(() => lines.map(() => 'chart-ring'), [lines]);
  // rings stand at the true values, even beside the walk
  const write = useCallback(
    ({ made, line, rings, slider, now }: Drawn, { shown }: Shop): void => {
      const { pose } = shown;
      const value = placeOn(rig, against, shown, unit);
      const x = made.valToPos(value, 'x');
      line.style.transform = `translateX(${x}px)`;
      const context = pose && new MeasureContext(rig.build, rig.axle, rig.model, pose);
      const said: string[] = [];
      for (const [i, { target }] of lines.entries()) {
        const ring = rings[i];
        const reading = context ? measure.value(context, target) : null;
        if (!ring) continue;
        ring.hidden = true;
        if (typeof reading !== 'number') continue;
        const known = reading * SHOWN[measure.unit];
        putRing(made, ring, x, inPageUnit(known, measure.unit, unit));
        said.push(valueText(shop, measure.id, known, measure.unit));
      }
      const text = lines.length <= 2 ? said.join(', ') : '';
      if (now && now.textContent !== text) now.textContent = text;
      slider?.setAttribute('aria-valuenow', value.toFixed(3));
      slider?.setAttribute('aria-valuetext', said.slice(0, 4).join(', '));
    },
    [rig, against, unit, lines, measure, shop],
  );

  const name = measureName(shop, rig.axle, measure, { part: null, side: null });
  return (
    <DrivenChart
      {...{ name, measure, spec, columns, unit, rings, write }}
      label={`${name}: place along the walk`}
    >
      <p className="visually-hidden">{summary(shop, measure, lines, spec)}</p>
    </DrivenChart>
  );
}

/** What a line does, in words: for those who do not see it. */
function summary(
  shop: ReturnType<typeof pageShop>,
  measure: Measure,
  lines: Columns['columns'],
  spec: ChartSpec,
): string {
  return lines
    .map(({ values }, i) => {
      const known = Array.from(values).filter(value => Number.isFinite(value));
      const name = spec.lines[i]?.name ?? '';
      const head = name === '' ? '' : `${name}: `;
      if (known.length === 0) return `${head}no value along this walk.`;
      const words = (value: number): string => valueText(shop, measure.id, value, measure.unit);
      return `${head}from ${words(known[0] as number)} to ${words(known.at(-1) as number)}, least ${words(Math.min(...known))}, greatest ${words(Math.max(...known))}.`;
    })
    .join(' ');
}
