/**
 * A hose or wire that is bent more tightly than it may be. It is taken to hang as a plain arc, which is the widest
 * bend that its length allows, so that a finding is sure, and none says little.
 */
import type { Line } from '../build/build.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import { lineBendRadius } from '../measure/lineSlack.ts';
import { extentOf } from './extent.ts';
import type { Draft, Rule } from './finding.ts';
import { lengthWords, partWords } from './words.ts';

export const lineBend: Rule = {
  kinds: ['bentTooTight'],
  find: walk => walk.axle.lines.flatMap(line => draftOf(walk, line)),
};

function draftOf(walk: AxleWalk, { name, leastBendRadius }: Line): Draft[] {
  const { build, axle, finder } = walk;
  const target = { part: name, side: null };
  const worst = leastBendRadius === null ? null : finder?.extremes(lineBendRadius, target).least;
  if (!worst || leastBendRadius === null || worst.value >= leastBendRadius) return [];
  const { pose, value } = worst;
  const extent = extentOf(walk, build, pose, context => {
    const radius = lineBendRadius.value(context, target);
    return typeof radius === 'number' ? leastBendRadius - radius : null;
  });
  const begins = extent ? ` It begins at ${extent.fromWords}.` : '';
  return [
    {
      kind: 'bentTooTight',
      severity: 'mustFix',
      parts: [name],
      pose,
      amount: { value: leastBendRadius - value, unit: 'in' },
      extent,
      others: {
        radius: { value, unit: 'in' },
        asked: { value: leastBendRadius, unit: 'in' },
      },
      fields: [{ part: name, only: /^\.(from|to|length|leastBendRadius)/ }],
      assumed: true,
      text: where =>
        `The ${partWords(build, axle, name)} is bent to a radius of ${lengthWords(build, value)}, and may not be under ${lengthWords(build, leastBendRadius)}: ${where}. It is taken to hang as a plain arc; as it is routed, it may be bent more tightly.${begins}`,
    },
  ];
}
