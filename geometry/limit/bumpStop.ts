/**
 * A bump stop: a pad point on one body, a strike plane on the other (point and normal towards the pad).
 * Its height is the signed distance from point to plane; it touches at its contact height, and holds at its
 * solid height as long as the pad is over the plane's radius.
 */
import type { Axle, BumpStop } from '../build/build.ts';
import { slopeOf } from '../measure/derivative.ts';
import { padHeight, padHeightJet } from '../measure/stopHeight.ts';
import type { Pose } from '../pose/pose.ts';
import { norm, scale, sub } from '../vector.ts';
import type { Limit } from './limit.ts';

export const bumpStopOf = (axle: Axle, name: string): BumpStop =>
  axle.bumpStops.find(stop => stop.name === name) as BumpStop;

/** How far the pad is from the strike plane's point, along the plane, in. */
export function padAside(pose: Pose, stop: BumpStop): number {
  const { pad, strike } = stop;
  const from = sub(pose.point(pad.on, pad.at), pose.point(strike.on, strike.at));
  return norm(sub(from, scale(pose.direction(strike.on, strike.normal), padHeight(pose, stop))));
}

/** True where the pad has slid off its strike plane: it stops nothing there. */
export const slidOff = (pose: Pose, stop: BumpStop): boolean =>
  stop.strike.radius !== null && padAside(pose, stop) > stop.strike.radius;

export const bumpStop: Limit = {
  id: 'bumpStop',
  role: 'travel',
  unit: 'in',
  label: 'bump stop bottomed',
  targets: axle => axle.bumpStops.map(stop => ({ part: stop.name, side: stop.side, end: 0 })),
  margin: ({ pose, axle }, target) => {
    const stop = bumpStopOf(axle, target.part);
    return slidOff(pose, stop) ? null : padHeight(pose, stop) - stop.solidHeight;
  },
  slope: ({ pose, axle }, target) => {
    const stop = bumpStopOf(axle, target.part);
    return slidOff(pose, stop) ? null : slopeOf(padHeightJet(pose, stop));
  },
};
