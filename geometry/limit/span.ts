/** Length between two points on bodies, with its derivatives. */
import { inner, type Jet, minus3, root } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { distance, type V3 } from '../vector.ts';

export interface Ends {
  from: { on: string; at: V3 };
  to: { on: string; at: V3 };
}

export const spanLength = (pose: Pose, { from, to }: Ends): number =>
  distance(pose.point(from.on, from.at), pose.point(to.on, to.at));

export const spanJet = (pose: Pose, { from, to }: Ends): Jet => {
  const d = minus3(pose.pointJets(from.on, from.at), pose.pointJets(to.on, to.at));
  return root(inner(d, d));
};

/** Ends of a part that reaches from the axle to the chassis. */
export const axleToChassis = (part: { axle: V3; chassis: V3 }): Ends => ({
  from: { on: 'axle', at: part.axle },
  to: { on: 'chassis', at: part.chassis },
});
