/** A bump stop whose pad slides off its strike plane while it could touch: there it stops nothing. */
import type { BumpStop } from '../build/build.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import { padAside } from '../limit/bumpStop.ts';
import type { MeasureContext } from '../measure/measure.ts';
import { padHeight } from '../measure/stopHeight.ts';
import { extentOf } from './extent.ts';
import type { Draft, Rule } from './finding.ts';
import { lengthWords, partWords } from './words.ts';

export const padSlidOff: Rule = {
  kinds: ['padSlidOff'],
  find: walk => walk.axle.bumpStops.flatMap(stop => draftOf(walk, stop)),
};

function draftOf(walk: AxleWalk, stop: BumpStop): Draft[] {
  const { build, axle, finder } = walk;
  const { radius } = stop.strike;
  if (radius === null) return [];
  /** How far the pad is off the plane where it would touch; null where it is too high to. */
  const off = ({ pose }: MeasureContext): number | null =>
    padHeight(pose, stop) > stop.contactHeight ? null : padAside(pose, stop) - radius;
  // both bodies stand still as the wheels are steered
  const worst = finder?.greatest(off, 0);
  if (!worst || worst.value <= 0) return [];
  const { pose, value } = worst;
  const extent = extentOf(walk, build, pose, off);
  const begins = extent ? ` It begins at ${extent.fromWords}.` : '';
  return [
    {
      kind: 'padSlidOff',
      severity: 'mustFix',
      parts: [stop.name],
      pose,
      amount: { value, unit: 'in' },
      extent,
      fields: [{ part: stop.name, only: /^\.(pad|strike|contactHeight)/ }],
      text: where =>
        `The pad of the ${partWords(build, axle, stop.name)} slides off its strike plane, ${lengthWords(build, value)} past its radius of ${lengthWords(build, radius)}, and stops nothing there: ${where}.${begins}`,
    },
  ];
}
