/** Distance between two points on bodies, with its derivatives. */
import { type Jet, minus3 } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { distance, type V3 } from '../vector.ts';
import { length3 } from './derivative.ts';

/** A point of a body, vehicle axes as drawn. */
export interface Place {
  on: string;
  at: V3;
}

export interface Ends {
  from: Place;
  to: Place;
}

/** Distance now, in. */
export const spanLength = (pose: Pose, { from, to }: Ends): number =>
  distance(pose.point(from.on, from.at), pose.point(to.on, to.at));

/** The same with its derivatives. */
export const spanJet = (pose: Pose, { from, to }: Ends): Jet =>
  length3(minus3(pose.pointJets(from.on, from.at), pose.pointJets(to.on, to.at)));

/** Ends of a part that reaches from the axle to the chassis. */
export const axleToChassis = (part: { axle: V3; chassis: V3 }): Ends => ({
  from: { on: 'axle', at: part.axle },
  to: { on: 'chassis', at: part.chassis },
});
