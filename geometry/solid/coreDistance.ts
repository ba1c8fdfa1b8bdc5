/**
 * Signed distance of a point from a core, in closed form: negative inside, where it is minus the way to
 * the nearest surface. It is convex in the point and changes by no more than the point moves.
 *
 *     segment    distance to the nearest point of it (never negative: a segment has no inside)
 *     box        q_i = |local_i| − half_i; outside |max(q, 0)|, inside the largest q_i
 *     cylinder   the same in the plane (along the axis, away from it), half length and radius
 *     points     only a lower bound: that of the box around them, axes of the body
 *
 * Being convex it is nowhere under its tangent planes: at x it is at least f(c) + gradient(c) · (x − c), so that on a
 * box about c with half sizes h it is at least f(c) − Σ |gradient_i| h_i.
 */
import type { Numbers } from './numbers.ts';
import { CYLINDER, type Piece, POINTS, placeCore, SEGMENT } from './piece.ts';
import { carryPoint, type Placement } from './placement.ts';

/**
 * In: `placed`, as `placeShape` wrote it; the point in `at[0..2]`, common frame. Out: `at[3]` the signed distance from the core (in, the piece's
 * radius not yet taken off), `at[4..6]` its gradient: the unit direction away from the core.
 */
export function distanceFromCore(piece: Piece, placed: Numbers, at: Numbers): void {
  const core = piece.core;
  if (core === SEGMENT) fromSegment(placed, at);
  else if (core === CYLINDER) fromCylinder(placed, at);
  else fromBox(placed, at);
}

/** As `placeCore`, but of points the box around them, in a box's layout. */
export function placeShape(piece: Piece, place: Placement, out: Numbers): void {
  if (piece.core !== POINTS) {
    placeCore(piece, place, out);
    return;
  }
  carryPoint(place, piece.bound, 0, out, 0);
  for (let axis = 0; axis < 3; axis++) {
    for (let i = 0; i < 3; i++) out[3 + 3 * axis + i] = place[3 * i + axis] as number;
    out[12 + axis] = piece.bound[4 + axis] as number;
  }
}

function fromSegment(s: Numbers, at: Numbers): void {
  const dx = s[3] - s[0];
  const dy = s[4] - s[1];
  const dz = s[5] - s[2];
  const px = at[0] - s[0];
  const py = at[1] - s[1];
  const pz = at[2] - s[2];
  const square = dx * dx + dy * dy + dz * dz;
  let t = square > 0 ? (px * dx + py * dy + pz * dz) / square : 0;
  t = Math.max(0, Math.min(1, t));
  const x = px - t * dx;
  const y = py - t * dy;
  const z = pz - t * dz;
  const length = Math.sqrt(x * x + y * y + z * z);
  at[3] = length;
  if (length > 0) {
    at[4] = x / length;
    at[5] = y / length;
    at[6] = z / length;
    return;
  }
  // On the segment: any direction square to it, made from its two larger components.
  const ax = Math.abs(dx);
  const ay = Math.abs(dy);
  const az = Math.abs(dz);
  if (square === 0) setUnit(at, 1, 0, 0);
  else if (ax <= ay && ax <= az) setUnit(at, 0, dz, -dy);
  else if (ay <= az) setUnit(at, -dz, 0, dx);
  else setUnit(at, dy, -dx, 0);
}

function setUnit(at: Numbers, x: number, y: number, z: number): void {
  const length = Math.sqrt(x * x + y * y + z * z);
  at[4] = x / length;
  at[5] = y / length;
  at[6] = z / length;
}

function fromBox(b: Numbers, at: Numbers): void {
  const px = at[0] - b[0];
  const py = at[1] - b[1];
  const pz = at[2] - b[2];
  const i = px * b[3] + py * b[4] + pz * b[5];
  const j = px * b[6] + py * b[7] + pz * b[8];
  const k = px * b[9] + py * b[10] + pz * b[11];
  const qi = Math.abs(i) - b[12];
  const qj = Math.abs(j) - b[13];
  const qk = Math.abs(k) - b[14];
  let gi = Math.max(qi, 0);
  let gj = Math.max(qj, 0);
  let gk = Math.max(qk, 0);
  const square = gi * gi + gj * gj + gk * gk;
  if (square > 0) {
    const length = Math.sqrt(square);
    at[3] = length;
    gi /= length;
    gj /= length;
    gk /= length;
  } else if (qi >= qj && qi >= qk) {
    at[3] = qi;
    gi = 1;
  } else if (qj >= qk) {
    at[3] = qj;
    gj = 1;
  } else {
    at[3] = qk;
    gk = 1;
  }
  if (i < 0) gi = -gi;
  if (j < 0) gj = -gj;
  if (k < 0) gk = -gk;
  at[4] = gi * b[3] + gj * b[6] + gk * b[9];
  at[5] = gi * b[4] + gj * b[7] + gk * b[10];
  at[6] = gi * b[5] + gj * b[8] + gk * b[11];
}

/** Part of the radius under which the direction away from the axis is computed twice: rounding is 1e-13 of it. */
const NEAR_AXIS = 1e-3;
/** Part of the cylinder's size within which a point counts as on the axis: what is left is rounding. */
const ON_AXIS = 1e-14;

function fromCylinder(c: Numbers, at: Numbers): void {
  const px = at[0] - c[0];
  const py = at[1] - c[1];
  const pz = at[2] - c[2];
  const along = px * c[3] + py * c[4] + pz * c[5];
  let x = px - along * c[3];
  let y = py - along * c[4];
  let z = pz - along * c[5];
  let away = Math.sqrt(x * x + y * y + z * z);
  if (away < NEAR_AXIS * c[7]) {
    // a difference of nearly equal numbers: what is left along the axis has to go before it is normalized
    const again = x * c[3] + y * c[4] + z * c[5];
    x -= again * c[3];
    y -= again * c[4];
    z -= again * c[5];
    away = Math.sqrt(x * x + y * y + z * z);
    if (away < ON_AXIS * (Math.abs(along) + c[7])) away = 0;
  }
  const end = Math.abs(along) - c[6];
  const side = away - c[7];
  let ga = Math.max(end, 0);
  let gs = Math.max(side, 0);
  const square = ga * ga + gs * gs;
  if (square > 0) {
    const length = Math.sqrt(square);
    at[3] = length;
    ga /= length;
    gs /= length;
  } else if (end >= side) {
    at[3] = end;
    ga = 1;
  } else {
    at[3] = side;
    gs = 1;
  }
  if (along < 0) ga = -ga;
  if (away > 0) {
    x /= away;
    y /= away;
    z /= away;
  } else if (gs > 0) {
    // on the axis, nearest to the side: every direction square to the axis is as good
    const ax = Math.abs(c[3]);
    const ay = Math.abs(c[4]);
    const az = Math.abs(c[5]);
    if (ax <= ay && ax <= az) setUnit(at, 0, c[5], -c[4]);
    else if (ay <= az) setUnit(at, -c[5], 0, c[3]);
    else setUnit(at, c[4], -c[3], 0);
    return;
  }
  at[4] = ga * c[3] + gs * x;
  at[5] = ga * c[4] + gs * y;
  at[6] = ga * c[5] + gs * z;
}
