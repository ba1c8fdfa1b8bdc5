/** From which side a spot is seen best. */
import type { Part } from '../../geometry/gap/part.ts';
import { capsule } from '../../geometry/solid/capsule.ts';
import { DistanceSolver } from '../../geometry/solid/distance.ts';
import { unmoved } from '../../geometry/solid/placement.ts';
import { add, scale, type V3 } from '../../geometry/vector.ts';

/** Begins this far before the spot, so that the parts that meet there do not count, in. */
const BEFORE_in = 2.5;
const FAR_in = 130;

/**
 * The direction (unit, from the spot to the eye) with the fewest parts in the way; the earlier one where two are
 * alike.
 *
 * @param places where the parts stand
 * @param isInTheWay parts that are seen through, or that meet there, are not
 */
export function clearestDirection(
  spot: V3,
  parts: readonly Part[],
  places: readonly Float64Array[],
  isInTheWay: (part: Part) => boolean,
  directions: readonly V3[],
): V3 {
  const solver = new DistanceSolver();
  solver.cutoff = 0.01;
  const here = unmoved();
  let best = directions[0] as V3;
  let least = Infinity;
  for (const direction of directions) {
    const from = add(spot, scale(direction, BEFORE_in));
    const ray = capsule({ from, to: add(spot, scale(direction, FAR_in)), radius: 0.6 });
    if (!('solid' in ray)) continue;
    let count = 0;
    for (const [i, part] of parts.entries()) {
      if (!isInTheWay(part)) continue;
      solver.run(part.solid, places[i] as Float64Array, ray.solid, here);
      if (!solver.beyond && solver.gap < 0) count += part.kind === 'tire' ? 3 : 1;
    }
    if (count < least) {
      least = count;
      best = direction;
    }
  }
  return best;
}
