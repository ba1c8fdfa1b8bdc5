/**
 * What an axle can reach: whether its stops allow a pose, and between which steering inputs it can be turned
 * there. Travels in in; steering in rad of pitman or in of ram rod.
 */
import type { Axle, Build } from '../build/build.ts';
import type { EndId, Limit, LimitTarget } from '../limit/limit.ts';
import { limits } from '../limit/list.ts';
import { MeasureContext } from '../measure/measure.ts';
import type { AxleModel } from '../pose/model.ts';
import type { Pose } from '../pose/pose.ts';
import { closeOn, type Sided } from './crossing.ts';

/** What ends something: which limit, of which part. */
export interface End {
  by: EndId;
  part: string | null;
  side: 'left' | 'right' | null;
}

/** Whether the stops of travel allow a pose, by how much, and which of them is nearest. */
export interface TravelState {
  /** Straight ahead; null where none exists. */
  pose: Pose | null;
  /** Least margin of all stops of travel and of the box, in; −∞ without a pose. */
  margin: number;
  nearest: End;
}

export interface SteerEnd extends End {
  value: number;
}

/** Steering inputs that the stops allow at a pose of the axle: to the right (least), to the left (greatest). */
export interface SteerInterval {
  least: SteerEnd;
  greatest: SteerEnd;
}

/** Bounds on travel that stand in for missing stops. */
export interface TravelBox {
  left: { up: number; down: number };
  right: { up: number; down: number };
}

interface Bound {
  limit: Limit;
  target: LimitTarget;
}

/** Furthest travel that is looked at, in: twice what any solid axle under a road vehicle does. */
export const FAR_in = 30;
/** Steepest roll that is looked at: sine of 50°. */
const STEEPEST = 0.766;
/** Widest steering input that is looked at, and first step of the search: pitman (rad), ram (in). */
const STEER_SEARCH = {
  rad: { most: 1.4, step: 0.1 },
  in: { most: 12, step: 0.5 },
};
/** Part of that step by which the end of an interval is taken to have moved since a neighboring pose. */
const BESIDE = 0.15;
/** Ends of the steering are found to this, rad or in; at a glance to what no eye tells. */
const STEER_END = 1e-10;
export const GLANCE_STEER_END = 1e-4;

export class Reach {
  readonly build: Build;
  readonly axle: Axle;
  readonly model: AxleModel;
  /** Set by the range where directions have no stop. */
  box: TravelBox = {
    left: { up: FAR_in, down: FAR_in },
    right: { up: FAR_in, down: FAR_in },
  };
  readonly #travel: Bound[];
  readonly #steering: Bound[];
  readonly #steerEnd: number;
  #last: Pose;

  /** @param steerEnd ends of the steering are found to this, rad or in */
  constructor(build: Build, axle: Axle, model: AxleModel, steerEnd = STEER_END) {
    this.build = build;
    this.axle = axle;
    this.model = model;
    this.#steerEnd = steerEnd;
    const bounds = (role: Limit['role']): Bound[] =>
      limits
        .filter(limit => limit.role === role)
        .flatMap(limit => limit.targets(axle, build).map(target => ({ limit, target })));
    this.#travel = bounds('travel');
    this.#steering = bounds('steering');
    this.#last = model.ride;
  }

  /** What the stops of travel say of this pose. Asked for neighbors in turn, it is one solve each. */
  travel(left: number, right: number): TravelState {
    const outOfBox = this.#boxMargin(left, right);
    if (
      outOfBox.margin < -1e-3 &&
      Math.abs(left - right) > STEEPEST * this.model.mechanism.wheelCenters
    ) {
      return { pose: null, ...outOfBox };
    }
    const verdict = this.model.near(this.#last, left, right, 0);
    const { pose } = verdict;
    if (!pose) {
      return {
        pose: null,
        margin: Number.NEGATIVE_INFINITY,
        nearest: { by: 'noPose', part: verdict.part, side: null },
      };
    }
    this.#last = pose;
    let { margin, nearest } = outOfBox;
    const context = new MeasureContext(this.build, this.axle, this.model, pose);
    for (const { limit, target } of this.#travel) {
      const value = limit.margin(context, target);
      if (value !== null && value < margin) {
        margin = value;
        nearest = { by: limit.id, part: target.part, side: target.side };
      }
    }
    return { pose, margin, nearest };
  }

  /** True where the stops of steering allow straight ahead at this pose of the axle. */
  allowsStraight(pose: Pose): boolean {
    return this.#steerState(pose, 0).margin >= 0;
  }

  /**
   * The steering inputs that the stops allow where the axle stands at `pose`; a single zero for an axle that
   * does not steer; null where no input is allowed.
   *
   * @param near the interval at a neighboring pose: the ends are looked for beside its ends first
   */
  steering(pose: Pose, near: SteerInterval | null = null): SteerInterval | null {
    const steering = this.model.mechanism.steering;
    if (!steering) {
      const none: SteerEnd = { value: 0, by: 'steeringStop', part: null, side: null };
      return { least: none, greatest: none };
    }
    const { most, step } = STEER_SEARCH[steering.unit];
    const state = (value: number): Sided<End> => this.#steerState(pose, value);
    const straight = state(0).margin;
    let start = 0;
    if (straight < 0) {
      // straight ahead is not allowed here: the nearest input that is
      const found = Array.from({ length: Math.floor(most / step) }, (_, i) => (i + 1) * step)
        .flatMap(s => [s, -s])
        .find(s => state(s).margin >= 0);
      if (found === undefined) return null;
      start = found;
    }
    const close = (
      inside: number,
      margin: number,
      outside: number,
      there: Sided<End>,
    ): SteerEnd => {
      const crossing = closeOn(state, inside, margin, outside, there, this.#steerEnd);
      return { value: crossing.inner, ...crossing.outside };
    };
    const end = (way: 1 | -1): SteerEnd => {
      const guess = (way > 0 ? near?.greatest : near?.least)?.value ?? 0;
      const beside = step * BESIDE;
      if (straight >= 0 && way * guess > beside && Math.abs(guess) + beside < most) {
        const inner = state(guess - way * beside);
        const outer = state(guess + way * beside);
        if (inner.margin >= 0 && outer.margin < 0) {
          return close(guess - way * beside, inner.margin, guess + way * beside, outer);
        }
      }
      let inside = start;
      let margin = straight >= 0 ? straight : state(start).margin;
      while (way * inside < most) {
        const outside = way * Math.min(most, way * (inside + way * step));
        const there = state(outside);
        if (there.margin < 0) return close(inside, margin, outside, there);
        inside = outside;
        margin = there.margin;
      }
      return { value: way * most, by: 'assumedTravel', part: null, side: null };
    };
    return { least: end(-1), greatest: end(1) };
  }

  /**
   * The pose at a share of the steering interval: −1 full right, 0 straight ahead, +1 full left. Where the
   * interval does not hold straight ahead, 0 is its middle.
   */
  steered(pose: Pose, { least, greatest }: SteerInterval, share: number): Pose | null {
    const holdsStraight = least.value <= 0 && greatest.value >= 0;
    const value = holdsStraight
      ? share * (share < 0 ? -least.value : greatest.value)
      : least.value + ((share + 1) / 2) * (greatest.value - least.value);
    return value === 0 ? pose : this.model.atSteer(pose, value).pose;
  }

  #steerState(pose: Pose, value: number): Sided<End> {
    const verdict = this.model.atSteer(pose, value);
    if (!verdict.pose) {
      return {
        margin: Number.NEGATIVE_INFINITY,
        what: { by: 'noPose', part: verdict.part, side: null },
      };
    }
    const context = new MeasureContext(this.build, this.axle, this.model, verdict.pose);
    let margin = Number.POSITIVE_INFINITY;
    let what: End = { by: 'assumedTravel', part: null, side: null };
    for (const { limit, target } of this.#steering) {
      const value = limit.margin(context, target);
      if (value !== null && value < margin) {
        margin = value;
        what = { by: limit.id, part: target.part, side: target.side };
      }
    }
    return { margin, what };
  }

  #boxMargin(left: number, right: number): { margin: number; nearest: End } {
    let margin = Number.POSITIVE_INFINITY;
    let nearest: End = { by: 'assumedTravel', part: null, side: null };
    const take = (value: number, side: 'left' | 'right' | null, part: string): void => {
      if (value >= margin) return;
      margin = value;
      nearest = { by: 'assumedTravel', part, side };
    };
    take(this.box.left.up - left, 'left', 'up');
    take(left + this.box.left.down, 'left', 'down');
    take(this.box.right.up - right, 'right', 'up');
    take(right + this.box.right.down, 'right', 'down');
    take(STEEPEST * this.model.mechanism.wheelCenters - Math.abs(left - right), null, 'roll');
    return { margin, nearest };
  }
}
