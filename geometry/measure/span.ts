/** Distance between two points on bodies, with its derivatives. */
import { type Jet, minus3 } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { add, distance, type V3 } from '../vector.ts';
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

/** Where the two ends of length `i` ride; an end in a joint that gives rides on that joint. */
export function lengthEnds({ mechanism: { lengths, points, origin } }: Pose, i: number): Ends {
  const at = (array: Float64Array): V3 => [
    array[3 * i] as number,
    array[3 * i + 1] as number,
    array[3 * i + 2] as number,
  ];
  return {
    from: {
      on: points[lengths.axleShared[i] as number]?.name ?? 'axle',
      at: add(at(lengths.axlePoints), origin),
    },
    to: {
      on: points[lengths.chassisShared[i] as number]?.name ?? 'chassis',
      at: at(lengths.chassisPoints),
    },
  };
}
