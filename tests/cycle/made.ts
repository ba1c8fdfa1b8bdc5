/** Axles for the tests of the cycle: examples, and axles made in code whose stops are varied. */
import { readFileSync } from 'node:fs';
import type { Axle, Build, BumpStop, Shock, Side } from '../../geometry/build/build.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { type OpenedAxle, openAxle } from '../../geometry/cycle/openAxle.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { distance, dot, norm, scale, sub } from '../../geometry/vector.ts';
import { buildOf } from '../measure/vehicles.ts';

export function example(name: string): OpenedAxle {
  const file = new URL(`../../examples/${name}.axlewalk.json`, import.meta.url);
  const opened = openBuild(readFileSync(file));
  if (!opened.ok) throw new Error(`${name} can't be read`);
  return opened.axles[0] as OpenedAxle;
}

/** An axle in a build with nothing else in it. */
export function opened(axle: Axle, more: Partial<Build> = {}): OpenedAxle {
  const result = openAxle(buildOf(axle, more), axle);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.axle;
}

export const SIDES: readonly Side[] = ['left', 'right'];
const y = (side: Side): 1 | -1 => (side === 'left' ? 1 : -1);

export const shocks = (more: Partial<Shock> = {}): Shock[] =>
  SIDES.map(side => ({
    name: `${side} shock`,
    side,
    axle: [-5, y(side) * 20.5, 17],
    chassis: [-6.5, y(side) * 18, 41.5],
    shortest: 19.75,
    longest: 29.75,
    bodyEnd: 'chassis',
    body: { od: null, length: null },
    shaft: { od: null },
    reservoir: null,
    ...more,
  }));

export const bumpStops = (radius: number | null = null, more: Partial<BumpStop> = {}): BumpStop[] =>
  SIDES.map(side => ({
    name: `${side} bump stop`,
    side,
    kind: 'rubber',
    pad: { on: 'axle', at: [1.5, y(side) * 17.5, 24.5] },
    strike: { on: 'chassis', at: [1.5, y(side) * 17.5, 29.5], normal: [0, 0, -1], radius },
    contactHeight: 1.75,
    solidHeight: 0,
    curve: [],
    ...more,
  }));

/**
 * Whether the stops of travel allow a pose: worked out from the points of the parts alone, and not by the
 * limits that are tested.
 */
export function allows(axle: Axle, pose: Pose): boolean {
  const span = (part: { axle: Shock['axle']; chassis: Shock['chassis'] }): number =>
    distance(pose.point('axle', part.axle), part.chassis);
  const holds = ({ pad, strike, solidHeight }: BumpStop): boolean => {
    const from = sub(pose.point(pad.on, pad.at), pose.point(strike.on, strike.at));
    const up = pose.direction(strike.on, strike.normal);
    const height = dot(from, up);
    const aside = norm(sub(from, scale(up, height)));
    return height < solidHeight && !(strike.radius !== null && aside > strike.radius);
  };
  return (
    axle.shocks.every(shock => span(shock) >= shock.shortest && span(shock) <= shock.longest) &&
    axle.straps.every(strap => span(strap) <= strap.length) &&
    axle.coils.every(coil => coil.solid === null || span(coil) >= coil.solid) &&
    !axle.bumpStops.some(holds)
  );
}

/** Distance from a point to a closed polygon, in. */
export function offPolygon(
  polygon: readonly { left: number; right: number }[],
  x: number,
  z: number,
): number {
  return Math.min(
    ...polygon.map((p, i) => {
      const q = polygon[(i + 1) % polygon.length] as { left: number; right: number };
      const [dx, dz] = [q.left - p.left, q.right - p.right];
      const size = dx * dx + dz * dz;
      const t =
        size === 0 ? 0 : Math.max(0, Math.min(1, ((x - p.left) * dx + (z - p.right) * dz) / size));
      return Math.hypot(p.left + t * dx - x, p.right + t * dz - z);
    }),
  );
}
