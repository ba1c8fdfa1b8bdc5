import type { Axle } from '../build/build.ts';
import { misalignment } from '../measure/misalignment.ts';
import { rollingParts } from '../measure/rolling.ts';
import { type Bound, boundLimit } from './bound.ts';

/**
 * A joint turned past its limit, at the roll of its link that is easiest on both of its ends. Where no roll
 * keeps both within their limits (the window is empty), the easiest one leaves at least one of them broken.
 */
export const jointMisalignment = boundLimit(
  { id: 'jointMisalignment', unit: 'deg', label: 'joint past its misalignment' },
  axle =>
    limitsOf(axle).map(
      ({ name: part, limit }): Bound => ({
        target: { part, side: null, end: 0 },
        measure: misalignment,
        of: { part, side: null },
        way: 1,
        value: limit,
      }),
    ),
);

function limitsOf(axle: Axle): { name: string; limit: number }[] {
  const ends = [
    ...[...rollingParts(axle).values()].flatMap(({ joints }) => joints),
    ...axle.radiusArms.flatMap(arm => [...arm.axle, arm.chassis].filter(end => end.bolt)),
  ];
  return ends.flatMap(({ name, limit }) => (limit === null ? [] : [{ name, limit }]));
}
