/** The ends of links and rods: rod ends, bushings in their eyes, ball joints, tie rod ends. */
import type { JointEnd } from '../../../geometry/build/build.ts';
import { add, anySquare, scale, sub, unit, type V3 } from '../../../geometry/vector.ts';
import { type Palette, square } from './shape.ts';

/** Where the tube of a link begins, measured from the joint's center, in. */
export function setBack(kind: JointEnd['kind'], housing: number): number {
  return kind === 'rodEnd' ? 1.55 * housing : kind === 'ball' ? 0.9 * housing : 0.42 * housing;
}

/**
 * One end of a link.
 *
 * @param inward unit, from the joint along the link
 * @param housing outer diameter of the joint's housing, in
 * @param tube outer diameter of the link's tube, in
 * @param look of the tube: an eye is welded to it
 */
export function drawJoint(
  palette: Palette,
  end: JointEnd,
  inward: V3,
  housing: number,
  tube: number,
  look: 'link' | 'trackBar',
): void {
  const { at, kind } = end;
  const across = square(end.bore ?? end.bolt ?? [0, 1, 0], inward, anySquare(inward));
  const radius = housing / 2;
  if (kind === 'rodEnd') rodEnd(palette, at, inward, across, radius, tube);
  else if (kind === 'ball') ballEnd(palette, at, inward, across, radius, tube);
  else bushing(palette, at, across, radius, look);
}

/** A ball in its ring on a threaded shank, with a jam nut against the tube and spacers beside the ball. */
function rodEnd(p: Palette, at: V3, inward: V3, across: V3, radius: number, tube: number): void {
  const shank = Math.min(0.36 * tube, 0.5 * radius);
  const back = setBack('rodEnd', 2 * radius);
  const metal = p.in('rodEnd');
  metal.ring(at, across, radius, 0.62 * radius, 0.95 * radius, 24);
  metal.bar(
    add(at, scale(inward, 0.8 * radius)),
    add(at, scale(inward, 0.8 * back)),
    0.62 * radius,
    shank * 1.1,
  );
  const bright = p.in('bright');
  bright.bar(add(at, scale(inward, 0.7 * back)), add(at, scale(inward, back + 0.1)), shank);
  metal.drum(add(at, scale(inward, back - 0.28)), inward, shank * 1.75, 0.5, 6);
  bright.ball(at, 0.63 * radius, 16);
  const reach = 1.25 * radius;
  for (const side of [-1, 1]) {
    bright.bar(
      add(at, scale(across, side * 0.4 * radius)),
      add(at, scale(across, side * reach)),
      0.46 * radius,
      0.36 * radius,
    );
  }
  // the tube's end, swaged to the shank
  p.in('rodEnd').bar(
    add(at, scale(inward, back - 0.05)),
    add(at, scale(inward, back + 0.25)),
    shank * 1.5,
  );
}

/** An eye with rubber in it and a sleeve for the bolt. */
function bushing(p: Palette, at: V3, across: V3, radius: number, look: 'link' | 'trackBar'): void {
  const width = 1.9 * radius;
  p.in(look).ring(at, across, radius, 0.78 * radius, width, 24, 0.06);
  p.in('bushing').drum(at, across, 0.86 * radius, width + 0.36, 20, 0.14);
  p.in('bright').drum(at, across, 0.34 * radius, width + 0.62, 14);
}

/** A ball in a forged socket, its stud through a boot. */
function ballEnd(p: Palette, at: V3, inward: V3, stud: V3, radius: number, tube: number): void {
  const metal = p.in('rodEnd');
  metal.drum(at, stud, radius, 1.25 * radius, 24, 0.3 * radius);
  metal.bar(
    add(at, scale(inward, 0.7 * radius)),
    add(at, scale(inward, 1.9 * radius)),
    0.5 * radius,
    0.42 * tube,
  );
  p.in('bushing').bar(
    add(at, scale(stud, 0.55 * radius)),
    add(at, scale(stud, 1.15 * radius)),
    0.78 * radius,
    0.42 * radius,
  );
  p.in('bright').bar(at, add(at, scale(stud, 1.6 * radius)), 0.36 * radius, 0.3 * radius);
}

/**
 * The end of a steering rod: a round socket on its shank, with a boot and a stud that points where the arm is.
 *
 * @param stud unit, along the stud
 * @param arm towards the arm that carries it, along the stud: 1 or −1
 */
export function tieRodEnd(
  p: Palette,
  at: V3,
  inward: V3,
  stud: V3,
  arm: 1 | -1,
  rod: number,
): void {
  const radius = 0.82 * rod;
  const metal = p.in('rodEnd');
  metal.drum(at, stud, radius, 1.15 * rod, 20, 0.2 * rod);
  const shank = add(at, scale(inward, 3.1 * rod));
  metal.bar(add(at, scale(inward, 0.5 * rod)), shank, 0.46 * rod, 0.36 * rod);
  p.in('steering').drum(add(at, scale(inward, 2.9 * rod)), inward, 0.7 * rod, 0.55 * rod, 6);
  const up = scale(stud, arm);
  p.in('bushing').bar(
    add(at, scale(up, 0.5 * rod)),
    add(at, scale(up, 0.95 * rod)),
    0.74 * rod,
    0.42 * rod,
  );
  const bright = p.in('bright');
  bright.bar(add(at, scale(up, 0.5 * rod)), add(at, scale(up, 2.1 * rod)), 0.34 * rod, 0.28 * rod);
  bright.drum(add(at, scale(up, 2.15 * rod)), stud, 0.5 * rod, 0.4 * rod, 6);
}

/** Points of a line with both ends cut back along it by lengths. */
export function cutBack(points: readonly V3[], first: number, last: number): V3[] {
  const out = [...points];
  const cut = (at: number, next: number, by: number): void => {
    const [end, other] = [out[at], out[next]];
    if (end && other) out[at] = add(end, scale(unit(sub(other, end)), by));
  };
  cut(0, 1, first);
  cut(out.length - 1, out.length - 2, last);
  return out;
}
