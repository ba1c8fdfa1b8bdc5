/**
 * A flat cut through two placed solids at the spot where they are nearest, square to the touch. The plane holds the
 * line between their nearest points; of all that do, the one that is most square to both parts' own axes, so that a
 * tube is cut round and a rail as a rectangle.
 *
 * Outlines come from the signed distance of points of the plane to each solid: a grid, refined where a surface can
 * be, and marching squares on its finest cells. That is alike for every shape, meshes among them.
 */
import { DistanceSolver } from '../../geometry/solid/distance.ts';
import { BOX, CYLINDER, type Piece, SEGMENT } from '../../geometry/solid/piece.ts';
import { type Placement, unmoved } from '../../geometry/solid/placement.ts';
import type { Solid } from '../../geometry/solid/solid.ts';
import { sphere } from '../../geometry/solid/sphere.ts';
import {
  add,
  anySquare,
  cross,
  dot,
  norm,
  reject,
  scale,
  sub,
  unit,
  type V3,
} from '../../geometry/vector.ts';
import { contours, type Outline, type P2 } from './contours.ts';

/** A solid where it stands. */
export interface Placed {
  solid: Solid;
  /** chassisFromPart */
  place: Placement;
}

/** Plane of a section: `across` points from the first part to the second, square to the touch. Vehicle axes, in. */
export interface SectionPlane {
  origin: V3;
  across: V3;
  along: V3;
}

export interface Section {
  plane: SectionPlane;
  /** Half of the shorter side of what is to be shown, in. */
  half: number;
  /** Closed outlines in the plane, in: x along `across`, y along `along`. */
  a: Outline[];
  b: Outline[];
  /** Gap and nearest points on both surfaces, in the plane. */
  gap: number;
  pointA: P2;
  pointB: P2;
  /** Unit direction of the plane's picture that points most up in the vehicle; zero in a level plane. */
  up: P2;
}

/** Radius of the ball that stands for a point of the plane, in. */
const POINT_in = 1e-4;
/** Points nearer than this give no direction, in. */
const APART_in = 1e-7;
/** Half the width of what is shown: no smaller, no larger, in. */
const LEAST_in = 0.7;
const MOST_in = 9;

export interface SectionOptions {
  /** Half of the shorter side of what is to be shown, in; found from gap and parts unless given. */
  half?: number;
  /** How much more the outlines cover: for pictures that are not square. */
  cover?: number;
  /** Cells along what is covered: a power of two. */
  cells?: number;
}

/** Cuts through two placed solids at their nearest spot. */
export function sectionOf(first: Placed, second: Placed, options: SectionOptions = {}): Section {
  const solver = new DistanceSolver();
  solver.run(first.solid, first.place, second.solid, second.place);
  const found = solver.result();
  if (!found) throw new Error('a gap without a cutoff has a result');
  const { gap, pointA, pointB, normal } = found;
  const between = sub(pointB, pointA);
  const across =
    norm(normal) > 0.5
      ? unit(normal)
      : norm(between) > APART_in
        ? unit(between)
        : ([1, 0, 0] as V3);
  const along = squareTo(across, [axisOf(first, pointA), axisOf(second, pointB)]);
  const origin = scale(add(pointA, pointB), 0.5);
  const plane: SectionPlane = { origin, across, along };
  const inPlane = (p: V3): P2 => {
    const from = sub(p, origin);
    return [dot(from, across), dot(from, along)];
  };
  const fields = [first, second].map(placed => signedDistance(plane, placed));
  const [fieldA, fieldB] = fields as [Field, Field];
  const half = options.half ?? halfToShow(gap, [first, second], fieldA, fieldB);
  const { cells = 64, cover = 1 } = options;
  return {
    plane,
    half,
    a: contours(fieldA, half * cover, cells),
    b: contours(fieldB, half * cover, cells),
    gap,
    pointA: inPlane(pointA),
    pointB: inPlane(pointB),
    up: upIn(plane),
  };
}

/** Signed distance from a point of the plane to a solid, in; negative inside. */
export type Field = (x: number, y: number) => number;

function signedDistance({ origin, across, along }: SectionPlane, { solid, place }: Placed): Field {
  const made = sphere({ center: [0, 0, 0], radius: POINT_in });
  if ('problem' in made) throw new Error(made.problem);
  const ball = made.solid;
  const at = unmoved();
  const solver = new DistanceSolver();
  // a surface without inside is drawn as a sheet of this thickness
  const sheet = solid.mesh && !solid.mesh.closed ? SHEET_in : 0;
  return (x, y) => {
    for (let i = 0; i < 3; i++) {
      at[9 + i] = (origin[i] as number) + x * (across[i] as number) + y * (along[i] as number);
    }
    solver.run(ball, at, solid, place);
    return solver.gap + POINT_in - sheet;
  };
}

/** Half the thickness in which a mesh that is not closed is drawn, in. */
const SHEET_in = 0.04;

/** How much is shown: the overlap with some room, or the gap with what stands on both sides of it. */
function halfToShow(gap: number, placed: readonly Placed[], a: Field, b: Field): number {
  const size = Math.min(...placed.map(sizeOf));
  let half = Math.max(LEAST_in, 1.9 * Math.abs(gap), Math.min(1.15 * size + Math.abs(gap) / 2, 3));
  if (gap < 0) {
    // as far along the touch as the parts overlap
    const step = 0.05;
    let far = 0;
    for (const way of [1, -1]) {
      let t = 0;
      while (t < MOST_in && Math.max(a(0, way * t), b(0, way * t)) < 0) t += step * (1 + t);
      far = Math.max(far, t);
    }
    half = Math.max(half, 1.2 * far);
  }
  return Math.min(MOST_in, half);
}

/** How thick a part is about there: the radius of a rod, or the ball around what is no rod. */
function sizeOf({ solid }: Placed): number {
  const [piece] = solid.pieces;
  if (solid.rods && piece) return 2 * piece.radius;
  return solid.bound[3] as number;
}

/** The own axis of a part at a point of it, vehicle axes; null for one that has none. */
function axisOf({ solid, place }: Placed, at: V3): V3 | null {
  let axis: V3 | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const piece of solid.pieces) {
    const own = pieceAxis(piece);
    if (!own) continue;
    const { middle, reach } = placedMiddle(piece, place);
    const away = norm(sub(at, middle)) - reach;
    if (away < least) {
      least = away;
      axis = unit(turnedBy(place, own));
    }
  }
  return axis;
}

/** Middle of a piece, and the radius of the ball around it, in the common frame. */
function placedMiddle({ bound }: Piece, place: Placement): { middle: V3; reach: number } {
  const [x = 0, y = 0, z = 0, reach = 0] = bound;
  const turned = turnedBy(place, [x, y, z]);
  return { middle: add(turned, [place[9] ?? 0, place[10] ?? 0, place[11] ?? 0]), reach };
}

const turnedBy = (m: Placement, [x, y, z]: V3): V3 => [
  (m[0] ?? 0) * x + (m[1] ?? 0) * y + (m[2] ?? 0) * z,
  (m[3] ?? 0) * x + (m[4] ?? 0) * y + (m[5] ?? 0) * z,
  (m[6] ?? 0) * x + (m[7] ?? 0) * y + (m[8] ?? 0) * z,
];

/** Along a segment, about a cylinder, along a box's longest edge; null for a ball and for points. */
function pieceAxis({ core, data }: Piece): V3 | null {
  const v = (i: number): V3 => [data[i] ?? 0, data[i + 1] ?? 0, data[i + 2] ?? 0];
  if (core === SEGMENT) {
    const line = sub(v(3), v(0));
    return norm(line) > APART_in ? unit(line) : null;
  }
  if (core === CYLINDER) return v(3);
  if (core === BOX) {
    const half = v(12);
    const longest = half.indexOf(Math.max(...half));
    return v(3 + 3 * longest);
  }
  return null;
}

/**
 * The direction square to `across` that is most square to all axes: with n the plane's normal, the n that has the
 * greatest sum of (n · axis)², an eigenvector of two by two numbers in the plane square to `across`.
 */
function squareTo(across: V3, axes: readonly (V3 | null)[]): V3 {
  const e = anySquare(across);
  const f = cross(across, e);
  let [ee, ef, ff] = [0, 0, 0];
  for (const axis of axes) {
    if (!axis) continue;
    const side = reject(axis, across);
    const [p, q] = [dot(side, e), dot(side, f)];
    ee += p * p;
    ef += p * q;
    ff += q * q;
  }
  const isEven = Math.hypot(ee - ff, 2 * ef) < 1e-9;
  // with no axis to go by the plane stands upright
  const normal = isEven ? levelSquare(across) : turnedIn(e, f, 0.5 * Math.atan2(2 * ef, ee - ff));
  return unit(cross(normal, across));
}

const turnedIn = (e: V3, f: V3, angle: number): V3 =>
  add(scale(e, Math.cos(angle)), scale(f, Math.sin(angle)));

function levelSquare(across: V3): V3 {
  const level = cross(across, [0, 0, 1]);
  return norm(level) > 1e-6 ? unit(level) : [0, 1, 0];
}

/** Where up is in the picture. */
function upIn({ across, along }: SectionPlane): P2 {
  const size = Math.hypot(across[2], along[2]);
  return size < 1e-3 ? [0, 0] : [across[2] / size, along[2] / size];
}
