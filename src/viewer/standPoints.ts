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
/** And no wider: a tank is none. */
const WIDE_in = 8;

/** A point on each side, or none where the frame has no pair of long members there. */
export function standPoints(axle: Axle, parts: readonly Part[]): V3[] {
  const x = axle.origin[0] + (axle.name === 'front' ? -AWAY_in : AWAY_in);
  const under: V3[] = [];
  for (const part of parts) {
    if (!isFrame(part)) continue;
    const { low, high } = extentOf(part);
    const y = (low[1] + high[1]) / 2;
    const isMember = high[0] - low[0] >= LONG_in && high[1] - low[1] < WIDE_in;
    const isThere = low[0] <= x && high[0] >= x && Math.abs(y) > 6 && Math.abs(y) < 26;
    if (isMember && isThere) under.push([x, y, bottomAt(part, x) ?? low[2]]);
  }
  const isTwin = (a: V3, b: V3): boolean =>
    Math.abs(a[1] + b[1]) < 0.5 && Math.abs(a[2] - b[2]) < 0.5;
  const members = under.filter(a => under.some(b => isTwin(a, b))).sort((a, b) => a[2] - b[2]);
  const first = members[0];
  const second = first && members.find(each => isTwin(each, first));
  return first && second ? [first, second] : [];
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
