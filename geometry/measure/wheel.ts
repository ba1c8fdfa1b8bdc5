/** Directions and points of a wheel that several measures share, with their derivatives. */
import type { Jet3 } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import type { V3 } from '../vector.ts';

export type Side = 'left' | 'right';

/** The body that carries a wheel: its knuckle where the axle steers, else the axle. */
export const wheelBody = (pose: Pose, side: Side): string =>
  pose.turn ? `${side} knuckle` : 'axle';

/** n: the wheel's spin axis, leftward, vehicle axes (static toe and camber are in it as drawn). */
export const spinAxis = (pose: Pose, side: Side): V3 =>
  pose.direction(wheelBody(pose, side), pose.mechanism.wheels[side].spin);

export const spinAxisJets = (pose: Pose, side: Side): Jet3 =>
  pose.directionJets(wheelBody(pose, side), pose.mechanism.wheels[side].spin);

/** Steer of a wheel, rad: atan2(−n_x, n_y), + turns left. */
export function steerOf(pose: Pose, side: Side): number {
  const n = spinAxis(pose, side);
  return Math.atan2(-n[0], n[1]);
}

/** Derivatives of `steerOf` by left travel, right travel and steering input. */
export function steerSlope(pose: Pose, side: Side): [number, number, number] {
  const [x, y] = spinAxisJets(pose, side);
  const nx = x[0] as number;
  const ny = y[0] as number;
  const square = nx * nx + ny * ny;
  const by = (j: number): number => (nx * (y[j] as number) - ny * (x[j] as number)) / square;
  return [by(1), by(2), by(3)];
}
