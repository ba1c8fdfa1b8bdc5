import type { Axle, Coil } from '../build/build.ts';
import { slopeOf } from '../measure/derivative.ts';
import { axleToChassis, spanJet, spanLength } from '../measure/span.ts';
import { coilLength } from '../measure/springLength.ts';
import { type Bound, boundLimit } from './bound.ts';
import type { Limit, LimitTarget } from './limit.ts';

const coilOf = (axle: Axle, target: LimitTarget): Coil =>
  axle.coils.find(coil => coil.name === target.part) as Coil;

/** Coil solid: length between seat centers less the length with the turns closed. */
export const coilSolid: Limit = {
  id: 'coilSolid',
  role: 'travel',
  unit: 'in',
  label: 'coil solid',
  targets: axle =>
    axle.coils
      .filter(coil => coil.solid !== null)
      .map((coil): LimitTarget => ({ part: coil.name, side: coil.side, end: 0 })),
  margin: ({ pose, axle }, target) => {
    const coil = coilOf(axle, target);
    return spanLength(pose, axleToChassis(coil)) - (coil.solid as number);
  },
  slope: ({ pose, axle }, target) => slopeOf(spanJet(pose, axleToChassis(coilOf(axle, target)))),
};

/** Coil off its seat: the free length less the length between seat centers. */
export const coilUnseated = boundLimit(
  { id: 'coilUnseated', unit: 'in', label: 'coil off its seat' },
  axle =>
    axle.coils.flatMap(({ name: part, side, free }): Bound[] =>
      free === null
        ? []
        : [
            {
              target: { part, side, end: 0 },
              measure: coilLength,
              of: { part, side: null },
              way: 1,
              value: free,
            },
          ],
    ),
);
