/** What is wanted of a measure, and what it must not pass: as bounds of its chart. */
import { boundsOf } from '../../../../geometry/finding/wanted.ts';
import type { Shop } from '../../../../geometry/finding/words.ts';
import { limits } from '../../../../geometry/limit/list.ts';
import {
  type Measure,
  MeasureContext,
  SHOWN,
  type Target,
} from '../../../../geometry/measure/measure.ts';
import { inPageUnit } from '../../../charts/chartData.ts';
import type { ChartBound } from '../../../charts/measureChart.ts';
import type { Rig } from '../../state/rig.ts';
import { valueText } from '../../words/measureWords.ts';

export function chartBounds(
  rig: Rig,
  shop: Shop,
  measure: Measure,
  targets: readonly Target[],
): ChartBound[] {
  const { build, axle, model } = rig;
  const found = new Map<string, ChartBound>();
  const put = (inside: number, way: ChartBound['way'], what: string): void => {
    const shown = inside * SHOWN[measure.unit];
    const value = inPageUnit(shown, measure.unit, shop.unit);
    const text = `${what}: ${valueText(shop, measure.id, shown, measure.unit)}`;
    found.set(`${way} ${value.toFixed(6)}`, { value, way, text });
  };
  const ride = new MeasureContext(build, axle, model, model.ride);
  for (const target of targets) {
    for (const { least, greatest } of boundsOf(build, axle, measure, target)) {
      if (least !== null) put(least, 'least', 'wanted');
      if (greatest !== null) put(greatest, 'greatest', 'wanted');
    }
    for (const limit of limits) {
      for (const each of limit.nearestAt ? limit.targets(axle, build) : []) {
        const near = limit.nearestAt?.(axle, each);
        const isIt =
          near?.measure === measure &&
          near.target.part === target.part &&
          near.target.side === target.side;
        const margin = isIt ? limit.margin(ride, each) : null;
        const reading = isIt ? measure.value(ride, target) : null;
        if (!near || margin === null || typeof reading !== 'number') continue;
        // a margin is what is left to the bound, so that both together are the bound
        const sign = near.extreme === 'greatest' ? 1 : -1;
        put(reading + sign * margin, near.extreme, 'limit');
      }
    }
  }
  return [...found.values()];
}
