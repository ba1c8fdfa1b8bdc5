/** Must-not-reach limits as bounds on measures: margin = way · (bound − value). */
import type { Axle } from '../build/build.ts';
import type { Measure, Target } from '../measure/measure.ts';
import type { Limit, LimitTarget } from './limit.ts';

/** A measure that may not pass a value. */
export interface Bound {
  target: LimitTarget;
  measure: Measure;
  of: Target;
  /** +1: `value` is the greatest allowed; −1: the least. */
  way: 1 | -1;
  /** In the measure's internal unit. */
  value: number;
}

/**
 * The limit that keeps measures within their bounds.
 *
 * @param boundsOf every part that has such a limit; asked once for each axle
 */
export function boundLimit(
  head: Pick<Limit, 'id' | 'unit' | 'label'>,
  boundsOf: (axle: Axle) => Bound[],
): Limit {
  const known = new WeakMap<Axle, Bound[]>();
  const all = (axle: Axle): Bound[] => {
    const bounds = known.get(axle) ?? boundsOf(axle);
    known.set(axle, bounds);
    return bounds;
  };
  const boundOf = (axle: Axle, { part, end }: LimitTarget): Bound => {
    const found = all(axle).find(({ target }) => target.part === part && target.end === end);
    if (!found) throw new Error(`'${part}' has no ${head.id}`);
    return found;
  };
  return {
    ...head,
    role: 'mustNot',
    targets: axle => all(axle).map(({ target }) => target),
    margin: (context, target) => {
      const { measure, of, way, value } = boundOf(context.axle, target);
      const reading = measure.value(context, of);
      return typeof reading === 'number' ? way * (value - reading) : null;
    },
    slope: (context, target) => {
      const { measure, of, way } = boundOf(context.axle, target);
      const slope = measure.slope(context, of);
      return slope && [-way * slope[0], -way * slope[1], -way * slope[2]];
    },
    nearestAt: (axle, target) => {
      const { measure, of, way } = boundOf(axle, target);
      return { measure, target: of, extreme: way > 0 ? 'greatest' : 'least' };
    },
  };
}
