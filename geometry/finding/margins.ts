/** Must-not-reach limits over a range: the least margin of each, with its pose. */
import type { AxleWalk } from '../cycle/walkReport.ts';
import type { Limit, LimitId, LimitTarget } from '../limit/limit.ts';
import { limits } from '../limit/list.ts';
import { MeasureContext } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';

export interface LeastMargin {
  limit: Limit;
  target: LimitTarget;
  /** Internal unit; negative is broken. */
  margin: number;
  /** What the measure may come to, internal unit. */
  allowed: number;
  pose: Pose;
}

/** Each part's least margin to these limits, least first; parts without a value anywhere are left out. */
export function leastMargins(walk: AxleWalk, ids: readonly LimitId[]): LeastMargin[] {
  const { build, axle, model } = walk;
  return limits
    .filter(limit => ids.includes(limit.id))
    .flatMap(limit =>
      limit.targets(axle, build).flatMap((target): LeastMargin[] => {
        const at = limit.nearestAt?.(axle, target);
        const worst = at && walk.finder?.extremes(at.measure, at.target)[at.extreme];
        if (!worst) return [];
        const { pose, value } = worst;
        const margin = limit.margin(new MeasureContext(build, axle, model, pose), target);
        if (margin === null) return [];
        const allowed = at.extreme === 'greatest' ? value + margin : value - margin;
        return [{ limit, target, margin, allowed, pose }];
      }),
    )
    .sort((a, b) => a.margin - b.margin);
}

/** The margin below zero, as `extentOf` asks for it. */
export const beyond =
  ({ limit, target }: LeastMargin) =>
  (context: MeasureContext): number | null => {
    const margin = limit.margin(context, target);
    return margin === null ? null : -margin;
  };
