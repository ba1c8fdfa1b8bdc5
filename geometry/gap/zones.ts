/**
 * Zones about joints that two parts share: the parts are compared outside of them, so that a link that strikes
 * its own bracket away from the bolt is found, and the bolt itself is not.
 */
import { type Piece, SEGMENT, segmentPiece } from '../solid/piece.ts';
import { type Solid, solidOf } from '../solid/solid.ts';
import { sphere } from '../solid/sphere.ts';
import { distance, norm, sub, type V3 } from '../vector.ts';
import type { Part, PartKind, SharedJoint } from './part.ts';
import { ZONE } from './partSizes.ts';

export interface Zone {
  at: V3;
  radius: number;
}

/** What of two parts is compared. */
export interface Outside {
  /** Null where nothing of the part lies outside the zones. */
  a: Solid | null;
  b: Solid | null;
  /** True where they share a joint: their gap near it says nothing. */
  isJoined: boolean;
}

/** Gap of two solids as drawn, in. */
export type GapAsDrawn = (a: Solid, b: Solid) => number;

/** A part that comes this near to a zone as drawn stands at the joint, in: brackets are drawn to fit. */
const AT_JOINT_in = 0.05;

/** Largest zone, in, for rods that lie along each other, and by how much it grows. */
const LONGEST_NECK_in = 6;
const GROWTH = 1.2;

/**
 * What of two parts lies outside the zones of their joints.
 *
 * A joint's housing does not move against the body that it hangs on, so a part is looked at outside its zone
 * by all that rides on that body; what stands at the joint, as its bracket does, is joined to it. A rod that
 * hangs on another one in its line ends in a forged neck: its zone grows until both are apart as drawn.
 */
export function outsideZones(
  a: Part,
  b: Part,
  solidA: Solid,
  solidB: Solid,
  gapAsDrawn: GapAsDrawn,
): Outside {
  const ofA: Zone[] = [];
  const ofB: Zone[] = [];
  let isJoined = false;
  for (const [part, other, solid, mine, others] of [
    [a, b, solidB, ofA, ofB],
    [b, a, solidA, ofB, ofA],
  ] as const) {
    for (const joint of part.joints) {
      const meets = other.joints.find(o => distance(o.at, joint.at) < 1e-6);
      const zone = zoneOf(joint, meets);
      if (meets) {
        mine.push(zone);
        isJoined = true;
      } else if (other.body === joint.body) {
        mine.push(zone);
        const ball = sphere({ center: zone.at, radius: zone.radius });
        if ('problem' in ball || gapAsDrawn(ball.solid, solid) > AT_JOINT_in) continue;
        others.push(zone);
        isJoined = true;
      }
    }
  }
  const cutA = (grown: number): Solid | null => outside(solidA, ofA, grown);
  const cutB = (grown: number): Solid | null => outside(solidB, ofB, grown);
  let found = { a: cutA(1), b: cutB(1) };
  if (isJoined && isSteering(a.kind) && isSteering(b.kind)) {
    const widest = Math.max(...[...ofA, ...ofB].map(zone => zone.radius));
    for (let grown = GROWTH; grown * widest < LONGEST_NECK_in; grown *= GROWTH) {
      if (!found.a || !found.b || gapAsDrawn(found.a, found.b) >= 0) break;
      found = { a: cutA(grown), b: cutB(grown) };
    }
  }
  return { ...found, isJoined };
}

const isSteering = (kind: PartKind): boolean =>
  kind === 'dragLink' || kind === 'tieRod' || kind === 'ram';

const zoneOf = (joint: SharedJoint, other: SharedJoint | undefined): Zone => ({
  at: joint.at,
  radius: (ZONE * Math.max(joint.housing, other?.housing ?? 0)) / 2,
});

/** What of a rod lies outside the zones; other solids stay whole. Null where nothing is left. */
function outside(solid: Solid, zones: readonly Zone[], grown: number): Solid | null {
  if (zones.length === 0 || !solid.rods) return solid;
  let pieces: readonly Piece[] = solid.pieces;
  for (const { at, radius } of zones) {
    pieces = pieces.flatMap(piece => cut(piece, at, grown * radius));
  }
  if (pieces.length === 0) return null;
  return pieces.length === solid.pieces.length && pieces.every((p, i) => p === solid.pieces[i])
    ? solid
    : solidOf('bentTube', pieces);
}

/** A segment less what lies within the radius of a point: none, one or two segments. */
function cut(piece: Piece, at: V3, radius: number): Piece[] {
  if (piece.core !== SEGMENT) return [piece];
  const d = piece.data;
  const p: V3 = [d[0] as number, d[1] as number, d[2] as number];
  const q: V3 = [d[3] as number, d[4] as number, d[5] as number];
  const line = sub(q, p);
  const length = norm(line);
  const fromAt = sub(p, at);
  // |p + t line − at|² = radius²
  const a = length * length;
  const b = 2 * (line[0] * fromAt[0] + line[1] * fromAt[1] + line[2] * fromAt[2]);
  const c = fromAt[0] ** 2 + fromAt[1] ** 2 + fromAt[2] ** 2 - radius * radius;
  if (a === 0) return c > 0 ? [piece] : [];
  const root = b * b - 4 * a * c;
  if (root <= 0) return [piece];
  const t0 = (-b - Math.sqrt(root)) / (2 * a);
  const t1 = (-b + Math.sqrt(root)) / (2 * a);
  if (t1 <= 0 || t0 >= 1) return [piece];
  const point = (t: number): V3 => [p[0] + t * line[0], p[1] + t * line[1], p[2] + t * line[2]];
  const share = (t: number): number =>
    piece.from < 0 ? -1 : piece.from + t * (piece.to - piece.from);
  const out: Piece[] = [];
  if (t0 > 0) out.push(segmentPiece(p, point(t0), piece.radius, piece.from, share(t0)));
  if (t1 < 1) out.push(segmentPiece(point(t1), q, piece.radius, share(t1), piece.to));
  return out;
}
