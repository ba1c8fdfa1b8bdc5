/** Links, track bars, radius arms, the driveshaft and the sway bar. */
import type { Axle, JointEnd } from '../../../geometry/build/build.ts';
import type { Part } from '../../../geometry/gap/part.ts';
import { ASSUMED } from '../../../geometry/gap/partSizes.ts';
import {
  add,
  anySquare,
  cross,
  distance,
  dot,
  scale,
  sub,
  unit,
  type V3,
} from '../../../geometry/vector.ts';
import { cutBack, drawJoint, setBack } from './joints.ts';
import { drawer, type Palette, square } from './shape.ts';

const housingOf = (end: JointEnd, od: number): number => end.housing ?? od * ASSUMED.housingFactor;

const linkFrom = ({ name }: Part, { links }: Axle) => links.find(each => each.name === name);

export const drawLink = drawer(linkFrom, (_part, link, palette) => {
  const look = link.kind === 'track bar' ? 'trackBar' : 'link';
  const od = link.tube?.od ?? ASSUMED.linkTube;
  const points = [link.axle.at, ...link.through, link.chassis.at];
  const ends = [link.axle, link.chassis] as const;
  const [first, last] = ends.map(end => setBack(end.kind, housingOf(end, od))) as [number, number];
  palette.in(look).tube(cutBack(points, first, last), od / 2, 18);
  for (const [i, end] of ends.entries()) {
    const next = points[i === 0 ? 1 : points.length - 2] as V3;
    drawJoint(palette, end, unit(sub(next, end.at)), housingOf(end, od), od, look);
  }
});

const armFrom = ({ name }: Part, { radiusArms }: Axle) =>
  radiusArms.find(each => each.name === name);

/** A radius arm: boxed between its two bushings on the axle, then a tube to the frame. */
export const drawRadiusArm = drawer(armFrom, (_part, arm, palette) => {
  const od = arm.tube?.od ?? ASSUMED.linkTube;
  const [far, near] = [...arm.axle].sort(
    (a, b) => distance(b.at, arm.chassis.at) - distance(a.at, arm.chassis.at),
  ) as [JointEnd, JointEnd];
  const points = [far.at, near.at, ...arm.through, arm.chassis.at];
  const back = setBack(arm.chassis.kind, housingOf(arm.chassis, od));
  palette.in('link').tube(cutBack(points, 0.45 * housingOf(far, od), back), od / 2, 16);
  // a plate between both eyes, as wide as the tube
  const along = sub(near.at, far.at);
  const length = Math.hypot(...along);
  if (length > od) {
    const x = unit(along);
    const y = square(far.bolt ?? [0, 1, 0], x, anySquare(x));
    const middle = add(far.at, scale(along, 0.5));
    const half: V3 = [length / 2 - 0.3 * housingOf(far, od), od * 0.42, od * 0.72];
    palette.in('link').block(middle, [x, y, cross(x, y)], half);
  }
  for (const [end, next] of [
    [far, near.at],
    [near, points[2] as V3],
    [arm.chassis, points.at(-2) as V3],
  ] as const) {
    drawJoint(palette, end, unit(sub(next, end.at)), housingOf(end, od), od, 'link');
  }
});

const shaftFrom = ({ kind }: Part, { driveline }: Axle) => kind === 'driveshaft' && driveline;

/** Tube on the pinion's side, a splined stub that slides in it, yokes and crosses at both ends. */
export const drawDriveshaft = drawer(shaftFrom, (_part, shaft, palette) => {
  const od = shaft.tubeOd ?? ASSUMED.driveshaftTube;
  const [a, b] = [shaft.pinion.joint, shaft.transferCase.joint];
  const u = unit(sub(b, a));
  const length = distance(a, b);
  const yoke = Math.min(0.95 * od, length / 6);
  const at = (end: V3, way: 1 | -1, by: number): V3 => add(end, scale(u, way * by));
  const slip = Math.max(...(shaft.slip ?? [-2, 2]).map(Math.abs));
  // held at the transfer case: a short tube and the spline that goes into the other half
  const stub = Math.min(0.3 * length, yoke + od + slip + 3);
  const tube = palette.in('driveshaft', 0);
  tube.bar(at(a, 1, yoke), at(b, -1, stub), od / 2, od / 2, 22);
  tube.ring(at(b, -1, stub), u, 0.53 * od, 0.36 * od, 0.7, 22);
  const other = palette.in('driveshaft', 1);
  other.bar(at(b, -1, yoke), at(b, -1, yoke + 0.6 * od), od / 2, 0.44 * od, 22);
  palette
    .in('bright', 1)
    .bar(at(b, -1, yoke), at(b, -1, stub + slip + 1), 0.33 * od, 0.33 * od, 14);
  yokeAt(palette, 0, a, u, od, yoke);
  yokeAt(palette, 1, b, scale(u, -1), od, yoke);
});

/** Two ears about a joint's center, and the cross between them. */
function yokeAt(
  palette: Palette,
  hold: 0 | 1,
  at: V3,
  inward: V3,
  od: number,
  length: number,
): void {
  const y = anySquare(inward);
  const z = cross(inward, y);
  const metal = palette.in('driveshaft', hold);
  for (const side of [-1, 1]) {
    const ear = add(at, scale(y, side * 0.36 * od));
    metal.block(
      add(ear, scale(inward, length / 2)),
      [inward, y, z],
      [length / 2, 0.09 * od, 0.24 * od],
    );
    metal.drum(ear, y, 0.24 * od, 0.18 * od, 14, 0.04);
  }
  const bright = palette.in('bright', hold);
  bright.drum(at, y, 0.12 * od, 0.86 * od, 10);
  bright.drum(at, z, 0.12 * od, 0.86 * od, 10);
  bright.ball(at, 0.17 * od, 10);
}

const barFrom = ({ kind }: Part, { swayBar }: Axle) =>
  kind === 'swayBar' && swayBar && swayBar.arms.length > 1 && swayBar;

/** The bar, or one of its arms, each with round ends so that they meet in an elbow. */
export const drawSwayBar = drawer(barFrom, (part, bar, palette) => {
  const radius = (bar.tubeOd ?? ASSUMED.swayBar) / 2;
  const foot = (tip: V3): V3 =>
    add(bar.axis.at, scale(bar.axis.direction, dot(sub(tip, bar.axis.at), bar.axis.direction)));
  const [first, second] = bar.arms;
  if (!first || !second) return;
  const arm = bar.arms.find(({ side }) => part.name.startsWith(`${side} `));
  const points = arm ? [foot(arm.tip), arm.tip] : [foot(first.tip), foot(second.tip)];
  palette.in('steelBar').tube(points, radius, 14);
});
