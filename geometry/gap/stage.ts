/**
 * The pairs of an axle over the poses of a grid: gaps, and bounds of them that cost less.
 *
 * Most pairs are far most of the time, so that each is asked for its gap only where nothing cheaper settles it:
 *   (1) by how far its parts have moved since the drawing: a fat capsule stands around each part (envelope.ts);
 *       with d the larger way of the ends of its segment,  gap ≥ capsules' gap as drawn − (d_a + d_b),
 *       for every point of a moved segment is within d of where it was. A gap is the same seen from the axle,
 *       where its own parts hardly move, so the better of both frames counts;
 *   (2) the same from the exact gap as drawn, where the capsules say little (meshes, plates): points off the
 *       segment turn too,  d' = d + r ‖M − 1‖;
 *   (3) the gap of the capsules at the pose;
 *   (4) what reaches into a wheel is in its bore, or before its mouth;
 *   (5) a distance search from the last direction, first for the capsule around a rod of several pieces; it ends
 *       as soon as it is over what is asked.
 * What is free to roll is looked at in several rolls at each pose (placedGrid.ts): the least of them counts.
 */
import { DistanceSolver, type PairStart, pairStart } from '../solid/distance.ts';
import { type Numbers, numbers } from '../solid/numbers.ts';
import { type Piece, segmentPiece } from '../solid/piece.ts';
import {
  carryPoint,
  carrySegment,
  PLACEMENT_SIZE,
  type Placement,
  turnVector,
  unmoved,
} from '../solid/placement.ts';
import { segmentToSegment } from '../solid/segmentDistance.ts';
import { type Solid, solidOf } from '../solid/solid.ts';
import { type Envelope, envelopeOf } from './envelope.ts';
import type { Pair } from './pairs.ts';
import type { Hollow, Part } from './part.ts';
import { BY_POSE, type Motions, motionsOf, type PlacedGrid } from './placedGrid.ts';

export class Stage {
  readonly parts: readonly Part[];
  readonly pairs: readonly Pair[];
  readonly motions: Motions;
  /** Gaps of the capsules as drawn, by pair, in. */
  readonly drawn: Float64Array;
  /** Distance searches since this was last set to 0. */
  searches = 0;
  /** After `gap`: at which of their rolls the parts were nearest. */
  rollA = 0;
  rollB = 0;
  readonly solver = new DistanceSolver();

  readonly #envelopes: Envelope[];
  readonly #radii: Float64Array;
  /** Capsules around parts of many pieces. */
  readonly #capsules: Solid[];
  readonly #index: ReadonlyMap<Part, number>;
  readonly #partA: Int32Array;
  readonly #partB: Int32Array;
  readonly #byPose: Uint8Array;
  /** Of each pair, the rolls of both parts that go together, two by two. */
  readonly #rolls: Int32Array[];
  /** Exact gap as drawn, by pair; −∞ where the capsules fit well. */
  readonly #exact: Float64Array;
  /** By pair and number of the pose in its cell, where the last search ended. */
  readonly #starts: (PairStart | undefined)[];
  readonly #capsuleStarts: (PairStart | undefined)[];
  #starters = 0;
  #grid: PlacedGrid | null = null;
  /** By part, where its segments stand in #segments: six numbers a slot of its motion. */
  readonly #first: Int32Array;
  #segments = numbers(0);
  /** By cell, then by part and frame (chassis, axle): how far it has moved, without and with its turning. */
  #moved = new Float64Array(0);
  #turned = new Float64Array(0);
  readonly #s = numbers(18);
  readonly #bore = numbers(12);

  /** @param before a stage of the same axle before a change: what it knows of the same parts and pairs holds on */
  constructor(parts: readonly Part[], pairs: readonly Pair[], before: Stage | null = null) {
    this.parts = parts;
    this.pairs = pairs;
    this.motions = motionsOf(parts);
    const index = new Map(parts.map((part, i) => [part, i]));
    this.#partA = Int32Array.from(pairs, pair => index.get(pair.a) as number);
    this.#partB = Int32Array.from(pairs, pair => index.get(pair.b) as number);
    const isSteered = (part: number): boolean =>
      this.motions.changes[this.motions.of[part] as number] === BY_POSE;
    this.#byPose = Uint8Array.from(pairs, (_, p) =>
      isSteered(this.#partA[p] as number) || isSteered(this.#partB[p] as number) ? 1 : 0,
    );
    this.#index = index;
    this.#rolls = pairs.map(pair => rollsTogether(pair, part => this.#rollsOf(part)));
    this.#envelopes = parts.map(part => before?.around(part) ?? envelopeOf(solidsOf(part)));
    this.#radii = Float64Array.from(this.#envelopes, envelope => envelope.radius);
    this.#capsules = this.#envelopes.map(({ ends, radius }) =>
      solidOf('capsule', [segmentPiece(ends.subarray(0, 3), ends.subarray(3), radius)]),
    );
    this.#first = new Int32Array(parts.length);
    this.#starts = [];
    this.#capsuleStarts = [];
    const known = new Map(before?.pairs.map((pair, p) => [pair, p]));
    this.drawn = new Float64Array(pairs.length);
    this.#exact = new Float64Array(pairs.length);
    for (const [p, pair] of pairs.entries()) {
      const was = known.get(pair);
      this.drawn[p] =
        before && was !== undefined ? (before.drawn[was] as number) : this.#capsulesAsDrawn(p);
      this.#exact[p] =
        before && was !== undefined ? (before.#exact[was] as number) : this.#exactAsDrawn(pair);
    }
  }

  /** The capsule around a part; undefined where it is none of these. */
  around(part: Part): Envelope | undefined {
    return this.#envelopes[this.#index.get(part) ?? -1];
  }

  /** Share of its window, 0 to 1, of a part's `k`th roll. */
  share(part: Part, k: number): number {
    const rolls = this.#rollsOf(part);
    return rolls === 1 ? 0 : k / (rolls - 1);
  }

  #rollsOf(part: Part): number {
    const motion = this.motions.of[this.#index.get(part) as number] as number;
    return this.motions.rolls[motion] as number;
  }

  get grid(): PlacedGrid {
    return this.#grid as PlacedGrid;
  }

  /** Whether the steering moves a pair: else one pose of each cell tells all. */
  isByPose(p: number): boolean {
    return this.#byPose[p] === 1;
  }

  /** Puts the parts where a grid has them. */
  place(grid: PlacedGrid): void {
    const { parts, motions } = this;
    this.#grid = grid;
    let size = 0;
    for (let i = 0; i < parts.length; i++) {
      this.#first[i] = size;
      size += 6 * slotsOf(grid, motions.of[i] as number);
    }
    if (this.#segments.length !== size) this.#segments = numbers(size);
    const count = 2 * parts.length * grid.cells.length;
    if (this.#moved.length !== count) {
      this.#moved = new Float64Array(count);
      this.#turned = new Float64Array(count);
    }
    this.#moved.fill(0);
    this.#turned.fill(0);
    let most = 1;
    for (let c = 0; c < grid.cells.length; c++) {
      most = Math.max(most, (grid.first[c + 1] as number) - (grid.first[c] as number));
    }
    if (most !== this.#starters) {
      this.#starters = most;
      this.#starts.length = 0;
      this.#capsuleStarts.length = 0;
    }
    for (let i = 0; i < parts.length; i++) this.#placePart(grid, i);
  }

  /** (1) and (2): bound of a pair over all poses of a cell, in. */
  bound(c: number, p: number): number {
    const n = 2 * this.parts.length;
    const a = c * n + 2 * (this.#partA[p] as number);
    const b = c * n + 2 * (this.#partB[p] as number);
    const m = this.#moved;
    const t = this.#turned;
    const segment =
      (this.drawn[p] as number) -
      Math.min((m[a] as number) + (m[b] as number), (m[a + 1] as number) + (m[b + 1] as number));
    const point =
      (this.#exact[p] as number) -
      Math.min((t[a] as number) + (t[b] as number), (t[a + 1] as number) + (t[b + 1] as number));
    return Math.max(segment, point);
  }

  /** What (1) takes off the gap of any pair at a cell at most, in: pairs further apart as drawn need no look. */
  furthestMove(c: number): number {
    let most = 0;
    const n = this.parts.length;
    for (let i = 0; i < n; i++) most = Math.max(most, this.#moved[2 * (c * n + i)] as number);
    return 2 * most;
  }

  /** (3): gap of the capsules at a pose, in. */
  capsules(p: number, pose: number): number {
    let least = Number.POSITIVE_INFINITY;
    const s = this.#s;
    const a = this.#partA[p] as number;
    const b = this.#partB[p] as number;
    const rolls = this.#rolls[p] as Int32Array;
    for (let r = 0; r < rolls.length; r += 2) {
      this.#readSegment(a, pose, rolls[r] as number, 0);
      this.#readSegment(b, pose, rolls[r + 1] as number, 6);
      segmentToSegment(s);
      least = Math.min(least, s[17]);
    }
    return Math.sqrt(least) - (this.#radii[a] as number) - (this.#radii[b] as number);
  }

  /** (4) and (5): the gap at a pose where it is under the cutoff, in; else a bound that is not under it. */
  gap(p: number, pose: number, cutoff: number): number {
    const rolls = this.#rolls[p] as Int32Array;
    let least = Number.POSITIVE_INFINITY;
    for (let r = 0; r < rolls.length; r += 2) {
      const [a, b] = [rolls[r] as number, rolls[r + 1] as number];
      const gap = this.#gapAt(p, pose, a, b, Math.min(cutoff, least));
      if (gap >= least) continue;
      least = gap;
      this.rollA = a;
      this.rollB = b;
    }
    return least;
  }

  #gapAt(p: number, pose: number, rollA: number, rollB: number, cutoff: number): number {
    const pair = this.pairs[p] as Pair;
    const a = this.#partA[p] as number;
    const b = this.#partB[p] as number;
    const placeA = this.#placeOf(a, pose, rollA);
    const placeB = this.#placeOf(b, pose, rollB);
    const { solidA, solidB } = pair;
    if (pair.a.hollow && solidA === pair.a.open) {
      const { hollow } = pair.a;
      if (this.#isInHollow(hollow, placeA, b, solidB, placeB, pose, rollB, cutoff)) return cutoff;
    } else if (pair.b.hollow && solidB === pair.b.open) {
      const { hollow } = pair.b;
      if (this.#isInHollow(hollow, placeB, a, solidA, placeA, pose, rollA, cutoff)) return cutoff;
    }
    const { solver } = this;
    solver.cutoff = cutoff;
    this.searches++;
    const grid = this.#grid as PlacedGrid;
    const which = p * this.#starters + pose - (grid.first[grid.cellOf[pose] as number] as number);
    if (cutoff < Number.POSITIVE_INFINITY && solidA.rods !== solidB.rods) {
      const around = this.#capsules[solidA.rods ? a : b] as Solid;
      const rod = solidA.rods ? solidA : solidB;
      if (rod.pieces.length > 1) {
        const start = startOf(this.#capsuleStarts, which);
        solver.run(
          solidA.rods ? around : solidA,
          placeA,
          solidA.rods ? solidB : around,
          placeB,
          start,
        );
        if (solver.beyond) return solver.gap;
      }
    }
    solver.run(solidA, placeA, solidB, placeB, startOf(this.#starts, which));
    return solver.gap;
  }

  #placeOf(part: number, pose: number, roll: number): Placement {
    const grid = this.#grid as PlacedGrid;
    return grid.places[grid.slot(this.motions.of[part] as number, pose) + roll] as Placement;
  }

  #readSegment(part: number, pose: number, roll: number, at: number): void {
    const grid = this.#grid as PlacedGrid;
    const motion = this.motions.of[part] as number;
    const slot = grid.slot(motion, pose) + roll - (grid.slots[motion] as number);
    const from = (this.#first[part] as number) + 6 * slot;
    const s = this.#s;
    for (let k = 0; k < 6; k++) s[at + k] = this.#segments[from + k] as number;
  }

  /**
   * Whether a part keeps over the cutoff away from all that surrounds a hollow: a rod by its pieces, another part
   * by the capsule around it.
   */
  #isInHollow(
    hollow: Hollow,
    place: Placement,
    part: number,
    solid: Solid,
    placeOfPart: Placement,
    pose: number,
    roll: number,
    cutoff: number,
  ): boolean {
    const h = this.#bore;
    const s = this.#s;
    h[6] = hollow.mouth[0];
    h[7] = hollow.mouth[1];
    h[8] = hollow.mouth[2];
    h[9] = hollow.axis[0];
    h[10] = hollow.axis[1];
    h[11] = hollow.axis[2];
    carryPoint(place, h, 6, h, 0);
    turnVector(place, h, 9, h, 3);
    if (!solid.rods) {
      this.#readSegment(part, pose, roll, 0);
      return isSegmentInHollow(hollow, h, s, cutoff + (this.#radii[part] as number));
    }
    for (let k = 0; k < solid.pieces.length; k++) {
      const piece = solid.pieces[k] as Piece;
      carrySegment(placeOfPart, piece.data, s, 0);
      if (!isSegmentInHollow(hollow, h, s, cutoff + piece.radius)) return false;
    }
    return true;
  }

  #capsulesAsDrawn(p: number): number {
    const a = this.#envelopes[this.#partA[p] as number] as Envelope;
    const b = this.#envelopes[this.#partB[p] as number] as Envelope;
    const s = this.#s;
    s.set(a.ends, 0);
    s.set(b.ends, 6);
    segmentToSegment(s);
    return Math.sqrt(s[17]) - a.radius - b.radius;
  }

  #exactAsDrawn({ solidA, solidB }: Pair): number {
    if (solidA.rods && solidB.rods) return Number.NEGATIVE_INFINITY;
    const here = unmoved();
    this.solver.cutoff = Number.POSITIVE_INFINITY;
    this.solver.run(solidA, here, solidB, here);
    return this.solver.gap;
  }

  /** A part's segment at every slot, and how far it has moved at each cell. */
  #placePart(grid: PlacedGrid, i: number): void {
    const motion = this.motions.of[i] as number;
    const { ends, radius } = this.#envelopes[i] as Envelope;
    const base = grid.slots[motion] as number;
    const count = slotsOf(grid, motion);
    const first = this.#first[i] as number;
    const e = this.#segments;
    let growth = 1;
    for (let k = 0; k < count; k++) {
      const place = grid.places[base + k] as Placement & Numbers;
      carrySegment(place, ends, e, first + 6 * k);
      growth = Math.max(growth, growthOf(place));
    }
    this.#radii[i] = growth * radius;
    const [capsule] = (this.#capsules[i] as Solid).pieces;
    if (capsule) capsule.radius = growth * radius;
    const { axle } = this.motions;
    const s = this.#s;
    const n = 2 * this.parts.length;
    const rolls = this.motions.rolls[motion] as number;
    for (let k = 0; k < grid.poses.length; k++) {
      const c = grid.cellOf[k] as number;
      const out = c * n + 2 * i;
      const A = (axle < 0 ? HERE : grid.places[grid.slot(axle, k)]) as Placement & Numbers;
      // the ends as drawn, carried with the axle: seen from there a part of the axle has not moved
      carrySegment(A, ends, s, 0);
      for (let r = 0; r < rolls; r++) {
        const slot = grid.slot(motion, k) + r;
        const at = first + 6 * (slot - base);
        const M = grid.places[slot] as Placement & Numbers;
        this.#take(out, wayOf(e, at, ends), growth * radius * differenceOf(M, HERE));
        this.#take(out + 1, wayOf(e, at, s), growth * radius * differenceOf(M, A));
      }
      // one of a cell's poses is enough where the steering does not move the part
      if (this.motions.changes[motion] !== BY_POSE) k = (grid.first[c + 1] as number) - 1;
    }
  }

  #take(at: number, moved: number, turned: number): void {
    if (moved > (this.#moved[at] as number)) this.#moved[at] = moved;
    const both = moved + turned;
    if (both > (this.#turned[at] as number)) this.#turned[at] = both;
  }
}

const solidsOf = ({ solid, open }: Part): Solid[] => (open ? [solid, open] : [solid]);

const HERE = unmoved() as Placement & Numbers;

/**
 * Whether a segment, s[0..5], keeps `asked` away from all that surrounds a hollow, whose mouth and axis stand in
 * h[0..5]: what of it is not that far before the mouth keeps that far from the bore and from what closes it. The
 * distance of a line's points from the axis is convex, so that it is greatest at the ends of that stretch.
 */
function isSegmentInHollow(
  { radius, depth }: Hollow,
  h: Numbers,
  s: Numbers,
  asked: number,
): boolean {
  const at = h[0] * h[3] + h[1] * h[4] + h[2] * h[5];
  const p = s[0] * h[3] + s[1] * h[4] + s[2] * h[5] - at;
  const q = s[3] * h[3] + s[4] * h[4] + s[5] * h[5] - at;
  if (p < -asked && q < -asked) return true;
  if (depth !== null && (p + asked > depth || q + asked > depth)) return false;
  const room = radius - asked;
  if (room < 0) return false;
  // fractions of the stretch that is not that far before the mouth
  const from = p < -asked ? (-asked - p) / (q - p) : 0;
  const to = q < -asked ? (-asked - p) / (q - p) : 1;
  return (
    squareFromAxis(h, s, from, p + from * (q - p)) <= room * room &&
    squareFromAxis(h, s, to, p + to * (q - p)) <= room * room
  );
}

/** Squared distance from the axis of the point at a fraction of the segment, `deep` along the axis. */
function squareFromAxis(h: Numbers, s: Numbers, fraction: number, deep: number): number {
  const x = s[0] + fraction * (s[3] - s[0]) - h[0] - deep * h[3];
  const y = s[1] + fraction * (s[4] - s[1]) - h[1] - deep * h[4];
  const z = s[2] + fraction * (s[5] - s[2]) - h[2] - deep * h[5];
  return x * x + y * y + z * z;
}

/** Every roll of one part with every one of the other; the same one where one rod's roll moves both. */
function rollsTogether({ a, b }: Pair, rollsOf: (part: Part) => number): Int32Array {
  const out: number[] = [];
  const isOne = a.roll !== null && a.roll.of === b.roll?.of;
  for (let i = 0; i < rollsOf(a); i++) {
    for (let k = 0; k < rollsOf(b); k++) if (!isOne || i === k) out.push(i, k);
  }
  return Int32Array.from(out);
}

function startOf(starts: (PairStart | undefined)[], which: number): PairStart {
  let start = starts[which];
  if (!start) {
    start = pairStart();
    starts[which] = start;
  }
  return start;
}

function slotsOf(grid: PlacedGrid, motion: number): number {
  const next = grid.slots[motion + 1] ?? grid.places.length;
  return next - (grid.slots[motion] as number);
}

/** The larger way of both ends of a segment, from `from[0]` … to `to[i]` …, in. */
function wayOf(to: Float64Array, i: number, from: Float64Array): number {
  let most = 0;
  for (let end = 0; end < 6; end += 3) {
    const x = (to[i + end] as number) - (from[end] as number);
    const y = (to[i + end + 1] as number) - (from[end + 1] as number);
    const z = (to[i + end + 2] as number) - (from[end + 2] as number);
    most = Math.max(most, x * x + y * y + z * z);
  }
  return Math.sqrt(most);
}

/** ‖M − A‖ of two placements' turns, from above (Frobenius). */
function differenceOf(m: Numbers, a: Numbers): number {
  let sum = 0;
  for (let i = 0; i < 9; i++) {
    const d = (m[i] as number) - (a[i] as number);
    sum += d * d;
  }
  return Math.sqrt(sum);
}

/**
 * Largest stretch of a turn times a stretch by 1 + s along one line, at least 1: of its nine numbers the sum of
 * squares is 2 + (1 + s)².
 */
function growthOf(m: Numbers): number {
  let sum = 0;
  for (let i = 0; i < PLACEMENT_SIZE - 3; i++) sum += (m[i] as number) ** 2;
  return Math.max(1, Math.sqrt(Math.max(0, sum - 2)) * (1 + 1e-12));
}
