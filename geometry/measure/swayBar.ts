/**
 * How far each arm of the sway bar has turned about the bar's axis, from where it is drawn: the closed form is that of
 * a knuckle driven by a rod (`pose/swayForms.ts`). Closed-form case: a four-bar linkage in a plane square to the axis.
 */
import type { Axle } from '../build/build.ts';
import type { SwayArm } from '../mechanism/mechanism.ts';
import { swayNames } from '../mechanism/swayBar.ts';
import type { Pose } from '../pose/pose.ts';
import { arctangent, slopeOf } from './derivative.ts';
import type { Measure, Target } from './measure.ts';

/** Parts of a sway bar as targets: its arms, or the end links that move them. */
export const swayTargets = (axle: Axle, which: 'name' | 'link'): Target[] =>
  (axle.swayBar?.arms ?? []).map(({ side }) => ({ part: swayNames(side)[which], side: null }));

/** The arm of this name, or that of the end link of this name. */
export const swayArmOf = ({ mechanism }: Pose, part: string | null): SwayArm | undefined =>
  mechanism.swayArms.find(({ name, link }) => name === part || link === part);

/** 1 where a right-handed turn about the axis as entered raises the tip of the drawn arm, −1 where it lowers it. */
const raising = ({ axis, at, tip }: SwayArm): 1 | -1 =>
  axis[0] * (tip[1] - at[1]) - axis[1] * (tip[0] - at[0]) < 0 ? -1 : 1;

export const swayBarTurn: Measure = {
  id: 'swayBarTurn',
  unit: 'deg',
  label: 'turn of the sway bar arm',
  definition:
    "Turn of an arm of the sway bar about the bar's axis from where it is drawn; + raises the tip of the arm.",
  source: 'geometry: a point on a circle meets a sphere',
  targets: axle => swayTargets(axle, 'name'),
  value: ({ pose }, { part }) => {
    const arm = swayArmOf(pose, part);
    if (!arm) return { missing: 'no such arm' };
    const { cos, sin } = pose.swayTurn(arm);
    return raising(arm) * Math.atan2(sin, cos);
  },
  slope: ({ pose }, { part }) => {
    const arm = swayArmOf(pose, part);
    if (!arm) return null;
    const { cos, sin } = pose.swayTurnJets(arm);
    return slopeOf(arctangent(sin, cos), raising(arm));
  },
};
