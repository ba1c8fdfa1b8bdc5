/**
 * What the joints of links, track bars, steering rods and radius arms see: misalignment at the easiest roll,
 * at the worst roll that the limits leave free, and how wide that freedom is.
 *
 * Closed-form cases, one joint: bore square to the line, bolt leaning by α to it: misalignment is α where only
 * this joint counts; two joints alike, clocked apart by 2γ about the line: γ at each; with limits m, the window
 * is 2 m − 2γ wide for α = 0.
 */
import type { Axle, JointEnd, RadiusArm } from '../build/build.ts';
import { minus, shifted } from '../pose/jet.ts';
import { cross, dot, norm, sub, unit, type V3 } from '../vector.ts';
import { angleBetween3, slopeOf } from './derivative.ts';
import { kept } from './kept.ts';
import { largestMisalignment, misalignmentAt, type RollJoint } from './linkRoll.ts';
import type { Measure, MeasureContext, Reading, Slope, Target } from './measure.ts';
import { drawnBore, type Rolling, rollingOf, rollingParts } from './rolling.ts';
import { RollingJets } from './rollingJets.ts';

const jetsOf = kept(
  (context: MeasureContext, part: string) =>
    new RollingJets(context.pose, rollingOf(context, part)),
);

/** A joint's place among the joints of its rolling part. */
function jointOf(axle: Axle, name: string | null): { part: string; index: number } | null {
  for (const part of rollingParts(axle).values()) {
    const index = part.joints.findIndex(joint => joint.name === name);
    if (index >= 0) return { part: part.name, index };
  }
  return null;
}

const rollingJoints = (axle: Axle): Target[] =>
  [...rollingParts(axle).values()].flatMap(part =>
    part.joints.map(joint => ({ part: joint.name, side: null })),
  );

/** Bolt and bore of a radius arm's joint as drawn; the arm is a body, so nothing is free to roll. */
interface ArmJointAxes {
  arm: string;
  on: 'axle' | 'chassis';
  bolt: V3;
  bore: V3;
}

const armEnds = (arm: RadiusArm): JointEnd[] => [...arm.axle, arm.chassis];

function armJoint(axle: Axle, name: string | null): ArmJointAxes | null {
  for (const arm of axle.radiusArms) {
    const end = armEnds(arm).find(e => e.name === name);
    if (!end?.bolt) continue;
    const onAxle = end !== arm.chassis;
    const line = unit(sub(arm.chassis.at, (onAxle ? end : arm.axle[0]).at));
    const bore = drawnBore(end.bolt, { ...end, bore: end.bore ?? end.bolt }, line);
    return {
      arm: arm.name,
      on: onAxle ? 'axle' : 'chassis',
      bolt: end.bolt,
      bore: bore ?? end.bolt,
    };
  }
  return null;
}

export const misalignment: Measure = {
  id: 'misalignment',
  unit: 'deg',
  label: 'misalignment',
  definition:
    "Angle between the bolt and the bore of a joint, at the roll of its link where the larger share of both ends' limits is least.",
  source: 'derived: spherical law of cosines about the line of the link',
  targets: axle => [
    ...rollingJoints(axle),
    ...axle.radiusArms.flatMap(arm =>
      armEnds(arm)
        .filter(end => end.bolt)
        .map(end => ({ part: end.name, side: null })),
    ),
  ],
  value: (context, { part }) => {
    const { axle, pose } = context;
    const found = jointOf(axle, part);
    if (found) {
      const { joints, easiest } = rollingOf(context, found.part);
      return misalignmentAt(joints[found.index] as RollJoint, easiest.roll);
    }
    const arm = armJoint(axle, part);
    if (!arm) return NO_BOLT;
    const bolt = pose.direction(arm.on, arm.bolt);
    const bore = pose.direction(arm.arm, arm.bore);
    return Math.atan2(norm(cross(bolt, bore)), dot(bolt, bore));
  },
  slope: (context, target) => {
    const { axle, pose } = context;
    const found = jointOf(axle, target.part);
    if (found) {
      const jets = jetsOf(context, found.part);
      const roll = jets.easiest();
      const angle = roll && jets.misalignment(found.index, roll);
      return angle && slopeOf(angle);
    }
    const arm = armJoint(axle, target.part);
    const value = misalignment.value(context, target);
    if (!arm || typeof value !== 'number' || value < 1e-9) return null;
    return slopeOf(
      angleBetween3(pose.directionJets(arm.on, arm.bolt), pose.directionJets(arm.arm, arm.bore)),
    );
  },
};

const NO_BOLT: Reading = { missing: 'the joint has no bolt axis' };
const NO_LIMIT: Reading = { missing: 'no joint of the link has a limit of misalignment' };
const NO_ROLL: Reading = { missing: 'no roll of the link keeps both joints within their limits' };

/** True where something, a limit or a joint that holds it, says how far a part may roll. */
const bounded = ({ held, joints }: Rolling): boolean =>
  held !== null || joints.some(joint => joint.limit !== null);

export const misalignmentFreeRoll: Measure = {
  id: 'misalignmentFreeRoll',
  unit: 'deg',
  label: 'misalignment at the worst free roll',
  definition:
    "Largest misalignment of a joint over the rolls of its link that both ends' limits allow; equals the limit at one end where the link can roll that far.",
  source: 'as misalignment',
  targets: rollingJoints,
  value: (context, { part }) => {
    const found = jointOf(context.axle, part);
    if (!found) return NO_BOLT;
    const rolling = rollingOf(context, found.part);
    const joint = rolling.joints[found.index] as RollJoint;
    if (!bounded(rolling)) return NO_LIMIT;
    if (rolling.window.kind === 'empty') return NO_ROLL;
    return misalignmentAt(joint, largestMisalignment(joint, rolling.window).roll);
  },
  slope: (context, { part }) => {
    const found = jointOf(context.axle, part);
    if (!found) return null;
    const rolling = rollingOf(context, found.part);
    const { window, held } = rolling;
    if (!bounded(rolling) || window.kind === 'empty') return null;
    const joint = rolling.joints[found.index] as RollJoint;
    const jets = jetsOf(context, found.part);
    const { by } = largestMisalignment(joint, window);
    const end = by === 'to' ? 'to' : 'from';
    if (window.kind === 'arc' && held === null && by !== 'opposite') {
      // at its own limit the angle is that limit; two ends alike are a kink unless both are
      const own = window[`${end}By`] === found.index;
      if (own) return [0, 0, 0];
      if (by === 'both') return null;
    }
    const roll =
      by === 'opposite' ? shifted(jets.center(found.index), Math.PI) : jets.windowEnd(end);
    const angle = roll && jets.misalignment(found.index, roll);
    return angle && slopeOf(angle);
  },
};

export const linkRollWindow: Measure = {
  id: 'linkRollWindow',
  unit: 'deg',
  label: 'how far it can roll',
  definition:
    'Width of the arc of roll about its own line that the limits of both joints leave a link; 0 where a joint holds it or where no roll is within both limits.',
  source: 'as misalignment',
  targets: axle => [...rollingParts(axle).keys()].map(part => ({ part, side: null })),
  value: (context, { part }) => {
    const rolling = rollingOf(context, part as string);
    const { window } = rolling;
    if (!bounded(rolling)) return NO_LIMIT;
    if (window.kind === 'arc') return window.to - window.from;
    return window.kind === 'full' ? 2 * Math.PI : 0;
  },
  slope: (context, { part }): Slope | null => {
    const rolling = rollingOf(context, part as string);
    if (!bounded(rolling)) return null;
    if (rolling.window.kind !== 'arc' || rolling.held !== null) return [0, 0, 0];
    const jets = jetsOf(context, part as string);
    const from = jets.windowEnd('from');
    const to = jets.windowEnd('to');
    return from && to && slopeOf(minus(to, from));
  },
};
