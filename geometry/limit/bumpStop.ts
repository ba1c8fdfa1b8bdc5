/**
 * A bump stop: a pad point on one body, a strike plane on the other (point and normal towards the pad).
 * Its height is the signed distance from point to plane; it touches at its contact height, and holds at its
 * solid height as long as the pad is over the plane's radius.
 */
import type { Axle, BumpStop } from '../build/build.ts';
import { inner, type Jet, minus3 } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { dot, norm, scale, sub } from '../vector.ts';
import { type Limit, slopeOf } from './limit.ts';

export const bumpStopOf = (axle: Axle, name: string): BumpStop =>
  axle.bumpStops.find(stop => stop.name === name) as BumpStop;

/** Height of the pad over the strike plane, in, and how far from the plane's point it is across, in. */
export function padOverStrike(pose: Pose, stop: BumpStop): { height: number; aside: number } {
  const from = sub(
    pose.point(stop.pad.on, stop.pad.at),
    pose.point(stop.strike.on, stop.strike.at),
  );
  const normal = pose.direction(stop.strike.on, stop.strike.normal);
  const height = dot(from, normal);
  return { height, aside: norm(sub(from, scale(normal, height))) };
}

/** The height with its derivatives. */
export function stopHeightJet(pose: Pose, stop: BumpStop): Jet {
  const from = minus3(
    pose.pointJets(stop.pad.on, stop.pad.at),
    pose.pointJets(stop.strike.on, stop.strike.at),
  );
  return inner(from, pose.directionJets(stop.strike.on, stop.strike.normal));
}

/** True where the pad has slid off its strike plane: it stops nothing there. */
export const slidOff = (stop: BumpStop, aside: number): boolean =>
  stop.strike.radius !== null && aside > stop.strike.radius;

export const bumpStop: Limit = {
  id: 'bumpStop',
  role: 'travel',
  unit: 'in',
  label: 'bump stop bottomed',
  targets: axle => axle.bumpStops.map(stop => ({ part: stop.name, side: stop.side, end: 0 })),
  margin: ({ pose, axle }, target) => {
    const stop = bumpStopOf(axle, target.part);
    const { height, aside } = padOverStrike(pose, stop);
    return slidOff(stop, aside) ? null : height - stop.solidHeight;
  },
  slope: ({ pose, axle }, target) => slopeOf(stopHeightJet(pose, bumpStopOf(axle, target.part))),
};
