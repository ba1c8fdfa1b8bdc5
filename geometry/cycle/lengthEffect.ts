/** What given lengths of some parts do to an axle at ride height, against the same axle with those parts as drawn. */
import type { Axle, Build } from '../build/build.ts';
import { sub, type V3 } from '../vector.ts';
import { rideShift } from './checkReport.ts';
import { type OpenedAxle, openAxle } from './openAxle.ts';
import type { Bind } from './poseLengths.ts';

export interface LengthEffect {
  /** Of the point midway between the wheel centers, in: forward, left, up. */
  shift_in: V3;
  /** Turn of the axle seen from above, + to the left. */
  yaw_deg: number;
  /** Change of the pinion's elevation, nose up +; null where there is no pinion. */
  pinion_deg: number | null;
  /** Turns of the wheels, + to the left; null where nothing steers. */
  wheels_deg: { left: number; right: number } | null;
  /** What is stretched or squeezed with them, and what was without. */
  bind: { before: Bind; after: Bind };
}

/**
 * @param now the axle as it stands
 * @param drawn the same with the parts as long as drawn; null comes of one that can't stand
 */
export function lengthEffect(now: OpenedAxle, drawn: Axle): LengthEffect | null {
  const opened = openAxle(now.build, drawn);
  if (!opened.ok) return null;
  const [was, is] = [rideShift(opened.axle), rideShift(now)];
  const [p, q] = [elevation(opened.axle), elevation(now)];
  return {
    shift_in: sub(is.shift_in, was.shift_in),
    yaw_deg: is.yaw_deg - was.yaw_deg,
    pinion_deg: p === null || q === null ? null : q - p,
    wheels_deg:
      is.knuckles && was.knuckles
        ? {
            left: is.knuckles.left.turn_deg - was.knuckles.left.turn_deg,
            right: is.knuckles.right.turn_deg - was.knuckles.right.turn_deg,
          }
        : null,
    bind: { before: bindAlone(was), after: bindAlone(is) },
  };
}

const bindAlone = ({ stretch_in, stretchOf, force_lbf, forceOf }: Bind): Bind => ({
  stretch_in,
  stretchOf,
  force_lbf,
  forceOf,
});

/** Of the pinion at ride height, deg. */
function elevation({
  axle,
  model,
}: {
  axle: Axle;
  model: OpenedAxle['model'];
  build: Build;
}): number | null {
  if (!axle.driveline) return null;
  const [, , up] = model.ride.direction('axle', axle.driveline.pinion.axis);
  return (Math.asin(Math.max(-1, Math.min(1, up))) * 180) / Math.PI;
}
