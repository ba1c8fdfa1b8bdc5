/**
 * A tire that is open towards the axle: a ring from the rim out, for parts that reach into the wheel (tie rod,
 * drag link, ram, axle tubes). Sectors, each the hull of its corners grown by the shoulder; the corners stand
 * out by 1/cos(π/n), so that the ring contains the tire.
 */
import type { Tire } from '../build/build.ts';
import { pointsPiece } from '../solid/piece.ts';
import { type Solid, solidOf } from '../solid/solid.ts';
import { squareTo } from '../solid/support.ts';
import type { V3 } from '../vector.ts';

/** Sectors: the corners stand out by 0.2 %, 1/32 in on a 40 in tire. */
const SECTORS = 48;
/** Inner diameter where no rim is given, as a share of the tire's. Common practice, no source. */
const ASSUMED_RIM = 0.45;

export function tireRing(tire: Tire, center: V3, axis: V3): Solid {
  const { diameter, width, shoulder, rim } = tire;
  const [u, v] = squareTo(axis[0], axis[1], axis[2]);
  const half = width / 2 - shoulder;
  const outer = (diameter / 2 - shoulder) / Math.cos(Math.PI / SECTORS);
  const inner = Math.min(outer - 0.1, (rim ? rim.diameter : diameter * ASSUMED_RIM) / 2 + shoulder);
  const corner = (angle: number, radius: number, side: number): number[] =>
    [0, 1, 2].map(
      i =>
        (center[i] as number) +
        side * half * (axis[i] as number) +
        radius * (Math.cos(angle) * (u[i] as number) + Math.sin(angle) * (v[i] as number)),
    );
  const pieces = Array.from({ length: SECTORS }, (_, k) => {
    const points: number[] = [];
    for (const step of [k - 0.5, k + 0.5]) {
      const angle = (2 * Math.PI * step) / SECTORS;
      for (const radius of [inner, outer]) {
        for (const side of [-1, 1]) points.push(...corner(angle, radius, side));
      }
    }
    return pointsPiece(Float64Array.from(points), shoulder);
  });
  return solidOf('hull', pieces);
}
