/**
 * One axle walked: range, coarse cycle, walks and extremes, and the plain object that command line and page
 * show of it. Numbers in the report carry their unit in their name or beside them.
 */
import type { Axle, Build } from '../build/build.ts';
import {
  type Measure,
  MeasureContext,
  type Reading,
  SHOWN,
  type Target,
} from '../measure/measure.ts';
import type { AxleModel } from '../pose/model.ts';
import type { Pose } from '../pose/pose.ts';
import { columnsOf, type Extreme, type Extremes, Finder } from './extremes.ts';
import { COARSE, coarseGrid, type Grid, type GridSize } from './grid.ts';
import { findRange, type Range } from './range.ts';
import type { End, Reach } from './reach.ts';
import { WALKS, type WalkName, walkPoses } from './walk.ts';

export interface AxleWalk {
  build: Build;
  axle: Axle;
  model: AxleModel;
  range: Range;
  reach: Reach;
  grid: Grid;
  /** Null where the range is empty. */
  finder: Finder | null;
  /** Of every measure; empty where they were left until they are asked for. */
  extremes: Extremes[];
  walks: { name: WalkName; poses: Pose[] }[];
}

/** What of a walk tells where the axle can stand; enough for gaps. */
export type Cycled = Pick<AxleWalk, 'build' | 'axle' | 'model' | 'range' | 'reach' | 'grid'>;

export interface WalkOptions {
  grid?: GridSize;
  /** Go no further than this, in. */
  travel?: { up: number; down: number } | null;
  /** Follow the edge of the range to within this, in, where that is finer than a thousandth. */
  resolution?: number;
  /** Only this walk; all unless given. */
  path?: WalkName | null;
  /** False: extremes are left until the finder is asked for them. */
  extremes?: boolean;
  /** Called between stages with a share of the work done, 0 to 1. */
  progress?: (done: number) => void;
}

/** Walks an axle through everything that its stops allow. */
export function walkAxle(
  build: Build,
  axle: Axle,
  model: AxleModel,
  options: WalkOptions = {},
): AxleWalk {
  const { range, reach } = findRange(
    build,
    axle,
    model,
    options.travel ?? null,
    options.resolution,
  );
  options.progress?.(0.2);
  const grid = coarseGrid(range, reach, options.grid ?? COARSE);
  options.progress?.(0.3);
  const finder = range.holdsRide ? new Finder(range, reach, grid) : null;
  const extremes = options.extremes === false ? [] : (finder?.all() ?? []);
  options.progress?.(0.9);
  const names = options.path
    ? [options.path]
    : WALKS.filter(n => n !== 'lock-to-lock' || axle.steered);
  const walks = names.map(name => ({ name, poses: walkPoses(name, range, reach) }));
  options.progress?.(1);
  return { build, axle, model, range, reach, grid, finder, extremes, walks };
}

/** A pose as every report names it. */
export interface PoseName {
  left_in: number;
  right_in: number;
  /** Null on an axle that does not steer. */
  steer: { value: number; unit: 'deg' | 'in' } | null;
  /** Roll of links and rods about their own lines, where it is not as drawn. */
  linkRoll_deg: Record<string, number> | null;
}

export interface WalkReport {
  axle: string;
  grid: { left: number; right: number; steer: number };
  range: {
    edge: ({ left_in: number; right_in: number } & End)[];
    ends: End[];
    /** Travel that is assumed, since nothing stops it. */
    assumed: { side: string; direction: string; travel_in: number }[];
    holdsRide: boolean;
    pieces: number;
  };
  walks: {
    name: WalkName;
    poses: PoseName[];
    columns: {
      id: string;
      part: string | null;
      side: string | null;
      unit: string;
      values: (number | null)[];
      /** Why the first missing value is missing; only where one is. */
      reason?: string;
    }[];
  }[];
  extremes: {
    id: string;
    part: string | null;
    side: string | null;
    unit: string;
    least: { value: number | null; pose: PoseName | null; reason?: string };
    greatest: { value: number | null; pose: PoseName | null; reason?: string };
  }[];
  counts: { solved: number; unreachable: number; undecided: number };
}

/** How a pose is named in reports. */
export function nameOf(pose: Pose): PoseName {
  const steering = pose.mechanism.steering;
  return {
    left_in: pose.input.left,
    right_in: pose.input.right,
    steer: steering
      ? steering.unit === 'rad'
        ? { value: pose.input.steer * SHOWN.deg, unit: 'deg' }
        : { value: pose.input.steer, unit: 'in' }
      : null,
    linkRoll_deg: null,
  };
}

/** A value as it is shown; null stands for a missing one. */
export function shownValue(measure: Measure, reading: Reading): number | null {
  if (typeof reading !== 'number') return null;
  const value = reading * SHOWN[measure.unit];
  // −0 would print as 0 in one place and −0 in another
  return value === 0 ? 0 : value;
}

/** The report of a walked axle. */
export function walkReport(walk: AxleWalk): WalkReport {
  const { range, grid, build, axle, model, reach } = walk;
  const columns = columnsOf(reach);
  const extreme = (
    measure: Measure,
    found: Extreme | null,
    missing: string | null,
  ): { value: number | null; pose: PoseName | null; reason?: string } =>
    found
      ? { value: shownValue(measure, found.value), pose: nameOf(found.pose) }
      : { value: null, pose: null, reason: missing ?? 'no pose' };
  return {
    axle: axle.name,
    grid: { ...grid.size },
    range: {
      edge: range.edge.map(p => ({
        left_in: p.left,
        right_in: p.right,
        by: p.by,
        part: p.part,
        side: p.side,
      })),
      ends: range.ends,
      assumed: range.unstopped.map(({ side, direction }) => ({
        side,
        direction,
        travel_in: range.assumedTravel[direction],
      })),
      holdsRide: range.holdsRide,
      pieces: range.pieces,
    },
    walks: walk.walks.map(({ name, poses }) => {
      const contexts = poses.map(pose => new MeasureContext(build, axle, model, pose));
      return {
        name,
        poses: poses.map(nameOf),
        columns: columns.map(({ measure, target }) => columnOf(measure, target, contexts)),
      };
    }),
    extremes: walk.extremes.map(e => ({
      id: e.measure.id,
      part: e.target.part,
      side: e.target.side,
      unit: e.measure.unit,
      least: extreme(e.measure, e.least, e.missing),
      greatest: extreme(e.measure, e.greatest, e.missing),
    })),
    counts: { ...grid.counts },
  };
}

function columnOf(
  measure: Measure,
  target: Target,
  contexts: readonly MeasureContext[],
): WalkReport['walks'][0]['columns'][0] {
  let reason: string | undefined;
  const values = contexts.map(context => {
    const reading = measure.value(context, target);
    if (typeof reading !== 'number') reason ??= reading.missing;
    return shownValue(measure, reading);
  });
  const column = {
    id: measure.id,
    part: target.part,
    side: target.side,
    unit: measure.unit,
    values,
  };
  return reason === undefined ? column : { ...column, reason };
}
