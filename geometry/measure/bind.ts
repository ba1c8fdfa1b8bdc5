/**
 * Bind: what an over-constrained layout must stretch. `stretchOf` and `jointOffsets` are also what the command
 * line prints as `links` and `joints`. Closed-form case: springs in one line; a length of rate k₁ against a
 * rest of rate k₂ that wants to be e shorter gives e k₂/(k₁ + k₂).
 */
import type { Axle } from '../build/build.ts';
import type { ArmJoint } from '../mechanism/mechanism.ts';
import type { Jet, Jet3 } from '../pose/jet.ts';
import { minus3, shifted } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { add, dot, norm, scale, sub, type V3 } from '../vector.ts';
import { length3, slopeOf } from './derivative.ts';
import type { Measure } from './measure.ts';
import { lengthEnds, spanJet, spanLength } from './span.ts';

/** A length that holds the axle, at a pose. */
export interface Stretch {
  name: string;
  /** Length now less free length, in; + tension. 0 in an exact layout. */
  stretch: number;
  /** lbf, + tension. */
  force: number;
}

/** Stretch (in) and force (lbf) of length `i` of the mechanism; + is tension. */
export function stretchOf(pose: Pose, i: number): Stretch {
  const { lengths, exact } = pose.mechanism;
  const name = lengths.names[i] as string;
  if (exact) return { name, stretch: 0, force: 0 };
  const stretch = spanLength(pose, lengthEnds(pose, i)) - (lengths.free[i] as number);
  return { name, stretch, force: stretch * (lengths.rates[i] as number) };
}

/** A joint that gives, at a pose. */
export interface JointOffset {
  name: string;
  /** Distance between the two halves, in. */
  offset: number;
  force: number;
}

/** The two halves of a joint that gives, and what a distance between them costs. */
interface Halves {
  name: string;
  /** Body of the half that has moved, and of the one that it belongs to. */
  moved: string;
  home: 'axle' | 'chassis';
  at: V3;
  joint: ArmJoint | null;
  rate: number;
}

function halves({ mechanism: { arms, points, origin } }: Pose): Halves[] {
  return [
    ...arms.flatMap(arm =>
      arm.joints.map(
        (joint): Halves => ({
          name: joint.name,
          moved: arm.name,
          home: joint.on,
          at: joint.at,
          joint,
          rate: joint.radial,
        }),
      ),
    ),
    ...points.map(
      (point): Halves => ({
        name: point.name,
        moved: point.name,
        home: point.on,
        at: point.on === 'axle' ? add(point.home, origin) : point.home,
        joint: null,
        rate: point.rate,
      }),
    ),
  ];
}

const offsetVector = (pose: Pose, { moved, home, at }: Halves): V3 =>
  sub(pose.point(moved, at), pose.point(home, at));
const offsetJets = (pose: Pose, { moved, home, at }: Halves): Jet3 =>
  minus3(pose.pointJets(moved, at), pose.pointJets(home, at));

/**
 * Offset (in) and force (lbf) of every joint of a radius arm and of every shared joint that gives. The force
 * is |K d|, K the radial rate across the bolt and the axial rate along it.
 */
export function jointOffsets(pose: Pose): JointOffset[] {
  return halves(pose).map(half => {
    const d = offsetVector(pose, half);
    let force = scale(d, half.rate);
    if (half.joint) {
      const bolt = pose.direction(half.home, half.joint.bolt);
      force = add(force, scale(bolt, (half.joint.axial - half.joint.radial) * dot(bolt, d)));
    }
    return { name: half.name, offset: norm(d), force: norm(force) };
  });
}

/** An offset nearer to zero than this, in, has a kink there and no derivative. */
const KINK_in = 1e-9;

/** Names of the shared joints that give: those with a rate, where four lengths alone do not fix the axle. */
function givingJoints({ links, radiusArms, sharedJoints }: Axle): string[] {
  if (radiusArms.length === 0 && links.length <= 4) return [];
  return sharedJoints.filter(joint => joint.rates.radial !== null).map(joint => joint.name);
}

export const bind: Measure = {
  id: 'bind',
  unit: 'in',
  label: 'bind',
  definition:
    'Stretch of a link or track bar from its free length (+ tension, 0 in an exact layout), or offset of the two halves of a bushing or shared joint that gives.',
  source: 'derived: least elastic energy',
  targets: axle =>
    [
      ...axle.links.map(link => link.name),
      ...axle.radiusArms.flatMap(arm => [...arm.axle, arm.chassis].map(end => end.name)),
      ...givingJoints(axle),
    ].map(part => ({ part, side: null })),
  value: ({ pose }, { part }) => {
    const i = pose.mechanism.lengths.names.indexOf(part as string);
    if (i >= 0) return stretchOf(pose, i).stretch;
    const half = halves(pose).find(h => h.name === part);
    return half ? norm(offsetVector(pose, half)) : { missing: 'the joint does not give' };
  },
  slope: ({ pose }, { part }) => {
    const { lengths, exact } = pose.mechanism;
    if (exact) return [0, 0, 0];
    const i = lengths.names.indexOf(part as string);
    if (i >= 0) return slopeOf(stretchJet(pose, i));
    const half = halves(pose).find(h => h.name === part);
    if (!half || norm(offsetVector(pose, half)) < KINK_in) return null;
    return slopeOf(length3(offsetJets(pose, half)));
  },
};

const stretchJet = (pose: Pose, i: number): Jet =>
  shifted(spanJet(pose, lengthEnds(pose, i)), -(pose.mechanism.lengths.free[i] as number));
