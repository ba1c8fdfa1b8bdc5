/** A driveshaft whose joints stand at given angles on an axle at rest. */
import type { Axle, DrivelineEnd, Vec3 } from '../../geometry/build/build.ts';
import { turned } from '../../geometry/vector.ts';
import { parallelLinks, plainAxle, rad, trackBar } from './closedForms.ts';

export interface ShaftAngles {
  /** Working angles, deg. */
  pinion: number;
  transferCase: number;
  /** Turn of the pinion's bend about the shaft, deg: 0 both bends in one plane, on the same side. */
  twist?: number;
  phase?: number;
  kinds?: [pinion: DrivelineEnd['kind'], transferCase: DrivelineEnd['kind']];
}

/** The shaft lies along X from (−1200, 0, 600), the transfer case, to (−200, 0, 600), the pinion. */
export function withShaft({
  pinion,
  transferCase,
  twist = 0,
  phase = 0,
  kinds = ['single', 'single'],
}: ShaftAngles): Axle {
  const out = (way: 1 | -1, angle: number, about: number): Vec3 => {
    const bent = turned([way, 0, 0], [0, 1, 0], Math.cos(rad(angle)), Math.sin(rad(angle)));
    return turned(bent, [1, 0, 0], Math.cos(rad(about)), Math.sin(rad(about)));
  };
  return plainAxle([...parallelLinks(800), trackBar(800)], {
    driveline: {
      pinion: { joint: [-200, 0, 600], axis: out(-1, pinion, twist), kind: kinds[0], limit: null },
      transferCase: {
        joint: [-1200, 0, 600],
        axis: out(1, transferCase, 0),
        kind: kinds[1],
        limit: null,
      },
      slip: null,
      phase: rad(phase),
      tubeOd: null,
      axleRatio: null,
    },
  });
}
