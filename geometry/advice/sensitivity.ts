/** How far each number that may be off moves each margin of a walked axle. Derivation: nextMeasurement.ts. */
import type { Build } from '../build/build.ts';
import type { EntrySlope, Leaf } from '../build/entrySlopes.ts';
import { type OpenedAxle, openAxle } from '../cycle/openAxle.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import type { AxleGaps } from '../gap/gapReport.ts';
import type { Part } from '../gap/part.ts';
import type { MeshReader } from '../gap/parts.ts';
import type { Limit, LimitTarget } from '../limit/limit.ts';
import { limits } from '../limit/list.ts';
import { MeasureContext } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';
import { toEnd } from '../toEnd.ts';
import { type Asked, distanceOf, type Margin, marginsOf, partsByName } from './margins.ts';
import { dotted, solved } from './matrix.ts';
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

/** A stop that makes the pose of a margin, with its multiplier. */
interface Held {
  limit: Limit;
  target: LimitTarget;
  /** λ: what the margin gains where the stop gives way by one. */
  multiplier: number;
  now: number;
}

/** A stop counts as holding a pose within this, in or rad. */
const HOLDS = 2e-3;
/** Step of travel and steering for gradients, in and rad. */
const STEP = 0.02;
/** Added to the diagonal where gradients of stops are parallel: the multipliers are then shared among them. */
const SHARED = 1e-6;

/** One axle with its margins, ready to be asked with entries moved. */
class OpenAxle {
  readonly margins: Margin[];
  readonly #build: Build;
  readonly #index: number;
  readonly #walk: AxleWalk;
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
    this.#walk = walk;
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
    this.#held = new Map(this.margins.map(margin => [margin, this.#holding(margin, base)]));
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
      const [more, less] = sides.map(asking => asking && this.#value(margin, asking));
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

  /** The margin with its pose going along with the stops that make it; null where it has no value. */
  #value(margin: Margin, asking: Asking): number | null {
    const asked = asking(margin.pose);
    const value = asked && margin.value(asked);
    if (!asked || value === null) return null;
    let along = value;
    for (const { limit, target, multiplier, now } of this.#held.get(margin) ?? []) {
      const stop = limit.margin(contextOf(asked), target);
      if (stop !== null) along -= multiplier * (stop - now);
    }
    return along;
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
    const poses = new Map<string, Pose | null>();
    return (pose, moved) => {
      const { left: l, right: r, steer } = moved ?? pose.input;
      const key = `${l} ${r} ${steer}`;
      if (!poses.has(key)) poses.set(key, model.pose(l, r, steer).pose);
      const there = poses.get(key);
      return there ? { opened, pose: there, part } : null;
    };
  }

  /** The stops that make a margin's pose: ∇m = Σ λ ∇g by left travel, right travel and steering, in least squares. */
  #holding(margin: Margin, base: Asking): Held[] {
    const { pose } = margin;
    const { axle } = this.#walk;
    const here = base(pose);
    if (!here) return [];
    const roles: Limit['role'][] = axle.steered ? ['travel', 'steering'] : ['travel'];
    const stops = limits
      .filter(({ role }) => roles.includes(role))
      .flatMap(limit => limit.targets(axle, this.#build).map(target => ({ limit, target })))
      .flatMap(each => {
        const now = each.limit.margin(contextOf(here), each.target);
        return now !== null && Math.abs(now) < HOLDS ? [{ ...each, now }] : [];
      });
    if (stops.length === 0) return [];
    const { left, right, steer } = pose.input;
    const beside = [
      { left: left - STEP, right, steer },
      { left, right: right - STEP, steer },
      ...(axle.steered ? [{ left, right, steer: steer - STEP }] : []),
    ].map(input => base(pose, input));
    const gradient = (now: number, value: (asked: Asked) => number | null): number[] =>
      beside.map(asked => {
        const there = asked && value(asked);
        return there === null ? 0 : (now - there) / STEP;
      });
    const ofMargin = gradient(margin.now, asked => margin.value(asked));
    const ofStops = stops.map(({ limit, target, now }) =>
      gradient(now, asked => limit.margin(contextOf(asked), target)),
    );
    const normal = ofStops.map((row, i) =>
      ofStops.map((column, j) => dotted(row, column) + (i === j ? SHARED : 0)),
    );
    const multipliers = solved(
      normal,
      ofStops.map(row => dotted(row, ofMargin)),
    );
    return stops.map((stop, i) => ({ ...stop, multiplier: multipliers[i] ?? 0 }));
  }
}

const contextOf = ({ opened, pose }: Asked): MeasureContext =>
  new MeasureContext(opened.build, opened.axle, opened.model, pose);

/** Asks a moved axle at the pose with the inputs of this one, or with others; null where there is none. */
type Asking = (pose: Pose, moved?: { left: number; right: number; steer: number }) => Asked | null;
