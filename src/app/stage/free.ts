/** What of the stage is free for the axle: the sentence is at its left top, the section at its right bottom. */
import type { Free, Size } from '../../viewer/framing.ts';

/** Under this the stage is a phone's: sentence above, axle below, px. */
const NARROW = 560;
/** Under this it is a tablet's. */
const WIDE = 901;

/** @param hasSection whether the section is set into the stage */
export function freeOf({ width, height }: Size, isAlone: boolean, hasSection: boolean): Free {
  if (isAlone) {
    const room = width < NARROW ? 8 : 40;
    return { left: room, top: 90, right: width - room, bottom: height - 80 };
  }
  if (width < NARROW) {
    const right = hasSection ? 0.6 * width : width - 12;
    return { left: hasSection ? 6 : 0.24 * width, top: 0.4 * height, right, bottom: height - 4 };
  }
  if (width < WIDE) return { left: 0.41 * width, top: 6, right: width * 0.79, bottom: height - 12 };
  return { left: 0.33 * width, top: 8, right: 0.86 * width, bottom: height - 22 };
}
