/**
 * How far a piece reaches along a direction, and where: the support function of a convex set.
 *
 * For a direction n, the *reach* is h(n) = max over the points p of the piece of n·p; with |n| = 1 it
 * bounds a gap from below: whatever two sets are, min n·b − max n·a is never above their distance.
 *
 *     segment    max(n·p, n·q)                        box    n·c + Σ half_i |n·axis_i|
 *     cylinder   n·c + |n·a| h + r |n − (n·a) a|      points max n·p_i
 *     grown by a radius: + radius
 *
 * Beware of a cylinder near its own axis: n − (n·a) a is then rounding noise, which is normalized for
 * the *point*. A single subtraction leaves noise along the axis too, and the point leaves the shape; so the
 * subtraction is done twice, and what is still under 1e-14 is left out: along the axis itself no number
 * of subtractions helps, since |a| is 1 to rounding only. The *reach* is taken from the formula and has
 * no such trouble.
 */
import { type Numbers, numbers } from './numbers.ts';
import { BOX, CYLINDER, type Piece, PLACED_SIZE, POINTS, placeCore, SEGMENT } from './piece.ts';
import { carryPoint, type Placement } from './placement.ts';

/** Part of a direction square to a cylinder's axis under which the direction counts as along the axis. */
const ON_AXIS = 1e-14;

/**
 * Writes the point of the core that lies farthest along `sign` · `v` to `out[at]` …, common frame, in.
 * `placed` is what `placeCore` wrote; `v` need not have unit length.
 */
export function supportOfCore(
  piece: Piece,
  place: Placement,
  placed: Numbers,
  v: Numbers,
  sign: number,
  out: Float64Array,
  at: number,
): void {
  const x = sign * v[0];
  const y = sign * v[1];
  const z = sign * v[2];
  const core = piece.core;
  if (core === SEGMENT) {
    const along =
      x * (placed[3] - placed[0]) + y * (placed[4] - placed[1]) + z * (placed[5] - placed[2]);
    if (along > 0) {
      out[at] = placed[3];
      out[at + 1] = placed[4];
      out[at + 2] = placed[5];
    } else {
      out[at] = placed[0];
      out[at + 1] = placed[1];
      out[at + 2] = placed[2];
    }
  } else if (core === BOX) {
    const i = x * placed[3] + y * placed[4] + z * placed[5] < 0 ? -placed[12] : placed[12];
    const j = x * placed[6] + y * placed[7] + z * placed[8] < 0 ? -placed[13] : placed[13];
    const k = x * placed[9] + y * placed[10] + z * placed[11] < 0 ? -placed[14] : placed[14];
    out[at] = placed[0] + i * placed[3] + j * placed[6] + k * placed[9];
    out[at + 1] = placed[1] + i * placed[4] + j * placed[7] + k * placed[10];
    out[at + 2] = placed[2] + i * placed[5] + j * placed[8] + k * placed[11];
  } else if (core === CYLINDER) {
    const ax = placed[3];
    const ay = placed[4];
    const az = placed[5];
    const along = x * ax + y * ay + z * az;
    let px = x - along * ax;
    let py = y - along * ay;
    let pz = z - along * az;
    const again = px * ax + py * ay + pz * az;
    px -= again * ax;
    py -= again * ay;
    pz -= again * az;
    const square = px * px + py * py + pz * pz;
    const isAside = square > ON_AXIS * ON_AXIS * (x * x + y * y + z * z);
    const out1 = isAside ? placed[7] / Math.sqrt(square) : 0;
    const half = along < 0 ? -placed[6] : placed[6];
    out[at] = placed[0] + half * ax + out1 * px;
    out[at + 1] = placed[1] + half * ay + out1 * py;
    out[at + 2] = placed[2] + half * az + out1 * pz;
  } else {
    const m = place as Numbers;
    const data = piece.data;
    const dx = m[0] * x + m[3] * y + m[6] * z;
    const dy = m[1] * x + m[4] * y + m[7] * z;
    const dz = m[2] * x + m[5] * y + m[8] * z;
    const end = 3 * piece.count;
    let best = -Infinity;
    let found = 0;
    for (let i = 0; i < end; i += 3) {
      const each =
        dx * (data[i] as number) + dy * (data[i + 1] as number) + dz * (data[i + 2] as number);
      if (each > best) {
        best = each;
        found = i;
      }
    }
    carryPoint(place, data, found, out, at);
  }
}

/**
 * How far `piece`, its radius included, reaches along the unit direction (nx, ny, nz): max n·p, in,
 * common frame. From the formulas above, so that it bounds from above to rounding.
 */
export function reach(piece: Piece, place: Placement, nx: number, ny: number, nz: number): number {
  const m = place as Numbers;
  const d = piece.data as Numbers;
  // the direction in the frame of the body; n·t is added at the end
  const x = m[0] * nx + m[3] * ny + m[6] * nz;
  const y = m[1] * nx + m[4] * ny + m[7] * nz;
  const z = m[2] * nx + m[5] * ny + m[8] * nz;
  const core = piece.core;
  let far = -Infinity;
  if (core === POINTS) {
    for (let i = 0; i < 3 * piece.count; i += 3) {
      const each = x * (d[i] as number) + y * (d[i + 1] as number) + z * (d[i + 2] as number);
      if (each > far) far = each;
    }
  } else {
    far = x * d[0] + y * d[1] + z * d[2];
    if (core === SEGMENT) {
      far = Math.max(far, x * d[3] + y * d[4] + z * d[5]);
    } else if (core === BOX) {
      far +=
        d[12] * Math.abs(x * d[3] + y * d[4] + z * d[5]) +
        d[13] * Math.abs(x * d[6] + y * d[7] + z * d[8]) +
        d[14] * Math.abs(x * d[9] + y * d[10] + z * d[11]);
    } else {
      const along = x * d[3] + y * d[4] + z * d[5];
      const px = x - along * d[3];
      const py = y - along * d[4];
      const pz = z - along * d[5];
      far += d[6] * Math.abs(along) + d[7] * Math.sqrt(px * px + py * py + pz * pz);
    }
  }
  return far + piece.radius + m[9] * nx + m[10] * ny + m[11] * nz;
}

/**
 * Writes the surface point of `piece` that lies farthest along the unit direction n to `out`, common
 * frame, in. A loop that calls it often hands it the same `scratch` each time.
 */
export function support(
  piece: Piece,
  place: Placement,
  n: Float64Array,
  out: Float64Array,
  scratch: Numbers = numbers(PLACED_SIZE),
): void {
  placeCore(piece, place, scratch);
  supportOfCore(piece, place, scratch, n as Numbers, 1, out, 0);
  for (let i = 0; i < 3; i++) out[i] = (out[i] as number) + piece.radius * (n[i] as number);
}

/**
 * Lower bound, in, of the gap between two placed pieces, from the unit direction n that points from a
 * to b: min n·b − max n·a. It is the gap itself where n is the direction of the shortest connection.
 */
export function gapAlong(
  a: Piece,
  commonFromA: Placement,
  b: Piece,
  commonFromB: Placement,
  nx: number,
  ny: number,
  nz: number,
): number {
  return -reach(b, commonFromB, -nx, -ny, -nz) - reach(a, commonFromA, nx, ny, nz);
}

/**
 * The same between two sets of points in the common frame, of which each point may be off by its own
 * slack (in, ≥ 0), less both radii: min (n·b − slack_b) − max (n·a + slack_a) − radiusA − radiusB.
 * `null` slacks are zero. A slack that is not finite gives −Infinity or NaN, which proves nothing: test
 * with `bound >= needed`, never with `!(bound < needed)`.
 */
export function gapAlongPoints(
  a: Float64Array,
  slackA: Float64Array | null,
  radiusA: number,
  b: Float64Array,
  slackB: Float64Array | null,
  radiusB: number,
  nx: number,
  ny: number,
  nz: number,
): number {
  return -farthest(b, slackB, -nx, -ny, -nz) - farthest(a, slackA, nx, ny, nz) - radiusA - radiusB;
}

function farthest(
  points: Float64Array,
  slack: Float64Array | null,
  nx: number,
  ny: number,
  nz: number,
): number {
  let far = -Infinity;
  for (let i = 0, k = 0; i + 2 < points.length; i += 3, k++) {
    const x = points[i] as number;
    const y = points[i + 1] as number;
    const z = points[i + 2] as number;
    const each = nx * x + ny * y + nz * z + (slack === null ? 0 : (slack[k] as number));
    // written so that NaN wins and is seen
    if (!(each <= far)) far = each;
  }
  return far;
}

/**
 * Points in the frame of the body whose hull contains the core; the core's own corners where it has
 * them. A round rim of a cylinder gets the corners of a regular prism around it, `sides` of them.
 * What holds for each of these points and is convex holds for the core.
 */
export function cornersAround(piece: Piece, sides = 8): Float64Array {
  const { core, data } = piece;
  const d = data as Numbers;
  if (core === SEGMENT) return d.slice();
  if (core === POINTS) return data.slice(0, 3 * piece.count);
  const corners: number[] = [];
  if (core === BOX) {
    for (let k = 0; k < 8; k++) {
      for (let i = 0; i < 3; i++) {
        let at = d[i] as number;
        for (let axis = 0; axis < 3; axis++) {
          const half = d[12 + axis] as number;
          at += ((k >> axis) & 1 ? half : -half) * (d[3 + 3 * axis + i] as number);
        }
        corners.push(at);
      }
    }
    return Float64Array.from(corners);
  }
  const [u, v] = squareTo(d[3], d[4], d[5]);
  const outer = d[7] / Math.cos(Math.PI / sides);
  for (const half of [-d[6], d[6]]) {
    for (let k = 0; k < sides; k++) {
      const angle = (2 * Math.PI * k) / sides;
      const p = outer * Math.cos(angle);
      const q = outer * Math.sin(angle);
      for (let i = 0; i < 3; i++) {
        const axis = d[3 + i] as number;
        corners.push((d[i] as number) + half * axis + p * (u[i] as number) + q * (v[i] as number));
      }
    }
  }
  return Float64Array.from(corners);
}

/** Two unit vectors square to the unit vector (x, y, z) and to each other. */
export function squareTo(x: number, y: number, z: number): [number[], number[]] {
  // Least component first: the others carry the vector, so nothing cancels.
  const ax = Math.abs(x);
  const ay = Math.abs(y);
  const az = Math.abs(z);
  const u = ax <= ay && ax <= az ? [0, z, -y] : ay <= az ? [-z, 0, x] : [y, -x, 0];
  const length = Math.hypot(u[0] as number, u[1] as number, u[2] as number);
  const [p = 0, q = 0, r = 0] = u.map(each => each / length);
  return [
    [p, q, r],
    [y * r - z * q, z * p - x * r, x * q - y * p],
  ];
}
