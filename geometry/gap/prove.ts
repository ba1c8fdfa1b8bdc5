/**
 * The proof of gaps: for a pair of parts a bound under which no pose of the range comes.
 *
 * Over a cell with edges w_j a point p stays near the hull of its positions at the cell's corners: multilinear
 * interpolation errs by the pure second derivatives only,
 *   (1) |p(q) − Σ_c μ_c(q) p_c| ≤ ε = Σ_j w_j²/8 · K_j,  K_j ≥ |∂²p/∂q_j²| on the cell,
 * with the same weights μ_c for every point. So for a unit direction n and convex pieces A, B, at every q in the cell
 *   (2) n·(b − a) ≥ min over corners c of [ min_B (n·b_c − ε_b) − max_A (n·a_c + ε_a) ],
 * and the gap is at least that less both radii. For overlapping pieces (2) holds as well: no direction separates
 * more than the signed gap.
 *   (3) K over a cell is that of the base cell it lies in, or the largest of the base cells that it is made of;
 *       where a base cell can't be enclosed, its halves are tried.
 *   (4) A cell is dropped only if a stop's margin is surely broken on all of it: margin at the center plus
 *       Σ_j h_j sup |∂margin/∂q_j| < 0. Cells on the edge count as inside.
 *   (5) For a mesh: the signed gap changes by no more than its points move, so gap(center) − Σ_j h_j sup |∂p/∂q_j|.
 * Cells are split until (2) reaches min(upper − resolution, required + 1 in), or are told as undecided.
 */

import type { Range } from '../cycle/range.ts';
import type { Reach } from '../cycle/reach.ts';
import { bumpStopOf, padAside } from '../limit/bumpStop.ts';
import type { Limit, LimitTarget } from '../limit/limit.ts';
import { limits } from '../limit/list.ts';
import { MeasureContext } from '../measure/measure.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Three } from '../pose/arithmetic.ts';
import type { AxleModel } from '../pose/model.ts';
import type { Pose } from '../pose/pose.ts';
import { DistanceSolver } from '../solid/distance.ts';
import { type Piece, POINTS, SEGMENT } from '../solid/piece.ts';
import { PLACEMENT_SIZE, type Placement } from '../solid/placement.ts';
import { type Solid, solidOf } from '../solid/solid.ts';
import { cornersAround, reach as reachOf } from '../solid/support.ts';
import type { V3 } from '../vector.ts';
import type { AxleTaylor } from './axleSystem.ts';
import {
  type Cell,
  CellMotion,
  countOf,
  encloseAxle,
  type Parameters,
  type Side,
} from './cellMotion.ts';
import type { Pair } from './pairs.ts';
import type { Part } from './part.ts';
import { placePart } from './place.ts';
import { firstSize, secondAt, type Taylor } from './taylor.ts';

/** What a proof says of a pair. */
export interface Proof {
  /** No pose of the range has a gap under this, in. */
  lower: number;
  /** Least gap found, in, and the pose at which it occurs, inside the range. */
  upper: number;
  pose: Pose;
  /** True where some cell could not be decided at this resolution. */
  undecided: boolean;
  /** Cells looked at. */
  cells: number;
}

/** Rounding that is taken off each bound, in: a thousand times what double precision does at 100 in. */
const ROUNDING_in = 1e-9;
/** Halvings of the travels to a base cell: 8 a side; 16 where the axle is elastic, whose enclosures need smaller ones. */
const BASE_DEPTH = { exact: 3, elastic: 4 };
/** Halvings of the third parameter to a base cell. */
const THIRD_DEPTH = 3;
/** Further halvings that are tried where a base cell can't be enclosed. */
const FURTHER = 2;
/** Deepest split: the range's width over 2¹³, 2 thousandths of an inch. */
const DEEPEST = 13;
/** Cells a pair may cost before it is told as undecided. */
const MOST_CELLS = 20_000;
/** Bound over the gap asked for from which a pair is given as 'at least', in. */
const FAR_in = 1;

/** The steering's bounds over the range, and in which parameter they are sharp. */
interface SteeringDomain {
  turn: Record<Side, [number, number]> | null;
  input: [number, number];
}

/** One set of parameters: its domain, and what is known of its cells. */
interface Space {
  key: string;
  parameters: Parameters;
  p: number;
  low: number[];
  size: number[];
  nodes: Map<number, Node | null>;
  enclosed: Map<number, Node | null>;
  outside: Map<number, boolean>;
  poses: Map<number, Posed | null>;
  stops: { limit: Limit; target: LimitTarget }[];
}

/** What holds on a cell of the tree: second and first derivatives of the points of each part. */
interface Node {
  /** Its own enclosure; null for a cell that is known by its halves. */
  motion: CellMotion | null;
  halves: Node[];
  /** By part: for each of its points p numbers, the sizes K_j. */
  bends: Map<Part, Float64Array>;
  /** By part: p numbers, the fastest of its points. */
  speeds: Map<Part, Float64Array>;
  /** By stop: p numbers. */
  stopSpeeds: Map<string, Float64Array>;
}

interface Posed {
  pose: Pose;
  places: Map<Part, Placement>;
}

/** Proves pairs of one axle. It keeps what pairs share: poses at corners, enclosures of cells. */
export class Prover {
  readonly #reach: Reach;
  readonly #model: AxleModel;
  readonly #m: Mechanism;
  readonly #spaces = new Map<string, Space>();
  readonly #domain: SteeringDomain | null;
  readonly #travel: { low: [number, number]; size: [number, number] };
  readonly #points = new Map<Part, Float64Array>();
  readonly #axles = new Map<string, AxleTaylor | null>();
  readonly #solver = new DistanceSolver();
  readonly #single = new Map<Piece, Solid>();
  /** Multiplies ε; 1 but in the test that shows what happens without it. */
  slack = 1;

  constructor(range: Range, reach: Reach) {
    this.#reach = reach;
    this.#model = reach.model;
    this.#m = reach.model.mechanism;
    const lefts = range.edge.map(p => p.left);
    const rights = range.edge.map(p => p.right);
    const low: [number, number] = [Math.min(...lefts) - 2e-3, Math.min(...rights) - 2e-3];
    this.#travel = {
      low,
      size: [Math.max(...lefts) + 2e-3 - low[0], Math.max(...rights) + 2e-3 - low[1]],
    };
    this.#domain = this.#m.steering ? this.#steeringDomain(range) : null;
  }

  /**
   * Proves one pair down to a resolution.
   *
   * @param start least gap known so far, with its pose inside the range
   */
  prove(pair: Pair, resolution: number, start: { gap: number; pose: Pose }): Proof {
    const proof: Proof = {
      lower: Number.POSITIVE_INFINITY,
      upper: start.gap,
      pose: start.pose,
      undecided: false,
      cells: 0,
    };
    const space = this.#spaceOf(pair);
    if (!space) return { ...proof, lower: start.gap };
    const piecesA = pair.solidA.mesh ? [null] : pair.solidA.pieces;
    const piecesB = pair.solidB.mesh ? [null] : pair.solidB.pieces;
    for (const a of piecesA) {
      for (const b of piecesB) this.#provePieces(pair, a, b, space, resolution, proof);
    }
    // the target has come down with the upper bound: what fell short of an earlier one may be enough now
    const target = Math.min(proof.upper - resolution, pair.required + FAR_in);
    proof.undecided = !(proof.lower >= target);
    return proof;
  }

  #provePieces(
    pair: Pair,
    a: Piece | null,
    b: Piece | null,
    space: Space,
    resolution: number,
    proof: Proof,
  ): void {
    const solidA = a ? this.#solidOf(a) : pair.solidA;
    const solidB = b ? this.#solidOf(b) : pair.solidB;
    const open: CellKey[] = [ROOT];
    const normals: (V3 | null)[] = [null];
    const target = (): number => Math.min(proof.upper - resolution, pair.required + FAR_in);
    while (open.length > 0) {
      const cell = open.pop() as CellKey;
      let n = normals.pop() ?? null;
      proof.cells++;
      if (this.#isOutside(space, cell)) continue;
      const box = this.#boxOf(space, cell);
      const posed = this.#posed(space, centerKey(cell));
      const node = this.#node(space, cell);
      let lower = Number.NEGATIVE_INFINITY;
      if (posed && node) {
        if (a && b) {
          if (n) lower = this.#bound(space, node, cell, box, pair, a, b, n);
          if (!(lower >= target())) {
            this.#solver.run(
              solidA,
              this.#place(posed, pair.a),
              solidB,
              this.#place(posed, pair.b),
            );
            n = [...this.#solver.normal] as unknown as V3;
            lower = Math.max(lower, this.#bound(space, node, cell, box, pair, a, b, n));
            this.#improve(space, pair, posed.pose, proof);
          }
        } else {
          this.#solver.run(solidA, this.#place(posed, pair.a), solidB, this.#place(posed, pair.b));
          lower = this.#solver.gap - this.#swing(space, node, box, pair) - ROUNDING_in;
          this.#improve(space, pair, posed.pose, proof);
        }
      }
      if (lower >= target()) {
        proof.lower = Math.min(proof.lower, lower);
        continue;
      }
      const isDeepest = cell.depths.every((depth, j) => j >= space.p || depth >= DEEPEST);
      if (isDeepest || proof.cells >= MOST_CELLS) {
        proof.lower = Math.min(proof.lower, lower);
        continue;
      }
      for (const child of this.#halves(space, node, cell, box, pair, n)) {
        open.push(child);
        normals.push(n);
      }
    }
  }

  /** A smaller gap at a pose inside the range than was known. */
  #improve(space: Space, pair: Pair, pose: Pose, proof: Proof): void {
    const gap = this.#solver.gap;
    if (this.#solver.beyond || gap >= proof.upper) return;
    const real = this.#realPose(space, pose);
    if (!real) return;
    // the whole pair at the real pose, since this is one pair of pieces of it
    const places = [pair.a, pair.b].map(part => {
      const out = new Float64Array(PLACEMENT_SIZE);
      placePart(part, real, out);
      return out;
    });
    this.#solver.run(pair.solidA, places[0] as Placement, pair.solidB, places[1] as Placement);
    if (this.#solver.gap < proof.upper) {
      proof.upper = this.#solver.gap;
      proof.pose = real;
    }
  }

  /** The pose itself where the stops allow it, else null. */
  #realPose(space: Space, pose: Pose): Pose | null {
    const { left, right, steer } = pose.input;
    const state = this.#reach.travel(left, right);
    if (!state.pose || state.margin < 0) return null;
    if (!space.parameters.third) return state.pose;
    const interval = this.#reach.steering(state.pose);
    if (!interval) return null;
    if (space.parameters.third.kind === 'input') {
      if (steer < interval.least.value || steer > interval.greatest.value) return null;
      return this.#model.atSteer(state.pose, steer).pose;
    }
    // the input that turns this knuckle so: regula falsi between the ends, where the turn is monotone
    const { side } = space.parameters.third;
    const wanted = pose.knuckleTurn(side) as number;
    const turn = (s: number): number =>
      this.#model.atSteer(state.pose as Pose, s).pose?.knuckleTurn(side) ?? NaN;
    let [a, b] = [interval.least.value, interval.greatest.value];
    let [fa, fb] = [turn(a) - wanted, turn(b) - wanted];
    if (!(fa <= 0 && fb >= 0)) return null;
    for (let k = 0; k < 60 && b - a > 1e-12; k++) {
      const t = k % 3 === 2 ? (a + b) / 2 : a + ((b - a) * fa) / (fa - fb);
      const f = turn(t) - wanted;
      if (Math.abs(f) < 1e-12) return this.#model.atSteer(state.pose, t).pose;
      if (f < 0) [a, fa] = [t, f];
      else [b, fb] = [t, f];
    }
    return this.#model.atSteer(state.pose, a).pose;
  }

  /** (2) for two convex pieces over a cell, less rounding. */
  #bound(
    space: Space,
    node: Node,
    cell: CellKey,
    box: Box,
    pair: Pair,
    a: Piece,
    b: Piece,
    n: V3,
  ): number {
    const slackA = this.#slackOf(space, node, box, pair.a, a);
    const slackB = this.#slackOf(space, node, box, pair.b, b);
    let least = Number.POSITIVE_INFINITY;
    const corners = 1 << space.p;
    for (let c = 0; c < corners; c++) {
      const posed = this.#posed(space, cornerKey(cell, c, space.p));
      if (!posed) return Number.NEGATIVE_INFINITY;
      const gap =
        -farthest(b, this.#place(posed, pair.b), slackB, -n[0], -n[1], -n[2]) -
        farthest(a, this.#place(posed, pair.a), slackA, n[0], n[1], n[2]);
      // written so that NaN wins and proves nothing
      if (!(gap >= least)) least = gap;
    }
    return least - ROUNDING_in;
  }

  /** ε of (1) for a piece: one number an end of a segment, one for any other piece. */
  #slackOf(space: Space, node: Node, box: Box, part: Part, piece: Piece): Float64Array {
    const bends = this.#bends(node, part);
    const [from, to] = this.#pointsOf(part, piece);
    const out = new Float64Array(piece.core === SEGMENT ? 2 : 1);
    for (let i = from; i < to; i++) {
      let slack = 0;
      for (let j = 0; j < space.p; j++) {
        slack += ((box.half[j] as number) ** 2 / 2) * (bends[i * space.p + j] as number);
      }
      const at = piece.core === SEGMENT ? i - from : 0;
      // NaN and infinity stay: they prove nothing
      const e = slack * this.slack;
      if (!(e <= (out[at] as number))) out[at] = e;
    }
    return out;
  }

  /** (5): how far the points of both parts may come over half a cell. */
  #swing(space: Space, node: Node, box: Box, pair: Pair): number {
    let sum = 0;
    for (const part of [pair.a, pair.b]) {
      const speeds = this.#speeds(node, part);
      for (let j = 0; j < space.p; j++) sum += (box.half[j] as number) * (speeds[j] as number);
    }
    return sum;
  }

  /** The cell's halves along the parameter that moves the pair most. */
  #halves(
    space: Space,
    node: Node | null,
    cell: CellKey,
    box: Box,
    pair: Pair,
    n: V3 | null,
  ): CellKey[] {
    let best = 0;
    let most = Number.NEGATIVE_INFINITY;
    for (let j = 0; j < space.p; j++) {
      if ((cell.depths[j] as number) >= DEEPEST) continue;
      let size = (box.half[j] as number) / (space.size[j] as number);
      if (node) {
        const a = this.#speeds(node, pair.a)[j] as number;
        const b = this.#speeds(node, pair.b)[j] as number;
        const bendA = this.#bends(node, pair.a);
        const bendB = this.#bends(node, pair.b);
        let bend = 0;
        for (let i = j; i < bendA.length; i += space.p) bend = Math.max(bend, bendA[i] as number);
        for (let i = j; i < bendB.length; i += space.p) bend = Math.max(bend, bendB[i] as number);
        const half = box.half[j] as number;
        size = half * this.#along(space, cell, pair, j, n, a + b) + 3 * half * half * bend;
        if (!Number.isFinite(size)) size = half * 1e6;
      }
      if (size > most) {
        most = size;
        best = j;
      }
    }
    return halvesOf(cell, best);
  }

  /** How fast the pair moves along n with parameter j: from the corners; else the fastest of its points. */
  #along(
    space: Space,
    cell: CellKey,
    pair: Pair,
    j: number,
    n: V3 | null,
    fastest: number,
  ): number {
    if (!n) return fastest;
    const [low, high] = [0, 1 << j].map(c => this.#posed(space, cornerKey(cell, c, space.p)));
    if (!low || !high) return fastest;
    const middle = (posed: Posed, part: Part): V3 => {
      const place = this.#place(posed, part);
      const c = part.solid.bound;
      return [0, 1, 2].map(
        r =>
          (place[3 * r] as number) * (c[0] as number) +
          (place[3 * r + 1] as number) * (c[1] as number) +
          (place[3 * r + 2] as number) * (c[2] as number) +
          (place[9 + r] as number),
      ) as unknown as V3;
    };
    const width = (this.#boxOf(space, cell).half[j] as number) * 2;
    let sum = 0;
    for (const part of [pair.a, pair.b]) {
      const p = middle(low, part);
      const q = middle(high, part);
      sum += Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2]);
    }
    return sum / width;
  }

  /** (4): whether some stop is surely broken on the whole cell. Stops of travel are asked on the travels alone. */
  #isOutside(space: Space, cell: CellKey): boolean {
    const id = cellId(cell, space.p);
    let outside = space.outside.get(id);
    if (outside !== undefined) return outside;
    if (space.parameters.travels && space.parameters.third) {
      const alone = this.#space({ third: null, travels: true });
      const below = parentOf(cell, [DEEPEST, DEEPEST, 0]);
      outside = this.#isOutside(alone, below) || this.#breaks(space, cell);
    } else outside = this.#breaks(space, cell);
    space.outside.set(id, outside);
    return outside;
  }

  #breaks(space: Space, cell: CellKey): boolean {
    const box = this.#boxOf(space, cell);
    if (space.parameters.travels) {
      const { left, right } = this.#reach.box;
      const [l, r] = box.center as [number, number];
      const [hl, hr] = box.half as [number, number];
      if (l - hl > left.up || l + hl < -left.down) return true;
      if (r - hr > right.up || r + hr < -right.down) return true;
    }
    if (space.stops.length === 0) return false;
    const posed = this.#posed(space, centerKey(cell));
    if (!posed) return false;
    const { build, axle } = this.#reach;
    const context = new MeasureContext(build, axle, this.#model, posed.pose);
    for (const { limit, target } of space.stops) {
      const margin = limit.margin(context, target);
      if (margin === null || margin >= 0) continue;
      const node = this.#node(space, cell);
      const speeds = node && this.#stopSpeeds(node, limit, target);
      if (!speeds) continue;
      let swing = 0;
      for (let j = 0; j < space.p; j++) swing += (box.half[j] as number) * (speeds[j] as number);
      if (!(margin + swing < -ROUNDING_in)) continue;
      // a pad that may slide off its plane somewhere on the cell stops nothing there
      const stop = limit.id === 'bumpStop' ? bumpStopOf(axle, target.part) : null;
      const radius = stop?.strike.radius ?? Number.POSITIVE_INFINITY;
      if (stop && padAside(posed.pose, stop) + swing > radius) continue;
      return true;
    }
    return false;
  }

  /** Sizes of a stop's derivatives on a cell; null where its margin can't be bounded so. */
  #stopSpeeds(node: Node, limit: Limit, target: LimitTarget): Float64Array | null {
    const key = `${limit.id} ${target.part} ${target.end}`;
    const known = node.stopSpeeds.get(key);
    if (known) return known;
    let speeds: Float64Array | null = null;
    if (node.motion) speeds = this.#stopSpeedsOf(node.motion, limit, target);
    else {
      for (const half of node.halves) {
        const of = this.#stopSpeeds(half, limit, target);
        if (!of) return null;
        speeds = speeds ? speeds.map((x, j) => Math.max(x, of[j] as number)) : of.slice();
      }
    }
    if (!speeds) return null;
    node.stopSpeeds.set(key, speeds);
    return speeds;
  }

  #stopSpeedsOf(motion: CellMotion, limit: Limit, target: LimitTarget): Float64Array | null {
    const { axle } = this.#reach;
    const p = motion.forms.k.m;
    const out = new Float64Array(p);
    if (limit.id === 'steeringStop' && target.side) {
      const turn = motion.turnOf(target.side);
      if (!turn) return null;
      // τ_j² = (cos τ)_j² + (sin τ)_j²
      for (let j = 0; j < p; j++)
        out[j] = Math.hypot(firstSize(turn.cos, j), firstSize(turn.sin, j));
      return out;
    }
    if (limit.id === 'boxSweep') {
      out[p - 1] = 1;
      return out;
    }
    const ends = stopEnds(axle, limit, target);
    if (!ends) return null;
    const a = motion.bodyPoint(ends.from.on, ends.from.at);
    const b = motion.bodyPoint(ends.to.on, ends.to.at);
    if (!a || !b) return null;
    for (let j = 0; j < p; j++) out[j] = speedOf(a, j) + speedOf(b, j);
    return out;
  }

  /** K_j of each point of a part on a cell: of its enclosure, or the largest of its halves, (3). */
  #bends(node: Node, part: Part): Float64Array {
    return node.bends.get(part) ?? this.#measure(node, part).bends;
  }

  /** The fastest of a part's points on a cell, by parameter. */
  #speeds(node: Node, part: Part): Float64Array {
    return node.speeds.get(part) ?? this.#measure(node, part).speeds;
  }

  #measure(node: Node, part: Part): { bends: Float64Array; speeds: Float64Array } {
    const motion = node.motion;
    const points = this.#allPoints(part);
    const count = points.length / 3;
    if (!motion) {
      const largest = (of: (half: Node) => Float64Array): Float64Array => {
        const out = of(node.halves[0] as Node).slice();
        for (const half of node.halves.slice(1)) {
          const other = of(half);
          // NaN and infinity stay
          for (let i = 0; i < out.length; i++) {
            if (!((other[i] as number) <= (out[i] as number))) out[i] = other[i] as number;
          }
        }
        return out;
      };
      const bends = largest(half => this.#bends(half, part));
      const speeds = largest(half => this.#speeds(half, part));
      node.bends.set(part, bends);
      node.speeds.set(part, speeds);
      return { bends, speeds };
    }
    const p = motion.forms.k.m;
    const bends = new Float64Array(count * p);
    const speeds = new Float64Array(p);
    const [x, y, z] = part.solid.bound as unknown as [number, number, number];
    const affine = count > 2 ? motion.affine(part, [x, y, z]) : null;
    if (affine) {
      for (let i = 0; i < count; i++) {
        const from: V3 = [
          (points[3 * i] as number) - x,
          (points[3 * i + 1] as number) - y,
          (points[3 * i + 2] as number) - z,
        ];
        for (let j = 0; j < p; j++) {
          bends[i * p + j] = affineSize(affine, from, secondAt(p, j));
          const speed = affineSize(affine, from, 2 + 2 * j);
          if (!(speed <= (speeds[j] as number))) speeds[j] = speed;
        }
      }
      node.bends.set(part, bends);
      node.speeds.set(part, speeds);
      return { bends, speeds };
    }
    for (let i = 0; i < count; i++) {
      const drawn: V3 = [
        points[3 * i] as number,
        points[3 * i + 1] as number,
        points[3 * i + 2] as number,
      ];
      const at = motion.pointOf(part, drawn);
      for (let j = 0; j < p; j++) {
        bends[i * p + j] = at ? bendOf(at, p, j) : Number.POSITIVE_INFINITY;
        const speed = at ? speedOf(at, j) : Number.POSITIVE_INFINITY;
        if (!(speed <= (speeds[j] as number))) speeds[j] = speed;
      }
    }
    node.bends.set(part, bends);
    node.speeds.set(part, speeds);
    return { bends, speeds };
  }

  /** Points of a part of which the pieces' slacks are taken: all pieces', one after the other. */
  #allPoints(part: Part): Float64Array {
    let points = this.#points.get(part);
    if (!points) {
      const all: number[] = [];
      for (const solid of [part.solid, ...(part.open ? [part.open] : [])]) {
        for (const piece of solid.pieces) all.push(...slackPoints(piece));
        if (solid.mesh) all.push(...boxCorners(solid.bound));
      }
      points = Float64Array.from(all);
      this.#points.set(part, points);
    }
    return points;
  }

  /** Where a piece's points begin and end among its part's. A trimmed rod is bounded by its whole part. */
  #pointsOf(part: Part, piece: Piece): [number, number] {
    let at = 0;
    for (const solid of [part.solid, ...(part.open ? [part.open] : [])]) {
      for (const each of solid.pieces) {
        const next = at + slackPoints(each).length / 3;
        if (each === piece) return [at, next];
        at = next;
      }
    }
    return [0, at];
  }

  #solidOf(piece: Piece): Solid {
    let solid = this.#single.get(piece);
    if (!solid) {
      solid = solidOf(
        piece.core === SEGMENT ? 'bentTube' : piece.core === POINTS ? 'hull' : 'box',
        [piece],
      );
      this.#single.set(piece, solid);
    }
    return solid;
  }

  #place(posed: Posed, part: Part): Placement {
    let place = posed.places.get(part);
    if (!place) {
      place = new Float64Array(PLACEMENT_SIZE);
      placePart(part, posed.pose, place);
      posed.places.set(part, place);
    }
    return place;
  }

  /** The pose at a point of the lattice; null where none exists. */
  #posed(space: Space, key: LatticeKey): Posed | null {
    const id = latticeId(key, space.p);
    let found = space.poses.get(id);
    if (found === undefined) {
      const q = key.map(
        (k, j) => (space.low[j] as number) + ((space.size[j] as number) * k) / LATTICE,
      );
      const pose = this.#poseAt(space.parameters, q);
      found = pose ? { pose, places: new Map() } : null;
      space.poses.set(id, found);
    }
    return found;
  }

  #last: Pose | null = null;

  #poseAt(parameters: Parameters, q: number[]): Pose | null {
    const model = this.#model;
    const ride = model.ride;
    let straight: Pose | null = ride;
    if (parameters.travels) {
      straight = model.near(this.#last ?? ride, q[0] as number, q[1] as number, 0).pose;
      if (!straight) return null;
      this.#last = straight;
    }
    const third = parameters.third;
    if (!third) return straight;
    const value = q.at(-1) as number;
    if (third.kind === 'input') return model.atSteer(straight, value).pose;
    return turnedPose(model, straight, third.side, value);
  }

  #boxOf(space: Space, cell: CellKey): Box {
    const half = new Array<number>(space.p);
    const center = new Array<number>(space.p);
    for (let j = 0; j < space.p; j++) {
      const width = (space.size[j] as number) / 2 ** (cell.depths[j] as number);
      half[j] = width / 2;
      center[j] = (space.low[j] as number) + width * ((cell.index[j] as number) + 0.5);
    }
    return { center, half };
  }

  /** What holds on a cell, (3); null where that is unknown. */
  #node(space: Space, cell: CellKey): Node | null {
    const id = cellId(cell, space.p);
    const known = space.nodes.get(id);
    if (known !== undefined) return known;
    const node = this.#makeNode(space, cell);
    space.nodes.set(id, node);
    return node;
  }

  #makeNode(space: Space, cell: CellKey): Node | null {
    const travels = this.#m.exact ? BASE_DEPTH.exact : BASE_DEPTH.elastic;
    const base = Array.from({ length: space.p }, (_, j) =>
      space.parameters.third && j === space.p - 1 ? THIRD_DEPTH : travels,
    );
    const wide = base.findIndex((depth, j) => (cell.depths[j] as number) < depth);
    if (wide >= 0) return this.#ofHalves(space, cell, wide);
    // inside a base cell: its own enclosure, or one around it, since K tightens with the cell
    for (let further = FURTHER; further >= 0; further--) {
      const around = parentOf(
        cell,
        base.map(depth => depth + further),
      );
      const node = this.#enclosed(space, around);
      if (node) return node;
    }
    // a base cell that can't be enclosed is known by its halves, as far down as FURTHER
    const isFurthest = cell.depths.every(
      (d, j) => j >= space.p || d >= (base[j] as number) + FURTHER,
    );
    return isFurthest ? null : this.#ofHalves(space, cell, widestOf(cell, base));
  }

  #ofHalves(space: Space, cell: CellKey, j: number): Node | null {
    const halves: Node[] = [];
    for (const half of halvesOf(cell, j)) {
      const node = this.#node(space, half);
      if (!node) return null;
      halves.push(node);
    }
    return { motion: null, halves, bends: new Map(), speeds: new Map(), stopSpeeds: new Map() };
  }

  /** A cell's own enclosure; null where it can't be shown. */
  #enclosed(space: Space, cell: CellKey): Node | null {
    const id = cellId(cell, space.p);
    let node = space.enclosed.get(id);
    if (node === undefined) {
      node = this.#enclose(space, cell);
      space.enclosed.set(id, node);
    }
    return node;
  }

  #enclose(space: Space, cell: CellKey): Node | null {
    const box = this.#boxOf(space, cell);
    const posed = this.#posed(space, centerKey(cell));
    if (!posed) return null;
    const intervals: Cell = box.center.map((center, j) => ({
      center,
      half: box.half[j] as number,
    }));
    const motion = CellMotion.over(
      this.#m,
      posed.pose,
      space.parameters,
      intervals,
      this.#model.steering?.sense || 1,
      travels => {
        const key = travels.map(t => `${t.center},${t.half}`).join(';');
        let axle = this.#axles.get(key);
        if (axle === undefined) {
          axle = encloseAxle(this.#m, posed.pose, travels);
          this.#axles.set(key, axle);
        }
        return axle;
      },
    );
    return motion
      ? { motion, halves: [], bends: new Map(), speeds: new Map(), stopSpeeds: new Map() }
      : null;
  }

  /** Parameters of a pair, and its space; null for a pair that never moves. */
  #spaceOf(pair: Pair): Space | null {
    const bodies = new Set([...bodiesOf(pair.a), ...bodiesOf(pair.b)]);
    if (pair.still) return null;
    const steering = this.#m.steering;
    const isChassis = (body: string): boolean =>
      body === 'chassis' ||
      body === 'pitman arm' ||
      body === 'drag link' ||
      this.#m.arms.some(arm => arm.name === body) ||
      this.#m.points.some(point => point.name === body);
    const kind = steering?.kind;
    const isRod = (body: string): boolean =>
      steering?.rods.some(r => r.name === body || r.kind === body) ?? false;
    const turning = [...bodies].filter(
      body =>
        body.endsWith(' knuckle') || isRod(body) || body === 'pitman arm' || body === 'ram rod',
    );
    let third: Parameters['third'] = null;
    if (steering && turning.length > 0) {
      const sides = turning.flatMap(body =>
        body === 'left knuckle'
          ? (['left'] as const)
          : body === 'right knuckle'
            ? (['right'] as const)
            : [],
      );
      const hangsOnInput =
        turning.some(body => body === 'pitman arm' || body === 'drag link' || body === 'ram rod') ||
        kind === 'ram' ||
        (kind === 'dragLink' &&
          turning.some(body => isRod(body) || body !== `${steering.first} knuckle`)) ||
        !this.#domain?.turn;
      if (hangsOnInput) third = { kind: 'input' };
      else if (turning.length === 1 && sides[0]) third = { kind: 'turn', side: sides[0] };
      else third = { kind: 'turn', side: steering.first };
    }
    // a ram's input turns the knuckles on the axle alone; a pitman arm's hangs on the travels
    const travels = [...bodies].some(isChassis) || (third?.kind === 'input' && kind !== 'ram');
    return this.#space({ third, travels });
  }

  #space(parameters: Parameters): Space {
    const { third, travels } = parameters;
    const key = `${travels} ${third ? (third.kind === 'turn' ? third.side : 'input') : ''}`;
    let space = this.#spaces.get(key);
    if (space) return space;
    const low: number[] = [];
    const size: number[] = [];
    if (travels) {
      low.push(...this.#travel.low);
      size.push(...this.#travel.size);
    }
    if (third) {
      const bounds = third.kind === 'turn' ? this.#domain?.turn?.[third.side] : this.#domain?.input;
      const [from, to] = bounds ?? [0, 0];
      low.push(from);
      size.push(to - from);
    }
    const { build, axle } = this.#reach;
    const stops = limits
      .filter(
        limit =>
          (limit.role === 'travel' && travels && !third) ||
          (limit.role === 'steering' && third?.kind === 'input'),
      )
      .flatMap(limit => limit.targets(axle, build).map(target => ({ limit, target })));
    space = {
      key,
      parameters,
      p: countOf(parameters),
      low,
      size,
      nodes: new Map(),
      enclosed: new Map(),
      outside: new Map(),
      poses: new Map(),
      stops,
    };
    this.#spaces.set(key, space);
    return space;
  }

  /**
   * Bounds of the steering. In knuckle turns they are sharp only where the knuckles' own stops end it everywhere
   * and both knuckles hang on each other alone; else the input is taken, with a margin that (4) cuts off.
   */
  #steeringDomain(range: Range): SteeringDomain {
    const reach = this.#reach;
    const input: [number, number] = [0, 0];
    const turns: Record<Side, [number, number]> = { left: [0, 0], right: [0, 0] };
    const kind = this.#m.steering?.kind;
    let sharp = kind === 'knuckle' || kind === 'tieRod';
    const first: Record<Side, [number, number] | null> = { left: null, right: null };
    const stride = Math.max(1, Math.floor(range.edge.length / 24));
    const places: [number, number][] = [[0, 0]];
    for (let i = 0; i < range.edge.length; i += stride) {
      const p = range.edge[i];
      if (p) places.push([p.left, p.right], [p.left / 2, p.right / 2]);
    }
    for (const [left, right] of places) {
      const { pose } = reach.travel(left, right);
      const interval = pose && reach.steering(pose);
      if (!pose || !interval) {
        sharp = false;
        continue;
      }
      input[0] = Math.min(input[0], interval.least.value);
      input[1] = Math.max(input[1], interval.greatest.value);
      if (interval.least.by !== 'steeringStop' || interval.greatest.by !== 'steeringStop')
        sharp = false;
      for (const side of ['left', 'right'] as const) {
        const low = reach.steered(pose, interval, -1)?.knuckleTurn(side);
        const high = reach.steered(pose, interval, 1)?.knuckleTurn(side);
        if (low == null || high == null) {
          sharp = false;
          continue;
        }
        const known = first[side];
        if (!known) first[side] = [low, high];
        else if (Math.abs(known[0] - low) > 1e-8 || Math.abs(known[1] - high) > 1e-8) sharp = false;
        turns[side] = [Math.min(turns[side][0], low), Math.max(turns[side][1], high)];
      }
    }
    const pad = 0.03 * (input[1] - input[0]);
    return {
      turn: sharp
        ? {
            left: [turns.left[0] - 1e-8, turns.left[1] + 1e-8],
            right: [turns.right[0] - 1e-8, turns.right[1] + 1e-8],
          }
        : null,
      input: [input[0] - pad, input[1] + pad],
    };
  }
}

interface Box {
  center: number[];
  half: number[];
}

/** A cell of the tree: by parameter how often it was halved, and which of the halves it is. */
interface CellKey {
  depths: readonly number[];
  index: readonly number[];
  depth: number;
}

const ROOT: CellKey = { depths: [0, 0, 0], index: [0, 0, 0], depth: 0 };

/** Steps of the lattice that corners and centers of all cells lie on. */
const LATTICE = 2 ** (DEEPEST + 1);
type LatticeKey = number[];

function centerKey(cell: CellKey): LatticeKey {
  return cell.index.map((i, j) => (2 * i + 1) * (LATTICE / 2 / 2 ** (cell.depths[j] as number)));
}

function cornerKey(cell: CellKey, corner: number, p: number): LatticeKey {
  return cell.index.map((i, j) =>
    j >= p ? 0 : (i + ((corner >> j) & 1)) * (LATTICE / 2 ** (cell.depths[j] as number)),
  );
}

/** One number for a point of the lattice; 3 × 15 bits fit a double. */
function latticeId(key: LatticeKey, p: number): number {
  let id = 0;
  for (let j = 0; j < p; j++) id = id * (LATTICE + 1) + (key[j] as number);
  return id;
}

function cellId(cell: CellKey, p: number): number {
  let id = 0;
  for (let j = 0; j < p; j++) {
    // halvings and half together: 2^depth + index is one of a kind
    id = id * 2 ** (DEEPEST + 1) + 2 ** (cell.depths[j] as number) + (cell.index[j] as number);
  }
  return id;
}

function halvesOf(cell: CellKey, j: number): CellKey[] {
  return [0, 1].map(half => {
    const depths = [...cell.depths];
    const index = [...cell.index];
    depths[j] = (depths[j] as number) + 1;
    index[j] = 2 * (index[j] as number) + half;
    return { depths, index, depth: Math.max(...depths) };
  });
}

/** The cell of at most these depths around a cell. */
function parentOf(cell: CellKey, most: readonly number[]): CellKey {
  const depths = cell.depths.map((d, j) => Math.min(d, most[j] ?? 0));
  const index = cell.index.map((i, j) =>
    Math.floor(i / 2 ** ((cell.depths[j] as number) - (depths[j] as number))),
  );
  return { depths, index, depth: Math.max(...depths) };
}

/** The parameter that was halved least, against the base. */
function widestOf(cell: CellKey, base: readonly number[]): number {
  let best = 0;
  base.forEach((depth, j) => {
    if ((cell.depths[j] as number) - depth < (cell.depths[best] as number) - (base[best] as number))
      best = j;
  });
  return best;
}

/** How far a piece reaches along n at a place, each of its points by its slack further. */
function farthest(
  piece: Piece,
  place: Placement,
  slack: Float64Array,
  x: number,
  y: number,
  z: number,
): number {
  if (piece.core !== SEGMENT) return reachOf(piece, place, x, y, z) + (slack[0] as number);
  const d = piece.data;
  const u = (place[0] as number) * x + (place[3] as number) * y + (place[6] as number) * z;
  const v = (place[1] as number) * x + (place[4] as number) * y + (place[7] as number) * z;
  const w = (place[2] as number) * x + (place[5] as number) * y + (place[8] as number) * z;
  const shift = (place[9] as number) * x + (place[10] as number) * y + (place[11] as number) * z;
  const first =
    u * (d[0] as number) + v * (d[1] as number) + w * (d[2] as number) + (slack[0] as number);
  const second =
    u * (d[3] as number) +
    v * (d[4] as number) +
    w * (d[5] as number) +
    (slack[1] ?? (slack[0] as number));
  return Math.max(first, second) + piece.radius + shift;
}

/** Points whose second derivatives bound those of all points of a piece: its corners, or those of a box around it. */
function slackPoints(piece: Piece): number[] {
  if (piece.core === SEGMENT) return [...piece.data.subarray(0, 6)];
  if (piece.core === POINTS && piece.count > 8) return boxCorners(piece.bound);
  return [...cornersAround(piece, 6)];
}

/** Corners of a cube around a bounding sphere. */
function boxCorners(bound: Float64Array): number[] {
  const out: number[] = [];
  const r = bound[3] as number;
  for (let k = 0; k < 8; k++) {
    for (let i = 0; i < 3; i++) out.push((bound[i] as number) + ((k >> i) & 1 ? r : -r));
  }
  return out;
}

const sizeOf = (a: Taylor, at: number): number => Math.abs(a[at] as number) + (a[at + 1] as number);

/** Size of a derivative, at `at` of each Taylor, of the point that lies at `from` from an affine part's known point. */
function affineSize(
  { turn, point }: { turn: Taylor[]; point: Three<Taylor> },
  from: V3,
  at: number,
): number {
  let square = 0;
  for (let r = 0; r < 3; r++) {
    let center = (point[r] as Taylor)[at] as number;
    let radius = (point[r] as Taylor)[at + 1] as number;
    for (let c = 0; c < 3; c++) {
      const entry = turn[3 * r + c] as Taylor;
      const x = from[c] as number;
      center += (entry[at] as number) * x;
      radius += (entry[at + 1] as number) * Math.abs(x);
    }
    square += (Math.abs(center) + radius) ** 2;
  }
  return Math.sqrt(square);
}

/** Size of the second derivative by parameter j. */
const bendOf = (p: Three<Taylor>, m: number, j: number): number => {
  const at = secondAt(m, j);
  return Math.sqrt(sizeOf(p[0], at) ** 2 + sizeOf(p[1], at) ** 2 + sizeOf(p[2], at) ** 2);
};

/** Size of the first derivative by parameter j. */
const speedOf = (p: Three<Taylor>, j: number): number =>
  Math.sqrt(firstSize(p[0], j) ** 2 + firstSize(p[1], j) ** 2 + firstSize(p[2], j) ** 2);

/** Bodies that a part rides on. */
function bodiesOf(part: Part): string[] {
  const m = part.motion;
  if (m.kind === 'rigid') return [m.body];
  return m.kind === 'ends' ? [m.from.on, m.to.on] : [m.at.on, m.towards.on];
}

/** The two points whose distance a stop of travel or a ram's end goes by. */
function stopEnds(
  axle: Reach['axle'],
  limit: Limit,
  target: LimitTarget,
): { from: { on: string; at: V3 }; to: { on: string; at: V3 } } | null {
  const across = (part: { axle: V3; chassis: V3 } | undefined) =>
    part ? { from: { on: 'axle', at: part.axle }, to: { on: 'chassis', at: part.chassis } } : null;
  switch (limit.id) {
    case 'shockShort':
    case 'shockLong':
      return across(axle.shocks.find(s => s.name === target.part));
    case 'coilSolid':
      return across(axle.coils.find(c => c.name === target.part));
    case 'strap':
      return across(axle.straps.find(s => s.name === target.part));
    case 'bumpStop': {
      const stop = axle.bumpStops.find(s => s.name === target.part);
      // the normal must stand still for the pad's speed to bound that of the height
      return stop?.strike.on === 'chassis' ? { from: stop.pad, to: stop.strike } : null;
    }
    case 'ramEnd': {
      const ram = axle.steering?.rams.find(r => r.name === target.part);
      return ram?.rod ? { from: ram.body, to: ram.rod } : null;
    }
    default:
      return null;
  }
}

/** A pose with one knuckle turned by hand, and the other by the tie rod where there is one from knuckle to knuckle. */
function turnedPose(model: AxleModel, straight: Pose, side: Side, turn: number): Pose | null {
  const steering = model.steering;
  if (!steering || !straight.turn) return null;
  const turns = steering.turnedBy(side, turn);
  if (!turns) return null;
  return straight.withTurns(turns);
}
