/**
 * The coarse map: for each place of a grid of travels the tightest gap over the steering (of what is free to roll, over
 * some rolls of its window), exact, with its pair and pose; and for each pair a bound under which it comes at no pose of the grid. Near pairs come first, so that the
 * others need little more than a bound (stage.ts).
 */
import type { Pair } from './pairs.ts';
import type { Part } from './part.ts';
import type { Motions, PlacedGrid } from './placedGrid.ts';
import { Stage } from './stage.ts';

/** Least gap of one pair over the poses of a grid. */
export interface LeastOnGrid {
  /** In; exact. */
  gap: number;
  /** Index of its pose. */
  pose: number;
  /** Shares of their windows at which the parts are rolled there, 0 to 1; 0 for parts that are not free to roll. */
  shares: readonly [a: number, b: number];
}

/**
 * @example
 * const map = new CoarseMap(parts, pairs);
 * map.run(new PlacedGrid(map.motions, grid)); // again for every change of the grid
 * map.gap[cell]; // in, the tightest at map.grid.cells[cell]
 */
export class CoarseMap {
  /** By cell of the placed grid: tightest gap (in), its pair and its pose; +∞ and −1 where no pair moves. */
  gap = new Float64Array(0);
  pair = new Int32Array(0);
  pose = new Int32Array(0);
  /** By pair: no pose of the grid has less, in. */
  readonly lower: Float64Array;
  readonly stage: Stage;
  /** Pairs that move, nearest as drawn first. */
  readonly #order: Int32Array;
  readonly #leftOut: Float64Array;

  constructor(parts: readonly Part[], pairs: readonly Pair[]) {
    this.stage = new Stage(parts, pairs);
    this.lower = new Float64Array(pairs.length);
    const { drawn } = this.stage;
    this.#order = Int32Array.from(pairs.keys())
      .filter(p => !(pairs[p] as Pair).still)
      .sort((p, q) => (drawn[p] as number) - (drawn[q] as number));
    this.#leftOut = new Float64Array(this.#order.length);
  }

  get motions(): Motions {
    return this.stage.motions;
  }

  get grid(): PlacedGrid {
    return this.stage.grid;
  }

  /** Works out the map over the poses of a grid. */
  run(grid: PlacedGrid): void {
    const { stage } = this;
    stage.place(grid);
    stage.searches = 0;
    const cells = grid.cells.length;
    if (this.gap.length !== cells) {
      this.gap = new Float64Array(cells);
      this.pair = new Int32Array(cells);
      this.pose = new Int32Array(cells);
    }
    this.lower.fill(Number.POSITIVE_INFINITY);
    const order = this.#order;
    const { drawn } = stage;
    // by place in the order: what the pairs from there on were left out for, without a look
    const leftOut = this.#leftOut.fill(-1);
    let last = -1;
    for (let c = 0; c < cells; c++) {
      this.gap[c] = Number.POSITIVE_INFINITY;
      this.pair[c] = -1;
      this.pose[c] = -1;
      const move = stage.furthestMove(c);
      // the one that was tightest next door is a good guess
      if (last >= 0) this.#look(c, last);
      for (let i = 0; i < order.length; i++) {
        const p = order[i] as number;
        if ((drawn[p] as number) - move >= (this.gap[c] as number)) {
          leftOut[i] = Math.max(leftOut[i] as number, move);
          break;
        }
        if (p !== last) this.#look(c, p);
      }
      last = this.pair[c] as number;
    }
    let move = -1;
    for (let i = 0; i < order.length; i++) {
      const p = order[i] as number;
      move = Math.max(move, leftOut[i] as number);
      if (move >= 0) this.lower[p] = Math.min(this.lower[p] as number, (drawn[p] as number) - move);
    }
  }

  /** The least gap of one pair over the poses of the last run's grid, exact; null where the grid has no pose. */
  least(p: number): LeastOnGrid | null {
    const { stage } = this;
    const { grid } = stage;
    const cells = grid.cells.length;
    if (cells === 0) return null;
    const best: LeastOnGrid = { gap: Number.POSITIVE_INFINITY, pose: 0, shares: [0, 0] };
    const look = (pose: number): void => {
      const gap = stage.gap(p, pose, best.gap);
      if (gap >= best.gap) return;
      best.gap = gap;
      best.pose = pose;
      best.shares = this.sharesNow(p);
    };
    if (stage.pairs[p]?.still) {
      look(0);
      return best;
    }
    // begin where the capsules come nearest
    let least = Number.POSITIVE_INFINITY;
    let start = 0;
    for (let c = 0; c < cells; c++) {
      const pose = grid.first[c] as number;
      const gap = stage.capsules(p, pose);
      if (gap >= least) continue;
      least = gap;
      start = pose;
    }
    look(start);
    for (let c = 0; c < cells; c++) {
      if (stage.bound(c, p) >= best.gap) continue;
      const from = grid.first[c] as number;
      const to = stage.isByPose(p) ? (grid.first[c + 1] as number) : from + 1;
      for (let k = from; k < to; k++) {
        if (k !== start && stage.capsules(p, k) < best.gap) look(k);
      }
    }
    return best;
  }

  /** Shares of their windows at which the pair's parts were nearest when `stage` was last asked for its gap. */
  sharesNow(p: number): readonly [a: number, b: number] {
    const { stage } = this;
    const { a, b } = stage.pairs[p] as Pair;
    return [stage.share(a, stage.rollA), stage.share(b, stage.rollB)];
  }

  /** One pair at one cell: bounds first, then the search; updates the cell's tightest gap. */
  #look(c: number, p: number): void {
    const { lower, stage } = this;
    const bound = stage.bound(c, p);
    if (bound >= (this.gap[c] as number)) {
      if (bound < (lower[p] as number)) lower[p] = bound;
      return;
    }
    const { grid } = stage;
    const from = grid.first[c] as number;
    const to = stage.isByPose(p) ? (grid.first[c + 1] as number) : from + 1;
    for (let k = from; k < to; k++) {
      const cutoff = this.gap[c] as number;
      let gap = stage.capsules(p, k);
      if (gap < cutoff) gap = stage.gap(p, k, cutoff);
      if (gap < (lower[p] as number)) lower[p] = Math.max(gap, bound);
      if (gap >= cutoff) continue;
      this.gap[c] = gap;
      this.pair[c] = p;
      this.pose[c] = k;
    }
  }
}
