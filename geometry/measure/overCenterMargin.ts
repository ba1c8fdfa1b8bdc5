/**
 * How far a steering rod is from the pose in which its branch vanishes (over-center). A rod that drives a
 * knuckle puts its end on a circle and on a sphere, A cos t + B sin t = C; the margin is
 *   (1) √(1 − (C/m)²), m = hypot(A, B):
 * 1 best, 0 at over-center, where arm and rod are in line seen along the kingpin axis.
 * Where the drag link holds the tie rod it drives no circle of its own. With T its end on the tie rod, moved
 * by the first knuckle's turn τ, d along it and L its length, the margin is that of its one equation:
 *   (2) |d·T_τ| / (L |T_τ|).
 * The end link of a sway bar drives its arm by (1) too; it bounds no pose, so that the margin goes on below zero where
 * the link can't reach the arm's circle: −√((C/m)² − 1).
 * Closed-form case of (1): in a plane linkage C/m is the cosine law of the triangle of arm, rod and the line from
 * the kingpin to the rod's other end, and the margin the sine of the angle at the kingpin.
 */
import type { Axle } from '../build/build.ts';
import { inner, type Jet, type Jet3, minus3 } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { dot, type V3 } from '../vector.ts';
import { slopeOf } from './derivative.ts';
import type { Measure, Slope, Target } from './measure.ts';
import { rodsOf } from './rolling.ts';
import { swayArmOf, swayTargets } from './swayBar.ts';

const indexOf = (pose: Pose, part: string | null): number =>
  pose.mechanism.steering?.rods.findIndex(rod => rod.name === part) ?? -1;

/** Rods that drive a knuckle, and end links that drive an arm of the sway bar. */
export const overCenterTargets = (axle: Axle): Target[] => [
  ...(axle.steered ? rodsOf(axle).map(rod => ({ part: rod.name, side: null })) : []),
  ...swayTargets(axle, 'link'),
];

export const overCenterMargin: Measure = {
  id: 'overCenterMargin',
  unit: '1',
  label: 'margin to over-center',
  definition:
    'Square root of 1 − (C/m)² of the equation A cos t + B sin t = C, m = hypot(A, B), by which a rod turns its knuckle, or an end link its sway bar arm; 1 best, 0 where it goes over-center.',
  source: 'Norton, Design of Machinery (transmission angle, toggle; from memory)',
  targets: overCenterTargets,
  value: ({ pose }, { part }) => {
    const arm = swayArmOf(pose, part);
    if (arm) return pose.swayTurn(arm).margin;
    return pose.margins[indexOf(pose, part)] ?? { missing: 'no such rod' };
  },
  slope: ({ pose }, { part }) => {
    const arm = swayArmOf(pose, part);
    if (arm) return slopeOf(pose.swayTurnJets(arm).margin);
    const jets = pose.steeringJets();
    const steering = pose.mechanism.steering;
    const index = indexOf(pose, part);
    const margin = jets?.margins[index];
    if (!jets || !steering || !margin) return null;
    if (steering.kind !== 'tieRod' || index !== steering.dragLink) return slopeOf(margin);
    const ends = jets.rods[index];
    return ends ? heldSlope(ends.from, ends.to, jets.tau[steering.first]) : null;
  },
};

/**
 * Derivatives of (2). T hangs on τ alone, so that its own derivatives follow from those by the steering input
 * s: T_τ = T_s/τ_s, T_ττ = (T_ss − T_τ τ_ss)/τ_s²; no slope where the input does not turn the knuckle.
 */
function heldSlope(S: Jet3, T: Jet3, tau: Jet): Slope | null {
  const d = minus3(T, S);
  const bySteer = tau[3] as number;
  const at = (v: Jet3, k: number): V3 => [v[0][k] as number, v[1][k] as number, v[2][k] as number];
  if (Math.abs(bySteer) < 1e-12) return null;
  const once = at(T, 3).map(v => v / bySteer) as unknown as V3;
  const twice = at(T, 9).map(
    (v, c) => (v - (once[c] as number) * (tau[9] as number)) / (bySteer * bySteer),
  ) as unknown as V3;
  const length = Math.sqrt(inner(d, d)[0] as number);
  const speed = Math.sqrt(dot(once, once));
  const slope = dot(at(d, 0), once);
  const by = (k: number): number => {
    const turn = tau[k] as number;
    const slopeBy = dot(at(d, k), once) + dot(at(d, 0), twice) * turn;
    const speedBy = (dot(once, twice) / speed) * turn;
    return (Math.sign(slope) * (slopeBy - (slope * speedBy) / speed)) / (length * speed);
  };
  return [by(1), by(2), by(3)];
}
