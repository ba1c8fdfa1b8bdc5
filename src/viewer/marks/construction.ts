/** Construction lines: the axle roll axis through the roll center, and the side view instant center. */
import type { Axle, Build } from '../../../geometry/build/build.ts';
import { groundPoint } from '../../../geometry/measure/ground.ts';
import { measures } from '../../../geometry/measure/list.ts';
import { AXLE_TARGET, MeasureContext } from '../../../geometry/measure/measure.ts';
import type { AxleModel } from '../../../geometry/pose/model.ts';
import type { Pose } from '../../../geometry/pose/pose.ts';
import type { V3 } from '../../../geometry/vector.ts';

export interface ConstructionLine {
  id: 'rollAxis' | 'instantCenter';
  label: string;
  from: V3;
  to: V3;
  /** Where a dot and the label go. */
  at: V3;
}

/** How far the roll axis is drawn before and behind the axle, in. */
const REACH_in = 46;
/** An instant center that is further off is not drawn: its line tells the direction no better. */
const FAR_in = 400;

/** What there is of them at a pose. */
export function constructionAt(
  build: Build,
  axle: Axle,
  model: AxleModel,
  pose: Pose,
): ConstructionLine[] {
  const context = new MeasureContext(build, axle, model, pose);
  const read = (id: string): number | null => {
    const found = measures.find(measure => measure.id === id);
    const value = found?.value(context, AXLE_TARGET[0] as (typeof AXLE_TARGET)[number]);
    return typeof value === 'number' && Number.isFinite(value) ? value : null;
  };
  const out: ConstructionLine[] = [];
  const [x, y, z] = groundPoint(pose);
  const height = read('rollCenterHeight');
  const slope = read('axleRollAxisSlope');
  if (height !== null && slope !== null) {
    const at: V3 = [x, y, z + height];
    const end = (by: number): V3 => [x + by, y, z + height + by * slope];
    out.push({ id: 'rollAxis', label: 'Roll axis', from: end(-REACH_in), to: end(REACH_in), at });
  }
  const centerX = read('sideViewCenterX');
  const centerZ = read('sideViewCenterZ');
  if (centerX !== null && centerZ !== null && Math.abs(centerX - x) < FAR_in) {
    const at: V3 = [centerX, y, centerZ];
    out.push({ id: 'instantCenter', label: 'Instant center', from: [x, y, z], to: at, at });
  }
  return out;
}
