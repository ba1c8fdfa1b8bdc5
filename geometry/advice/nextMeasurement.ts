/**
 * Which measurement is worth taking next: the one that settles most of what is still open.
 *
 * For each margin j (a gap, a limit, a band, an end of travel) and each entered number i that may be off by τᵢ, the
 * walk is asked again at the margin's pose with the number a little more and a little less: sᵢⱼ = |∂mⱼ/∂xᵢ| τᵢ. Where
 * a stop makes the pose, the pose goes along with it (implicit function theorem, one direction):
 *
 *     dmⱼ/dxᵢ = ∂mⱼ/∂xᵢ − (∂mⱼ/∂s) (∂g/∂xᵢ) / (∂g/∂s)        g the stop's margin, s the way to it
 *
 * The errors are taken to be independent, so that Uⱼ² = Σᵢ sᵢⱼ² (GUM, JCGM 100:2008, eq. 10: law of propagation of
 * uncertainty). With dⱼ the distance to the value at which the answer turns, it is settled to the share erf(dⱼ/(√2 Uⱼ)):
 * 0 where it may as well turn out otherwise, 1 where nothing that is still open can turn it. A measurement is worth
 * what it adds to the mean of these shares.
 */
import type { AxleName, Build } from '../build/build.ts';
import type { EntrySlope, Leaf } from '../build/entrySlopes.ts';
import { type OpenedAxle, openAxle } from '../cycle/openAxle.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import { sentence } from '../finding/words.ts';
import type { AxleGaps } from '../gap/gapReport.ts';
import type { Part } from '../gap/part.ts';
import type { MeshReader } from '../gap/parts.ts';
import type { Limit, LimitTarget } from '../limit/limit.ts';
import { limits } from '../limit/list.ts';
import { MeasureContext } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';
import { type Asked, type Margin, marginsOf, partsByName } from './margins.ts';
import { movedBuild } from './movedBuild.ts';
import { spotOf, spotWords } from './spots.ts';

/** One thing to tape, with what hangs on it. */
export interface NextMeasurement {
  /** Path with which all of its entries begin. */
  spot: string;
  axle: AxleName | null;
  /** Entries that it settles, as `build.entries` has their paths. */
  paths: string[];
  /** What to tape: 'the frame end of the lower link'. */
  what: string;
  /** Share of the whole answer that it would settle, 0 to 1. */
  worth: number;
  /** Why, in a sentence. */
  reason: string;
  /** True where some of it is only assumed, false where it was measured loosely. */
  isAssumed: boolean;
}

export interface Settled {
  /** How much of the answer no longer hangs on what is open, 0 to 1. */
  share: number;
  /** Answers in question, and how many of them are settled by nine tenths. */
  questions: number;
  answered: number;
  /** Worth most first; empty where nothing is open. */
  next: NextMeasurement[];
}

/** One axle as it was walked. */
export interface WalkedAxle {
  walk: AxleWalk;
  /** Null: gaps were not looked for. */
  gaps: AxleGaps | null;
}

/** Answers of an axle that are looked at: those that what is open can turn most easily. */
const MOST_QUESTIONS = 100;
/** How far off a number is once it was taped carefully, in and rad, others as a share: common practice, no source. */
const TAPED = { length: 1 / 16, angle: (0.5 * Math.PI) / 180, share: 1 / 10 };
/** Least worth that is told. */
const LEAST_WORTH = 1e-4;
/** Answers settled to this share count as answered. */
const ANSWERED = 0.9;

/**
 * Ranks what is still open. The heavy part: takes opened axles and slopes, reads no file, runs in a worker.
 *
 * @param walked every axle of the build, walked, with its gaps
 * @param slopes of the same build: `entrySlopes`
 * @param readMesh as the gaps were made with
 */
export function nextMeasurements(
  build: Build,
  walked: readonly WalkedAxle[],
  slopes: readonly EntrySlope[],
  readMesh: MeshReader,
): Settled {
  const open = walked.map(each => new OpenAxle(build, each, slopes, readMesh));
  const rows = open.flatMap(axle =>
    axle.margins.map(margin => ({ axle, margin, by: new Float64Array(slopes.length) })),
  );
  for (const [i, slope] of slopes.entries()) {
    for (const axle of open) {
      const own = rows.filter(row => row.axle === axle);
      for (const [margin, effect] of axle.effects(slope)) {
        const row = own.find(each => each.margin === margin);
        if (row) row.by[i] = effect;
      }
    }
  }
  const spots = new Map<string, number[]>();
  for (const [i, { path }] of slopes.entries()) {
    const spot = spotOf(path);
    spots.set(spot, [...(spots.get(spot) ?? []), i]);
  }
  const settledBy = rows.map(({ margin, by }) => settledShare(margin, sumOfSquares(by)));
  const count = Math.max(1, rows.length);
  const next = [...spots].flatMap(([spot, indexes]): NextMeasurement[] => {
    let worth = 0;
    let most = 0;
    let reason: Margin | null = null;
    for (const [j, { margin, by }] of rows.entries()) {
      const whole = sumOfSquares(by);
      let without = whole;
      for (const i of indexes) {
        const effect = by[i] ?? 0;
        without -= effect ** 2 * (1 - left(slopes[i] as EntrySlope) ** 2);
      }
      const gain = settledShare(margin, Math.max(0, without)) - (settledBy[j] ?? 0);
      worth += gain / count;
      if (gain > most) {
        most = gain;
        reason = margin;
      }
    }
    if (worth < LEAST_WORTH || !reason) return [];
    const paths = indexes.map(i => (slopes[i] as EntrySlope).path);
    const isAssumed = indexes.some(i => slopes[i]?.from === 'assumed');
    const name = /^axles\["(\w+)"\]/.exec(spot)?.[1] as AxleName | undefined;
    const axle = build.axles.find(each => each.name === name) ?? null;
    const what = spotWords(build, axle, spot);
    return [
      {
        spot,
        axle: name ?? null,
        paths,
        what,
        worth,
        isAssumed,
        reason: `${sentence(what)} ${/s$/.test(what) && !/ss$/.test(what) ? 'decide' : 'decides'} ${reason.decides}: ${isAssumed ? 'tape it' : 'tape it more closely'}.`,
      },
    ];
  });
  return {
    share: settledBy.length === 0 ? 1 : settledBy.reduce((sum, each) => sum + each, 0) / count,
    questions: rows.length,
    answered: settledBy.filter(each => each >= ANSWERED).length,
    next: next.sort((a, b) => b.worth - a.worth || (a.spot < b.spot ? -1 : 1)),
  };
}

const sumOfSquares = (values: Float64Array): number => values.reduce((sum, v) => sum + v * v, 0);

/** Share of an entry's error that is left once it was taped carefully. */
function left({ dimension, tolerance }: EntrySlope): number {
  const taped =
    dimension === 'length' || dimension === 'angle' ? TAPED[dimension] : TAPED.share * tolerance;
  return Math.min(1, taped / tolerance);
}

/** erf of the distance to the nearest turn over √2 of the uncertainty. */
function settledShare({ now, turns, fine }: Margin, squares: number): number {
  const distance = Math.max(fine, distanceOf({ now, turns }));
  return squares === 0 ? 1 : erf(distance / Math.sqrt(2 * squares));
}

/** To the nearest value at which the answer turns. */
const distanceOf = ({ now, turns }: Pick<Margin, 'now' | 'turns'>): number =>
  Math.min(...turns.map(turn => Math.abs(now - turn)));

/** Error function to 1.5e-7: Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26 (from memory). */
export function erf(x: number): number {
  const t = 1 / (1 + 0.3275911 * x);
  const series =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return 1 - series * Math.exp(-x * x);
}

/** A stop that makes the pose of a margin, and how it and the margin change on the way to it. */
interface Held {
  limit: Limit;
  target: LimitTarget;
  /** d margin / d way over d stop / d way. */
  ratio: number;
  now: number;
}

/** A stop counts as holding a pose within this, in or rad. */
const HOLDS = 2e-3;
/** Step along the way, in and rad. */
const STEP = 0.02;

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
      .slice(0, MOST_QUESTIONS)
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
    for (const { limit, target, ratio, now } of this.#held.get(margin) ?? []) {
      const stop = limit.margin(
        new MeasureContext(asked.opened.build, asked.opened.axle, asked.opened.model, asked.pose),
        target,
      );
      if (stop !== null) along -= ratio * (stop - now);
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

  /** The stops that make a margin's pose. */
  #holding(margin: Margin, base: Asking): Held[] {
    const { pose } = margin;
    const { left: l, right: r, steer } = pose.input;
    const size = Math.hypot(l, r);
    const ways: [Limit['role'], { left: number; right: number; steer: number }][] = [];
    if (size > 0.1) ways.push(['travel', { left: l / size, right: r / size, steer: 0 }]);
    if (Math.abs(steer) > 0.01)
      ways.push(['steering', { left: 0, right: 0, steer: Math.sign(steer) }]);
    const here = base(pose);
    if (!here) return [];
    const marginAt = (
      asked: Asked,
      { limit, target }: { limit: Limit; target: LimitTarget },
    ): number | null =>
      limit.margin(
        new MeasureContext(asked.opened.build, asked.opened.axle, asked.opened.model, asked.pose),
        target,
      );
    return ways.flatMap(([role, way]): Held[] => {
      const [stop] = limits
        .filter(limit => limit.role === role)
        .flatMap(limit =>
          limit.targets(this.#walk.axle, this.#build).map(target => ({ limit, target })),
        )
        .flatMap(each => {
          const now = marginAt(here, each);
          return now !== null && Math.abs(now) < HOLDS ? [{ ...each, now }] : [];
        })
        .sort((a, b) => a.now - b.now);
      if (!stop) return [];
      const back = base(pose, {
        left: l - STEP * way.left,
        right: r - STEP * way.right,
        steer: steer - STEP * way.steer,
      });
      const value = back && margin.value(back);
      const room = back && marginAt(back, stop);
      if (value === null || room === null || Math.abs(room - stop.now) < 1e-6) return [];
      return [{ ...stop, ratio: (margin.now - value) / (stop.now - room) }];
    });
  }
}

/** Asks a moved axle at the pose with the inputs of this one, or with others; null where there is none. */
type Asking = (pose: Pose, moved?: { left: number; right: number; steer: number }) => Asked | null;

/**
 * What these leaves belong to: names and kinds of parts, `all` where they locate the axle or its steering, null
 * where they belong to another axle.
 */
function touches(
  build: Build,
  index: number,
  leaves: readonly Leaf[],
): ReadonlySet<string> | 'all' | null {
  const owners = new Set<string>();
  for (const { at } of leaves) {
    const [top, i, list, k, end, field] = at;
    if (top === 'solids') owners.add(build.solids[Number(i)]?.name ?? '');
    else if (top === 'weights' || top === 'wheelbase') owners.add(String(top));
    else if (i === index) {
      const axle = build.axles[index] as Build['axles'][number];
      switch (list) {
        case 'links':
        case 'radiusArms': {
          const isPlace =
            field === 'at' ||
            field === 'rates' ||
            Number.isInteger(field) ||
            end === 'length' ||
            end === 'rate';
          if (isPlace) return 'all';
          owners.add(axle[list][Number(k)]?.name ?? '');
          break;
        }
        case 'shocks':
        case 'coils':
        case 'straps':
        case 'bumpStops':
        case 'lines':
          owners.add(axle[list][Number(k)]?.name ?? '');
          break;
        case 'tire':
          if (k === 'loadedRadius') return 'all';
          owners.add('tire').add('wheel');
          break;
        case 'housing':
          owners
            .add('housing')
            .add('differential')
            .add(k === 'differential' ? 'differential' : '');
          break;
        case 'driveline':
          owners.add('driveshaft').add('driveshaft.pinion').add('driveshaft.transfer case');
          break;
        case 'steering': {
          const tells = at.join('.');
          if (!/tube|through|limit|stud|diameter|stroke|closed|sweep|bore|ratio/.test(tells))
            return 'all';
          const rods = [
            axle.steering?.dragLink,
            ...(axle.steering?.tieRods ?? []),
            ...(axle.steering?.rams ?? []),
          ];
          for (const rod of rods) if (rod) owners.add(rod.name);
          owners.add('pitmanArm').add('steering box');
          break;
        }
        case 'knuckles':
          if (at.includes('kingpin') || at.includes('toe') || at.includes('camber')) return 'all';
          owners.add('knuckle').add('left knuckle').add('right knuckle');
          break;
        default:
          return 'all';
      }
    }
  }
  owners.delete('');
  return owners.size > 0 ? owners : null;
}
