/**
 * The axle's ground plane: through (0, ±W/2, −loaded radius) of the housing, containing chassis X.
 * H = (0, 0, −loaded radius) of the housing lies in it, midway.
 */
import {
  constant,
  type Jet3,
  minus,
  plus,
  product,
  product3,
  reciprocal,
  root,
} from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import type { V3 } from '../vector.ts';

/** H as drawn, vehicle axes; a point of the housing. */
export const groundPointDrawn = ({ mechanism: { origin, loadedRadius } }: Pose): V3 => [
  origin[0],
  origin[1],
  origin[2] - loadedRadius,
];

/** H now, vehicle axes. */
export const groundPoint = (pose: Pose): V3 => pose.point('axle', groundPointDrawn(pose));
export const groundPointJets = (pose: Pose): Jet3 => pose.pointJets('axle', groundPointDrawn(pose));

/** Unit normal of the ground plane, upward: chassis X × the housing's axis. */
export function groundNormal(pose: Pose): V3 {
  const y = pose.axle.R[4] as number;
  const z = pose.axle.R[7] as number;
  const size = Math.sqrt(y * y + z * z);
  return [0, -z / size, y / size];
}

export function groundNormalJets(pose: Pose): Jet3 {
  const { R } = pose.axleJets();
  const [y, z] = [R[4], R[7]] as [Jet3[0], Jet3[0]];
  const inverse = reciprocal(root(plus(product(y, y), product(z, z))));
  return product3(inverse, [constant(0), minus(constant(0), z), y]);
}

/** Unit vector of the ground plane square to chassis X, leftward. */
export const groundLeft = (n: V3): V3 => [0, n[2], -n[1]];
export const groundLeftJets = (n: Jet3): Jet3 => [constant(0), n[2], minus(constant(0), n[1])];
