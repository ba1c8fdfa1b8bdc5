/**
 * How the housing moves a unit of a motion of the wheels: `left` and `right` are the motion's parts, (1, 1)
 * both wheels together, (1, −1) equal and opposite. Values of measures that are rates; their slopes come from
 * jets.
 */
import type { Jet } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { add, cross, sub, type V3 } from '../vector.ts';
import { kept } from './kept.ts';

export interface AxleMotion {
  /** Of the axle's origin, in a unit of travel. */
  origin: V3;
  /** Turning, rad a unit of travel, vehicle axes. */
  turning: V3;
  yaw: number;
  roll: number;
  pitch: number;
}

const BOTH = '1 1';
const CROSSED = '1 -1';

const motions = kept((context: { pose: Pose }, which: string): AxleMotion => {
  const [left, right] = which === BOTH ? [1, 1] : [1, -1];
  const { o, R, yaw, roll, pitch } = context.pose.axleJets();
  const rate = (jet: Jet): number => left * (jet[1] as number) + right * (jet[2] as number);
  const [y, r, p] = [rate(yaw), rate(roll), rate(pitch)];
  const { cosYaw, sinYaw } = context.pose.axle;
  // Rz(yaw) · Rx(roll) · Ry(pitch): yaw about Z, roll about the yawed X, pitch about the housing's own axis
  const turn = (c: 0 | 1 | 2, x: number, z: number): number =>
    r * x + p * ((R[3 * c + 1] as Jet)[0] as number) + y * z;
  return {
    origin: [rate(o[0]), rate(o[1]), rate(o[2])],
    turning: [turn(0, cosYaw, 0), turn(1, sinYaw, 0), turn(2, 0, 1)],
    yaw: y,
    roll: r,
    pitch: p,
  };
});

/** The housing's motion with both wheels together. */
export const bothWheels = (context: { pose: Pose }): AxleMotion => motions(context, BOTH);

/** The housing's motion with the wheels equal and opposite, left up. */
export const crossedUp = (context: { pose: Pose }): AxleMotion => motions(context, CROSSED);

/** Velocity of a point of the housing that is now at `p`, vehicle axes, in a unit of travel. */
export function velocityAt(motion: AxleMotion, pose: Pose, p: V3): V3 {
  const { o } = pose.axle;
  const rho = sub(p, [o[0] as number, o[1] as number, o[2] as number]);
  return add(motion.origin, cross(motion.turning, rho));
}
