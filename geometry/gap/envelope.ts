/**
 * A fat capsule around a solid: a segment and a radius. Spheres around long parts and boxes around diagonal ones
 * hold mostly air; two capsules have their distance in closed form.
 */
import { SEGMENT } from '../solid/piece.ts';
import type { Solid } from '../solid/solid.ts';
import { cornersAround } from '../solid/support.ts';
import { NODE_SIZE, type TriangleMesh } from '../solid/triangleMesh.ts';
import { cross, dot, norm, scale, sub, unit, type V3 } from '../vector.ts';

export interface Envelope {
  /** Both ends of the segment, vehicle axes as drawn, in. */
  ends: Float64Array;
  radius: number;
}

/** A ball that the envelope has to hold. */
interface Ball {
  at: V3;
  radius: number;
}

/** Steps towards the smallest circle; its radius is then too large by a few percent at most. */
const CIRCLE_STEPS = 60;
/** Levels of a mesh's tree that are looked at: the corners of 128 boxes. */
const MESH_DEPTH = 7;

/** The narrowest capsule of a few directions that holds all of these solids. */
export function envelopeOf(solids: readonly Solid[]): Envelope {
  const balls = solids.flatMap(ballsOf);
  const directions: V3[] = [[1, 0, 0], [0, 1, 0], [0, 0, 1], longestWay(balls)];
  let best: Envelope | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const direction of directions) {
    const found = around(balls, direction);
    const size = volume(found);
    if (size >= least) continue;
    least = size;
    best = found;
  }
  return best as Envelope;
}

function ballsOf(solid: Solid): Ball[] {
  const out: Ball[] = [];
  const put = (points: Float64Array, radius: number): void => {
    for (let i = 0; i + 2 < points.length; i += 3) {
      const at: V3 = [points[i] as number, points[i + 1] as number, points[i + 2] as number];
      out.push({ at, radius });
    }
  };
  if (solid.mesh) put(boxCorners(solid.mesh, 0, 0), 0);
  for (const piece of solid.pieces) {
    put(piece.core === SEGMENT ? piece.data.slice(0, 6) : cornersAround(piece), piece.radius);
  }
  return out;
}

/** Corners of the boxes of a mesh's tree, some levels down. */
function boxCorners(mesh: TriangleMesh, node: number, depth: number): Float64Array {
  const { nodes, links } = mesh;
  if (depth < MESH_DEPTH && links[2 * node + 1] === 0) {
    const one = boxCorners(mesh, node + 1, depth + 1);
    const two = boxCorners(mesh, links[2 * node] as number, depth + 1);
    const both = new Float64Array(one.length + two.length);
    both.set(one);
    both.set(two, one.length);
    return both;
  }
  const at = NODE_SIZE * node;
  const out = new Float64Array(24);
  for (let k = 0; k < 24; k++) {
    const axis = k % 3;
    const half = nodes[at + 3 + axis] as number;
    out[k] = (nodes[at + axis] as number) + ((k / 3) & (1 << axis) ? half : -half);
  }
  return out;
}

/** Between two points far from each other: from the first to the farthest, and from there to the farthest. */
function longestWay(balls: readonly Ball[]): V3 {
  const farthest = (from: V3): V3 => {
    let found = from;
    let most = 0;
    for (const { at } of balls) {
      const away = norm(sub(at, from));
      if (away <= most) continue;
      most = away;
      found = at;
    }
    return found;
  };
  const one = farthest((balls[0] as Ball).at);
  const way = sub(farthest(one), one);
  return norm(way) > 0 ? unit(way) : [1, 0, 0];
}

/** The capsule along a direction: a small circle around what is seen along it, and then as short as can be. */
function around(balls: readonly Ball[], direction: V3): Envelope {
  const u = unit(cross(direction, Math.abs(direction[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0]));
  const v = cross(direction, u);
  const n = balls.length;
  const flat = new Float64Array(4 * n);
  for (const [i, { at, radius }] of balls.entries()) {
    flat.set([dot(at, u), dot(at, v), dot(at, direction), radius], 4 * i);
  }
  let x = 0;
  let y = 0;
  for (let i = 0; i < n; i++) {
    x += (flat[4 * i] as number) / n;
    y += (flat[4 * i + 1] as number) / n;
  }
  // towards the farthest ball by ever smaller steps (Bădoiu and Clarkson, 2003, from memory)
  let radius = 0;
  let bestX = x;
  let bestY = y;
  let least = Number.POSITIVE_INFINITY;
  for (let step = 1; step <= CIRCLE_STEPS; step++) {
    let most = -1;
    let far = 0;
    for (let i = 0; i < n; i++) {
      const away =
        Math.hypot((flat[4 * i] as number) - x, (flat[4 * i + 1] as number) - y) +
        (flat[4 * i + 3] as number);
      if (away <= most) continue;
      most = away;
      far = i;
    }
    if (most < least) {
      least = most;
      bestX = x;
      bestY = y;
    }
    x += ((flat[4 * far] as number) - x) / (step + 1);
    y += ((flat[4 * far + 1] as number) - y) / (step + 1);
  }
  radius = least * (1 + 1e-12) + 1e-12;
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    const away = Math.hypot((flat[4 * i] as number) - bestX, (flat[4 * i + 1] as number) - bestY);
    const inside = radius - (flat[4 * i + 3] as number);
    const cap = Math.sqrt(Math.max(0, inside * inside - away * away));
    from = Math.min(from, (flat[4 * i + 2] as number) + cap);
    to = Math.max(to, (flat[4 * i + 2] as number) - cap);
  }
  if (from > to) {
    // rounder than long: a ball about the middle
    const middle = (from + to) / 2;
    from = middle;
    to = middle;
    for (let i = 0; i < n; i++) {
      const away = Math.hypot(
        (flat[4 * i] as number) - bestX,
        (flat[4 * i + 1] as number) - bestY,
        (flat[4 * i + 2] as number) - middle,
      );
      radius = Math.max(radius, (away + (flat[4 * i + 3] as number)) * (1 + 1e-12));
    }
  }
  const end = (along: number): V3 => {
    const [a, b, c] = [scale(u, bestX), scale(v, bestY), scale(direction, along)];
    return [a[0] + b[0] + c[0], a[1] + b[1] + c[1], a[2] + b[2] + c[2]];
  };
  return { ends: Float64Array.from([...end(from), ...end(to)]), radius };
}

function volume({ ends, radius }: Envelope): number {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = ends;
  const length = Math.hypot(d - a, e - b, f - c);
  return radius * radius * (length + (4 / 3) * radius);
}
