/**
 * The gaps of an axle over its range, and the plain object that command line and page show of them. All holds for
 * rigid parts.
 */
import type { AxleName } from '../build/build.ts';
import type { End } from '../cycle/reach.ts';
import { type Cycled, nameOf, type PoseName } from '../cycle/walkReport.ts';
import { SHOWN } from '../measure/measure.ts';
import type { V3 } from '../vector.ts';
import { type StopMargin, stopMargins, withBeyond } from './beyondStops.ts';
import { type Clearance, clearancesOf } from './groundClearance.ts';
import { GapSearch } from './leastGaps.ts';
import { type GapStatus, type PairGap, rollsOf } from './pairGap.ts';
import { type Excluded, type Pair, pairsOf } from './pairs.ts';
import type { Part } from './part.ts';
import { type MeshReader, type PartsProblem, partsOf } from './parts.ts';
import { ProofRun, type ProveOptions, proveAll, RESOLUTION_in } from './proofRun.ts';

export interface GapsOptions {
  /** Makes solids of the mesh files that the build names. */
  readMesh: MeshReader;
  /** Only pairs that this holds for; all unless given. */
  only?: (pair: Pair) => boolean;
  /** False: the build's other axle has told the pairs that never move. */
  still?: boolean;
  /** Called now and then with a share of the work done, 0 to 1. */
  progress?: (done: number) => void;
  /** Proves what was found; null or nothing: it is searched only. */
  prove?: ProveOptions | null;
}

export interface AxleGaps {
  walk: Cycled;
  parts: Part[];
  gaps: PairGap[];
  excluded: Excluded[];
  clearances: Clearance[];
  /** Drawn solids that could not be made: the rest goes on without them. */
  problems: PartsProblem[];
  /** Sentences on meshes that were made, but not as one would think. */
  notes: PartsProblem[];
  search: GapSearch;
  /** The first touch past each stop, by index of `gaps`; empty where it was not looked for. */
  margins: StopMargin[];
  /** Down to how much the gaps were proved, in; null: searched only. */
  resolution: number | null;
}

/** Share of the work that goes into the search, where a proof follows. */
const SEARCH = 0.4;

/** Why nothing is compared where the range is empty. */
const NO_RANGE = 'the stops do not even allow ride height, so that there is no range';

/** Finds the least gap of each pair of parts of an axle, and the ground clearance under each part. */
export function gapsOf(walk: Cycled, options: GapsOptions): AxleGaps {
  const { build, axle } = walk;
  const { parts, problems } = partsOf(build, axle, options.readMesh);
  const found = pairsOf(build, axle.name, parts, { still: options.still ?? true });
  const all = walk.range.holdsRide ? found.pairs : [];
  const excluded = walk.range.holdsRide
    ? found.excluded
    : [
        ...found.excluded,
        ...found.pairs.map(({ a, b }) => ({ a: a.name, b: b.name, why: NO_RANGE })),
      ];
  const pairs = options.only ? all.filter(options.only) : all;
  const search = new GapSearch(walk, parts, pairs);
  const { prove = null, progress } = options;
  const share = prove ? SEARCH : 1;
  const searched = pairs.map((_, p) => {
    if (p % 16 === 0) progress?.((share * p) / pairs.length);
    return search.least(p);
  });
  const resolution = prove ? (prove.resolution ?? RESOLUTION_in) : null;
  const proved =
    prove && resolution !== null
      ? proveAll(new ProofRun(walk, search, searched, resolution), prove, done =>
          progress?.(share + (1 - share) * done),
        )
      : searched;
  const margins = all.length > 0 ? stopMargins(walk, parts, search, proved) : [];
  progress?.(1);
  return {
    walk,
    parts,
    gaps: withBeyond(proved, margins),
    excluded,
    clearances: clearancesOf(walk, parts),
    problems,
    notes: parts.flatMap(part =>
      (part.solid.mesh?.notes ?? []).map(problem => ({ part: part.name, problem })),
    ),
    search,
    margins,
    resolution,
  };
}

export interface PairReport {
  a: string;
  b: string;
  status: GapStatus;
  required_in: number;
  /** Why that much is asked for; only where the build says so. */
  why?: string;
  gap_in: number;
  lower_in: number | null;
  /** Why there is no bound. */
  reason?: string;
  pose: PoseName;
  pointA: V3;
  pointB: V3;
  alongA: number | null;
  alongB: number | null;
  /** Stops past which this pair is the first to touch; see `stops` of the axle. */
  beyond: (End & { past: number; unit: 'in' | 'deg'; pose: PoseName })[];
  /** True for a far pair: the gap is the least of a coarse cycle. */
  isCoarse: boolean;
}

export interface ExcludedReport {
  /** Parts, or for pairs on one body that body, twice. */
  a: string;
  b: string;
  why: string;
  count: number;
}

export interface ClearanceReport {
  id: 'groundClearance';
  part: string;
  side: null;
  unit: 'in';
  ride: number;
  stuffed: number | null;
  least: { value: number; pose: PoseName };
}

/** How far past a stop the first pair touches: searched, not proved. */
export interface StopReport extends End {
  /** Travel square to the stop's line in left × right, or steering input; null where nothing touches. */
  past: number | null;
  /** Why there is none. */
  reason?: string;
  unit: 'in' | 'deg';
  /** How far past it was looked. */
  searched: number;
  /** The pair, and its first touch. */
  a: string | null;
  b: string | null;
  pose: PoseName | null;
}

export interface AxleGapReport {
  axle: AxleName;
  /** How many parts: compared and excluded pairs together are n(n − 1)/2. */
  parts: number;
  pairs: PairReport[];
  excluded: ExcludedReport[];
  clearances: ClearanceReport[];
  /** Every stop that ends travel or steering, with the first touch past it. */
  stops: StopReport[];
  notes: { part: string; text: string }[];
}

const NOT_PROVED = 'searched from samples, not proved';

export function gapReport(gaps: AxleGaps): AxleGapReport {
  return {
    axle: gaps.walk.axle.name,
    parts: gaps.parts.length,
    pairs: gaps.gaps.map(pairReport),
    excluded: excludedReport(gaps),
    clearances: gaps.clearances.map(({ part, ride, stuffed, least }) => ({
      id: 'groundClearance',
      part: part.name,
      side: null,
      unit: 'in',
      ride,
      stuffed,
      least: { value: least.value, pose: nameOf(least.pose) },
    })),
    stops: gaps.margins.map(margin => stopReport(margin, gaps)),
    notes: [...gaps.problems, ...gaps.notes].map(({ part, problem }) => ({ part, text: problem })),
  };
}

function pairReport(found: PairGap): PairReport {
  const { pair, status, gap, lower, pointA, pointB, alongA, alongB } = found;
  return {
    a: pair.a.name,
    b: pair.b.name,
    status,
    required_in: pair.required,
    ...(pair.why ? { why: pair.why } : {}),
    gap_in: gap,
    lower_in: lower,
    ...(lower === null ? { reason: NOT_PROVED } : {}),
    pose: named(found),
    pointA,
    pointB,
    alongA,
    alongB,
    beyond: found.beyond.map(each => ({
      by: each.by,
      part: each.part,
      side: each.side,
      past: each.past * SHOWN[shownUnit(each.unit)],
      unit: shownUnit(each.unit),
      pose: nameOf(each.pose),
    })),
    isCoarse: !found.isRefined,
  };
}

const shownUnit = (unit: 'in' | 'rad'): 'in' | 'deg' => (unit === 'rad' ? 'deg' : 'in');

const NO_TOUCH = 'no pair that keeps apart in the range touches as far as was looked';

function stopReport({ stop, unit, searched, first }: StopMargin, { gaps }: AxleGaps): StopReport {
  const shown = shownUnit(unit);
  const pair = first && gaps[first.pair]?.pair;
  return {
    by: stop.by,
    part: stop.part,
    side: stop.side,
    past: first ? first.past * SHOWN[shown] : null,
    ...(first ? {} : { reason: NO_TOUCH }),
    unit: shown,
    searched: searched * SHOWN[shown],
    a: pair?.a.name ?? null,
    b: pair?.b.name ?? null,
    pose: first && nameOf(first.pose),
  };
}

/** A pair's pose, with the roll of its parts where that is not as drawn. */
export function named(found: PairGap): PoseName {
  const rolls = Object.entries(rollsOf(found)).map(([name, roll]) => [
    name,
    (roll * 180) / Math.PI,
  ]);
  return {
    ...nameOf(found.pose),
    linkRoll_deg: rolls.length > 0 ? Object.fromEntries(rolls) : null,
  };
}

/** Pairs on one body by that body, muted ones by themselves. */
function excludedReport({ excluded, parts }: AxleGaps): ExcludedReport[] {
  const bodies = new Map(parts.map(part => [part.name, part.body]));
  const groups = new Map<string, ExcludedReport>();
  for (const { a, b, why } of excluded) {
    const isMuted = why.startsWith('muted');
    const body = bodies.get(a) ?? a;
    const [first, second] = isMuted ? [a, b] : [body, body];
    const key = JSON.stringify([first, second, why]);
    const group = groups.get(key);
    if (group) group.count++;
    else groups.set(key, { a: first, b: second, why, count: 1 });
  }
  return [...groups.values()];
}
