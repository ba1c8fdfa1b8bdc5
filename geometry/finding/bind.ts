/** What an over-constrained layout must stretch, where that is more than bushings and brackets should see. */
import type { AxleWalk } from '../cycle/walkReport.ts';
import { bind as bindMeasure, jointOffsets, stretchOf } from '../measure/bind.ts';
import type { Pose } from '../pose/pose.ts';
import type { Draft, Rule } from './finding.ts';
import { amountWords, lengthWords, listed, partWords } from './words.ts';

/** Give and force above which bind is told, in and lbf. Common practice, no source. */
export const ASKED_in = 1 / 16;
export const ASKED_lbf = 1000;

interface Member {
  part: string;
  /** in */
  give: number;
  /** lbf */
  force: number;
  pose: Pose;
}

/** The most that each length and bushing gives over the range, most loaded first. */
function members(walk: AxleWalk): Member[] {
  return (walk.finder?.extremesOf(bindMeasure) ?? [])
    .flatMap(({ target, least, greatest }): Member[] => {
      const worst = Math.abs(least?.value ?? 0) > Math.abs(greatest?.value ?? 0) ? least : greatest;
      const part = target.part;
      if (!worst || part === null) return [];
      const { pose, value } = worst;
      return [{ part, give: Math.abs(value), force: forceOf(pose, part), pose }];
    })
    .sort((a, b) => b.force - a.force);
}

function forceOf(pose: Pose, part: string): number {
  const i = pose.mechanism.lengths.names.indexOf(part);
  if (i >= 0) return Math.abs(stretchOf(pose, i).force);
  return jointOffsets(pose).find(joint => joint.name === part)?.force ?? 0;
}

export const bind: Rule = {
  kinds: ['bind'],
  find: (walk): Draft[] => {
    const { build, axle, model } = walk;
    if (model.mechanism.exact) return [];
    const over = members(walk).filter(({ give, force }) => give > ASKED_in || force > ASKED_lbf);
    const [worst] = over;
    if (!worst) return [];
    const { part, give, force, pose } = worst;
    const words = (name: string): string => `the ${partWords(build, axle, name)}`;
    const others = over.slice(1).map(each => words(each.part));
    const more =
      others.length === 0
        ? ''
        : ` Beside it ${listed(others)} ${others.length > 1 ? 'are' : 'is'} over that too.`;
    return [
      {
        kind: 'bind',
        severity: 'watch',
        parts: over.map(each => each.part),
        pose,
        amount: { value: force, unit: 'lbf' },
        others: { give: { value: give, unit: 'in' } },
        fields: over.flatMap(each => [
          { part: each.part, only: /./ },
          { part: `${each.part}.axle`, only: /./ },
          { part: `${each.part}.chassis`, only: /./ },
        ]),
        text: where =>
          `The layout binds: ${words(part)} gives ${lengthWords(build, give)} under ${amountWords(build, force, 'lbf')}: ${where}. ` +
          `Over ${lengthWords(build, ASKED_in)} or ${amountWords(build, ASKED_lbf, 'lbf')} is told (common practice).${more}`,
      },
    ];
  },
};
