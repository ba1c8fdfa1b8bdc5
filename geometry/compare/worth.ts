/**
 * What a difference is worth. A value that was taped is known to its tolerance t, and a difference D = B − A hangs
 * on the taped values q of both builds. Taken as independent, with small tolerances,
 *
 *     tolerance(D)² = Σ over q (∂D/∂q · t)²,   ∂D/∂q = ∂B/∂q − ∂A/∂q                                        (1)
 *
 * (propagation of uncertainty, JCGM 100:2008 (GUM), eq. 10; from memory). The sensitivities are those of the
 * difference: a value that both builds share counts once, and what it does to both alike it does not do to D. If the
 * tolerances are standard deviations, the result is one; half-widths of k standard deviations give k of them.
 *
 * ∂/∂q by central differences of whole re-solves: f(q + h) − f(q − h) over 2h with h = t/10. Its own error is
 * h² f‴/6, a hundredth of what the same step of t would leave; rounding adds 1e-10 in / h, under 1e-7 of the result
 * for tolerances of a hundredth of an inch. Where one of the shifted builds is refused, the one-sided difference is
 * taken.
 */
import type { Entry } from '../build/build.ts';
import type { Measured, Of } from './places.ts';
import { answers, type Shown, type Table } from './table.ts';

/** Part of the tolerance that a value is shifted by; see above. */
export const STEP = 0.1;

/** One taped value and who holds it. */
export interface Taped {
  entry: Entry;
  of: readonly Of[];
}

/** A build's axle with one taped value less and more by `STEP` of its tolerance; null where that is refused. */
export interface ShiftedAxle {
  less: Measured | null;
  more: Measured | null;
}

/**
 * The values with a tolerance on which two builds hang. One that stands at the same place in both, typed alike and
 * with the same origin and tolerance, is taken as one and the same.
 */
export function tapedOf(a: readonly Entry[], b: readonly Entry[]): Taped[] {
  const isTaped = ({ tolerance }: Entry): boolean => tolerance !== null && tolerance > 0;
  const inB = new Map(b.filter(isTaped).map(entry => [entry.path, entry]));
  const out: Taped[] = [];
  for (const entry of a.filter(isTaped)) {
    const twin = inB.get(entry.path);
    const isShared =
      twin !== undefined &&
      twin.value === entry.value &&
      twin.tolerance === entry.tolerance &&
      twin.from === entry.from;
    if (isShared) inB.delete(entry.path);
    out.push({ entry, of: isShared ? ['a', 'b'] : ['a'] });
  }
  for (const entry of inB.values()) out.push({ entry, of: ['b'] });
  return out;
}

/** What the differences between two axles are worth. */
export interface PairWorth {
  /** Of each value of the table, in shown units; null where it could not be found. */
  table: (number | null)[];
  /** Of least gaps by `key` of the pair, in; none where gaps were not looked for. */
  gaps: ReadonlyMap<string, number | null>;
}

/** Gathers what each taped value does to the differences of a table. */
export class Worth {
  readonly #table: Table;
  /** Sum of squares for each value of the table. */
  readonly #sum: Float64Array;
  /** True where a re-solve gave no value, so that there is no tolerance to tell. */
  readonly #isLost: boolean[];

  constructor(table: Table) {
    this.#table = table;
    this.#sum = new Float64Array(table.values.a.length);
    this.#isLost = table.values.a.map(() => false);
  }

  /** Takes in one taped value, by the shifted axles of those that hold it. */
  add(shifted: Partial<Record<Of, ShiftedAxle>>): void {
    const [inA, inB] = (['a', 'b'] as const).map(of => this.#effect(of, shifted[of]));
    for (let i = 0; i < this.#sum.length; i++) {
      const effect = (inB?.[i] ?? 0) - (inA?.[i] ?? 0);
      if (Number.isNaN(effect)) this.#isLost[i] = true;
      else (this.#sum[i] as number) += effect * effect;
    }
  }

  /** Half-width of each difference in shown units; null where it could not be found. */
  tolerances(): (number | null)[] {
    return [...this.#sum].map((sum, i) => (this.#isLost[i] ? null : Math.sqrt(sum)));
  }

  /** What the value's tolerance does to each answer; NaN where there is none to be had. */
  #effect(of: Of, shifted: ShiftedAxle | undefined): number[] | null {
    if (!shifted) return null;
    const base = this.#table.values[of];
    const [less, more] = [shifted.less, shifted.more].map(
      axle => axle && answers(this.#table, axle, of),
    );
    return base.map((here, i) =>
      typeof here === 'number' ? effectOf(numberOf(less?.[i]), here, numberOf(more?.[i])) : 0,
    );
  }
}

/**
 * What a tolerance does to a number, from the number with the value less, as it is, and more by `STEP` of the
 * tolerance; NaN where there is none to be had.
 */
export function effectOf(less: number | null, here: number | null, more: number | null): number {
  if (less !== null && more !== null) return (more - less) / (2 * STEP);
  if (more !== null && here !== null) return (more - here) / STEP;
  return less !== null && here !== null ? (here - less) / STEP : Number.NaN;
}

const numberOf = (value: Shown | null | undefined): number | null =>
  typeof value === 'number' ? value : null;
