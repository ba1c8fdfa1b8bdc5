/**
 * Axles that move in one plane as the tables' linkages do. Tables are in millimeters and degrees.
 * What must not matter is made so long that it does not: a bar of 1e7 in turns by 1e-6 and shifts by 1e-6 in.
 */
import type { Axle, Link, Vec3 } from '../../geometry/build/build.ts';
import type { AxleModel } from '../../geometry/pose/model.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { rear } from '../pose/families.ts';
import { link } from '../pose/layouts.ts';

export const MM = 1 / 25.4;
export const DEG = Math.PI / 180;
export const FAR = 1e7;

/** A point in side view, mm. */
export type Side = readonly [x: number, z: number];

const at = (p: Side, y: number): Vec3 => [p[0] * MM, y * MM, p[1] * MM];

/** A pair of equal links at ±y. */
export const pair = (name: string, axle: Side, chassis: Side, y: number, chassisY = y): Link[] => [
  link(`left ${name}`, at(axle, y), at(chassis, chassisY)),
  link(`right ${name}`, at(axle, -y), at(chassis, -chassisY)),
];

export const single = (name: string, axle: Side, chassis: Side, y = 0): Link =>
  link(name, at(axle, y), at(chassis, y));

/** A level bar to the left from a point, mm; by default so long that it holds the axle in its plane. */
export const bar = (axle: Vec3, length = FAR / MM): Link =>
  link('track bar', axle.map(x => x * MM) as unknown as Vec3, [
    axle[0] * MM,
    (axle[1] + length) * MM,
    axle[2] * MM,
  ]);

/** An axle whose wheel centers lie beside `origin` (side view, mm). */
export const axleAt = (origin: Side, links: Link[], more: Partial<Axle> = {}): Axle =>
  rear(links, { origin: at(origin, 0), wheelCenters: 1600 * MM, ...more });

/** The pose at these travels, mm. @throws where there is none */
export function poseAt(model: AxleModel, left: number, right = left, steer = 0): Pose {
  const { pose, status, part } = model.pose(left * MM, right * MM, steer);
  if (!pose) throw new Error(`${status} at ${left}, ${right} mm: ${part}`);
  return pose;
}

/** Shift of the axle's origin from ride, mm. */
export const shift = (model: AxleModel, pose: Pose): Vec3 =>
  [0, 1, 2].map(
    c => ((pose.axle.o[c] as number) - (model.ride.axle.o[c] as number)) / MM,
  ) as unknown as Vec3;
