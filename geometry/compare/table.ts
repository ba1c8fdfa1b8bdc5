/**
 * Every measure of two axles side by side, at each place of the comparison.
 *
 * A table holds what is asked (measures with their targets, and places) and what each axle answers; the same
 * questions are put to shifted builds when it is asked what a difference is worth.
 */
import type { Axle, Build } from '../build/build.ts';
import { measures } from '../measure/list.ts';
import { type Measure, MeasureContext, SHOWN, type Target } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';
import { inputAt, type Measured, type Of, type Place } from './places.ts';

/** A measure of a target that one of the two has at least. */
export interface Column {
  measure: Measure;
  target: Target;
  has: Record<Of, boolean>;
}

/** A value as shown, or in words why there is none. */
export type Shown = number | { missing: string };

export interface Table {
  columns: Column[];
  places: Place[];
  /** What each axle answers: place after place, in each the columns. */
  values: Record<Of, Shown[]>;
}

/** Measures two axles at these places. */
export function tableOf(a: Measured, b: Measured, places: readonly Place[]): Table {
  const columns = columnsOf(a, b);
  const table: Table = { columns, places: [...places], values: { a: [], b: [] } };
  for (const of of ['a', 'b'] as const) {
    table.values[of] = answers(table, of === 'a' ? a : b, of);
  }
  return table;
}

/** What a build's axle answers to a table's questions as one of the two. */
export function answers(table: Pick<Table, 'columns' | 'places'>, own: Measured, of: Of): Shown[] {
  return table.places.flatMap(place => {
    if (place.short?.of === of) {
      const missing = { missing: 'it does not reach this pose' };
      return table.columns.map(() => missing);
    }
    const { left, right, steer } = inputAt(place, of);
    const { pose, status, part } = own.model.pose(left, right, steer);
    if (!pose) {
      const missing = { missing: `${status}${part === null ? '' : `: ${part}`}` };
      return table.columns.map(() => missing);
    }
    return readings(table.columns, own, of, pose);
  });
}

function readings(columns: readonly Column[], own: Measured, of: Of, pose: Pose): Shown[] {
  const context = new MeasureContext(own.build, own.axle, own.model, pose);
  return columns.map(({ measure, target, has }) => {
    if (!has[of]) return { missing: `it has no ${target.part ?? 'such part'}` };
    const reading = measure.value(context, target);
    return typeof reading === 'number' ? reading * SHOWN[measure.unit] : reading;
  });
}

/** The measures of both, in the list's order; what only the second has stands behind what the first has. */
function columnsOf(a: Measured, b: Measured): Column[] {
  return measures.flatMap(measure => {
    const [ofA, ofB] = [targets(measure, a), targets(measure, b)];
    const has = (list: readonly Target[], target: Target): boolean =>
      list.some(each => each.part === target.part && each.side === target.side);
    return [...ofA, ...ofB.filter(target => !has(ofA, target))].map(target => ({
      measure,
      target,
      has: { a: has(ofA, target), b: has(ofB, target) },
    }));
  });
}

const targets = (measure: Measure, { axle, build }: { axle: Axle; build: Build }): Target[] =>
  measure.targets(axle, build);
