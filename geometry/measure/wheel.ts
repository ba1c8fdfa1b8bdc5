/** Directions and points of a wheel that several measures share, with their derivatives. */
import { type Jet, type Jet3, plus, times } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { add, type V3 } from '../vector.ts';
import { arctangent, slopeOf } from './derivative.ts';
import type { Slope } from './measure.ts';

export type Side = 'left' | 'right';

/** +1 for the left wheel, −1 for the right one: outboard along Y. */
export const outboard = (side: Side): 1 | -1 => (side === 'left' ? 1 : -1);

/** The body that carries a wheel: its knuckle where the axle steers, else the axle. */
export const wheelBody = (pose: Pose, side: Side): string =>
  pose.turn ? `${side} knuckle` : 'axle';

/** n: the wheel's spin axis, leftward, vehicle axes (static toe and camber are in it as drawn). */
export const spinAxis = (pose: Pose, side: Side): V3 =>
  pose.direction(wheelBody(pose, side), pose.mechanism.wheels[side].spin);

export const spinAxisJets = (pose: Pose, side: Side): Jet3 =>
  pose.directionJets(wheelBody(pose, side), pose.mechanism.wheels[side].spin);

const centerDrawn = ({ mechanism }: Pose, side: Side): V3 =>
  add(mechanism.origin, mechanism.wheels[side].center);

/** The steered wheel's own center, vehicle axes. */
export const wheelCenter = (pose: Pose, side: Side): V3 =>
  pose.point(wheelBody(pose, side), centerDrawn(pose, side));

export const wheelCenterJets = (pose: Pose, side: Side): Jet3 =>
  pose.pointJets(wheelBody(pose, side), centerDrawn(pose, side));

/** Steer of a wheel, rad: atan2(−n_x, n_y), + turns left. */
export function steerOf(pose: Pose, side: Side): number {
  const n = spinAxis(pose, side);
  return Math.atan2(-n[0], n[1]);
}

export function steerJet(pose: Pose, side: Side): Jet {
  const n = spinAxisJets(pose, side);
  return arctangent(times(n[0], -1), n[1]);
}

/** Derivatives of `steerOf` by left travel, right travel and steering input. */
export const steerSlope = (pose: Pose, side: Side): Slope => slopeOf(steerJet(pose, side));

/** Mean steer of both wheels, rad. */
export const meanSteerOf = (pose: Pose): number =>
  (steerOf(pose, 'left') + steerOf(pose, 'right')) / 2;

export const meanSteerJet = (pose: Pose): Jet =>
  times(plus(steerJet(pose, 'left'), steerJet(pose, 'right')), 0.5);
