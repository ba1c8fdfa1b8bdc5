/** Measures over the map's grid and along walks, as columns for charts and maps. */
import { type WalkName, walkPoses } from '../../geometry/cycle/walk.ts';
import type { Cycled } from '../../geometry/cycle/walkReport.ts';
import { measures } from '../../geometry/measure/list.ts';
import {
  type Measure,
  MeasureContext,
  SHOWN,
  type Target,
} from '../../geometry/measure/measure.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import type { MeasureColumn, MeasureMap, Place } from './protocol.ts';
import type { WideGrid } from './wideGrid.ts';

function valueAt(cycled: Cycled, measure: Measure, target: Target, pose: Pose): number {
  const { build, axle, model } = cycled;
  const reading = measure.value(new MeasureContext(build, axle, model, pose), target);
  return typeof reading === 'number' ? reading * SHOWN[measure.unit] : Number.NaN;
}

/**
 * A measure straight ahead over the refined grid, or over the coarse one while that is not made; null for a measure
 * that is not in the list. Stops after each place.
 */
export function* measureMap(
  cycled: Cycled,
  wide: WideGrid | null,
  id: string,
  target: Target,
): Generator<void, MeasureMap | null> {
  const measure = measures.find(each => each.id === id);
  if (!measure) return null;
  const { left, right, places } = wide ?? cycled.grid;
  const values = new Float64Array(places.length).fill(Number.NaN);
  for (const [k, { straight }] of places.entries()) {
    if (!straight) continue;
    values[k] = valueAt(cycled, measure, target, straight);
    yield;
  }
  const isIn = wide?.inside.slice() ?? Uint8Array.from(places, p => (p.straight ? 1 : 0));
  return {
    id,
    target,
    unit: measure.unit,
    values,
    left: left.slice(),
    right: right.slice(),
    inside: isIn,
  };
}

/** Measures along a walk; null where one of them is not in the list. Stops after each pose. */
export function* measureColumns(
  cycled: Cycled,
  walk: WalkName,
  wanted: readonly { id: string; target: Target }[],
  at: readonly [number, number],
): Generator<void, { places: Place[]; columns: MeasureColumn[] } | null> {
  const poses = walkPoses(walk, cycled.range, cycled.reach, at);
  yield;
  const { build, axle, model } = cycled;
  const list = wanted.map(({ id, target }) => ({
    measure: measures.find(each => each.id === id),
    target,
    values: new Float64Array(poses.length),
  }));
  for (const [i, pose] of poses.entries()) {
    // one context a pose: measures share the poses that they are compared with
    const context = new MeasureContext(build, axle, model, pose);
    for (const { measure, target, values } of list) {
      if (!measure) return null;
      const reading = measure.value(context, target);
      values[i] = typeof reading === 'number' ? reading * SHOWN[measure.unit] : Number.NaN;
    }
    yield;
  }
  const columns = list.flatMap(({ measure, target, values }): MeasureColumn[] =>
    measure ? [{ id: measure.id, target, unit: measure.unit, values }] : [],
  );
  return { places: poses.map(({ input }) => ({ ...input })), columns };
}
