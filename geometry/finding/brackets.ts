/** A compliant layout's bind hangs on the rates of brackets, which nobody measures. */
import { bracketRates, hasBracketRates } from '../cycle/bracketRates.ts';
import { bindOf, poseJoints, poseLengths, posePoints } from '../cycle/poseLengths.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import { bind as bindMeasure } from '../measure/bind.ts';
import type { Pose } from '../pose/pose.ts';
import type { Draft, Rule } from './finding.ts';
import { amountWords } from './words.ts';

export const brackets: Rule = {
  kinds: ['bracketRatesAssumed'],
  find: (walk): Draft[] => {
    const { build } = walk;
    if (!hasBracketRates(walk)) return [];
    const worst = mostForce(walk);
    const rates = worst && bracketRates(walk, worst.pose.input);
    if (!worst || !rates?.half || !rates.twice) return [];
    const [half, twice] = [Math.abs(rates.half.force_lbf), Math.abs(rates.twice.force_lbf)];
    const words = (force: number): string => amountWords(build, force, 'lbf');
    return [
      {
        kind: 'bracketRatesAssumed',
        severity: 'note',
        parts: worst.part === null ? [] : [worst.part],
        pose: worst.pose,
        amount: { value: worst.force, unit: 'lbf' },
        others: {
          half: { value: half, unit: 'lbf' },
          twice: { value: twice, unit: 'lbf' },
        },
        fields: walk.axle.links
          .flatMap(({ name }) => [`${name}.axle`, `${name}.chassis`])
          .concat(
            walk.axle.radiusArms.flatMap(({ name }) =>
              ['axle front', 'axle rear', 'chassis'].map(end => `${name}.${end}`),
            ),
          )
          .map(part => ({ part, only: /^\.rates\.bracket/ })),
        assumed: true,
        text: where =>
          `How stiff the brackets are is assumed, and bind hangs on it: the most force is ${words(worst.force)} as entered, ${words(half)} if they are half as stiff, ${words(twice)} if twice: ${where}.`,
      },
    ];
  },
};

function mostForce({
  finder,
}: AxleWalk): { pose: Pose; part: string | null; force: number } | null {
  const poses = (finder?.extremesOf(bindMeasure) ?? [])
    .flatMap(({ least, greatest }) => [least, greatest])
    .flatMap(extreme => (extreme ? [extreme.pose] : []));
  const [worst] = poses
    .map(pose => {
      const { force_lbf, forceOf } = bindOf(poseLengths(pose, posePoints(pose)), poseJoints(pose));
      return { pose, part: forceOf, force: Math.abs(force_lbf) };
    })
    .sort((a, b) => b.force - a.force);
  return worst ?? null;
}
