/** What of the stage is free for the axle: the sentence is at its left top, the section at its right bottom. */
import type { Free, Size } from '../../viewer/framing.ts';

/** Under this the stage is a phone's: sentence above, axle below, px. */
const NARROW = 560;
/** Under this it is a tablet's. */
const WIDE = 901;

export function freeOf({ width, height }: Size, isAlone: boolean): Free {
  if (isAlone) {
    const room = width < NARROW ? 8 : 40;
    return { left: room, top: 90, right: width - room, bottom: height - 80 };
  }
  if (width < NARROW) {
    return { left: 6, top: 0.3 * height, right: width * 0.64, bottom: height - 6 };
  }
  if (width < WIDE) return { left: 0.37 * width, top: 10, right: width * 0.79, bottom: height - 6 };
  return { left: 0.33 * width, top: 8, right: 0.86 * width, bottom: height - 22 };
}
