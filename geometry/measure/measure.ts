/**
 * What a measure is, and what it may look at. To add one: a new file in this folder and a line in `list.ts`;
 * tables, charts, comparison, CSV and sheet read the list.
 *
 * Values stay in internal units (in, rad, lbf); `unit` says what they are shown in, `shown` converts.
 */
import type { Axle, Build } from '../build/build.ts';
import type { AxleModel } from '../pose/model.ts';
import type { Pose } from '../pose/pose.ts';

/** Units that measures are shown in. Angles are rad inside. */
export type Unit = 'deg' | 'in' | '%' | 'lbf' | 'ft' | 'in/in' | 'deg/deg' | 'in·lbf' | '1';

/** Value inside → value as shown. */
export const SHOWN: Record<Unit, number> = {
  deg: 180 / Math.PI,
  in: 1,
  '%': 100,
  lbf: 1,
  ft: 1 / 12,
  'in/in': 1,
  'deg/deg': 1,
  in·lbf: 1,
  '1': 1,
};

/** What a measure is of: a part, a wheel's side, or (both null) the axle. */
export interface Target {
  part: string | null;
  side: 'left' | 'right' | null;
}

/** A value, or in words why there is none. */
export type Reading = number | { missing: string };

/** Derivatives of a value by left travel, right travel (per in) and steering input (per rad or in). */
export type Slope = readonly [left: number, right: number, steer: number];

export interface Measure {
  /** Camel-case name, fixed: scripts read it. */
  id: string;
  unit: Unit;
  /** A few words of shop English, for a table's row. */
  label: string;
  /** What exactly it is, with its sign. */
  definition: string;
  /** Standard or book that defines it. */
  source: string;
  /** What it exists for on this axle; empty where the axle has none of it. */
  targets(axle: Axle, build: Build): Target[];
  value(context: MeasureContext, target: Target): Reading;
  /** Null where the value is missing or has no derivative at this pose (a kink). */
  slope(context: MeasureContext, target: Target): Slope | null;
}

export const AXLE_TARGET: readonly Target[] = [{ part: null, side: null }];
export const WHEEL_TARGETS: readonly Target[] = [
  { part: null, side: 'left' },
  { part: null, side: 'right' },
];

/** Targets of measures that only an axle that steers has. */
export const steeredAxle = (axle: Axle): Target[] => (axle.steered ? [...AXLE_TARGET] : []);
export const steeredWheels = (axle: Axle): Target[] => (axle.steered ? [...WHEEL_TARGETS] : []);

/** The poses that a measure may read, made on demand and kept, of one axle at one pose. */
export class MeasureContext {
  readonly build: Build;
  readonly axle: Axle;
  readonly model: AxleModel;
  readonly pose: Pose;
  #rideSameSteer: Pose | null | undefined;
  #level: Pose | null | undefined;

  constructor(build: Build, axle: Axle, model: AxleModel, pose: Pose) {
    this.build = build;
    this.axle = axle;
    this.model = model;
    this.pose = pose;
  }

  /** The solved pose 0/0, straight ahead. */
  get ride(): Pose {
    return this.model.ride;
  }

  /** The pose 0/0 at this pose's steering input; null where the steering can't reach it. */
  get rideSameSteer(): Pose | null {
    const { steer } = this.pose.input;
    if (this.#rideSameSteer === undefined) {
      this.#rideSameSteer =
        steer === 0 ? this.model.ride : this.model.atSteer(this.model.ride, steer).pose;
    }
    return this.#rideSameSteer;
  }

  /** The pose with both wheels at this pose's mean travel, same steering; null where there is none. */
  get level(): Pose | null {
    const { left, right, steer } = this.pose.input;
    if (this.#level === undefined) {
      const mean = (left + right) / 2;
      this.#level = left === right ? this.pose : this.model.near(this.pose, mean, mean, steer).pose;
    }
    return this.#level;
  }

  /** Any other pose of the axle. */
  solve(left: number, right: number, steer: number): Pose | null {
    return this.model.near(this.pose, left, right, steer).pose;
  }
}

export const NO_STEERING: Reading = { missing: 'the axle does not steer' };
export const NO_RIDE: Reading = { missing: 'ride height is out of reach at this steering input' };
export const NO_LEVEL: Reading = { missing: 'the level pose at this mean travel is out of reach' };
