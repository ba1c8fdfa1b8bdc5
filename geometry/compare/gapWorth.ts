/**
 * What differences of least gaps are worth, as (1) of worth.ts has it for measures. What a value does to a least gap is
 * asked at the pose where it was found, which goes along with the stops that make it: no search is done again
 * (gap/heldPose.ts). What is free to roll keeps its share of the window that its joints leave it.
 */
import type { AxleGaps } from '../gap/gapReport.ts';
import {
  type Asking,
  askingOf,
  followed,
  gapOf,
  type Held,
  holding,
  partsByName,
} from '../gap/heldPose.ts';
import type { PairGap } from '../gap/pairGap.ts';
import { sharesOf } from '../gap/pairRolls.ts';
import type { Part } from '../gap/part.ts';
import type { MeshReader } from '../gap/parts.ts';
import { nearPairsOf } from './gapRows.ts';
import type { Measured, Of } from './places.ts';
import { effectOf, type ShiftedAxle } from './worth.ts';

/** The gaps that were found in one axle, with what reads the meshes of its build. */
export interface GapsRead {
  gaps: AxleGaps;
  readMesh: MeshReader;
}

/** Gathers what each taped value does to the differences of least gaps. */
export class GapWorth {
  readonly #sides: Record<Of, FoundGaps>;
  /** Sum of squares by pair, in²; NaN where there is no tolerance to tell. */
  readonly #sum: Map<string, number>;

  constructor(a: GapsRead, b: GapsRead) {
    const near = nearPairsOf(a.gaps, b.gaps).flatMap(each =>
      each.a && each.b ? [{ key: each.key, a: each.a, b: each.b }] : [],
    );
    this.#sum = new Map(near.map(({ key }) => [key, 0]));
    this.#sides = {
      a: new FoundGaps(
        a,
        near.map(each => each.a),
      ),
      b: new FoundGaps(
        b,
        near.map(each => each.b),
      ),
    };
  }

  /** Takes in one taped value, by the shifted axles of those that hold it. */
  add(shifted: Partial<Record<Of, ShiftedAxle>>): void {
    const [inA, inB] = (['a', 'b'] as const).map(
      of => shifted[of] && this.#sides[of].effects(shifted[of]),
    );
    for (const [i, [key, sum]] of [...this.#sum].entries()) {
      const effect = (inB?.[i] ?? 0) - (inA?.[i] ?? 0);
      this.#sum.set(key, sum + effect * effect);
    }
  }

  /** Half-width of each difference, in, by `key` of the pair; null where it could not be found. */
  tolerances(): Map<string, number | null> {
    return new Map(
      [...this.#sum].map(([key, sum]) => [key, Number.isNaN(sum) ? null : Math.sqrt(sum)]),
    );
  }
}

/** Least gaps of one axle, ready to be asked of shifted ones. */
class FoundGaps {
  readonly #own: Measured;
  readonly #readMesh: MeshReader;
  readonly #found: { ask: (asking: Asking) => number | null; now: number | null }[];

  constructor({ gaps: { walk, parts }, readMesh }: GapsRead, found: readonly PairGap[]) {
    const { build, axle, model } = walk;
    this.#own = { build, axle, model };
    this.#readMesh = readMesh;
    const byName = new Map(parts.map(part => [part.name, part]));
    const base = askingOf(this.#own, name => byName.get(name) ?? null);
    this.#found = found.map(each => {
      const { a, b } = each.pair;
      const shares = sharesOf(each);
      const value = (asked: Parameters<typeof gapOf>[0]): number | null =>
        gapOf(asked, a.name, b.name, shares);
      const held: Held[] = holding(build, axle, each.pose, each.gap, value, base);
      const ask = (asking: Asking): number | null => followed(each.pose, value, held, asking);
      return { ask, now: ask(base) };
    });
  }

  /** What the value's tolerance does to each gap, in; NaN where there is none to be had. */
  effects({ less, more }: ShiftedAxle): number[] {
    const isTouched = [less, more].some(axle => !axle || made(axle) !== made(this.#own));
    if (!isTouched) return this.#found.map(() => 0);
    const [low, high] = [less, more].map(axle => axle && this.#asking(axle));
    return this.#found.map(({ ask, now }) =>
      effectOf(low ? ask(low) : null, now, high ? ask(high) : null),
    );
  }

  #asking(axle: Measured): Asking {
    let parts: Map<string, Part> | null = null;
    return askingOf(axle, name => {
      parts ??= partsByName(axle, this.#readMesh);
      return parts.get(name) ?? null;
    });
  }
}

/** All of a build that the gaps of an axle hang on. */
const made = ({ build, axle }: Measured): string => JSON.stringify([axle, build.solids]);
