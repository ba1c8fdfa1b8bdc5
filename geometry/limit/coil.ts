import type { Axle, Coil } from '../build/build.ts';
import { type Limit, type LimitTarget, slopeOf } from './limit.ts';
import { axleToChassis, spanJet, spanLength } from './span.ts';

const coilOf = (axle: Axle, target: LimitTarget): Coil =>
  axle.coils.find(coil => coil.name === target.part) as Coil;
const targetsWith = (given: (coil: Coil) => boolean) => (axle: Axle) =>
  axle.coils
    .filter(given)
    .map((coil): LimitTarget => ({ part: coil.name, side: coil.side, end: 0 }));

/** Coil solid: length between seat centers less the length with the turns closed. */
export const coilSolid: Limit = {
  id: 'coilSolid',
  role: 'travel',
  unit: 'in',
  label: 'coil solid',
  targets: targetsWith(coil => coil.solid !== null),
  margin: ({ pose, axle }, target) => {
    const coil = coilOf(axle, target);
    return spanLength(pose, axleToChassis(coil)) - (coil.solid as number);
  },
  slope: ({ pose, axle }, target) => slopeOf(spanJet(pose, axleToChassis(coilOf(axle, target)))),
};

/** Coil off its seat: the free length less the length between seat centers. */
export const coilUnseated: Limit = {
  id: 'coilUnseated',
  role: 'mustNot',
  unit: 'in',
  label: 'coil off its seat',
  targets: targetsWith(coil => coil.free !== null),
  margin: ({ pose, axle }, target) => {
    const coil = coilOf(axle, target);
    return (coil.free as number) - spanLength(pose, axleToChassis(coil));
  },
  slope: ({ pose, axle }, target) =>
    slopeOf(spanJet(pose, axleToChassis(coilOf(axle, target))), -1),
};
