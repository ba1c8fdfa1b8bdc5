/** Everything about one pose of one axle, in shown units: what `axlewalk pose --json` prints. */
import type { AxleName } from '../build/build.ts';
import type { EndId, Limit } from '../limit/limit.ts';
import { limits } from '../limit/list.ts';
import { measures } from '../measure/list.ts';
import { MeasureContext, SHOWN, type Unit } from '../measure/measure.ts';
import type { AxleModel } from '../pose/model.ts';
import type { Pose, PoseInput, Status } from '../pose/pose.ts';
import type { V3 } from '../vector.ts';
import { type BracketRates, bracketRates } from './bracketRates.ts';
import type { OpenedAxle } from './openAxle.ts';
import {
  type PoseJoint,
  type PoseLength,
  poseJoints,
  poseLengths,
  posePoints,
  residual,
} from './poseLengths.ts';

/** A steering input as shown: pitman angle in deg, or ram rod in in; + turns the wheels left. */
export interface SteerValue {
  value: number;
  unit: 'deg' | 'in';
}

export interface PoseMeasure {
  id: string;
  part: string | null;
  side: 'left' | 'right' | null;
  /** In `unit`; null with a reason beside it. */
  value: number | null;
  unit: Unit;
  reason?: string;
}

/** A limit that this pose breaks. */
export interface BrokenLimit {
  limit: EndId;
  part: string;
  side: 'left' | 'right' | null;
  /** How far beyond, positive. */
  amount: number;
  unit: Limit['unit'];
}

export interface PoseReport {
  build: string;
  variant: string | null;
  axle: { name: AxleName; origin_in: V3 | null; chassisFromAxle: [V3, V3, V3] | null };
  status: Status;
  /** Unreachable: the part that ran out of length. */
  part: string | null;
  /** Why what is null below is null. */
  reason?: string;
  /** Largest error of a length that is exact, recomputed from `points`. */
  residual_in: number | null;
  travel_in: { left: number; right: number };
  /** Null on an axle that does not steer. */
  steer: SteerValue | null;
  roll_deg: number | null;
  yaw_deg: number | null;
  pitch_deg: number | null;
  knuckles: { left: { turn_deg: number }; right: { turn_deg: number } } | null;
  links: PoseLength[];
  joints: PoseJoint[];
  points: Record<string, V3>;
  measures: PoseMeasure[];
  /** True where the stops of travel and steering allow this pose; null where that is undecided. */
  inRange: boolean | null;
  broken: BrokenLimit[];
  /** The same pose with half and twice the brackets' rates; null where none is given. */
  bracketRates: BracketRates | null;
}

export interface PoseReportOptions {
  /**
   * Whether travels (in) hang together with ride height: a pose may keep every stop and yet lie in another
   * piece of what they allow. Asked only where no stop is passed; without it every such pose is in the range.
   */
  connected?: (left: number, right: number) => boolean;
}

/** A margin below −1e-9 in (rad, 1) is broken: the edge of the range is itself found to 1e-9. */
export const BROKEN = -1e-9;

const DEGREES = 180 / Math.PI;

/**
 * Solves one pose, from ride height on, and tells all about it; also outside the range, with the limits that
 * it breaks.
 *
 * @param input travels in in, + up; steering in rad of pitman or in of ram rod, + turns left
 */
export function poseReport(
  opened: OpenedAxle,
  input: PoseInput,
  options: PoseReportOptions = {},
): PoseReport {
  const { build, axle, model } = opened;
  const { left, right, steer } = input;
  const { status, part, pose } = model.pose(left, right, steer);
  const head = {
    build: build.name,
    variant: build.variant,
    travel_in: { left, right },
    steer: steerValue(model, steer),
  };
  if (!pose) {
    return {
      ...head,
      axle: { name: axle.name, origin_in: null, chassisFromAxle: null },
      status,
      part,
      reason: whyNot(status, part),
      residual_in: null,
      roll_deg: null,
      yaw_deg: null,
      pitch_deg: null,
      knuckles: null,
      links: [],
      joints: [],
      points: {},
      measures: [],
      inRange: status === 'unreachable' ? false : null,
      broken: [],
      bracketRates: null,
    };
  }
  const context = new MeasureContext(build, axle, model, pose);
  const points = posePoints(pose);
  const links = poseLengths(pose, points);
  const { broken, isStopped } = brokenLimits(context);
  return {
    ...head,
    axle: { name: axle.name, ...frame(pose) },
    status,
    part,
    residual_in: residual(pose, links),
    roll_deg: pose.roll * DEGREES,
    yaw_deg: pose.yaw * DEGREES,
    pitch_deg: pose.pitch * DEGREES,
    knuckles: knuckles(pose),
    links,
    joints: poseJoints(pose),
    points,
    measures: readMeasures(context),
    inRange: !isStopped && (options.connected?.(left, right) ?? true),
    broken,
    bracketRates: bracketRates(opened, input),
  };
}

/** The steering input as it is shown; null on an axle that does not steer. */
export function steerValue(model: AxleModel, steer: number): SteerValue | null {
  const { steering } = model.mechanism;
  if (!steering) return null;
  return steering.unit === 'rad'
    ? { value: steer * DEGREES, unit: 'deg' }
    : { value: steer, unit: 'in' };
}

/** Every measure of the axle at a pose, in the list's order. */
export function readMeasures(context: MeasureContext): PoseMeasure[] {
  return measures.flatMap(measure =>
    measure.targets(context.axle, context.build).map((target): PoseMeasure => {
      const { id, unit } = measure;
      const { part, side } = target;
      const reading = measure.value(context, target);
      if (typeof reading !== 'number') {
        return { id, part, side, value: null, unit, reason: reading.missing };
      }
      const value = reading * SHOWN[unit];
      if (Number.isFinite(value)) return { id, part, side, value, unit };
      return { id, part, side, value: null, unit, reason: 'no finite value at this pose' };
    }),
  );
}

/** Every limit that a pose breaks, and whether one of them is a stop of travel or steering. */
export function brokenLimits(context: MeasureContext): {
  broken: BrokenLimit[];
  isStopped: boolean;
} {
  const broken: BrokenLimit[] = [];
  let isStopped = false;
  for (const limit of limits) {
    for (const target of limit.targets(context.axle, context.build)) {
      const margin = limit.margin(context, target);
      if (margin === null || !(margin < BROKEN)) continue;
      if (limit.role !== 'mustNot') isStopped = true;
      const amount = -margin * SHOWN[limit.unit];
      const { part, side } = target;
      broken.push({ limit: limit.id, part, side, amount, unit: limit.unit });
    }
  }
  return { broken, isStopped };
}

function frame(pose: Pose): { origin_in: V3; chassisFromAxle: [V3, V3, V3] } {
  const [a, b, c, d, e, f, g, h, i] = pose.axle.R as unknown as Nine;
  const [x, y, z] = pose.axle.o as unknown as V3;
  return {
    origin_in: [x, y, z],
    chassisFromAxle: [
      [a, b, c],
      [d, e, f],
      [g, h, i],
    ],
  };
}

type Nine = [number, number, number, number, number, number, number, number, number];

function knuckles(pose: Pose): PoseReport['knuckles'] {
  const left = pose.knuckleTurn('left');
  const right = pose.knuckleTurn('right');
  if (left === null || right === null) return null;
  return { left: { turn_deg: left * DEGREES }, right: { turn_deg: right * DEGREES } };
}

function whyNot(status: Status, part: string | null): string {
  if (status === 'undecided') return 'whether a pose exists here is undecided';
  return part === null ? 'no pose exists here' : `no pose exists here: ${part} can't reach`;
}
