/** Where stands hold a frame: under its long members, clear of the axle's travel. */
import type { Axle } from '../../geometry/build/build.ts';
import type { Part } from '../../geometry/gap/part.ts';
import type { V3 } from '../../geometry/vector.ts';
import { extentOf } from './shapes/solids.ts';
import { isFrame } from './showing.ts';

/** How far from the axle towards the middle of the vehicle, in. */
const AWAY_in = 47;
/** A member is at least so long, in. */
const LONG_in = 18;

/** A point on each side, or none where nothing of the frame is there. */
export function standPoints(axle: Axle, parts: readonly Part[]): V3[] {
  const x = axle.origin[0] + (axle.name === 'front' ? -AWAY_in : AWAY_in);
  const out: V3[] = [];
  for (const side of [1, -1]) {
    let lowest: V3 | null = null;
    for (const part of parts) {
      if (!isFrame(part)) continue;
      const { low, high } = extentOf(part);
      const y = (low[1] + high[1]) / 2;
      const isMember = high[0] - low[0] >= LONG_in && high[1] - low[1] < 8;
      const isThere = low[0] <= x && high[0] >= x && side * y > 6 && side * y < 26;
      const bottom = bottomAt(part, x) ?? low[2];
      if (isMember && isThere && (!lowest || bottom < lowest[2])) lowest = [x, y, bottom];
    }
    if (lowest) out.push(lowest);
  }
  return out;
}

/** Underside of a bent tube at an X; null for other shapes, whose box is near enough. */
function bottomAt(part: Part, x: number): number | null {
  if (part.solid.kind !== 'bentTube' && part.solid.kind !== 'capsule') return null;
  for (const { data, radius } of part.solid.pieces) {
    const [ax, az, bx, bz] = [data[0], data[2], data[3], data[5]] as [
      number,
      number,
      number,
      number,
    ];
    if ((ax - x) * (bx - x) > 0 || ax === bx) continue;
    return az + ((x - ax) / (bx - ax)) * (bz - az) - radius;
  }
  return null;
}
