/**
 * The coarse map: for each place of a grid of travels the tightest gap over the steering (of what is free to roll, over
 * some rolls of its window), exact, with its pair and pose; and for each pair a bound under which it comes at no pose of the grid. Near pairs come first, so that the
 * others need little more than a bound (stage.ts).
 */
import { DEFAULT_GAPS, type Pair } from './pairs.ts';
import type { Part } from './part.ts';
import { type Motions, PlacedGrid } from './placedGrid.ts';
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

/** What a run says, by cell of the placed grid and by pair. */
export interface OnGrid {
  grid: PlacedGrid;
  /** By cell: tightest gap (in), its pair and its pose; +∞ and −1 where no pair moves. */
  gap: Float64Array;
  pair: Int32Array;
  pose: Int32Array;
  /** By cell: that gap as a share of what its pair wants; where the least gap is asked for, the gap itself. */
  share: Float64Array;
  /** By pair: no pose of the grid has less, in. */
  lower: Float64Array;
}

/**
 * @example
 * const map = new CoarseMap(parts, pairs);
 * const { gap, grid } = map.run(new PlacedGrid(map.motions, places)); // again for every change of the grid
 * gap[cell]; // in, the tightest at grid.cells[cell]
 */
export class CoarseMap {
  readonly stage: Stage;
  /** What the last run said. */
  #said: OnGrid;
  /** Pairs that move, nearest as drawn first. */
  readonly #order: Int32Array;
  /** By pair: the gap that is a share of 1, and the greatest gap that counts, in. */
  readonly #unit: Float64Array;
  readonly #most: Float64Array;
  /** By place in the order: greatest unit from there on; and the least of all. */
  readonly #greatest: Float64Array;
  readonly #least: number;

  /**
   * @param by what is tightest: the least gap, or the least share of what its pair wants. A pair that wants nothing
   *   counts there only where it touches, its overlap as that of rods
   * @param before a map of the same axle before a change, which is quicker to start from
   */
  constructor(
    parts: readonly Part[],
    pairs: readonly Pair[],
    by: 'gap' | 'share' = 'gap',
    before: CoarseMap | null = null,
  ) {
    this.stage = new Stage(parts, pairs, before?.stage);
    const isCounted = ({ required }: Pair): boolean => by === 'gap' || required > 0;
    this.#unit = Float64Array.from(pairs, pair =>
      by === 'gap' ? 1 : isCounted(pair) ? pair.required : DEFAULT_GAPS.rod,
    );
    this.#most = Float64Array.from(pairs, pair => (isCounted(pair) ? Number.POSITIVE_INFINITY : 0));
    const { drawn } = this.stage;
    this.#order = Int32Array.from(pairs.keys())
      .filter(p => !(pairs[p] as Pair).still)
      .sort((p, q) => (drawn[p] as number) - (drawn[q] as number));
    this.#greatest = new Float64Array(this.#order.length);
    let greatest = 0;
    for (let i = this.#order.length - 1; i >= 0; i--) {
      greatest = Math.max(greatest, this.#unit[this.#order[i] as number] as number);
      this.#greatest[i] = greatest;
    }
    this.#least = this.#unit.reduce((least, unit) => Math.min(least, unit), greatest);
    this.#said = emptyOn(new PlacedGrid(this.motions, { places: [] }), pairs.length);
  }

  get motions(): Motions {
    return this.stage.motions;
  }

  get grid(): PlacedGrid {
    return this.stage.grid;
  }

  get gap(): Float64Array {
    return this.#said.gap;
  }

  get pair(): Int32Array {
    return this.#said.pair;
  }

  get pose(): Int32Array {
    return this.#said.pose;
  }

  get share(): Float64Array {
    return this.#said.share;
  }

  get lower(): Float64Array {
    return this.#said.lower;
  }

  /** Works out the map over the poses of a grid. */
  run(grid: PlacedGrid): OnGrid {
    const steps = this.steps(grid);
    for (;;) {
      const { done, value } = steps.next();
      if (done) return value;
    }
  }

  /** The same a cell at a time; another run may come between two of them. */
  *steps(grid: PlacedGrid): Generator<void, OnGrid> {
    const { stage } = this;
    const said = emptyOn(grid, stage.pairs.length);
    const order = this.#order;
    const { drawn } = stage;
    // by place in the order: what the pairs from there on were left out for, without a look
    const leftOut = new Float64Array(order.length).fill(-1);
    stage.searches = 0;
    let last = -1;
    for (let c = 0; c < grid.cells.length; c++) {
      if (this.#said !== said) {
        this.#said = said;
        stage.place(grid);
      }
      const move = stage.furthestMove(c);
      // the one that was tightest next door is a good guess
      if (last >= 0) this.#look(c, last);
      for (let i = 0; i < order.length; i++) {
        const p = order[i] as number;
        const share = said.share[c] as number;
        // no pair from here on is asked for more than this
        const cutoff = share * (share < 0 ? this.#least : (this.#greatest[i] as number));
        if ((drawn[p] as number) - move >= cutoff) {
          leftOut[i] = Math.max(leftOut[i] as number, move);
          break;
        }
        if (p !== last) this.#look(c, p);
      }
      last = said.pair[c] as number;
      yield;
    }
    if (this.#said !== said) {
      this.#said = said;
      stage.place(grid);
    }
    let move = -1;
    for (let i = 0; i < order.length; i++) {
      const p = order[i] as number;
      move = Math.max(move, leftOut[i] as number);
      if (move >= 0) said.lower[p] = Math.min(said.lower[p] as number, (drawn[p] as number) - move);
    }
    return said;
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
    const { stage } = this;
    const { grid, gap: gaps, pair, pose, share, lower } = this.#said;
    const unit = this.#unit[p] as number;
    const most = this.#most[p] as number;
    const bound = stage.bound(c, p);
    if (bound >= Math.min(most, (share[c] as number) * unit)) {
      if (bound < (lower[p] as number)) lower[p] = bound;
      return;
    }
    const from = grid.first[c] as number;
    const to = stage.isByPose(p) ? (grid.first[c + 1] as number) : from + 1;
    for (let k = from; k < to; k++) {
      const cutoff = Math.min(most, (share[c] as number) * unit);
      let gap = stage.capsules(p, k);
      if (gap < cutoff) gap = stage.gap(p, k, cutoff);
      if (gap < (lower[p] as number)) lower[p] = Math.max(gap, bound);
      if (gap >= cutoff) continue;
      gaps[c] = gap;
      share[c] = gap / unit;
      pair[c] = p;
      pose[c] = k;
    }
  }
}

function emptyOn(grid: PlacedGrid, pairs: number): OnGrid {
  const cells = grid.cells.length;
  return {
    grid,
    gap: new Float64Array(cells).fill(Number.POSITIVE_INFINITY),
    pair: new Int32Array(cells).fill(-1),
    pose: new Int32Array(cells).fill(-1),
    share: new Float64Array(cells).fill(Number.POSITIVE_INFINITY),
    lower: new Float64Array(pairs).fill(Number.POSITIVE_INFINITY),
  };
}
