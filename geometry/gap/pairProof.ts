/**
 * The proof of one pair: cells of its space, split until the bound over each is high enough. PROOF.md, (5).
 */
import type { Pose } from '../pose/pose.ts';
import type { DistanceSolver } from '../solid/distance.ts';
import { type Piece, POINTS, pointsPiece, SEGMENT } from '../solid/piece.ts';
import { carryPoint, type Placement } from '../solid/placement.ts';
import { type Solid, solidOf } from '../solid/solid.ts';
import { reach as reachOf } from '../solid/support.ts';
import { NODE_SIZE, type TriangleMesh } from '../solid/triangleMesh.ts';
import type { V3 } from '../vector.ts';
import { type Cell, centerOf, DEEPEST, halvesOf, type LatticePoint, wholeCell } from './cells.ts';
import type { LowerBound, Shape } from './lowerBound.ts';
import type { Pair } from './pairs.ts';
import type { PartRoll } from './part.ts';
import { rollWithin } from './roll.ts';
import type { Space } from './space.ts';
import type { Margins, StopMargins } from './stopMargins.ts';

/** What is known of a pair. */
export interface Proof {
  /** No pose of the range has a gap under this, in; −∞ while nothing is known. */
  lower: number;
  /** Least gap found, in, and the pose at which it occurs, inside the range. */
  upper: number;
  pose: Pose;
  /** Roll there of what is free to roll, rad; null: the parts stand as they are held, or nothing nearer was found. */
  roll: number | null;
  /** True where the bound has not come as near as was asked. */
  undecided: boolean;
  /** Cells looked at. */
  cells: number;
}

/** Bound over the gap asked for from which a pair is given as 'at least', in. */
const FAR_in = 1;
/** A gap this near to a line is on it, in. */
const EVEN_in = 1e-4;
/** Cells a pair may cost before it is told as undecided. */
export const MOST_CELLS = 20_000;
const MOST_CELLS_INSIDE = 1_500;
/**
 * The same where it is settled already whether the parts touch and keep the gap asked for: the bound may then stay
 * further under the least gap than the resolution, and is told as it is.
 */
const MOST_CELLS_SETTLED = 2_000;

/** Part of the resolution that a pose must gain to be asked for. */
const WORTH = 0.1;
/** Poses in a row that may lie outside the range before fewer are asked, and of how many then one is. */
const MISSES = 40;
const EACH_MISS = 16;

/** Cells from which on a pair is hard: the parameter is then found by trials, and not by what the numbers promise. */
const TRIED_FROM = 200;
/** Every so many halvings the parameter goes by size alone, since trials alone can starve one. */
const EACH_BY_SIZE = 3;

/** Share of what a gap has over the target that a direction must leave to shapes that are not convex. */
const ROOM = { few: 0.95, many: 0.5 };
/** So many pairs of pieces are few. */
const FEW = 32;

/** Two shapes that are to be shown apart, and the direction that was good for the cell around. */
interface Item {
  a: Shape;
  b: Shape;
  n: V3 | null;
  /** Bound along the direction of the cell around, on the cell in place. */
  lower: number;
}

interface OpenCell {
  cell: Cell;
  items: Item[];
  /** What is known of it from the cell around. */
  lower: number;
  /** Stops that had a say in the cell around; null: all. */
  stops: Margins | null;
}

/** What a proof needs of its surroundings. */
export interface ProofTools {
  solver: DistanceSolver;
  bound: LowerBound;
  /** The pose where the stops allow it, else null: centers of cells may lie outside the range. */
  inside(pose: Pose, space: Space): Pose | null;
  /** The gap of the pair at a pose, in, with what rolls at a roll of its window. */
  gapAt(pair: Pair, pose: Pose, roll: (PartRoll & { angle: number }) | null): number;
  /** Whether a cell lies wholly beyond the edge of the range, asked where poses are missing. */
  isBeyond(space: Space, cell: Cell): boolean;
}

const single = new WeakMap<Piece, Solid>();

export class PairProof {
  readonly pair: Pair;
  readonly #space: Space;
  readonly #stops: StopMargins;
  readonly #tools: ProofTools;
  readonly #resolution: number;
  readonly #open: OpenCell[];
  #closed = Number.POSITIVE_INFINITY;
  #upper: number;
  #pose: Pose;
  #roll: number | null = null;
  #cells = 0;

  constructor(
    pair: Pair,
    space: Space,
    stops: StopMargins,
    tools: ProofTools,
    resolution: number,
    start: { gap: number; pose: Pose },
  ) {
    this.pair = pair;
    this.#space = space;
    this.#stops = stops;
    this.#tools = tools;
    this.#resolution = resolution;
    this.#upper = start.gap;
    this.#pose = start.pose;
    const a = shapeOf(pair.solidA);
    const b = shapeOf(pair.solidB);
    this.#open = [
      {
        cell: wholeCell(space.p),
        items: [{ a, b, n: null, lower: Number.NEGATIVE_INFINITY }],
        lower: Number.NEGATIVE_INFINITY,
        stops: null,
      },
    ];
  }

  /** Poses in a row that were no better for lying outside the range. */
  #misses = 0;

  get isDone(): boolean {
    const [least] = this.#open;
    // the upper bound may have come down since cells were opened
    return !least || least.lower >= this.#target() || this.#cells >= this.#most;
  }

  /** Of a touch inside a closed mesh no more is proved than comes cheaply: how deep it is, is not told by surfaces. */
  get #most(): number {
    if (this.#upper < 0 && this.#isClosed) return MOST_CELLS_INSIDE;
    const { required } = this.pair;
    const lower = this.#open[0]?.lower ?? Number.NEGATIVE_INFINITY;
    const known = Math.min(lower, this.#closed);
    const isSettled =
      known >= required || (known >= 0 && this.#upper < required) || this.#upper < 0;
    return isSettled ? MOST_CELLS_SETTLED : MOST_CELLS;
  }

  /** What is known by now: it holds at any time, and gets better. */
  get proof(): Proof {
    let lower = this.#closed;
    const [least] = this.#open;
    if (least && !(least.lower >= lower)) lower = least.lower;
    return {
      lower: Math.min(lower, this.#upper),
      upper: this.#upper,
      pose: this.#pose,
      roll: this.#roll,
      undecided: !(lower >= this.#target()),
      cells: this.#cells,
    };
  }

  /** Looks at one cell. */
  step(): void {
    const open = this.#take();
    if (!open) return;
    this.#cells++;
    const { cell } = open;
    const margins = this.#stops.over(cell, open.stops);
    if (margins.outside) return;
    const space = this.#space;
    const { bound } = this.#tools;
    const { a, b } = this.pair;
    if (!bound.begin(space, cell, a, b, margins)) {
      if (this.#tools.isBeyond(space, cell)) return;
      this.#split(open, open.items, Number.NEGATIVE_INFINITY, widest(cell, space), margins);
      return;
    }
    // what the direction of the cell around parts needs no look at the center; but inside a closed mesh surfaces do not tell
    const items = this.#isClosed ? [...open.items] : open.items.filter(item => !this.#keeps(item));
    if (items.length === 0) return;
    const center = centerOf(cell);
    const placeA = space.place(a, center);
    const placeB = placeA && space.place(b, center);
    if (!placeA || !placeB) {
      this.#split(open, items, Number.NEGATIVE_INFINITY, widest(cell, space), margins);
      return;
    }
    const within = this.#within(placeA, placeB, center);
    if (within !== null) {
      // inside a closed mesh surfaces may be far from each other: by how far points move, (5)
      const lower = within - bound.moved(placeA, placeB);
      if (lower >= this.#target()) this.#close(lower);
      else this.#split(open, items, lower, widest(cell, space), margins);
      return;
    }
    let level = 0;
    for (const depth of cell.depths) level += depth;
    const bySize = space.p === 1 || level % EACH_BY_SIZE === 0;
    const still: Item[] = [];
    let worst = Number.POSITIVE_INFINITY;
    let parameter = -1;
    let hardest: Item | null = null;
    for (let item = items.pop(); item; item = items.pop()) {
      if (this.#isClosed && this.#keeps(item)) continue;
      const parts = this.#parts(item, placeA, placeB, center);
      if (parts) {
        items.push(...parts);
        continue;
      }
      const along = bound.along(item.a, item.b, item.n as V3);
      const lower = Math.max(along, item.lower);
      if (lower >= this.#target()) {
        this.#close(lower);
        continue;
      }
      if (!(lower >= worst)) {
        worst = lower;
        parameter = bySize
          ? bound.worstParameter(cell, DEEPEST)
          : bound.promisingParameter(cell, DEEPEST, this.#target());
        hardest = item;
      }
      still.push(item);
    }
    if (!hardest) return;
    if (bySize || this.#cells < TRIED_FROM) {
      this.#split(open, still, worst, parameter, margins);
      return;
    }
    const best = this.#tried(cell, hardest, parameter, margins);
    // what was tried is known of the halves, if nothing else is open there
    this.#split(open, still, worst, best.parameter, margins, still.length === 1 ? best.halves : []);
  }

  /**
   * The parameter whose halving raises the bound of an item most, tried along its direction: the greatest sum of both
   * halves' bounds, each up to what is asked; with the bounds of its halves. `guess` where all are alike.
   */
  #tried(
    cell: Cell,
    { a, b, n }: Item,
    guess: number,
    around: Margins,
  ): { parameter: number; halves: number[] } {
    const { bound } = this.#tools;
    const target = this.#target();
    let best: { parameter: number; halves: number[] } = { parameter: guess, halves: [] };
    let most = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < this.#space.p; k++) {
      // the guess first: it stays where others are no better
      const j = k === 0 ? guess : k <= guess ? k - 1 : k;
      if ((cell.depths[j] as number) >= DEEPEST) continue;
      const halves: number[] = [];
      let sum = 0;
      for (const half of halvesOf(cell, j)) {
        const margins = this.#stops.over(half, around);
        const lower = margins.outside
          ? Number.POSITIVE_INFINITY
          : bound.begin(this.#space, half, this.pair.a, this.pair.b, margins)
            ? bound.along(a, b, n as V3)
            : Number.NEGATIVE_INFINITY;
        halves.push(lower);
        sum += Math.min(target, lower);
      }
      if (sum > most + 1e-9) {
        most = sum;
        best = { parameter: j, halves };
      }
    }
    return best;
  }

  get #isClosed(): boolean {
    const { solidA, solidB } = this.pair;
    return (solidA.mesh?.closed || solidB.mesh?.closed) === true;
  }

  /** Whether the direction that an item has keeps it far enough apart on the cell in place; it is closed then. */
  #keeps(item: Item): boolean {
    const { a, b, n } = item;
    const lower = n ? this.#tools.bound.along(a, b, n) : Number.NEGATIVE_INFINITY;
    // a bound that is not a number proves nothing
    item.lower = Number.isNaN(lower) ? Number.NEGATIVE_INFINITY : lower;
    if (!(lower >= this.#target())) return false;
    this.#close(lower);
    return true;
  }

  /** The gap at the cell's center where one part overlaps the closed mesh of the other there; else null. */
  #within(placeA: Placement, placeB: Placement, center: LatticePoint): number | null {
    if (!this.#isClosed) return null;
    const { solidA, solidB } = this.pair;
    const { solver } = this.#tools;
    solver.cutoff = 0;
    solver.run(solidA, placeA, solidB, placeB);
    const { gap } = solver;
    if (solver.beyond || gap >= 0) return null;
    this.#improve(center, gap);
    return gap;
  }

  /**
   * Seeks a direction for an item at the cell's center, kept in it. Where the shapes are not convex and no direction
   * parts them even there, gives back what they are made of.
   */
  #parts(item: Item, placeA: Placement, placeB: Placement, center: LatticePoint): Item[] | null {
    const { a, b } = item;
    const { solver } = this.#tools;
    if (a.kind === 'node' || b.kind === 'node')
      return this.#partsOfMesh(item, placeA, placeB, center);
    const solidA = solidOfShape(a, this.pair.solidA);
    const solidB = solidOfShape(b, this.pair.solidB);
    solver.cutoff = Number.POSITIVE_INFINITY;
    solver.run(solidA, placeA, solidB, placeB);
    const { gap, normal } = solver;
    const n: V3 = [normal[0] as number, normal[1] as number, normal[2] as number];
    item.n = n;
    this.#improve(center, gap);
    if (a.pieces.length === 1 && b.pieces.length === 1) return null;
    const parted = partedAlong(a, placeA, b, placeB, n);
    const target = this.#target();
    // what the direction leaves must have some room over the target, else no small cell would do
    const room = a.pieces.length * b.pieces.length <= FEW ? ROOM.few : ROOM.many;
    if (parted >= (gap > target ? target + room * (gap - target) : gap) - 1e-6) return null;
    const out: Item[] = [];
    for (const one of a.pieces) {
      for (const two of b.pieces) {
        out.push({
          a: a.pieces.length === 1 ? a : shapeOfPiece(one),
          b: b.pieces.length === 1 ? b : shapeOfPiece(two),
          n,
          lower: Number.NEGATIVE_INFINITY,
        });
      }
    }
    return out;
  }

  #partsOfMesh(
    item: Item,
    placeA: Placement,
    placeB: Placement,
    center: LatticePoint,
  ): Item[] | null {
    const { a, b } = item;
    // the direction between both middles parts what is far; what it does not part is taken to pieces
    const p = middleOf(a, placeA);
    const q = middleOf(b, placeB);
    const d: V3 = [q[0] - p[0], q[1] - p[1], q[2] - p[2]];
    const size = Math.hypot(...d);
    const n: V3 = size > 0 ? [d[0] / size, d[1] / size, d[2] / size] : [0, 0, 1];
    const lower = this.#tools.bound.along(a, b, n);
    if (lower >= this.#target()) {
      item.n = n;
      return null;
    }
    const whole =
      (a.kind !== 'node' || a.node === 0) && (b.kind !== 'node' || b.node === 0) && !item.n;
    if (whole) {
      const { solver } = this.#tools;
      solver.cutoff = this.#upper;
      solver.run(this.pair.solidA, placeA, this.pair.solidB, placeB);
      if (!solver.beyond) this.#improve(center, solver.gap);
    }
    const [splitA, splitB] =
      a.kind === 'node' && b.kind === 'node'
        ? sizeOfNode(a) >= sizeOfNode(b)
          ? [true, false]
          : [false, true]
        : [a.kind === 'node', b.kind === 'node'];
    const as = splitA ? partsOfNode(a) : [a];
    const bs = splitB ? partsOfNode(b) : [b];
    // pieces of the other side one by one, once a triangle is reached
    const out: Item[] = [];
    for (const one of as) {
      for (const two of bs) out.push({ a: one, b: two, n: null, lower: Number.NEGATIVE_INFINITY });
    }
    return out;
  }

  /** The open cell with the lowest bound: what is known of the pair then rises from step to step. A binary heap. */
  #take(): OpenCell | undefined {
    const heap = this.#open;
    const top = heap[0];
    const last = heap.pop();
    if (!top || !last || heap.length === 0) return top;
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= heap.length) break;
      if (child + 1 < heap.length && lowerOf(heap, child + 1) < lowerOf(heap, child)) child++;
      if (!(lowerOf(heap, child) < last.lower)) break;
      heap[i] = heap[child] as OpenCell;
      i = child;
    }
    heap[i] = last;
    return top;
  }

  #put(open: OpenCell): void {
    const heap = this.#open;
    let i = heap.length;
    heap.push(open);
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (!(open.lower < lowerOf(heap, parent))) break;
      heap[i] = heap[parent] as OpenCell;
      i = parent;
    }
    heap[i] = open;
  }

  #close(lower: number): void {
    if (!(lower >= this.#closed)) this.#closed = lower;
  }

  /** @param halves bounds that are known of both halves already */
  #split(
    open: OpenCell,
    items: Item[],
    lower: number,
    parameter: number,
    stops: Margins,
    halves: readonly number[] = [],
  ): void {
    const known = Math.max(open.lower, lower);
    if (parameter < 0) {
      this.#close(known);
      return;
    }
    for (const [i, cell] of halvesOf(open.cell, parameter).entries()) {
      const bound = halves[i] ?? Number.NEGATIVE_INFINITY;
      if (bound >= this.#target()) {
        this.#close(bound);
        continue;
      }
      this.#put({
        cell,
        items: i === 0 ? items : items.map(item => ({ ...item })),
        lower: Number.isNaN(bound) ? known : Math.max(bound, known),
        stops,
      });
    }
  }

  /**
   * Takes the pose at a center as the least one known, where it lies inside the range. To ask that costs a hundred
   * cells, so that it is done where it matters to what is asked; and next to the edge most poses lie outside: after some
   * that did, only a share of them is asked.
   */
  #improve(center: LatticePoint, found: number): void {
    const upper = this.#upper;
    if (!(found < upper - WORTH * this.#resolution)) return;
    if (found > this.pair.required + FAR_in + this.#resolution) return;
    if (this.#misses > MISSES && this.#misses++ % EACH_MISS !== 0) return;
    const pose = this.#space.pose(center);
    const real = pose && this.#tools.inside(pose, this.#space);
    const free = this.#space.rollAt(center);
    const angle = free && real ? rollWithin(free, free.angle, real) : null;
    if (!real || (free && angle === null)) {
      this.#misses++;
      return;
    }
    this.#misses = 0;
    const roll = free && angle !== null ? { ...free, angle } : null;
    const gap = this.#tools.gapAt(this.pair, real, roll);
    if (gap < this.#upper) {
      this.#upper = gap;
      this.#pose = real;
      this.#roll = angle;
    }
  }

  /**
   * What a bound must reach: the least gap less the resolution; more than that where it would leave open whether
   * parts touch or the gap asked for is kept; and no more than a good deal over what is asked for.
   */
  #target(): number {
    const { required } = this.pair;
    let target = this.#upper - this.#resolution;
    for (const line of [0, required]) {
      if (target < line && this.#upper - line > EVEN_in) target = line;
    }
    return Math.min(target, required + FAR_in);
  }
}

const lowerOf = (heap: readonly OpenCell[], i: number): number => (heap[i] as OpenCell).lower;

/** The parameter that was halved least, against its base; −1 where none can be halved. */
function widest({ depths }: Cell, { base }: Space): number {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (const [j, depth] of depths.entries()) {
    const over = depth - (base[j] as number);
    if (depth >= DEEPEST || over >= least) continue;
    least = over;
    best = j;
  }
  return best;
}

const shapeOf = ({ mesh, pieces }: Solid): Shape =>
  mesh ? { kind: 'node', mesh, node: 0 } : { kind: 'pieces', pieces };

const shapes = new WeakMap<Piece, Shape>();

function shapeOfPiece(piece: Piece): Shape {
  let shape = shapes.get(piece);
  if (!shape) {
    shape = { kind: 'pieces', pieces: [piece] };
    shapes.set(piece, shape);
  }
  return shape;
}

function solidOfShape(shape: Shape, whole: Solid): Solid {
  if (shape.kind === 'node' || shape.pieces.length !== 1) return whole;
  const piece = shape.pieces[0] as Piece;
  let solid = single.get(piece);
  if (!solid) {
    const kind = piece.core === SEGMENT ? 'bentTube' : piece.core === POINTS ? 'hull' : 'box';
    solid = solidOf(kind, [piece]);
    single.set(piece, solid);
  }
  return solid;
}

/** What n leaves between two shapes at a place. */
function partedAlong(a: Shape, placeA: Placement, b: Shape, placeB: Placement, n: V3): number {
  const far = (shape: Shape, place: Placement, s: number): number => {
    let most = Number.NEGATIVE_INFINITY;
    if (shape.kind === 'node') return most;
    for (const piece of shape.pieces) {
      most = Math.max(most, reachOf(piece, place, s * n[0], s * n[1], s * n[2]));
    }
    return most;
  };
  return -far(b, placeB, -1) - far(a, placeA, 1);
}

const triangles = new WeakMap<TriangleMesh, Map<number, Shape>>();

/** Children of a node, or the triangles of a leaf. */
function partsOfNode(shape: Shape): Shape[] {
  if (shape.kind !== 'node') return [shape];
  const { mesh, node } = shape;
  const second = mesh.links[2 * node] as number;
  const count = mesh.links[2 * node + 1] as number;
  if (count === 0) {
    return [
      { kind: 'node', mesh, node: node + 1 },
      { kind: 'node', mesh, node: second },
    ];
  }
  let known = triangles.get(mesh);
  if (!known) {
    known = new Map();
    triangles.set(mesh, known);
  }
  const out: Shape[] = [];
  for (let t = second; t < second + count; t++) {
    let found = known.get(t);
    if (!found) {
      const data = new Float64Array(9);
      for (let k = 0; k < 3; k++) {
        const vertex = 3 * (mesh.triangles[3 * t + k] as number);
        for (let c = 0; c < 3; c++) data[3 * k + c] = mesh.positions[vertex + c] as number;
      }
      found = { kind: 'pieces', pieces: [pointsPiece(data)] };
      known.set(t, found);
    }
    out.push(found);
  }
  return out;
}

const sizeOfNode = (shape: Shape): number =>
  shape.kind === 'node' ? (shape.mesh.nodes[NODE_SIZE * shape.node + 6] as number) : 0;

const from = new Float64Array(3);
const to = new Float64Array(3);

/** Middle of a shape at a place. */
function middleOf(shape: Shape, place: Placement): V3 {
  if (shape.kind === 'node') {
    const at = NODE_SIZE * shape.node;
    for (let c = 0; c < 3; c++) from[c] = shape.mesh.nodes[at + c] as number;
  } else {
    from.fill(0);
    for (const { bound } of shape.pieces) {
      for (let c = 0; c < 3; c++) {
        from[c] = (from[c] as number) + (bound[c] as number) / shape.pieces.length;
      }
    }
  }
  carryPoint(place, from, 0, to, 0);
  return [to[0] as number, to[1] as number, to[2] as number];
}
