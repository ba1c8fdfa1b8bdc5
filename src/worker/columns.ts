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
import type { GapMap, MeasureColumn, Place } from './protocol.ts';

function valueAt(cycled: Cycled, measure: Measure, target: Target, pose: Pose): number {
  const { build, axle, model } = cycled;
  const reading = measure.value(new MeasureContext(build, axle, model, pose), target);
  return typeof reading === 'number' ? reading * SHOWN[measure.unit] : Number.NaN;
}

/** A measure straight ahead at each place of the coarse grid; null for a measure that is not in the list. */
export function measureMap(
  cycled: Cycled,
  id: string,
  target: Target,
): (MeasureColumn & Pick<GapMap, 'left' | 'right'>) | null {
  const measure = measures.find(each => each.id === id);
  if (!measure) return null;
  const { grid } = cycled;
  const values = Float64Array.from(grid.places, ({ straight }) =>
    straight ? valueAt(cycled, measure, target, straight) : Number.NaN,
  );
  return { id, target, unit: measure.unit, values, left: grid.left, right: grid.right };
}

/** Measures along a walk; null where one of them is not in the list. */
export function measureColumns(
  cycled: Cycled,
  walk: WalkName,
  wanted: readonly { id: string; target: Target }[],
  at: readonly [number, number],
): { places: Place[]; columns: MeasureColumn[] } | null {
  const poses = walkPoses(walk, cycled.range, cycled.reach, at);
  const columns: MeasureColumn[] = [];
  for (const { id, target } of wanted) {
    const measure = measures.find(each => each.id === id);
    if (!measure) return null;
    const values = Float64Array.from(poses, pose => valueAt(cycled, measure, target, pose));
    columns.push({ id, target, unit: measure.unit, values });
  }
  return { places: poses.map(({ input }) => ({ ...input })), columns };
}
