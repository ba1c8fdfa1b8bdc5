import type { Strap } from '../build/build.ts';
import { slopeOf } from '../measure/derivative.ts';
import { axleToChassis, spanJet, spanLength } from '../measure/span.ts';
import type { Limit } from './limit.ts';

const strapOf = (straps: Strap[], name: string): Strap =>
  straps.find(s => s.name === name) as Strap;

/** Limit strap tight: its length less the straight distance between its ends. */
export const strap: Limit = {
  id: 'strap',
  role: 'travel',
  unit: 'in',
  label: 'limit strap tight',
  targets: axle => axle.straps.map(s => ({ part: s.name, side: s.side, end: 0 })),
  margin: ({ pose, axle }, target) => {
    const s = strapOf(axle.straps, target.part);
    return s.length - spanLength(pose, axleToChassis(s));
  },
  slope: ({ pose, axle }, target) =>
    slopeOf(spanJet(pose, axleToChassis(strapOf(axle.straps, target.part))), -1),
};
