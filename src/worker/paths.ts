/**
 * The ways that the axle is walked along the bottom of the page, as places in order. Each is closed: where it
 * ends it begins again. Between named poses the travel goes straight, and the steering stands straight ahead.
 */
import { furthest, inside } from '../../geometry/cycle/edge.ts';
import type { Range } from '../../geometry/cycle/range.ts';
import type { Reach } from '../../geometry/cycle/reach.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import type { PathName, StripMark } from './protocol.ts';

/** A path: its poses, and the marks on its tape. */
export interface Path {
  poses: Pose[];
  marks: StripMark[];
}

type Travels = readonly [left: number, right: number];

/** Travel from one place to the next, in. */
const STEP_in = 0.75;
/** Places from straight ahead to full lock. */
const TO_LOCK = 12;

/**
 * @param at travels at which the path goes from lock to lock, where that is all it does
 */
export function pathOf(name: PathName, range: Range, reach: Reach, at: Travels = [0, 0]): Path {
  if (!range.holdsRide) return { poses: [], marks: [] };
  const walker = new Walker(range, reach);
  const driver = reach.build.driverSide === 'left' ? 1 : -1;
  const turns = reach.axle.steered;
  const end = ([left, right]: Travels): Travels => {
    const there = furthest(reach, [0, 0], [left, right]);
    return [there.left, there.right];
  };
  const stops = (list: readonly [string, Travels][], isTurned: boolean): void => {
    walker.start(RIDE);
    for (const [mark, travels] of list) {
      walker.go(travels);
      if (isTurned) walker.lockToLock(mark);
      else walker.mark(mark);
    }
    walker.go(RIDE);
  };
  switch (name) {
    case 'shop':
      stops(
        [
          ['ride', RIDE],
          ['both up', end([1, 1])],
          ['both down', end([-1, -1])],
          ['driver up', end([driver, -driver])],
          ['passenger up', end([-driver, driver])],
        ],
        turns,
      );
      break;
    case 'both':
      stops(
        [
          ['ride', RIDE],
          ['both up', end([1, 1])],
          ['ride', RIDE],
          ['both down', end([-1, -1])],
        ],
        false,
      );
      break;
    case 'crossed':
      stops(
        [
          ['ride', RIDE],
          ['driver up', end([driver, -driver])],
          ['ride', RIDE],
          ['passenger up', end([-driver, driver])],
        ],
        false,
      );
      break;
    case 'driver':
    case 'passenger': {
      const isLeft = (name === 'driver') === (driver === 1);
      const one = isLeft ? ([1, 0] as const) : ([0, 1] as const);
      stops(
        [
          ['ride', RIDE],
          [`${name} up`, end(one)],
          ['ride', RIDE],
          [`${name} down`, end([-one[0], -one[1]])],
        ],
        false,
      );
      break;
    }
    case 'lock-to-lock':
      walker.start(at);
      if (turns) walker.lockToLock('straight');
      break;
    case 'edge':
      walker.along(range.edge.map(p => [p.left, p.right]));
      break;
  }
  return { poses: walker.poses, marks: walker.marks };
}

const RIDE: Travels = [0, 0];

/** Goes about the range, and keeps the poses on its way. */
class Walker {
  readonly poses: Pose[] = [];
  readonly marks: StripMark[] = [];
  readonly #range: Range;
  readonly #reach: Reach;
  #at: Travels = RIDE;

  constructor(range: Range, reach: Reach) {
    this.#range = range;
    this.#reach = reach;
  }

  start(at: Travels): void {
    this.#stand(at);
  }

  mark(name: string): void {
    if (this.poses.length > 0) this.marks.push({ at: this.poses.length - 1, name, kind: 'pose' });
  }

  /** Straight there, or by way of ride height where that leaves the range. */
  go(to: Travels): void {
    const isWithin = this.#between(this.#at, to).every(([l, r]) => this.#isIn(l, r));
    for (const target of isWithin ? [to] : [RIDE, to]) {
      for (const each of this.#between(this.#at, target)) this.#stand(each);
      this.#at = target;
    }
  }

  /** Full left, back through straight ahead to full right, and straight ahead again. */
  lockToLock(name: string): void {
    const straight = this.poses.at(-1);
    const interval = straight && this.#reach.steering(straight);
    if (!straight || !interval) {
      this.mark(name);
      return;
    }
    const turned = (share: number): void => {
      const pose = this.#reach.steered(straight, interval, share);
      if (pose) this.poses.push(pose);
    };
    const note = (kind: StripMark['kind']): void =>
      void this.marks.push({ at: this.poses.length - 1, name, kind });
    for (let k = 1; k <= TO_LOCK; k++) turned(k / TO_LOCK);
    note('left');
    for (let k = TO_LOCK - 1; k >= 0; k--) turned(k / TO_LOCK);
    note('pose');
    for (let k = 1; k <= TO_LOCK; k++) turned(-k / TO_LOCK);
    note('right');
    for (let k = TO_LOCK - 1; k >= 0; k--) turned(-k / TO_LOCK);
  }

  /** Around a closed line, at even steps. */
  along(line: readonly Travels[]): void {
    const [first] = line;
    if (!first) return;
    let left = 0;
    let from = first;
    this.#stand(first);
    for (const to of [...line.slice(1), first]) {
      const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
      let at = STEP_in - left;
      for (; at <= length; at += STEP_in) this.#stand(mix(from, to, at / length));
      left = length - (at - STEP_in);
      from = to;
    }
    this.#stand(first);
  }

  #stand([left, right]: Travels): void {
    const { pose } = this.#reach.travel(left, right);
    if (pose) this.poses.push(pose);
  }

  /** Even steps from one place to another, without the first. */
  #between(from: Travels, to: Travels): Travels[] {
    const count = Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / STEP_in - 1e-9);
    return Array.from({ length: count }, (_, k) => mix(from, to, (k + 1) / count));
  }

  #isIn(left: number, right: number): boolean {
    // the ends of straight ways lie on the edge, to rounding
    const shrunk = 1 - 1e-6;
    return inside(this.#range.edge, shrunk * left, shrunk * right);
  }
}

const mix = (a: Travels, b: Travels, t: number): Travels => [
  a[0] + t * (b[0] - a[0]),
  a[1] + t * (b[1] - a[1]),
];
