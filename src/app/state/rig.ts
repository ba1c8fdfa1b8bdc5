/** One axle on the stands: everything that the main thread needs to pose it. */
import { inside } from '../../../geometry/cycle/edge.ts';
import type { OpenedAxle } from '../../../geometry/cycle/openAxle.ts';
import { Reach, type SteerInterval } from '../../../geometry/cycle/reach.ts';
import type { Part } from '../../../geometry/gap/part.ts';
import { type PartsProblem, partsOf } from '../../../geometry/gap/parts.ts';
import type { Pose, Status } from '../../../geometry/pose/pose.ts';
import type { RangeTold } from '../../worker/protocol.ts';
import { meshReader } from './meshes.ts';

export interface Rig extends OpenedAxle {
  reach: Reach;
  parts: Part[];
  /** Drawn solids that could not be made; the rest goes on without them. */
  problems: PartsProblem[];
}

/** Where the axle is asked to be. Travels in in; steering input in rad or in. */
export interface Handle {
  left: number;
  right: number;
  steer: number;
  /** At full lock the steering follows its stop while the travel changes: −1 right, 1 left. */
  lock: -1 | 0 | 1;
}

export const RIDE: Handle = { left: 0, right: 0, steer: 0, lock: 0 };

/** Where the axle is. */
export interface Shown {
  handle: Handle;
  /** Null where it cannot be there. */
  pose: Pose | null;
  status: Status;
  /** What ran out of length. */
  part: string | null;
  /** What the steering may be turned there; null where nothing steers or no input is allowed. */
  interval: SteerInterval | null;
}

/** @param before the rig of the same axle before a change */
export function makeRig(
  opened: OpenedAxle,
  meshes: ReadonlyMap<string, Uint8Array>,
  before: Rig | null = null,
): Rig {
  const { build, axle, model } = opened;
  const { parts, problems } = partsOf(build, axle, meshReader(meshes), before?.parts);
  return { ...opened, reach: new Reach(build, axle, model), parts, problems };
}

/**
 * Poses the axle at a handle, the steering brought between the stops that it has there.
 *
 * @param near where it stood before: its steering interval is the first guess
 */
export function place(rig: Rig, handle: Handle, near: Shown | null): Shown {
  const { reach, model, axle } = rig;
  const from = near?.pose?.mechanism === model.mechanism ? near.pose : model.ride;
  const { status, part, pose: straight } = model.near(from, handle.left, handle.right, 0);
  if (!straight) return { handle, pose: null, status, part, interval: null };
  if (!axle.steered) {
    return {
      handle: { ...handle, steer: 0, lock: 0 },
      pose: straight,
      status,
      part,
      interval: null,
    };
  }
  const interval = reach.steering(straight, near?.interval ?? null);
  const steer = interval ? between(handle, interval) : handle.steer;
  const pose = steer === 0 ? straight : model.atSteer(straight, steer).pose;
  return {
    handle: { ...handle, steer },
    pose,
    status: pose ? status : 'unreachable',
    part,
    interval,
  };
}

function between({ steer, lock }: Handle, { least, greatest }: SteerInterval): number {
  if (lock !== 0) return lock > 0 ? greatest.value : least.value;
  return Math.min(greatest.value, Math.max(least.value, steer));
}

/** Steps of the search for the edge, in: finer than any mark of a tape. */
const AT_EDGE = 1e-4;

/** Travels brought into the range: as far from ride height towards them as the edge allows. */
export function intoRange(
  range: RangeTold | null,
  left: number,
  right: number,
): readonly [number, number] {
  if (!range?.holdsRide || inside(range.edge, left, right)) return [left, right];
  // slide along the edge: the nearest point of it, a hair inside
  let best: readonly [number, number] = [0, 0];
  let least = Number.POSITIVE_INFINITY;
  for (const [i, p] of range.edge.entries()) {
    const q = range.edge[(i + 1) % range.edge.length] ?? p;
    const [dl, dr] = [q.left - p.left, q.right - p.right];
    const square = dl * dl + dr * dr;
    const t = square === 0 ? 0 : ((left - p.left) * dl + (right - p.right) * dr) / square;
    const clamped = Math.min(1, Math.max(0, t));
    const at: readonly [number, number] = [p.left + clamped * dl, p.right + clamped * dr];
    const away = Math.hypot(left - at[0], right - at[1]);
    if (away < least) {
      least = away;
      best = at;
    }
  }
  const length = Math.hypot(best[0], best[1]);
  const share = length > AT_EDGE ? 1 - AT_EDGE / length : 0;
  return [best[0] * share, best[1] * share];
}
