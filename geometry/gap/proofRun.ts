/**
 * The proof of all pairs of an axle, in steps: the pairs with least to spare first. It can be stopped after any step
 * (a worker does as soon as a newer state of the build waits), and what is known by then holds.
 */
import type { GapSearch, Searched } from './leastGaps.ts';
import { type PairGap, statusOf } from './pairGap.ts';
import type { PairProof } from './pairProof.ts';
import { Prover } from './prover.ts';

/** Down to how much a least gap is proved unless asked otherwise, in. */
export const RESOLUTION_in = 0.02;

export interface ProveOptions {
  /** How near the bound is to come to the least gap, in; RESOLUTION_in unless given. */
  resolution?: number;
  /** Asked between steps: true ends the proof with what is known. */
  shouldStop?: () => boolean;
  /** A pair whose proof has ended, by its index, with what is known of it now. */
  onPair?: (index: number, gap: PairGap) => void;
}

/**
 * @example
 *   const run = new ProofRun(walk, search, gaps, 0.02);
 *   while (generation === newest && run.step()) post(run.gaps[run.last]);
 */
export class ProofRun {
  /** What is known of each pair, in the order in which they came; replaced as it gets better. */
  readonly gaps: PairGap[];
  /** The pair that the last step ended or worked on; −1 before the first. */
  last = -1;
  readonly prover: Prover;
  readonly #search: GapSearch;
  readonly #resolution: number;
  /** Pairs still to be proved, those with least to spare last. */
  readonly #waiting: number[];
  readonly #count: number;
  #proof: PairProof | null = null;
  #which = 0;
  #index = -1;

  constructor(
    walk: Searched,
    search: GapSearch,
    gaps: readonly PairGap[],
    resolution = RESOLUTION_in,
  ) {
    this.gaps = [...gaps];
    this.prover = new Prover(walk.range, walk.reach);
    this.#search = search;
    this.#resolution = resolution;
    const spare = (i: number): number => {
      const { gap, pair } = gaps[i] as PairGap;
      return gap - pair.required;
    };
    this.#waiting = gaps.map((_, i) => i).sort((a, b) => spare(b) - spare(a));
    this.#count = gaps.length;
  }

  /** Share of the pairs that are done, 0 to 1. */
  get done(): number {
    const left = this.#waiting.length + (this.#proof ? 1 : 0);
    return this.#count === 0 ? 1 : 1 - left / this.#count;
  }

  /**
   * Works on the next pair until it is done, or has taken this many cells; true while there is more to do.
   *
   * @param cells some 10 µs each
   */
  step(cells = 256): boolean {
    if (!this.#proof) {
      const next = this.#waiting.pop();
      if (next === undefined) return false;
      this.#begin(next, 0);
    }
    this.last = this.#index;
    const proof = this.#proof as PairProof | null;
    if (proof) {
      for (let k = 0; k < cells && !proof.isDone; k++) proof.step();
      this.#tell(proof);
      if (proof.isDone) {
        this.#proof = null;
        if (proof.proof.undecided) this.#begin(this.#index, this.#which + 1);
      }
    }
    return this.#proof !== null || this.#waiting.length > 0;
  }

  #begin(index: number, which: number): void {
    this.#index = index;
    this.#which = which;
    const { pair, gap, pose } = this.gaps[index] as PairGap;
    if (pair.still) {
      this.#put(index, gap);
      return;
    }
    this.#proof = this.prover.begin(pair, this.#resolution, { gap, pose }, which);
  }

  #tell(proof: PairProof): void {
    const { lower, upper, pose, roll } = proof.proof;
    const known = this.gaps[this.#index] as PairGap;
    if (upper < known.gap) {
      this.gaps[this.#index] = { ...this.#search.at(known.pair, pose, roll), lower: known.lower };
    }
    if (Number.isFinite(lower)) this.#put(this.#index, Math.max(lower, known.lower ?? lower));
  }

  #put(index: number, lower: number): void {
    const known = this.gaps[index] as PairGap;
    const least = Math.min(lower, known.gap);
    this.gaps[index] = {
      ...known,
      lower: least,
      status: statusOf(known.gap, least, known.pair.required),
    };
  }
}

/** Proves all pairs, or as many as are not stopped. */
export function proveAll(
  run: ProofRun,
  { shouldStop, onPair }: ProveOptions,
  progress?: (done: number) => void,
): PairGap[] {
  let before = run.done;
  for (let more = true; more && !shouldStop?.(); ) {
    more = run.step();
    if (run.done === before && more) continue;
    before = run.done;
    progress?.(before);
    if (run.last >= 0) onPair?.(run.last, run.gaps[run.last] as PairGap);
  }
  return run.gaps;
}
