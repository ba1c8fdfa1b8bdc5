/**
 * Gap of two rods (sphere, capsule, bent tube): the distance of their center lines, in closed form, less
 * both radii.
 */
import { type GapResult, NO_ALONG } from './gapResult.ts';
import type { Numbers } from './numbers.ts';
import type { Piece } from './piece.ts';
import { carrySegment, type Placement } from './placement.ts';
import { segmentToSegment } from './segmentDistance.ts';
import type { Solid } from './solid.ts';
import { squareTo } from './support.ts';
import { TOUCHING_in } from './tolerances.ts';

/** Writes the gap to `out`; `s` is scratch of 18 numbers. */
export function gapOfRods(
  a: Solid,
  commonFromA: Placement,
  b: Solid,
  commonFromB: Placement,
  s: Numbers,
  out: GapResult,
): void {
  const both = out.both;
  let best = Infinity;
  for (let i = 0; i < a.pieces.length; i++) {
    const one = a.pieces[i] as Piece;
    carrySegment(commonFromA, one.data, s, 0);
    for (let j = 0; j < b.pieces.length; j++) {
      const two = b.pieces[j] as Piece;
      carrySegment(commonFromB, two.data, s, 6);
      segmentToSegment(s);
      const line = Math.sqrt(s[17]);
      const ra = one.radius;
      const rb = two.radius;
      const gap = line - ra - rb;
      if (gap >= best) continue;
      best = gap;
      let nx: number;
      let ny: number;
      let nz: number;
      if (line > TOUCHING_in) {
        const over = 1 / line;
        nx = over * s[14];
        ny = over * s[15];
        nz = over * s[16];
      } else {
        across(s, out.normal);
        nx = out.normal[0];
        ny = out.normal[1];
        nz = out.normal[2];
      }
      const along = s[12];
      // the points of both center lines, the second one a shortest way from the first
      const px = s[0] + along * (s[3] - s[0]);
      const py = s[1] + along * (s[4] - s[1]);
      const pz = s[2] + along * (s[5] - s[2]);
      both[0] = px + ra * nx;
      both[1] = py + ra * ny;
      both[2] = pz + ra * nz;
      both[3] = px + s[14] - rb * nx;
      both[4] = py + s[15] - rb * ny;
      both[5] = pz + s[16] - rb * nz;
      both[6] = nx;
      both[7] = ny;
      both[8] = nz;
      out.alongA = one.from < 0 ? NO_ALONG : one.from + along * (one.to - one.from);
      out.alongB = two.from < 0 ? NO_ALONG : two.from + s[13] * (two.to - two.from);
    }
  }
  out.gap = best;
  out.beyond = false;
}

/** Center lines that meet: the normal is square to both; where they are in line, any square to them. */
function across(s: Numbers, n: Numbers): void {
  const dx = s[3] - s[0];
  const dy = s[4] - s[1];
  const dz = s[5] - s[2];
  const ex = s[9] - s[6];
  const ey = s[10] - s[7];
  const ez = s[11] - s[8];
  const x = dy * ez - dz * ey;
  const y = dz * ex - dx * ez;
  const z = dx * ey - dy * ex;
  const dd = dx * dx + dy * dy + dz * dz;
  const ee = ex * ex + ey * ey + ez * ez;
  const length = Math.sqrt(x * x + y * y + z * z);
  if (length > 1e-12 * Math.sqrt(dd * ee)) {
    n[0] = x / length;
    n[1] = y / length;
    n[2] = z / length;
  } else if (dd + ee > 0) {
    const f = 1 / Math.sqrt(Math.max(dd, ee));
    const [u] = dd >= ee ? squareTo(f * dx, f * dy, f * dz) : squareTo(f * ex, f * ey, f * ez);
    n.set(u);
  } else {
    n[0] = 1;
    n[1] = 0;
    n[2] = 0;
  }
}
