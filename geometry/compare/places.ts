/**
 * Where two axles are compared: at equal travel, each from its own ride height, and at equal steering. Each way is
 * gone as far as both go; where one goes further, that is a place of its own, which only this one reaches.
 */

import { furthest } from '../cycle/edge.ts';
import { type End, Reach, type SteerEnd } from '../cycle/reach.ts';
import type { AxleWalk, PoseName } from '../cycle/walkReport.ts';
import { meanSteer } from '../measure/meanSteer.ts';
import { MeasureContext, SHOWN } from '../measure/measure.ts';
import type { AxleModel } from '../pose/model.ts';
import type { PoseInput } from '../pose/pose.ts';

/** One of the two that are compared. */
export type Of = 'a' | 'b';

/** A build's axle that can be asked for poses and measured there. */
export type Measured = Pick<AxleWalk, 'build' | 'axle' | 'model'>;

/** What of a walked axle tells where it can go. */
export type Ranged = Pick<AxleWalk, 'build' | 'axle' | 'model' | 'range' | 'reach'>;

/** What of an axle tells how far it is steered. */
export type Steered = Omit<Ranged, 'range'>;

/** The poses by name: ride height, up-travel and droop of both wheels, flexed both ways, both locks at ride. */
export const PLACES = [
  'ride',
  'fullBump',
  'fullDroop',
  'crossedLeftUp',
  'crossedRightUp',
  'fullLeft',
  'fullRight',
] as const;
export type PlaceName = (typeof PLACES)[number];

/** Directions in left × right travel. */
export const WAYS = {
  fullBump: [1, 1],
  fullDroop: [-1, -1],
  crossedLeftUp: [1, -1],
  crossedRightUp: [-1, 1],
} as const satisfies Partial<Record<PlaceName, readonly [number, number]>>;

/** What stops one axle short of a place that the other reaches. */
export interface Short {
  of: Of;
  end: End;
}

/** A pose of both axles. Travels in in; steering in rad of pitman or in of ram rod. */
export interface Place {
  name: PlaceName;
  left: number;
  right: number;
  /** The steering input of each: the same where both are steered by the same kind of input. */
  steer: Record<Of, number>;
  /** Null where both reach it. */
  short: Short | null;
}

/** A place as reports name it. */
export interface At {
  pose: PlaceName;
  left_in: number;
  right_in: number;
  /** Null on an axle that does not steer, and where the two are steered by different kinds of input. */
  steer: PoseName['steer'];
  /** Mean steer of the wheels, where that is what is equal. */
  meanSteer_deg?: number;
  reachedBy: Of | 'both';
}

/** Ends of a way that differ by less than this are the same, in or rad: they are found to 1e-9. */
const SAME = 1e-7;

export const other = (of: Of): Of => (of === 'a' ? 'b' : 'a');

/**
 * How far an axle can go, looked at anew: what it comes to is then the same to the last digit, whatever was asked of
 * it before.
 */
export function reachOf({ build, axle, model, reach }: Steered): Reach {
  const anew = new Reach(build, axle, model);
  anew.box = reach.box;
  return anew;
}

/** The input of one of the two at a place. */
export const inputAt = ({ left, right, steer }: Place, of: Of): PoseInput => ({
  left,
  right,
  steer: steer[of],
});

/** The places where two axles are compared, those that only one reaches behind the common one. */
export function placesOf(a: Ranged, b: Ranged): Place[] {
  const ride: Place = { name: 'ride', left: 0, right: 0, steer: { a: 0, b: 0 }, short: null };
  if (!a.range.holdsRide || !b.range.holdsRide) return [ride];
  const ways = (Object.keys(WAYS) as (keyof typeof WAYS)[]).flatMap(name => alongWay(a, b, name));
  return [ride, ...ways, ...atLock(a, b, 1), ...atLock(a, b, -1)];
}

/**
 * A pose by hand, such as that of a handle: travels in in, the same steering input for both (rad of pitman or in of
 * ram rod). What an axle cannot take is told in the rows.
 */
export const placeAt = (left: number, right: number, steer = 0): Place => ({
  name: 'ride',
  left,
  right,
  steer: { a: steer, b: steer },
  short: null,
});

function alongWay(a: Ranged, b: Ranged, name: keyof typeof WAYS): Place[] {
  const way = WAYS[name];
  const [endA, endB] = [a, b].map(each => furthest(reachOf(each), [0, 0], way));
  if (!endA || !endB) return [];
  const [farA, farB] = [Math.abs(endA.left), Math.abs(endB.left)];
  const at = (travel: number, short: Short | null): Place => ({
    name,
    left: way[0] * travel,
    right: way[1] * travel,
    steer: { a: 0, b: 0 },
    short,
  });
  const common = at(Math.min(farA, farB), null);
  if (Math.abs(farA - farB) < SAME) return [common];
  const [of, end] = farA < farB ? (['a', endA] as const) : (['b', endB] as const);
  const { by, part, side } = end;
  return [common, at(Math.max(farA, farB), { of, end: { by, part, side } })];
}

/** A lock at ride height: way 1 full left, −1 full right. */
function atLock(a: Ranged, b: Ranged, way: 1 | -1): Place[] {
  const lock = (each: Ranged): SteerEnd | null => {
    const { model } = each;
    const interval = model.mechanism.steering ? reachOf(each).steering(model.ride) : null;
    return interval && (way > 0 ? interval.greatest : interval.least);
  };
  const [endA, endB] = [lock(a), lock(b)];
  if (!endA || !endB) return [];
  // how far each is turned, in what can be compared: the input, or what the wheels do by it
  const isAlike = unitOf(a.model) === unitOf(b.model);
  const turn = (of: Measured, input: number): number => (isAlike ? input : meanSteerAt(of, input));
  const [farA, farB] = [Math.abs(turn(a, endA.value)), Math.abs(turn(b, endB.value))];
  const input = (of: Measured, end: SteerEnd, own: number, far: number): number =>
    own <= far ? end.value : isAlike ? way * far : inputFor(of, end.value, far);
  const at = (far: number, short: Short | null): Place => ({
    name: way > 0 ? 'fullLeft' : 'fullRight',
    left: 0,
    right: 0,
    steer: { a: input(a, endA, farA, far), b: input(b, endB, farB, far) },
    short,
  });
  const common = at(Math.min(farA, farB), null);
  if (Math.abs(farA - farB) < SAME) return [common];
  const [of, end] = farA < farB ? (['a', endA] as const) : (['b', endB] as const);
  const { by, part, side } = end;
  return [common, at(Math.max(farA, farB), { of, end: { by, part, side } })];
}

const unitOf = (model: AxleModel): string | null => model.mechanism.steering?.unit ?? null;

/** Mean steer of the wheels at ride height, rad; 0 where the input is out of reach. */
function meanSteerAt({ build, axle, model }: Measured, input: number): number {
  const { pose } = model.atSteer(model.ride, input);
  const value = pose
    ? meanSteer.value(new MeasureContext(build, axle, model, pose), { part: null, side: null })
    : 0;
  return typeof value === 'number' ? value : 0;
}

/**
 * The steering input of B that goes with one of A: the same where both are steered by the same kind of input, else
 * the one that turns B's wheels as far at ride height. rad of pitman or in of ram rod; where B cannot turn as far, an
 * input beyond its stop.
 */
export function inputLike(a: Measured, b: Steered, input: number): number {
  const [unitA, unitB] = [unitOf(a.model), unitOf(b.model)];
  if (unitA === null || unitB === null || input === 0) return 0;
  if (unitA === unitB) return input;
  const interval = reachOf(b).steering(b.model.ride);
  if (!interval) return 0;
  const { value } = input > 0 ? interval.greatest : interval.least;
  return inputFor(b, 1.05 * value, Math.abs(meanSteerAt(a, input)));
}

/** The input between 0 and `most` that turns the wheels by `far` (rad, without sign): halved to the last digit. */
function inputFor(of: Measured, most: number, far: number): number {
  let [low, high] = [0, 1];
  for (let n = 0; n < 52; n++) {
    const middle = (low + high) / 2;
    if (Math.abs(meanSteerAt(of, middle * most)) < far) low = middle;
    else high = middle;
  }
  return low * most;
}

/** A place as reports name it. */
export function atOf(place: Place, a: Measured, b: Measured): At {
  const { name, left, right, steer, short } = place;
  const [unitA, unitB] = [unitOf(a.model), unitOf(b.model)];
  const isAlike = unitA !== null && unitA === unitB;
  const farther = short ? other(short.of) : 'a';
  return {
    pose: name,
    left_in: left,
    right_in: right,
    steer: isAlike
      ? unitA === 'rad'
        ? { value: steer[farther] * SHOWN.deg, unit: 'deg' }
        : { value: steer[farther], unit: 'in' }
      : null,
    ...(unitA !== unitB && steer[farther] !== 0
      ? { meanSteer_deg: rounded(meanSteerAt(farther === 'a' ? a : b, steer[farther]) * SHOWN.deg) }
      : {}),
    reachedBy: short ? other(short.of) : 'both',
  };
}

/** Found by halving: the last digits are those of the one or of the other. */
const rounded = (value: number): number => Number(value.toFixed(6));
