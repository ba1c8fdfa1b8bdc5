/**
 * Height of a bump stop's pad over its strike plane. Closed-form case: a level plane on the chassis, both
 * wheels moved alike without pitch: the height as drawn less the travel.
 */
import type { Axle, BumpStop } from '../build/build.ts';
import { inner, type Jet, minus3 } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { dot, sub } from '../vector.ts';
import { slopeOf } from './derivative.ts';
import type { Measure } from './measure.ts';

/** Signed distance from the strike plane to the pad along the plane's normal, in. */
export const padHeight = (pose: Pose, { pad, strike }: BumpStop): number =>
  dot(
    sub(pose.point(pad.on, pad.at), pose.point(strike.on, strike.at)),
    pose.direction(strike.on, strike.normal),
  );

export const padHeightJet = (pose: Pose, { pad, strike }: BumpStop): Jet =>
  inner(
    minus3(pose.pointJets(pad.on, pad.at), pose.pointJets(strike.on, strike.at)),
    pose.directionJets(strike.on, strike.normal),
  );

const stopOf = (axle: Axle, part: string | null): BumpStop =>
  axle.bumpStops.find(stop => stop.name === part) as BumpStop;

export const stopHeight: Measure = {
  id: 'stopHeight',
  unit: 'in',
  label: 'height over the strike plane',
  definition:
    'Signed height of the pad over the strike plane of a bump stop; it touches at its contact height.',
  source: 'geometry',
  targets: axle => axle.bumpStops.map(stop => ({ part: stop.name, side: null })),
  value: ({ axle, pose }, { part }) => padHeight(pose, stopOf(axle, part)),
  slope: ({ axle, pose }, { part }) => slopeOf(padHeightJet(pose, stopOf(axle, part))),
};
