/** How far each number that may be off moves each margin of a walked axle. Derivation: nextMeasurement.ts. */
import type { Build } from '../build/build.ts';
import type { EntrySlope, Leaf } from '../build/entrySlopes.ts';
import { type OpenedAxle, openAxle } from '../cycle/openAxle.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import type { AxleGaps } from '../gap/gapReport.ts';
import {
  type Asking,
  askingOf,
  followed,
  type Held,
  holding,
  partsByName,
} from '../gap/heldPose.ts';
import type { Part } from '../gap/part.ts';
import type { MeshReader } from '../gap/parts.ts';
import { toEnd } from '../toEnd.ts';
import { distanceOf, type Margin, marginsOf } from './margins.ts';
import { movedBuild } from './movedBuild.ts';
import { touches } from './touches.ts';

/** One axle as it was walked. */
export interface WalkedAxle {
  walk: AxleWalk;
  /** Null: gaps were not looked for. */
  gaps: AxleGaps | null;
}

/** A margin with what moves it: |dm/dx| τ by each slope, in its own unit. */
export interface Sensitivity {
  margin: Margin;
  by: Float64Array;
}

/** Margins of an axle that are looked at: those that what is open can turn most easily. */
const MOST_MARGINS = 100;

/** The margins of all axles, each with how far every slope moves it. */
export function sensitivities(
  build: Build,
  walked: readonly WalkedAxle[],
  slopes: readonly EntrySlope[],
  readMesh: MeshReader,
): Sensitivity[] {
  return toEnd(sensitivitySteps(build, walked, slopes, readMesh));
}

/** The same, stopping after each slope. */
export function* sensitivitySteps(
  build: Build,
  walked: readonly WalkedAxle[],
  slopes: readonly EntrySlope[],
  readMesh: MeshReader,
): Generator<void, Sensitivity[]> {
  const all: Sensitivity[] = [];
  for (const each of walked) {
    const axle = new OpenAxle(build, each, slopes, readMesh);
    yield;
    const rows = new Map(
      axle.margins.map(margin => [margin, { margin, by: new Float64Array(slopes.length) }]),
    );
    for (const [i, slope] of slopes.entries()) {
      for (const [margin, effect] of axle.effects(slope)) {
        const row = rows.get(margin);
        if (row) row.by[i] = effect;
      }
      yield;
    }
    all.push(...rows.values());
  }
  return all;
}

/** One axle with its margins, ready to be asked with entries moved. */
class OpenAxle {
  readonly margins: Margin[];
  readonly #build: Build;
  readonly #index: number;
  readonly #readMesh: MeshReader;
  readonly #held: Map<Margin, Held[]>;
  /** Parts of the build as it is. */
  readonly #parts: Map<string, Part>;

  constructor(
    build: Build,
    { walk, gaps }: WalkedAxle,
    slopes: readonly EntrySlope[],
    readMesh: MeshReader,
  ) {
    this.#build = build;
    this.#readMesh = readMesh;
    this.#index = build.axles.indexOf(walk.axle);
    const openness = this.#openness(slopes);
    const ease = new Map(
      marginsOf(walk, gaps).map(margin => [margin, distanceOf(margin) / openness(margin)]),
    );
    this.margins = [...ease]
      .sort(([, a], [, b]) => a - b)
      .slice(0, MOST_MARGINS)
      .map(([margin]) => margin);
    this.#parts = partsByName({ build, axle: walk.axle, model: walk.model }, readMesh);
    const base = this.#asking(walk, this.#build, () => false);
    this.#held = new Map(
      this.margins.map(margin => [
        margin,
        holding(build, walk.axle, margin.pose, margin.now, margin.value, base),
      ]),
    );
  }

  /** Roughly how far what is open can move a margin: its own parts as far as they may be off, and the axle. */
  #openness(slopes: readonly EntrySlope[]): (margin: Margin) => number {
    const byOwner = new Map<string, number>();
    let locating = 0;
    for (const { leaves, tolerance } of slopes) {
      const touched = touches(this.#build, this.#index, leaves);
      const size = tolerance * Math.max(...leaves.map(({ slope }) => Math.abs(slope)));
      if (touched === 'all') locating = Math.max(locating, size);
      else
        for (const owner of touched ?? [])
          byOwner.set(owner, Math.max(byOwner.get(owner) ?? 0, size));
    }
    return ({ owners, fine }) =>
      Math.hypot(fine, locating / 2, ...[...owners].map(owner => byOwner.get(owner) ?? 0));
  }

  /** |∂m/∂x| τ of each margin that this entry moves. */
  effects(slope: EntrySlope): [Margin, number][] {
    const touched = touches(this.#build, this.#index, slope.leaves);
    if (touched === null) return [];
    const margins = this.margins.filter(
      margin =>
        touched === 'all' ||
        [...margin.owners].some(owner => touched.has(owner)) ||
        (this.#held.get(margin) ?? []).some(({ target }) => touched.has(target.part)),
    );
    if (margins.length === 0) return [];
    const by = Math.min(Math.max(slope.tolerance / 4, 1 / 64), 0.25);
    const step = Math.min(by, slope.tolerance);
    const sides = [step, -step].map(move => this.#moved(slope.leaves, move));
    return margins.map(margin => {
      const [more, less] = sides.map(
        asking =>
          asking && followed(margin.pose, margin.value, this.#held.get(margin) ?? [], asking),
      );
      const at = (value: number | null | undefined): number | null => value ?? null;
      const [a, b] = [at(more), at(less)];
      if (a === null && b === null) return [margin, 0];
      const rate =
        a !== null && b !== null
          ? (a - b) / (2 * step)
          : ((a ?? margin.now) - (b ?? margin.now)) / step;
      return [margin, Math.abs(rate) * slope.tolerance];
    });
  }

  #moved(leaves: readonly Leaf[], by: number): Asking | null {
    const build = movedBuild(this.#build, leaves, by);
    const axle = build.axles[this.#index];
    const opened = axle && openAxle(build, axle);
    const solids = new Set(leaves.flatMap(({ at }) => (at[0] === 'solids' ? [Number(at[1])] : [])));
    const moved = new Set([...solids].map(k => build.solids[k]?.name));
    return opened?.ok ? this.#asking(opened.axle, build, solid => moved.has(solid)) : null;
  }

  /** @param isMoved which drawn solids are not as they were */
  #asking(
    { axle, model }: Pick<OpenedAxle, 'axle' | 'model'>,
    build: Build,
    isMoved: (solid: string) => boolean,
  ): Asking {
    const opened: OpenedAxle = { build, axle, model };
    let parts: Map<string, Part> | null = null;
    const part = (name: string): Part | null => {
      parts ??= partsByName(opened, this.#readMesh, isMoved);
      return parts.get(name) ?? this.#parts.get(name) ?? null;
    };
    return askingOf(opened, part);
  }
}
