/**
 * Distance of a segment from a triangle, in closed form.
 *
 * Nearest is one of: a crossing (0), an end of the segment over the inside of the triangle, or the segment
 * and one of the three edges (Ericson, Real-Time Collision Detection, §5.1.10, from memory). A
 * triangle without area is left to its edges.
 */
import type { Numbers } from './numbers.ts';
import { segmentToSegment } from './segmentDistance.ts';

/**
 * In: `s[0..5]` ends of the segment; `t[0..8]` corners of the triangle. Out: `t[9]` squared distance,
 * `t[10]` fraction along the segment, `t[11..13]` nearest point on the triangle, `t[14..16]` vector
 * from the segment's nearest point to it. `s[6..17]` is used up.
 */
export function segmentToTriangle(s: Numbers, t: Numbers): void {
  const ax = t[0];
  const ay = t[1];
  const az = t[2];
  const bx = t[3] - ax;
  const by = t[4] - ay;
  const bz = t[5] - az;
  const cx = t[6] - ax;
  const cy = t[7] - ay;
  const cz = t[8] - az;
  const nx = by * cz - bz * cy;
  const ny = bz * cx - bx * cz;
  const nz = bx * cy - by * cx;
  const square = nx * nx + ny * ny + nz * nz;
  t[9] = Infinity;
  if (square > 0) {
    const px = s[0] - ax;
    const py = s[1] - ay;
    const pz = s[2] - az;
    const qx = s[3] - ax;
    const qy = s[4] - ay;
    const qz = s[5] - az;
    const p = px * nx + py * ny + pz * nz;
    const q = qx * nx + qy * ny + qz * nz;
    // over the inside: shares of b and c in the foot, times `square`
    const pb = nx * (py * cz - pz * cy) + ny * (pz * cx - px * cz) + nz * (px * cy - py * cx);
    const pc = nx * (by * pz - bz * py) + ny * (bz * px - bx * pz) + nz * (bx * py - by * px);
    const qb = nx * (qy * cz - qz * cy) + ny * (qz * cx - qx * cz) + nz * (qx * cy - qy * cx);
    const qc = nx * (by * qz - bz * qy) + ny * (bz * qx - bx * qz) + nz * (bx * qy - by * qx);
    if (p * q <= 0 && p !== q) {
      const f = p / (p - q);
      const b = pb + f * (qb - pb);
      const c = pc + f * (qc - pc);
      if (b >= 0 && c >= 0 && b + c <= square) {
        t[9] = 0;
        t[10] = f;
        t[11] = s[0] + f * (s[3] - s[0]);
        t[12] = s[1] + f * (s[4] - s[1]);
        t[13] = s[2] + f * (s[5] - s[2]);
        t[14] = t[15] = t[16] = 0;
        return;
      }
    }
    const inP = pb >= 0 && pc >= 0 && pb + pc <= square;
    const inQ = qb >= 0 && qc >= 0 && qb + qc <= square;
    if (inP || inQ) {
      const first = inP && !(inQ && q * q < p * p);
      const along = -(first ? p : q) / square;
      t[9] = -along * (first ? p : q);
      t[10] = first ? 0 : 1;
      t[14] = along * nx;
      t[15] = along * ny;
      t[16] = along * nz;
      t[11] = (first ? s[0] : s[3]) + t[14];
      t[12] = (first ? s[1] : s[4]) + t[15];
      t[13] = (first ? s[2] : s[5]) + t[16];
      if (inP && inQ) return;
    }
  }
  edge(s, t, 0, 3);
  edge(s, t, 3, 6);
  edge(s, t, 6, 0);
}

function edge(s: Numbers, t: Numbers, from: number, to: number): void {
  s[6] = t[from] as number;
  s[7] = t[from + 1] as number;
  s[8] = t[from + 2] as number;
  s[9] = t[to] as number;
  s[10] = t[to + 1] as number;
  s[11] = t[to + 2] as number;
  segmentToSegment(s);
  if (s[17] >= t[9]) return;
  t[9] = s[17];
  t[10] = s[12];
  t[14] = s[14];
  t[15] = s[15];
  t[16] = s[16];
  const f = s[13];
  t[11] = s[6] + f * (s[9] - s[6]);
  t[12] = s[7] + f * (s[10] - s[7]);
  t[13] = s[8] + f * (s[11] - s[8]);
}
