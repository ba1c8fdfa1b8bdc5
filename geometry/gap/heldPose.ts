/**
 * A number that is least at a pose of the range, asked of an axle that is a little different, to first order.
 *
 * Inside the range the pose need not be found again: there the number is stationary. Where stops make the pose, it
 * goes along with them: with m the number and g ≥ 0 the margins of the stops that hold the pose, ∇m = Σ λ ∇g by travel
 * and steering, and the least m changes by ∂m − Σ λ ∂g (envelope theorem; from memory).
 */
import type { Axle, Build } from '../build/build.ts';
import type { OpenedAxle } from '../cycle/openAxle.ts';
import type { Limit, LimitTarget } from '../limit/limit.ts';
import { limits } from '../limit/list.ts';
import { dotted, solved } from '../matrix.ts';
import { MeasureContext } from '../measure/measure.ts';
import type { Pose, PoseInput } from '../pose/pose.ts';
import { DistanceSolver } from '../solid/distance.ts';
import { unmoved } from '../solid/placement.ts';
import { HELD, type RollShares, rollsAt, stand } from './pairRolls.ts';
import { pairsOf } from './pairs.ts';
import type { Part } from './part.ts';
import { partsOf } from './parts.ts';

/** An axle at a pose, with its parts made when they are asked for. */
export interface Asked {
  opened: OpenedAxle;
  pose: Pose;
  part(name: string): Part | null;
}

/** Asks an axle at the pose with the inputs of this one, or with others; null where there is none. */
export type Asking = (pose: Pose, moved?: PoseInput) => Asked | null;

/** A stop that makes the pose of a number, with its multiplier. */
export interface Held {
  limit: Limit;
  target: LimitTarget;
  /** λ: what the number gains where the stop gives way by one. */
  multiplier: number;
  now: number;
}

/** A stop counts as holding a pose within this, in or rad. */
const HOLDS = 2e-3;
/** Step of travel and steering for gradients, in and rad. */
const STEP = 0.02;
/** Added to the diagonal where gradients of stops are parallel: the multipliers are then shared among them. */
const SHARED = 1e-6;

/** @param part makes or finds a part of this axle */
export function askingOf(opened: OpenedAxle, part: Asked['part']): Asking {
  const poses = new Map<string, Pose | null>();
  return (pose, moved) => {
    const { left: l, right: r, steer } = moved ?? pose.input;
    const key = `${l} ${r} ${steer}`;
    if (!poses.has(key)) poses.set(key, opened.model.pose(l, r, steer).pose);
    const there = poses.get(key);
    return there ? { opened, pose: there, part } : null;
  };
}

/**
 * The stops that make the pose of a number: ∇m = Σ λ ∇g by left travel, right travel and steering, in least squares.
 *
 * @param now the number at that pose of the axle as it is
 */
export function holding(
  build: Build,
  axle: Axle,
  pose: Pose,
  now: number,
  value: (asked: Asked) => number | null,
  base: Asking,
): Held[] {
  const here = base(pose);
  if (!here) return [];
  const roles: Limit['role'][] = axle.steered ? ['travel', 'steering'] : ['travel'];
  const stops = limits
    .filter(({ role }) => roles.includes(role))
    .flatMap(limit => limit.targets(axle, build).map(target => ({ limit, target })))
    .flatMap(each => {
      const margin = each.limit.margin(contextOf(here), each.target);
      return margin !== null && Math.abs(margin) < HOLDS ? [{ ...each, now: margin }] : [];
    });
  if (stops.length === 0) return [];
  const { left, right, steer } = pose.input;
  const beside = [
    { left: left - STEP, right, steer },
    { left, right: right - STEP, steer },
    ...(axle.steered ? [{ left, right, steer: steer - STEP }] : []),
  ].map(input => base(pose, input));
  const gradient = (at: number, other: (asked: Asked) => number | null): number[] =>
    beside.map(asked => {
      const there = asked && other(asked);
      return there === null ? 0 : (at - there) / STEP;
    });
  const ofNumber = gradient(now, value);
  const ofStops = stops.map(stop =>
    gradient(stop.now, asked => stop.limit.margin(contextOf(asked), stop.target)),
  );
  const normal = ofStops.map((row, i) =>
    ofStops.map((column, j) => dotted(row, column) + (i === j ? SHARED : 0)),
  );
  const multipliers = solved(
    normal,
    ofStops.map(row => dotted(row, ofNumber)),
  );
  return stops.map((stop, i) => ({ ...stop, multiplier: multipliers[i] ?? 0 }));
}

/** The number in another axle with its pose going along with the stops that make it; null where it has no value. */
export function followed(
  pose: Pose,
  value: (asked: Asked) => number | null,
  held: readonly Held[],
  asking: Asking,
): number | null {
  const asked = asking(pose);
  const there = asked && value(asked);
  if (!asked || there === null) return null;
  let along = there;
  for (const { limit, target, multiplier, now } of held) {
    const stop = limit.margin(contextOf(asked), target);
    if (stop !== null) along -= multiplier * (stop - now);
  }
  return along;
}

/**
 * The gap of two parts at a pose, in; null where one of them is not there, or they are not compared.
 *
 * @param shares of their windows at which free parts are rolled; unless given they stand as drawn
 */
export function gapOf(
  { opened, pose, part }: Asked,
  one: string,
  other: string,
  shares: RollShares | null = null,
): number | null {
  const [a, b] = [part(one), part(other)];
  if (!a || !b) return null;
  const [pair] = pairsOf(opened.build, opened.axle.name, [a, b]).pairs;
  if (!pair) return null;
  const solver = new DistanceSolver();
  const [placeA, placeB] = [unmoved(), unmoved()];
  const [rollA, rollB] = shares ? rollsAt(pair, pose, shares) : HELD;
  if (!stand(pair.a, pose, rollA, placeA) || !stand(pair.b, pose, rollB, placeB)) return null;
  solver.run(pair.solidA, placeA, pair.solidB, placeB);
  return solver.gap;
}

/** The parts of an axle; of the drawn ones only those that are asked for. */
export function partsByName(
  { build, axle }: OpenedAxle,
  readMesh: Parameters<typeof partsOf>[2],
  isWanted: (solid: string) => boolean = () => true,
): Map<string, Part> {
  const solids = build.solids.filter(({ name }) => isWanted(name));
  return new Map(
    partsOf({ ...build, solids }, axle, readMesh).parts.map(part => [part.name, part]),
  );
}

export const contextOf = ({ opened, pose }: Asked): MeasureContext =>
  new MeasureContext(opened.build, opened.axle, opened.model, pose);
