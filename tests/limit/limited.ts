/** Axles on which every limit has something to bound. */
import type { Axle } from '../../geometry/build/build.ts';
import { equipped } from '../measure/vehicles.ts';

const degrees = Math.PI / 180;

/** `equipped`, with steering stops, box sweep, straps, and a limit on each joint of driveline and axle shafts. */
export function limited(plain: Axle): Axle {
  const axle = equipped(plain);
  const stops = { inward: 33 * degrees, outward: 31 * degrees };
  const x = axle.origin[0];
  return {
    ...axle,
    knuckles: axle.knuckles && {
      left: { ...axle.knuckles.left, shaftLimit: 38 * degrees, steeringStop: stops },
      right: { ...axle.knuckles.right, shaftLimit: 40 * degrees, steeringStop: stops },
    },
    steering: axle.steering && {
      ...axle.steering,
      box: axle.steering.box && {
        ...axle.steering.box,
        sweep: [-45 * degrees, 44 * degrees],
      },
    },
    coils: axle.coils.map(coil => ({ ...coil, solid: 7.5 })),
    straps: (['left', 'right'] as const).map(side => ({
      name: `${side} strap`,
      side,
      axle: [x + 2, side === 'left' ? 16 : -16, 20],
      chassis: [x + 3, side === 'left' ? 15 : -15, 34],
      length: 21,
    })),
    driveline: axle.driveline && {
      ...axle.driveline,
      pinion: { ...axle.driveline.pinion, limit: 25 * degrees },
      transferCase: { ...axle.driveline.transferCase, limit: 22 * degrees },
    },
  };
}
