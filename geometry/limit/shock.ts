import type { Axle, Shock } from '../build/build.ts';
import { slopeOf } from '../measure/derivative.ts';
import { axleToChassis, spanJet, spanLength } from '../measure/span.ts';
import type { Limit, LimitTarget } from './limit.ts';

const targets = (axle: Axle): LimitTarget[] =>
  axle.shocks.map(shock => ({ part: shock.name, side: shock.side, end: 0 }));
const shockOf = (axle: Axle, target: LimitTarget): Shock =>
  axle.shocks.find(shock => shock.name === target.part) as Shock;

/** Shock bottomed: length less the shortest. */
export const shockShort: Limit = {
  id: 'shockShort',
  role: 'travel',
  unit: 'in',
  label: 'shock bottomed',
  targets,
  margin: ({ pose, axle }, target) => {
    const shock = shockOf(axle, target);
    return spanLength(pose, axleToChassis(shock)) - shock.shortest;
  },
  slope: ({ pose, axle }, target) => slopeOf(spanJet(pose, axleToChassis(shockOf(axle, target)))),
};

/** Shock topped out: the longest less the length. */
export const shockLong: Limit = {
  id: 'shockLong',
  role: 'travel',
  unit: 'in',
  label: 'shock topped out',
  targets,
  margin: ({ pose, axle }, target) => {
    const shock = shockOf(axle, target);
    return shock.longest - spanLength(pose, axleToChassis(shock));
  },
  slope: ({ pose, axle }, target) =>
    slopeOf(spanJet(pose, axleToChassis(shockOf(axle, target))), -1),
};
