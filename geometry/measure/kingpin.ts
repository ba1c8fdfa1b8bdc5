/**
 * The kingpin axis: inclination seen from the front, against the axle's ground plane, and caster seen from the
 * side, against chassis Z. Closed-form case: as drawn with lower and upper joints (x, y, z) apart by
 * (dx, dy, dz), left side: inclination atan(−dy/dz), caster atan(−dx/dz); a pure pitch of the axle by θ (arms
 * rigid to it) changes caster by −θ and the inclination seen along X only through the foreshortening of dz.
 */
import { inner, type Jet3, minus3, product3, times } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { add, dot, scale, sub, type V3 } from '../vector.ts';
import { arctangent, quotient, slopeOf } from './derivative.ts';
import {
  groundLeft,
  groundLeftJets,
  groundNormal,
  groundNormalJets,
  groundPoint,
  groundPointJets,
} from './ground.ts';
import { type Measure, steeredWheels } from './measure.ts';
import { outboard, type Side } from './wheel.ts';

const knuckle = (pose: Pose, side: Side) =>
  (pose.mechanism.steering as NonNullable<Pose['mechanism']['steering']>)[side];

/** Unit vector along the kingpin axis, upward, vehicle axes. */
export const kingpinAxis = (pose: Pose, side: Side): V3 =>
  pose.direction('axle', knuckle(pose, side).axis);
export const kingpinAxisJets = (pose: Pose, side: Side): Jet3 =>
  pose.directionJets('axle', knuckle(pose, side).axis);

const pivotDrawn = (pose: Pose, side: Side): V3 =>
  add(pose.mechanism.origin, knuckle(pose, side).pivot);

/** Where the kingpin axis meets the ground plane, vehicle axes. */
export function kingpinOnGround(pose: Pose, side: Side): V3 {
  const n = groundNormal(pose);
  const k = kingpinAxis(pose, side);
  const lower = pose.point('axle', pivotDrawn(pose, side));
  return sub(lower, scale(k, dot(sub(lower, groundPoint(pose)), n) / dot(k, n)));
}

export function kingpinOnGroundJets(pose: Pose, side: Side): Jet3 {
  const n = groundNormalJets(pose);
  const k = kingpinAxisJets(pose, side);
  const lower = pose.pointJets('axle', pivotDrawn(pose, side));
  const height = inner(minus3(lower, groundPointJets(pose)), n);
  return minus3(lower, product3(quotient(height, inner(k, n)), k));
}

export const caster: Measure = {
  id: 'caster',
  unit: 'deg',
  label: 'caster',
  definition:
    'Angle of the kingpin axis to chassis Z, seen along chassis Y: atan2(−k_x, k_z); + top rearward.',
  source: 'SAE J670e 6.2.1, as quoted in SAE 850219 (the sign from memory)',
  targets: steeredWheels,
  value: ({ pose }, { side }) => {
    const k = kingpinAxis(pose, side as Side);
    return Math.atan2(-k[0], k[2]);
  },
  slope: ({ pose }, { side }) => {
    const k = kingpinAxisJets(pose, side as Side);
    return slopeOf(arctangent(times(k[0], -1), k[2]));
  },
};

export const kingpinInclination: Measure = {
  id: 'kingpinInclination',
  unit: 'deg',
  label: 'kingpin inclination',
  definition:
    "Angle of the kingpin axis to the normal of the axle's ground plane, seen along chassis X; + top inboard.",
  source:
    'ISO 8855:2011 (steering-axis inclination; from memory), against the ground line of the axle',
  targets: steeredWheels,
  value: ({ pose }, { side }) => {
    const k = kingpinAxis(pose, side as Side);
    const n = groundNormal(pose);
    return Math.atan2(-outboard(side as Side) * dot(k, groundLeft(n)), dot(k, n));
  },
  slope: ({ pose }, { side }) => {
    const k = kingpinAxisJets(pose, side as Side);
    const n = groundNormalJets(pose);
    const inward = times(inner(k, groundLeftJets(n)), -outboard(side as Side));
    return slopeOf(arctangent(inward, inner(k, n)));
  },
};
