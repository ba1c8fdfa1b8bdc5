/** A ram on the chassis whose length changes with travel while the steering is held. */
import type { Ram } from '../build/build.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import type { MeasureContext } from '../measure/measure.ts';
import { spanLength } from '../measure/span.ts';
import { ramEnds } from '../measure/springLength.ts';
import type { Draft, Rule } from './finding.ts';
import { lengthWords } from './words.ts';

/** Change above which it is told, in. Common practice, no source: what hoses and bushings take up. */
export const ASKED_in = 1 / 16;

export const ram: Rule = {
  kinds: ['ramMovesWithTravel'],
  find: walk =>
    (walk.axle.steering?.rams ?? [])
      .filter(each => each.body.on === 'chassis')
      .flatMap(each => draftOf(walk, each)),
};

/** How much longer a ram is than at ride height with the same steering, in. */
function changeOf(each: Ram, { pose, rideSameSteer }: MeasureContext): number | null {
  const ends = ramEnds(each);
  return ends && rideSameSteer && spanLength(pose, ends) - spanLength(rideSameSteer, ends);
}

function draftOf(walk: AxleWalk, each: Ram): Draft[] {
  const { build, axle, finder } = walk;
  const size = (context: MeasureContext): number | null => {
    const change = changeOf(each, context);
    return change === null ? null : Math.abs(change);
  };
  const worst = finder?.greatest(size);
  if (!worst || worst.value <= ASKED_in) return [];
  return [
    {
      kind: 'ramMovesWithTravel',
      severity: 'watch',
      parts: [each.name],
      pose: worst.pose,
      amount: { value: worst.value, unit: 'in' },
      fields: [{ part: each.name, only: /^\.(body|rod)\.(at|by|from|on)/ }],
      text: where =>
        `The ${each.name} is mounted on the chassis: with the steering held its length changes by up to ${lengthWords(build, worst.value)} as the axle travels, so that bumps push the wheels or fight the box: ${where}. ` +
        `Mounted on the ${axle.name} axle or its track bar bracket it would follow.`,
    },
  ];
}
