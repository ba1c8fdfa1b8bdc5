/** The axle frame from its four unknowns and the roll, over any arithmetic: R = Rz(yaw) · Rx(roll) · Ry(pitch). */
import type { NineOf, Three } from './arithmetic.ts';
import type { Forms } from './steeringForms.ts';

/** Yaw and pitch about which the changes are taken, and the frame's constants. */
export interface FrameCenter {
  sinYaw: number;
  cosYaw: number;
  sinPitch: number;
  cosPitch: number;
}

/** R of the axle at yaw and pitch changed from the center's, with cosine and sine of the roll. */
export function axleTurn<T>(
  { k }: Forms<T>,
  center: FrameCenter,
  yawChange: T,
  pitchChange: T,
  cosRoll: T,
  sinRoll: T,
): NineOf<T> {
  const cy = k.cosine(yawChange, center.cosYaw, center.sinYaw);
  const sy = k.sine(yawChange, center.cosYaw, center.sinYaw);
  const cp = k.cosine(pitchChange, center.cosPitch, center.sinPitch);
  const sp = k.sine(pitchChange, center.cosPitch, center.sinPitch);
  const k0 = k.product(sy, sinRoll);
  const k1 = k.times(k.product(cy, sinRoll), -1);
  return [
    k.minus(k.product(cp, cy), k.product(sp, k0)),
    k.times(k.product(sy, cosRoll), -1),
    k.plus(k.product(sp, cy), k.product(cp, k0)),
    k.minus(k.product(cp, sy), k.product(sp, k1)),
    k.product(cy, cosRoll),
    k.plus(k.product(sp, sy), k.product(cp, k1)),
    k.times(k.product(sp, cosRoll), -1),
    sinRoll,
    k.product(cp, cosRoll),
  ];
}

/** ρ = R a of a point or direction fixed in the axle, with its partial derivatives by yaw and by pitch. */
export function turnedPartials<T>(
  { k, v }: Forms<T>,
  R: NineOf<T>,
  a: ArrayLike<number>,
): { rho: Three<T>; yaw: Three<T>; pitch: Three<T> } {
  const rho = v.turnPlain(R, a);
  return {
    rho,
    yaw: [k.times(rho[1], -1), rho[0], k.constant(0)],
    pitch: v.minus3(
      v.times3(v.columnOf(R, 0), a[2] as number),
      v.times3(v.columnOf(R, 2), a[0] as number),
    ),
  };
}
