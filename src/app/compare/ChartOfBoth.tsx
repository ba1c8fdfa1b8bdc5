/** One measure of both axles as a chart, its cursor tied to the pose: dragging it moves both. */
import { useCallback, useMemo } from 'react';
import { type Measure, MeasureContext, SHOWN } from '../../../geometry/measure/measure.ts';
import type { Pose } from '../../../geometry/pose/pose.ts';
import { inPageUnit, joined, resampled } from '../../charts/chartData.ts';
import type { ChartSpec } from '../../charts/measureChart.ts';
import type { Both } from '../../worker/compareProtocol.ts';
import { chartBounds } from '../answers/charts/bounds.ts';
import {
  alongIn,
  axesOf,
  type Drawn,
  DrivenChart,
  placeOn,
  putRing,
} from '../answers/charts/DrivenChart.tsx';
import type { Columns } from '../answers/charts/useColumns.ts';
import type { Rig } from '../state/rig.ts';
import type { Shop } from '../state/shop.ts';
import { directionsOf, measureName, targetWords, valueText } from '../words/measureWords.ts';
import { NONE, signed } from './compareWords.ts';
import type { BothKnown } from './useBoth.ts';

export interface ChartOfBothProps {
  both: BothKnown;
  measure: Measure;
  columns: Both<Columns>;
}

/** Sides that are drawn of a measure that has more of them: two lines each are enough to read. */
const MOST_SIDES = 2;

export function ChartOfBoth({ both, measure, columns }: ChartOfBothProps) {
  const { a, b, shop } = both;
  const { unit } = shop;
  const { against } = columns.a;
  const targets = useMemo(
    () =>
      columns.a.columns
        .filter(({ id }) => id === measure.id)
        .map(({ target }) => target)
        .slice(0, MOST_SIDES),
    [columns, measure],
  );
  const spec = useMemo((): ChartSpec => {
    const page = (value: number): number => inPageUnit(value, measure.unit, unit);
    const x = joined(columns.a.x, columns.b.x);
    const lines = targets.flatMap(target =>
      (['a', 'b'] as const).map(of => {
        const own = columns[of].columns.find(
          ({ id, target: each }) =>
            id === measure.id && each.part === target.part && each.side === target.side,
        );
        const side = targets.length > 1 ? ` ${targetWords(shop, a.axle, target)}` : '';
        return {
          name: `${of.toUpperCase()}${side}`,
          values: resampled(columns[of].x, own?.values ?? [], x).map(page),
          isOther: of === 'b',
        };
      }),
    );
    return {
      ...axesOf(measure, directionsOf(shop, measure.id), against, unit),
      x: x.map(value => alongIn(against, value, unit)),
      lines,
      between: targets.map((_, i) => [2 * i, 2 * i + 1] as const),
      bounds: chartBounds(a, shop, measure, targets),
      ends: ['', ''],
    };
  }, [columns, targets, a, shop, measure, unit, against]);
  const rings = useMemo(
    () => targets.flatMap(() => ['chart-ring of-a', 'chart-ring of-b']),
    [targets],
  );
  // the cursor stands where A does, the rings at the true values of both
  const write = useCallback(
    ({ made, line, rings, slider, now }: Drawn, state: Shop): void => {
      const { shown, comparing } = state;
      if (state.rig !== a || comparing?.other?.rig !== b) return;
      const contextOf = (rig: Rig, pose: Pose | null | undefined) =>
        pose ? new MeasureContext(rig.build, rig.axle, rig.model, pose) : null;
      const contexts = [
        contextOf(a, shown.pose),
        contextOf(b, comparing.isBeyond ? null : comparing.shown.pose),
      ];
      const at = placeOn(a, against, shown, unit);
      const xs = [at, placeOn(a, against, comparing.shown, unit)].map(place =>
        made.valToPos(place, 'x'),
      );
      line.style.transform = `translateX(${xs[0]}px)`;
      const said: string[] = [];
      for (const [i, target] of targets.entries()) {
        const values = contexts.map((context, of) => {
          const ring = rings[2 * i + of];
          const reading = context ? measure.value(context, target) : null;
          if (ring) ring.hidden = true;
          if (typeof reading !== 'number' || !ring) return null;
          const value = reading * SHOWN[measure.unit];
          putRing(made, ring, xs[of] as number, inPageUnit(value, measure.unit, unit));
          return value;
        });
        const [inA, inB] = values;
        const words = values.map(value =>
          value === null ? NONE : valueText(shop, measure.id, value, measure.unit),
        );
        const less =
          typeof inA === 'number' && typeof inB === 'number'
            ? `, B − A ${signed(shop, inB - inA, measure.unit)}`
            : '';
        said.push(`A ${words[0]}, B ${words[1]}${less}`);
      }
      const text = said.length === 1 ? (said[0] ?? '') : '';
      if (now && now.textContent !== text) now.textContent = text;
      slider?.setAttribute('aria-valuenow', at.toFixed(3));
      slider?.setAttribute('aria-valuetext', said.join('; '));
    },
    [a, b, against, unit, targets, measure, shop],
  );

  const name = measureName(shop, a.axle, measure, { part: null, side: null });
  return (
    <DrivenChart
      {...{ name, measure, spec, unit, rings, write }}
      columns={columns.a}
      label={`${name} of both: place along the walk`}
    />
  );
}
