/**
 * Distance of two segments, in closed form (Ericson, Real-Time Collision Detection, §5.1.9, from memory).
 *
 * Segments p + s d, q + t e with s, t from 0 to 1, r = p − q. The squared distance is convex in (s, t), so
 * that the free minimum clamped in one parameter, then the other for it, and the first again, is the
 * minimum on the square. One thing differs from the book: t comes from the parts of e and r square
 * to d,
 *
 *     e' = e − (e·d / d·d) d,   r' = r − (r·d / d·d) d,   t = r'·e' / e'·e'
 *
 * where the book divides by (d·d)(e·e) − (d·e)². That difference loses all digits where the segments make an
 * angle under 1e-8, and distances of crossing rods are then wrong by 1e-7 of their length; e' loses half
 * as many, and the distance none.
 */
import type { Numbers } from './numbers.ts';

/** Squared length under which a segment is a point, in²: its direction would be rounding noise. */
const POINT_in2 = 1e-24;

/**
 * Nearest points of two segments.
 *
 * In: `s[0..5]` ends of the first, `s[6..11]` ends of the second. Out: `s[12]`, `s[13]` fractions
 * along them, `s[14..16]` the vector from the point on the first to that on the second, `s[17]` its
 * squared length. Arrays carry the numbers because a call with numbers allocates them.
 */
export function segmentToSegment(s: Numbers): void {
  const dx = s[3] - s[0];
  const dy = s[4] - s[1];
  const dz = s[5] - s[2];
  const ex = s[9] - s[6];
  const ey = s[10] - s[7];
  const ez = s[11] - s[8];
  const rx = s[0] - s[6];
  const ry = s[1] - s[7];
  const rz = s[2] - s[8];
  const dd = dx * dx + dy * dy + dz * dz;
  const ee = ex * ex + ey * ey + ez * ez;
  let along = 0;
  let across = 0;
  if (dd <= POINT_in2) {
    // The first is a point: project it. Both are points: the fractions stay 0.
    if (ee > POINT_in2) across = clamp((rx * ex + ry * ey + rz * ez) / ee);
  } else {
    const rd = rx * dx + ry * dy + rz * dz;
    if (ee <= POINT_in2) {
      along = clamp(-rd / dd);
    } else {
      const ed = ex * dx + ey * dy + ez * dz;
      const f = ed / dd;
      const g = rd / dd;
      const fx = ex - f * dx;
      const fy = ey - f * dy;
      const fz = ez - f * dz;
      const square = fx * fx + fy * fy + fz * fz;
      // Parallel: every t that faces the first is as good; 0, and the clamps below mend it.
      if (square > 1e-30 * ee) {
        across = clamp(((rx - g * dx) * fx + (ry - g * dy) * fy + (rz - g * dz) * fz) / square);
      }
      const free = f * across - g;
      along = clamp(free);
      if (free !== along) across = clamp((along * ed + rx * ex + ry * ey + rz * ez) / ee);
    }
  }
  const x = across * ex - along * dx - rx;
  const y = across * ey - along * dy - ry;
  const z = across * ez - along * dz - rz;
  s[12] = along;
  s[13] = across;
  s[14] = x;
  s[15] = y;
  s[16] = z;
  s[17] = x * x + y * y + z * z;
}

function clamp(x: number): number {
  if (x < 0) return 0;
  if (x > 1) return 1;
  return x;
}
