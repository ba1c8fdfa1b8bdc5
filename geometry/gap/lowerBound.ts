/**
 * A lower bound of the gap of two shapes over a cell, along one direction: (1) to (4) of PROOF.md.
 *
 * Corner positions are mixed with the same weights for every point, and a point p strays from its mixture by the pure
 * second derivatives only; along n, downward, by at most ε(p) = Σ_j w_j²/8 max(0, sup n·p_jj). So for every pose of the cell
 *   n·(b − a) ≥ Σ_c μ_c g_c,  g_c = min_B (n·b_c − ε(b)) − max_A (n·a_c + ε(a)),
 * and with any multipliers λ_k ≥ 0 of the stops, whose margins are ≤ Σ_c μ_c m_kc and ≥ 0 in the range,
 *   gap ≥ min_c (g_c − Σ_k λ_k m_kc).
 * For overlapping shapes this holds as well: no direction separates more than the signed gap.
 */
import { type Piece, SEGMENT } from '../solid/piece.ts';
import type { Placement } from '../solid/placement.ts';
import { reach } from '../solid/support.ts';
import { NODE_SIZE, type TriangleMesh } from '../solid/triangleMesh.ts';
import type { V3 } from '../vector.ts';
import type { Cell } from './cells.ts';
import type { Part } from './part.ts';
import { BEND, type Space } from './space.ts';
import type { Margins } from './stopMargins.ts';

/** Rounding that is taken off each bound, in: a thousand times what double precision does at 100 in. */
export const ROUNDING_in = 1e-9;

/** What is bounded: convex pieces together, or a node of a mesh. */
export type Shape =
  | { kind: 'pieces'; pieces: readonly Piece[] }
  | { kind: 'node'; mesh: TriangleMesh; node: number };

/** One part's side of a cell. */
class SideOfCell {
  readonly places: Placement[] = [];
  part: Part | null = null;
  /** Null: it stands still. */
  bends: Float64Array | null = null;
  ends: ReadonlyMap<Piece, readonly [number, number]> = new Map();
  /** Parameters of the bends, and which of them each of the space's is. */
  stride = 0;
  map: readonly number[] = [];
  count = 0;
  /** Of each control point, along the last direction. */
  slack = new Float64Array(8);
  most = 0;
  readonly byParameter = new Float64Array(4);
}

export class LowerBound {
  /** Multiplies ε; 1 but in the test that shows what happens without it. */
  slackFactor = 1;
  readonly #a = new SideOfCell();
  readonly #b = new SideOfCell();
  #space: Space | null = null;
  #corners = 0;
  readonly #halves = new Float64Array(4);
  #margins: Margins | null = null;
  /** g of each corner, less the multipliers' share. */
  readonly #g = new Float64Array(16);
  readonly #trial = new Float64Array(16);

  /** Puts a cell in place for `along`; false where poses or bends are not known. */
  begin(space: Space, cell: Cell, a: Part, b: Part, margins: Margins): boolean {
    this.#space = space;
    this.#margins = margins;
    this.#corners = 1 << space.p;
    for (let j = 0; j < space.p; j++) this.#halves[j] = space.half(cell, j);
    for (const [side, part] of [
      [this.#a, a],
      [this.#b, b],
    ] as const) {
      side.part = part;
      side.bends = null;
      if (!space.isStill(part)) {
        side.bends = space.bends(cell, part);
        if (!side.bends) return false;
        const home = space.home(part);
        side.stride = home.space.p;
        side.map = home.map;
      }
      const controls = space.controls(part);
      side.ends = controls.ends;
      side.count = controls.points.length;
    }
    return (
      space.placeCorners(a, cell, this.#a.places) && space.placeCorners(b, cell, this.#b.places)
    );
  }

  /** The bound along the unit direction n, from a to b; −∞ or NaN proves nothing. */
  along(a: Shape, b: Shape, n: V3): number {
    this.#slacks(this.#a, n, -1);
    this.#slacks(this.#b, n, 1);
    const g = this.#g;
    for (let c = 0; c < this.#corners; c++) {
      g[c] =
        -farthest(b, this.#b, this.#b.places[c] as Placement, -n[0], -n[1], -n[2]) -
        farthest(a, this.#a, this.#a.places[c] as Placement, n[0], n[1], n[2]);
    }
    return this.#multiplied() - ROUNDING_in;
  }

  /**
   * (5) How far points of both parts together may be from where they are at the cell's center, whose places are given:
   * no signed gap changes by more.
   */
  moved(placeA: Placement, placeB: Placement): number {
    return this.#movedSide(this.#a, placeA) + this.#movedSide(this.#b, placeB);
  }

  #movedSide(side: SideOfCell, center: Placement): number {
    const { bends, part } = side;
    if (!bends || !part) return 0;
    const space = this.#space as Space;
    let most = 0;
    for (const [i, [x, y, z]] of space.controls(part).points.entries()) {
      let far = 0;
      for (let c = 0; c < this.#corners; c++) {
        const place = side.places[c] as Placement;
        let square = 0;
        for (let r = 0; r < 3; r++) {
          const d =
            ((place[3 * r] as number) - (center[3 * r] as number)) * x +
            ((place[3 * r + 1] as number) - (center[3 * r + 1] as number)) * y +
            ((place[3 * r + 2] as number) - (center[3 * r + 2] as number)) * z +
            ((place[9 + r] as number) - (center[9 + r] as number));
          square += d * d;
        }
        far = Math.max(far, Math.sqrt(square));
      }
      for (let j = 0; j < space.p; j++) {
        const own = side.map[j] as number;
        if (own < 0) continue;
        let square = 0;
        const at = BEND * (i * side.stride + own);
        for (let c = 0; c < 3; c++) {
          square += (Math.abs(bends[at + c] as number) + (bends[at + 3 + c] as number)) ** 2;
        }
        far += ((this.#halves[j] as number) ** 2 / 2) * Math.sqrt(square) * this.slackFactor;
      }
      most = Math.max(most, far);
    }
    return most;
  }

  /**
   * After `along`: the parameter by whose halving both halves' bounds, each up to the target, are likely to gain most in
   * sum; −1 where none can be halved. What a corner's number is halfway is taken as the mean, and a quarter of the slack
   * along that parameter is left: what the halves really have is told when they are looked at.
   */
  promisingParameter(cell: Cell, deepest: number, target: number): number {
    const space = this.#space as Space;
    const g = this.#g;
    const n = this.#corners;
    let best = -1;
    let most = Number.NEGATIVE_INFINITY;
    let second = 0;
    for (let j = 0; j < space.p; j++) {
      if ((cell.depths[j] as number) >= deepest) continue;
      const bend = (this.#a.byParameter[j] as number) + (this.#b.byParameter[j] as number);
      const gain = 0.75 * bend;
      let low = Number.POSITIVE_INFINITY;
      let high = Number.POSITIVE_INFINITY;
      let across = 0;
      for (let c = 0; c < n; c++) {
        if ((c >> j) & 1) continue;
        const one = g[c] as number;
        const two = g[c | (1 << j)] as number;
        const middle = (one + two) / 2;
        low = Math.min(low, one, middle);
        high = Math.min(high, two, middle);
        across += two - one;
      }
      const sum = Math.min(target, low + gain) + Math.min(target, high + gain);
      // where the numbers promise alike, the longer motion
      const score = Math.abs(across) / (n / 2) + 3 * bend;
      if (sum > most + 1e-9 || (sum > most - 1e-9 && score > second)) {
        most = Math.max(sum, most);
        second = score;
        best = j;
      }
    }
    return best;
  }

  /** After `along`: the parameter along which the numbers differ and bend most. */
  worstParameter(cell: Cell, deepest: number): number {
    const space = this.#space as Space;
    let best = -1;
    let most = Number.NEGATIVE_INFINITY;
    for (let j = 0; j < space.p; j++) {
      if ((cell.depths[j] as number) >= deepest) continue;
      let across = 0;
      for (let c = 0; c < this.#corners; c++) {
        across += ((c >> j) & 1 ? 1 : -1) * (this.#g[c] as number);
      }
      across = Math.abs(across) / (this.#corners / 2);
      const bend = (this.#a.byParameter[j] as number) + (this.#b.byParameter[j] as number);
      const score = across + 3 * bend;
      if (!(score <= most)) {
        most = score;
        best = j;
      }
    }
    return best;
  }

  /** ε of (1) along s·n for every control point of a side. */
  #slacks(side: SideOfCell, n: V3, sign: number): void {
    side.most = 0;
    side.byParameter.fill(0);
    const { bends, slack } = side;
    if (!bends) {
      slack.fill(0);
      return;
    }
    const p = (this.#space as Space).p;
    for (let i = 0; i < side.count; i++) {
      let sum = 0;
      for (let j = 0; j < p; j++) {
        const own = side.map[j] as number;
        if (own < 0) continue;
        let most = 0;
        const at = BEND * (i * side.stride + own);
        for (let c = 0; c < 3; c++) {
          const x = n[c] as number;
          most +=
            sign * x * (bends[at + c] as number) + Math.abs(x) * (bends[at + 3 + c] as number);
        }
        if (!(most > 0)) continue;
        const each = ((this.#halves[j] as number) ** 2 / 2) * most * this.slackFactor;
        sum += each;
        if (each > (side.byParameter[j] as number)) side.byParameter[j] = each;
      }
      slack[i] = sum;
      if (!(sum <= side.most)) side.most = sum;
    }
  }

  /** The greatest of min_c (g_c − Σ λ_k m_kc) that a few rounds over the stops find. */
  #multiplied(): number {
    const g = this.#g;
    const n = this.#corners;
    let least = leastOf(g, n);
    const margins = this.#margins;
    if (!margins || margins.count === 0) return least;
    const trial = this.#trial;
    for (let round = 0; round < 3; round++) {
      let improved = false;
      for (let k = 0; k < margins.count; k++) {
        const at = k * n;
        // only a stop that is broken where the gap is least can help
        let worst = 0;
        for (let c = 1; c < n; c++) if ((g[c] as number) < (g[worst] as number)) worst = c;
        if (!((margins.numbers[at + worst] as number) < 0)) continue;
        const lambda = bestMultiplier(g, margins.numbers, at, n);
        if (!(lambda > 0)) continue;
        for (let c = 0; c < n; c++) {
          trial[c] = (g[c] as number) - lambda * (margins.numbers[at + c] as number);
        }
        const value = leastOf(trial, n);
        if (!(value > least + 1e-12)) continue;
        least = value;
        improved = true;
        for (let c = 0; c < n; c++) g[c] = trial[c] as number;
      }
      if (!improved) break;
    }
    return least;
  }
}

function leastOf(g: Float64Array, n: number): number {
  let least = Number.POSITIVE_INFINITY;
  // written so that NaN wins and proves nothing
  for (let c = 0; c < n; c++) if (!((g[c] as number) >= least)) least = g[c] as number;
  return least;
}

/** The λ ≥ 0 at which min_c (g_c − λ m_c) is greatest: a concave polygon, climbed corner by corner. */
function bestMultiplier(g: Float64Array, m: Float64Array, at: number, n: number): number {
  let lambda = 0;
  let active = 0;
  for (let c = 1; c < n; c++) {
    const d = (g[c] as number) - (g[active] as number);
    if (d < 0 || (d === 0 && (m[at + c] as number) > (m[at + active] as number))) active = c;
  }
  for (let step = 0; step < n; step++) {
    const slope = -(m[at + active] as number);
    if (slope <= 0) return lambda;
    // where the next line comes under the active one
    let next = Number.POSITIVE_INFINITY;
    let which = -1;
    for (let c = 0; c < n; c++) {
      const fall = slope + (m[at + c] as number);
      if (!(fall > 1e-15)) continue;
      const meet = ((g[c] as number) - (g[active] as number)) / fall;
      if (meet < lambda - 1e-12 || meet >= next) continue;
      next = Math.max(meet, lambda);
      which = c;
    }
    if (which < 0) return lambda;
    lambda = next;
    active = which;
  }
  return lambda;
}

/** How far a shape reaches along n at a place, each of its points by its slack further. */
function farthest(
  shape: Shape,
  side: SideOfCell,
  place: Placement,
  x: number,
  y: number,
  z: number,
): number {
  if (shape.kind === 'node') {
    return nodeReach(shape.mesh, shape.node, place, x, y, z) + side.most;
  }
  let far = Number.NEGATIVE_INFINITY;
  for (const piece of shape.pieces) {
    const each = pieceReach(piece, side, place, x, y, z);
    if (!(each <= far)) far = each;
  }
  return far;
}

function pieceReach(
  piece: Piece,
  side: SideOfCell,
  place: Placement,
  x: number,
  y: number,
  z: number,
): number {
  if (piece.core !== SEGMENT) return reach(piece, place, x, y, z) + side.most;
  const d = piece.data;
  const u = (place[0] as number) * x + (place[3] as number) * y + (place[6] as number) * z;
  const v = (place[1] as number) * x + (place[4] as number) * y + (place[7] as number) * z;
  const w = (place[2] as number) * x + (place[5] as number) * y + (place[8] as number) * z;
  const shift = (place[9] as number) * x + (place[10] as number) * y + (place[11] as number) * z;
  const ends = side.ends.get(piece);
  const one = ends ? (side.slack[ends[0]] as number) : side.most;
  const two = ends ? (side.slack[ends[1]] as number) : side.most;
  const first = u * (d[0] as number) + v * (d[1] as number) + w * (d[2] as number) + one;
  const second = u * (d[3] as number) + v * (d[4] as number) + w * (d[5] as number) + two;
  return Math.max(first, second) + piece.radius + shift;
}

/** How far the box and the ball of a mesh's node reach: the lesser of both. */
function nodeReach(
  { nodes }: TriangleMesh,
  node: number,
  m: Placement,
  x: number,
  y: number,
  z: number,
): number {
  const at = NODE_SIZE * node;
  const u = (m[0] as number) * x + (m[3] as number) * y + (m[6] as number) * z;
  const v = (m[1] as number) * x + (m[4] as number) * y + (m[7] as number) * z;
  const w = (m[2] as number) * x + (m[5] as number) * y + (m[8] as number) * z;
  const box =
    Math.abs(u) * (nodes[at + 3] as number) +
    Math.abs(v) * (nodes[at + 4] as number) +
    Math.abs(w) * (nodes[at + 5] as number);
  // a placement may stretch along a line: the ball is stretched with it
  const ball = (nodes[at + 6] as number) * Math.sqrt(u * u + v * v + w * w);
  return (
    u * (nodes[at] as number) +
    v * (nodes[at + 1] as number) +
    w * (nodes[at + 2] as number) +
    Math.min(box, ball) +
    (m[9] as number) * x +
    (m[10] as number) * y +
    (m[11] as number) * z
  );
}
