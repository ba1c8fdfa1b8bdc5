/**
 * How far a link may roll about its own line before its joints stop it.
 *
 * A joint's misalignment μ is the angle between its bolt (fixed in the bracket) and its bore (fixed in the
 * link). With u along the link, sin α = bolt · u, sin β = bore · u and φ the link's roll, right-handed about u,
 *   (1) cos μ = sin α sin β + cos α cos β cos(φ − φ₀),
 * φ₀ the turn about u that carries the bore's projection onto the bolt's. A limit m allows
 *   (2) |φ − φ₀| ≤ acos q,  q = (cos m − sin α sin β) / (cos α cos β):
 * all of the circle where q ≤ −1, nothing where q > 1. The link may roll where both of its joints allow it.
 * (Spherical law of cosines: u, bolt and bore are the corners of a triangle with φ − φ₀ at u.)
 */
import { cross, dot, norm, type V3 } from '../vector.ts';

/** A joint of a link as it stands now: unit vectors in one frame, the bore at the link's roll 0. */
export interface RollJoint {
  bolt: V3;
  bore: V3;
  /** Along the link, the same for both of its joints. */
  line: V3;
  /** Largest misalignment, rad, or null: none is given. */
  limit: number | null;
}

/**
 * Rolls of a link, rad: all, none, or an arc from `from` up to `to` (from ≤ to), turned by whole turns so that
 * it holds the drawn roll, 0, or comes nearest to it. `fromBy`, `toBy`: index of the joint that ends it.
 */
export type RollWindow =
  | { kind: 'full' }
  | { kind: 'empty' }
  | { kind: 'arc'; from: number; to: number; fromBy: number; toBy: number };

const TURN = 2 * Math.PI;

/** cos α cos β under which a joint does not feel the link's roll. */
const ALONG = 1e-9;

/** Difference of two misalignments, rad, that counts as none: rounding of solved poses. */
const ALIKE = 1e-12;

/** Difference of two shares that counts as none: rounding of an angle of about 1 over its limit. */
const SHARE_END = 1e-15;

/** An angle less whole turns, in (−π, π]. */
export const wrapped = (angle: number): number =>
  angle - TURN * Math.ceil((angle - Math.PI) / TURN);

/** Parts of (1): sin α sin β, cos α cos β and φ₀ (0 where the roll has no effect). */
export function rollParts({ bolt, bore, line }: RollJoint): {
  sines: number;
  cosines: number;
  center: number;
} {
  const sines = dot(bolt, line) * dot(bore, line);
  const along = dot(bolt, bore) - sines;
  const across = dot(line, cross(bore, bolt));
  const cosines = Math.hypot(along, across);
  return { sines, cosines, center: cosines < ALONG ? 0 : Math.atan2(across, along) };
}

/** Roll of least misalignment at one joint, rad. */
export const rollCenter = (joint: RollJoint): number => rollParts(joint).center;

/** Misalignment at a roll, rad: the angle itself, not its cosine, so that small ones keep their digits. */
export function misalignmentAt(joint: RollJoint, roll: number): number {
  const bore = rolledBore(joint, roll);
  return Math.atan2(norm(cross(joint.bolt, bore)), dot(joint.bolt, bore));
}

/** The bore at a roll of the link (Rodrigues about its line). */
export function rolledBore({ bore, line }: RollJoint, roll: number): V3 {
  const cos = Math.cos(roll);
  const sin = Math.sin(roll);
  const side = cross(line, bore);
  const along = dot(line, bore) * (1 - cos);
  return [
    bore[0] * cos + side[0] * sin + line[0] * along,
    bore[1] * cos + side[1] * sin + line[1] * along,
    bore[2] * cos + side[2] * sin + line[2] * along,
  ];
}

/** (2) for one joint, which has the index `by`; a joint without a limit allows every roll. */
export function jointWindow(joint: RollJoint, by = 0): RollWindow {
  if (joint.limit === null) return { kind: 'full' };
  const { sines, cosines, center } = rollParts(joint);
  const rest = Math.cos(joint.limit) - sines;
  if (cosines < ALONG) return { kind: rest <= 0 ? 'full' : 'empty' };
  const q = rest / cosines;
  if (q <= -1) return { kind: 'full' };
  if (q > 1) return { kind: 'empty' };
  const half = Math.acos(q);
  return { kind: 'arc', from: center - half, to: center + half, fromBy: by, toBy: by };
}

/**
 * Rolls that every joint of a link allows. Two arcs can meet twice: the meeting that holds the drawn roll
 * counts, else the one nearest to it.
 */
export function rollWindow(joints: readonly RollJoint[]): RollWindow {
  let window: RollWindow = { kind: 'full' };
  for (const [by, joint] of joints.entries()) window = meet(window, jointWindow(joint, by));
  return window.kind === 'arc' ? aroundDrawn(window) : window;
}

type Arc = Extract<RollWindow, { kind: 'arc' }>;

function meet(a: RollWindow, b: RollWindow): RollWindow {
  if (a.kind === 'empty' || b.kind === 'full') return a;
  if (b.kind === 'empty' || a.kind === 'full') return b;
  let best: Arc | null = null;
  const first = Math.ceil((a.from - b.to) / TURN);
  for (let turns = first; b.from + turns * TURN <= a.to; turns++) {
    const from = b.from + turns * TURN;
    const to = b.to + turns * TURN;
    const met: Arc = {
      kind: 'arc',
      from: Math.max(a.from, from),
      fromBy: a.from >= from ? a.fromBy : b.fromBy,
      to: Math.min(a.to, to),
      toBy: a.to <= to ? a.toBy : b.toBy,
    };
    if (!best || fromDrawn(met) < fromDrawn(best)) best = met;
  }
  return best ?? { kind: 'empty' };
}

/** Shortest way from the drawn roll into an arc, rad; 0 where the arc holds it. */
function fromDrawn({ from, to }: Arc): number {
  const middle = wrapped((from + to) / 2);
  return Math.max(0, Math.abs(middle) - (to - from) / 2);
}

function aroundDrawn(arc: Arc): Arc {
  const middle = (arc.from + arc.to) / 2;
  const shift = wrapped(middle) - middle;
  return { ...arc, from: arc.from + shift, to: arc.to + shift };
}

/** What decides the easiest roll: least misalignment at one joint (its index), or both shares equal. */
export interface EasiestRoll {
  roll: number;
  by: number | 'both';
}

/**
 * The roll at which the larger share, misalignment over limit, of a link's joints is least. A joint without a
 * limit has no share; where none has one, the misalignments themselves stand for the shares.
 *
 * Each share grows on both sides of its own φ₀, so the best lies on the shorter arc between the two: at an end
 * of it, where that joint's least share is already the larger one, else where both shares are equal.
 */
export function easiestRoll(joints: readonly RollJoint[]): EasiestRoll {
  const withLimit = [...joints.keys()].filter(i => joints[i]?.limit !== null);
  const [first = 0, second] = withLimit.length > 0 ? withLimit : [...joints.keys()];
  const a = joints[first];
  if (!a) return { roll: 0, by: 0 };
  const b = second === undefined ? undefined : joints[second];
  const start = rollCenter(a);
  if (!b || second === undefined) return { roll: start, by: first };
  const excess = (roll: number): number => shareAt(a, roll) - shareAt(b, roll);
  const span = wrapped(rollCenter(b) - start);
  let low = 0;
  let high = span;
  let atLow = excess(start);
  let atHigh = excess(start + span);
  if (atLow >= 0) return { roll: start, by: first };
  if (atHigh <= 0) return { roll: start + span, by: second };
  // false position with the Illinois halving: bracketed, and faster than linear
  for (let step = 0; step < 100; step++) {
    const next = (low * atHigh - high * atLow) / (atHigh - atLow);
    const at = excess(start + next);
    if (Math.abs(at) < SHARE_END || next === low || next === high)
      return { roll: start + next, by: 'both' };
    if (at < 0) {
      low = next;
      atLow = at;
      atHigh /= 2;
    } else {
      high = next;
      atHigh = at;
      atLow /= 2;
    }
  }
  return { roll: start + low, by: 'both' };
}

/** Share of its limit that a joint has used; without a limit the misalignment itself, rad. */
export const shareAt = (joint: RollJoint, roll: number): number =>
  misalignmentAt(joint, roll) / (joint.limit ?? 1);

/**
 * Largest misalignment of one joint over a window. Within an arc it is at one of its ends, or opposite φ₀
 * where the arc reaches that far. `by` says what decides it: an end of the arc, both alike, or the opposite of
 * φ₀.
 */
export function largestMisalignment(
  joint: RollJoint,
  window: Exclude<RollWindow, { kind: 'empty' }>,
): { roll: number; by: 'from' | 'to' | 'both' | 'opposite' } {
  const opposite = rollCenter(joint) + Math.PI;
  if (window.kind === 'full') return { roll: opposite, by: 'opposite' };
  const { from, to } = window;
  const turns = Math.ceil((from - opposite) / TURN);
  if (opposite + turns * TURN <= to) return { roll: opposite + turns * TURN, by: 'opposite' };
  const excess = misalignmentAt(joint, from) - misalignmentAt(joint, to);
  if (Math.abs(excess) < ALIKE) return { roll: from, by: 'both' };
  return excess > 0 ? { roll: from, by: 'from' } : { roll: to, by: 'to' };
}
