/** A solid: a shape in the frame of its body, as its convex pieces or as a mesh. */

import { bounded, type Piece } from './piece.ts';
import { LARGEST_in, SMALLEST_in } from './tolerances.ts';
import type { TriangleMesh } from './triangleMesh.ts';

export type SolidKind =
  | 'sphere'
  | 'capsule'
  | 'bentTube'
  | 'box'
  | 'cylinder'
  | 'tire'
  | 'hull'
  | 'mesh';

export interface Solid {
  readonly kind: SolidKind;
  /** The convex pieces that it is the union of; none for a mesh. */
  readonly pieces: readonly Piece[];
  readonly mesh: TriangleMesh | null;
  /** Center and radius of a sphere around all of it, in. */
  readonly bound: Float64Array;
  /** Whether every piece is a segment with a radius: sphere, capsule, bent tube. */
  readonly rods: boolean;
}

/** A shape, or what is wrong with its numbers in one line: field, what stands there, what is right. */
export type Made = { readonly solid: Solid } | { readonly problem: string };

export function solidOf(kind: SolidKind, pieces: readonly Piece[]): Solid {
  const solid: Solid = {
    kind,
    pieces,
    mesh: null,
    bound: new Float64Array(4),
    rods: kind === 'sphere' || kind === 'capsule' || kind === 'bentTube',
  };
  boundAgain(solid);
  return solid;
}

/** Computes the sphere around `solid` anew: the middle of its pieces' spheres and the farthest of them. */
function boundAgain(solid: Solid): void {
  const { bound, pieces } = solid;
  for (let axis = 0; axis < 3; axis++) {
    let least = Infinity;
    let most = -Infinity;
    for (const piece of pieces) {
      const center = piece.bound[axis] as number;
      const radius = piece.bound[3] as number;
      least = Math.min(least, center - radius);
      most = Math.max(most, center + radius);
    }
    bound[axis] = (least + most) / 2;
  }
  const [x = 0, y = 0, z = 0] = bound;
  let radius = 0;
  for (const piece of pieces) {
    const [px = 0, py = 0, pz = 0, r = 0] = piece.bound;
    radius = Math.max(radius, Math.hypot(px - x, py - y, pz - z) + r);
  }
  bound[3] = radius;
}

/**
 * Moves the points of a sphere, capsule or bent tube in place (in, frame of the body): for a part whose
 * ends ride on two bodies, such as a coil that follows its seats. `points`: as many as it was made
 * with, three numbers each. Fractions along a bent tube stay those of the tube as it was made.
 */
export function moveRod(solid: Solid, points: ArrayLike<number>): void {
  const { pieces } = solid;
  for (let k = 0; k < pieces.length; k++) {
    const piece = pieces[k] as Piece;
    const second = solid.kind === 'sphere' ? 3 * k : 3 * k + 3;
    for (let i = 0; i < 3; i++) {
      piece.data[i] = points[3 * k + i] as number;
      piece.data[3 + i] = points[second + i] as number;
    }
    bounded(piece);
  }
  boundAgain(solid);
}

/** What is wrong with a length, or null. It must be a size that a part can have. */
export function problemOfSize(field: string, value: number): string | null {
  if (!Number.isFinite(value)) return `${field} is ${value}; it must be a finite length`;
  if (value < SMALLEST_in) return `${field} is ${value}; it must be above 0`;
  if (value > LARGEST_in) return `${field} is ${value}; at most ${LARGEST_in} in is possible`;
  return null;
}

/** What is wrong with a point, or null. */
export function problemOfPoint(field: string, point: ArrayLike<number>): string | null {
  if (point.length !== 3) return `${field} has ${point.length} numbers; a point has 3`;
  for (let i = 0; i < 3; i++) {
    const value = point[i] as number;
    if (!Number.isFinite(value)) return `${field}[${i}] is ${value}; it must be a finite number`;
    if (Math.abs(value) > LARGEST_in) {
      return `${field}[${i}] is ${value}; at most ${LARGEST_in} in from the origin is possible`;
    }
  }
  return null;
}

/** The first problem of several checks, or null. */
export function firstOf(...problems: (string | null)[]): string | null {
  return problems.find(each => each !== null) ?? null;
}
