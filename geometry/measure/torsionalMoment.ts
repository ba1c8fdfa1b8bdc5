/**
 * Moments by which bushings resist being twisted about their bolts. They are told; they do not move the pose.
 * The twist is the turn of the link's line about the bolt, as the bracket sees it, from the drawn one:
 *   atan2(b · (u₀ × u), u₀·u − (b·u₀)(b·u)), b the bolt, u₀ and u the line as drawn and now.
 * Closed-form case: a level link of length R with lateral bolts, axle risen by z without pitch: rate · asin(z/R).
 */
import type { Axle, JointEnd, Vec3 } from '../build/build.ts';
import { constant3, inner, type Jet3, minus, minus3, outer, times, turnBack } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { rotate } from '../pose/pose.ts';
import { cross, dot, norm, reject, sub, unit, type V3 } from '../vector.ts';
import { arctangent, slopeOf } from './derivative.ts';
import type { Measure, Reading } from './measure.ts';
import { lengthEnds } from './span.ts';

/** A joint with a torsional rate, and the line whose turn twists it. */
interface Twisted {
  end: JointEnd;
  on: 'axle' | 'chassis';
  /** From the joint's side to the other end, vehicle axes as drawn. */
  drawn: V3;
  /** Index of the length, or the name of the radius arm that carries the line. */
  carrier: number | string;
}

function twistedJoints(axle: Axle): Twisted[] {
  const out: Twisted[] = [];
  const put = (
    end: JointEnd,
    on: 'axle' | 'chassis',
    drawn: V3,
    carrier: number | string,
  ): void => {
    if (end.rates.torsional !== null) out.push({ end, on, drawn: unit(drawn), carrier });
  };
  for (const [i, { axle: near, chassis: far }] of axle.links.entries()) {
    put(near, 'axle', sub(far.at, near.at), i);
    put(far, 'chassis', sub(far.at, near.at), i);
  }
  for (const arm of axle.radiusArms) {
    const [front, rear] = arm.axle;
    const middle: Vec3 = [0, 1, 2].map(
      c => ((front.at[c] as number) + (rear.at[c] as number)) / 2,
    ) as unknown as Vec3;
    for (const end of arm.axle) put(end, 'axle', sub(arm.chassis.at, end.at), arm.name);
    put(arm.chassis, 'chassis', sub(arm.chassis.at, middle), arm.name);
  }
  return out;
}

/** The bolt taken to the left (or up, or ahead, where it has no part to the left), so that signs compare. */
function leftward(bolt: V3): V3 {
  const sign = Math.sign(bolt[1]) || Math.sign(bolt[2]) || Math.sign(bolt[0]);
  return [sign * bolt[0], sign * bolt[1], sign * bolt[2]];
}

/** The line now, as the bracket sees it. */
function seenLine(pose: Pose, { on, drawn, carrier }: Twisted): V3 {
  const now: V3 =
    typeof carrier === 'string' ? pose.direction(carrier, drawn) : lineNow(pose, carrier);
  const { R } = pose.displacement(on);
  return rotate(
    [0, 3, 6, 1, 4, 7, 2, 5, 8].map(i => R[i] as number),
    now,
  );
}

function seenLineJets(pose: Pose, { on, drawn, carrier }: Twisted): Jet3 {
  const ends = typeof carrier === 'string' ? null : lengthEnds(pose, carrier);
  const now = ends
    ? minus3(pose.pointJets(ends.to.on, ends.to.at), pose.pointJets(ends.from.on, ends.from.at))
    : pose.directionJets(carrier as string, drawn);
  return turnBack(pose.displacementJets(on).R, now);
}

function lineNow(pose: Pose, i: number): V3 {
  const { from, to } = lengthEnds(pose, i);
  return unit(sub(pose.point(to.on, to.at), pose.point(from.on, from.at)));
}

const NO_BOLT: Reading = { missing: 'the joint has no bolt axis to twist about' };

/** The bolt of a joint that its link can twist, or null. */
function boltOf({ end, drawn }: Twisted): V3 | null {
  return end.bolt && norm(reject(drawn, end.bolt)) > 1e-9 ? leftward(end.bolt) : null;
}

const jointOf = (axle: Axle, part: string | null): Twisted =>
  twistedJoints(axle).find(({ end }) => end.name === part) as Twisted;

export const torsionalMoment: Measure = {
  id: 'torsionalMoment',
  unit: 'in·lbf',
  label: 'twist of a bushing',
  definition:
    'Torsional rate of a bushing times the turn of its link about the bolt from the drawn one, as its bracket sees it; + right-handed about the bolt taken to the left.',
  source: 'geometry; linear torsional rate',
  targets: axle => twistedJoints(axle).map(({ end }) => ({ part: end.name, side: null })),
  value: ({ axle, pose }, { part }) => {
    const joint = jointOf(axle, part);
    const b = boltOf(joint);
    if (!b) return NO_BOLT;
    const u = seenLine(pose, joint);
    const { drawn } = joint;
    const angle = Math.atan2(dot(b, cross(drawn, u)), dot(drawn, u) - dot(b, drawn) * dot(b, u));
    return (joint.end.rates.torsional as number) * angle;
  },
  slope: ({ axle, pose }, { part }) => {
    const joint = jointOf(axle, part);
    const b = boltOf(joint);
    if (!b) return null;
    const u = seenLineJets(pose, joint);
    const drawn = constant3(joint.drawn);
    const bolt = constant3(b);
    const angle = arctangent(
      inner(bolt, outer(drawn, u)),
      minus(inner(drawn, u), times(inner(bolt, u), dot(b, joint.drawn))),
    );
    return slopeOf(angle, joint.end.rates.torsional as number);
  },
};
