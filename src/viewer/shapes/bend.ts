/** Bent lines: corners that a tube bender would leave. */
import { add, distance, dot, scale, sub, unit, type V3 } from '../../../geometry/vector.ts';

/** Steps of one bend. */
const STEPS = 6;

/**
 * A line with its corners rounded by arcs of this radius, or of a smaller one where a leg is too short for it.
 * Ends stay where they are; the arcs are tangent to the legs.
 */
export function rounded(points: readonly V3[], radius: number): V3[] {
  const out: V3[] = [];
  for (const [i, corner] of points.entries()) {
    const before = points[i - 1];
    const after = points[i + 1];
    if (!before || !after) {
      out.push(corner);
      continue;
    }
    const back = unit(sub(before, corner));
    const on = unit(sub(after, corner));
    const half = Math.acos(Math.min(1, Math.max(-1, dot(back, on)))) / 2;
    const longest = 0.48 * Math.min(distance(before, corner), distance(after, corner));
    const leg = Math.min(longest, radius / Math.tan(half));
    // nearly straight, or folded back: nothing to round
    if (!(leg > 1e-3) || half > 1.55) {
      out.push(corner);
      continue;
    }
    const r = leg * Math.tan(half);
    const center = add(corner, scale(unit(add(back, on)), r / Math.sin(half)));
    const start = sub(add(corner, scale(back, leg)), center);
    const end = sub(add(corner, scale(on, leg)), center);
    const turn = Math.PI - 2 * half;
    for (let k = 0; k <= STEPS; k++) {
      const t = k / STEPS;
      // spherical interpolation between the two radii
      const s = Math.sin(turn);
      const mix = add(
        scale(start, Math.sin((1 - t) * turn) / s),
        scale(end, Math.sin(t * turn) / s),
      );
      out.push(add(center, mix));
    }
  }
  return out;
}
