/**
 * Mechanical trail and scrub radius (kingpin offset at ground). The contact center is the foot, in the axle's
 * ground plane, of the wheel plane's steepest line through the steered wheel's center. With N the plane's
 * normal, n the spin axis, C the center and H a point of the plane:
 *   steepest m = N − (N·n) n,  contact P = C − m ((C − H)·N)/(m·N),
 *   along the trace t = n × N / |n × N|, across it N × t, leftward.
 * Closed-form cases: axis through the wheel's center, wheel upright: trail r tan(caster); axis through (y, z)
 * inclined by κ: scrub = y_wheel − (y + z tan κ).
 */
import { inner, type Jet, minus3, outer, product3 } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { cross, dot, scale, sub, unit, type V3 } from '../vector.ts';
import { length3, quotient, slopeOf } from './derivative.ts';
import { groundNormal, groundNormalJets, groundPoint, groundPointJets } from './ground.ts';
import { kingpinOnGround, kingpinOnGroundJets } from './kingpin.ts';
import { type Measure, steeredWheels } from './measure.ts';
import {
  outboard,
  type Side,
  spinAxis,
  spinAxisJets,
  wheelCenter,
  wheelCenterJets,
} from './wheel.ts';

/** Contact center of a wheel, vehicle axes, in. */
export function contactCenter(pose: Pose, side: Side): V3 {
  const normal = groundNormal(pose);
  const spin = spinAxis(pose, side);
  const center = wheelCenter(pose, side);
  const steepest = sub(normal, scale(spin, dot(normal, spin)));
  const height = dot(sub(center, groundPoint(pose)), normal);
  return sub(center, scale(steepest, height / dot(steepest, normal)));
}

/** Kingpin axis on the ground from the contact center: along the trace, + ahead; across it, + leftward. */
function offset(pose: Pose, side: Side): { along: number; across: number } {
  const normal = groundNormal(pose);
  const trace = unit(cross(spinAxis(pose, side), normal));
  const from = sub(kingpinOnGround(pose, side), contactCenter(pose, side));
  return { along: dot(from, trace), across: dot(from, cross(normal, trace)) };
}

function offsetJets(pose: Pose, side: Side): { along: Jet; across: Jet } {
  const normal = groundNormalJets(pose);
  const spin = spinAxisJets(pose, side);
  const center = wheelCenterJets(pose, side);
  const steepest = minus3(normal, product3(inner(normal, spin), spin));
  const height = inner(minus3(center, groundPointJets(pose)), normal);
  const contact = minus3(center, product3(quotient(height, inner(steepest, normal)), steepest));
  const trace = outer(spin, normal);
  const from = minus3(kingpinOnGroundJets(pose, side), contact);
  const size = length3(trace);
  return {
    along: quotient(inner(from, trace), size),
    across: quotient(inner(from, outer(normal, trace)), size),
  };
}

export const mechanicalTrail: Measure = {
  id: 'mechanicalTrail',
  unit: 'in',
  label: 'mechanical trail',
  definition:
    "From the contact center to the kingpin axis's point in the ground plane, along the wheel's trace; + axis ahead.",
  source: 'ISO 8855:2011 (castor trail; from memory)',
  targets: steeredWheels,
  value: ({ pose }, { side }) => offset(pose, side as Side).along,
  slope: ({ pose }, { side }) => slopeOf(offsetJets(pose, side as Side).along),
};

export const scrubRadius: Measure = {
  id: 'scrubRadius',
  unit: 'in',
  label: 'scrub radius',
  definition:
    "From the contact center to the kingpin axis's point in the ground plane, across the wheel's trace; + axis inboard.",
  source: 'ISO 8855:2011 (kingpin offset at ground; from memory), Reimpell (from memory)',
  targets: steeredWheels,
  value: ({ pose }, { side }) => -outboard(side as Side) * offset(pose, side as Side).across,
  slope: ({ pose }, { side }) =>
    slopeOf(offsetJets(pose, side as Side).across, -outboard(side as Side)),
};
