/**
 * Which pairs of parts are compared: all that can move against each other, and those on one body of which one
 * is new. The others are listed with the reason, so that compared and excluded together are all n(n − 1)/2.
 */
import type { Build } from '../build/build.ts';
import { nearest } from '../build/nearest.ts';
import type { Problem } from '../build/problem.ts';
import { DistanceSolver } from '../solid/distance.ts';
import { type Piece, SEGMENT, segmentPiece } from '../solid/piece.ts';
import { unmoved } from '../solid/placement.ts';
import { type Solid, solidOf } from '../solid/solid.ts';
import { sphere } from '../solid/sphere.ts';
import { distance, norm, sub, type V3 } from '../vector.ts';
import { bodyKey, type Part, type PartKind, type SharedJoint } from './part.ts';
import { ZONE } from './parts.ts';

export interface Pair {
  a: Part;
  b: Part;
  /** What of each is compared: all of it, or what lies outside the zone of a shared joint. */
  solidA: Solid;
  solidB: Solid;
  /** Gap asked for, with what the parts may give, in. */
  required: number;
  /** Why that much; empty for the default of its kind. */
  why: string;
  /** True where the pair never moves: looked at once. */
  still: boolean;
}

export interface Excluded {
  a: string;
  b: string;
  why: string;
}

export interface Pairs {
  pairs: Pair[];
  excluded: Excluded[];
}

/** Default gaps, in. Common practice, no source. */
export const DEFAULT_GAPS = {
  /** A tire and anything. */
  tire: 1,
  /** Anything else that moves. */
  rod: 0.5,
  /** Parts that share a joint, outside its zone. */
  sharedJoint: 0,
};

/** All pairs of an axle's parts. */
export function pairsOf(build: Build, parts: readonly Part[]): Pairs {
  const pairs: Pair[] = [];
  const excluded: Excluded[] = [];
  const solver = new DistanceSolver();
  const still = unmoved();
  const gapAsDrawn = (a: Solid, b: Solid): number => {
    solver.run(a, still, b, still);
    return solver.gap;
  };
  const muted = (a: Part, b: Part): string | null => {
    const found = build.wanted.muted.find(m => isPair(m.pair, a.name, b.name));
    return found ? found.why || 'muted in the build' : null;
  };
  for (const [i, a] of parts.entries()) {
    for (const b of parts.slice(i + 1)) {
      const exclude = (why: string): void => void excluded.push({ a: a.name, b: b.name, why });
      const why = muted(a, b);
      if (why !== null) {
        exclude(`muted: ${why}`);
        continue;
      }
      const sameBody = bodyKey(a) === bodyKey(b);
      if (sameBody && !(a.isNew || b.isNew)) {
        exclude('ride on the same body');
        continue;
      }
      const nested = inEachOther(a, b);
      if (nested) {
        exclude(`muted: ${nested}`);
        continue;
      }
      const zones = zonesOf(a, b, gapAsDrawn);
      const reaching = (part: Part, other: Part): Solid =>
        part.open && reachesIntoWheel(other.kind) ? part.open : part.solid;
      const solidA = outside(reaching(a, b), a, zones);
      const solidB = outside(reaching(b, a), b, zones);
      if (!solidA || !solidB) {
        exclude('muted: all of one lies in the zone of the joint that they share');
        continue;
      }
      const wanted = build.wanted.gaps.find(g => isPair(g.pair, a.name, b.name));
      const give = a.give + b.give;
      const byKind =
        zones.length > 0
          ? DEFAULT_GAPS.sharedJoint
          : a.kind === 'tire' || b.kind === 'tire'
            ? DEFAULT_GAPS.tire
            : DEFAULT_GAPS.rod;
      pairs.push({
        a,
        b,
        solidA,
        solidB,
        required: (wanted ? wanted.required : byKind) + give,
        why: wanted?.why ?? '',
        still: sameBody,
      });
    }
  }
  return { pairs, excluded };
}

const isPair = (pair: readonly [string, string], a: string, b: string): boolean =>
  (pair[0] === a && pair[1] === b) || (pair[0] === b && pair[1] === a);

/** Names in `wanted.gaps` and `wanted.muted` that no part of any axle has. */
export function problemsOfPairs(build: Build, names: readonly string[]): Problem[] {
  const known = new Set(names);
  const problems: Problem[] = [];
  for (const list of ['gaps', 'muted'] as const) {
    for (const [i, { pair }] of build.wanted[list].entries()) {
      for (const [k, name] of pair.entries()) {
        if (known.has(name)) continue;
        const near = nearest(name, names);
        problems.push({
          path: `wanted.${list}[${i}].pair[${k}]`,
          found: JSON.stringify(name),
          wanted: near ? `a part's name, such as ${JSON.stringify(near)}` : "a part's name",
          message: 'no part is called that',
        });
      }
    }
  }
  return problems;
}

const reachesIntoWheel = (kind: PartKind): boolean =>
  kind === 'tieRod' ||
  kind === 'dragLink' ||
  kind === 'ram' ||
  kind === 'housing' ||
  kind === 'knuckle';

/** Why two parts lie in each other by their nature, or null. */
function inEachOther(a: Part, b: Part): string | null {
  const stem = (part: Part): string => part.name.replace(/ (body|shaft|rod)$/, '');
  if ((a.kind === 'shock' || a.kind === 'ram') && b.kind === a.kind && stem(a) === stem(b)) {
    return 'one slides in the other';
  }
  if (isReservoirOf(a, b) || isReservoirOf(b, a)) return 'one is fixed to the other';
  const [coil, other] = a.kind === 'coil' ? [a, b] : [b, a];
  if (coil.kind === 'coil' && (other.kind === 'bumpStop' || other.kind === 'shock')) {
    // as drawn on the coil's center line, or nearer to it than the turns
    const [x, y] = [0, 1].map(
      c => (coil.solid.bound[c] as number) - (other.solid.bound[c] as number),
    );
    const turns = coil.joints[0] ? coil.joints[0].housing / 2 : 0;
    if (Math.hypot(x as number, y as number) < turns) return 'it stands inside the coil';
  }
  return null;
}

const isReservoirOf = (a: Part, b: Part): boolean =>
  a.kind === 'reservoir' &&
  a.motion.kind === 'aim' &&
  b.name === a.name.replace(/ reservoir$/, ' body');

interface Zone {
  at: V3;
  radius: number;
}

/** Joints that two parts share: of the one with the body of the other, or of both at one point. */
function zonesOf(a: Part, b: Part, gapAsDrawn: (x: Solid, y: Solid) => number): Zone[] {
  const zones: Zone[] = [];
  const zone = (joint: SharedJoint, housing = joint.housing): Zone => ({
    at: joint.at,
    radius: (ZONE * housing) / 2,
  });
  for (const [part, other] of [
    [a, b],
    [b, a],
  ] as const) {
    for (const joint of part.joints) {
      const meets = other.joints.find(o => distance(o.at, joint.at) < 1e-6);
      if (meets) {
        if (part === a) zones.push(zone(joint, Math.max(joint.housing, meets.housing)));
        continue;
      }
      if (other.motion.kind !== 'rigid' || other.motion.body !== joint.body) continue;
      // only what stands at the joint as drawn: its bracket, not all that rides on that body
      const probe = zone(joint);
      const ball = sphere({ center: joint.at, radius: probe.radius });
      if ('solid' in ball && gapAsDrawn(ball.solid, other.solid) <= 0) zones.push(probe);
    }
  }
  return zones;
}

/** What of a rod lies outside the zones; other solids stay whole. Null where nothing is left. */
function outside(solid: Solid, part: Part, zones: readonly Zone[]): Solid | null {
  const mine = zones.filter(z => part.joints.some(j => distance(j.at, z.at) < 1e-6));
  if (mine.length === 0 || !solid.rods) return solid;
  let pieces: Piece[] = [...solid.pieces];
  for (const { at, radius } of mine) pieces = pieces.flatMap(piece => cut(piece, at, radius));
  return pieces.length === 0 ? null : solidOf('bentTube', pieces);
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
