/**
 * The edge of the range, found as a closed curve.
 *
 * The curve is followed by turning: on a circle of radius s about a point of the edge, with the inside on the
 * left, the next point is where the circle, turned through the outside, first comes inside. That takes corners, hollows and edges
 * that are no smooth function (a pad that slides off, a pose that ends) alike; following the gradient of one
 * stop and solving corners for two was left, since neither exists there. Then points are put in until the
 * curve lies within EDGE_in of its chords.
 */
import { type Crossing, closeOn, type Sided } from './crossing.ts';
import { type End, FAR_in, type Reach } from './reach.ts';

/** A point of the edge: travels, and what ends the travel from it on to the next point. */
export interface EdgePoint extends End {
  left: number;
  right: number;
}

/** What the range is found in: anything that tells margins of travel. */
export type Ground = Pick<Reach, 'travel'>;

/** Distance of the curve from its chords, in. */
export const EDGE_in = 1e-3;
/** Radius of the circle with which the edge is followed, in. */
const STRIDE_in = 0.4;
/** Most points of the chain: around a range of 60 in by 60 in, it is 600. */
const MOST_POINTS = 4000;
/** Where on the circle the search begins, right of the way so far, and its steps, rad. */
const FIRST_TURN = (100 * Math.PI) / 180;
const TURN_STEP = (20 * Math.PI) / 180;
/** Points of the edge are found to this, in; for a first look to a hundredth of what a tape can tell. */
const CROSSING_in = 1e-9;
export const GLANCE_in = 1e-3;

/** True where (left, right) lies inside the edge or on it (crossing number). */
export function inside(edge: readonly EdgePoint[], left: number, right: number): boolean {
  let odd = false;
  for (let i = 0, j = edge.length - 1; i < edge.length; j = i++) {
    const a = edge[i] as EdgePoint;
    const b = edge[j] as EdgePoint;
    if (a.right > right === b.right > right) continue;
    const at = a.left + ((right - a.right) / (b.right - a.right)) * (b.left - a.left);
    if (left < at) odd = !odd;
  }
  return odd;
}

/**
 * The furthest point along a direction from a point inside: where the stops end it, to CROSSING_in, on the
 * inner side.
 */
export function furthest(
  reach: Ground,
  from: readonly [number, number],
  direction: readonly [number, number],
): EdgePoint {
  const at = (t: number): [number, number] => [
    from[0] + t * direction[0],
    from[1] + t * direction[1],
  ];
  const size = Math.hypot(direction[0], direction[1]);
  const state = (t: number): Sided<End> => sided(reach, ...at(t));
  let inner = 0;
  let innerMargin = 0;
  let end: End = { by: 'noPose', part: null, side: null };
  do {
    const outer = inner + 0.5 / size;
    const there = state(outer);
    if (there.margin < 0) {
      const crossing = closeOn(state, inner, innerMargin, outer, there, CROSSING_in / size);
      inner = crossing.inner;
      end = crossing.outside;
      break;
    }
    inner = outer;
    innerMargin = there.margin;
  } while (inner * size < 4 * FAR_in);
  const [left, right] = at(inner);
  return { left, right, ...end };
}

function sided(reach: Ground, left: number, right: number): Sided<End> {
  const { margin, nearest } = reach.travel(left, right);
  return { margin, what: nearest };
}

/**
 * The edge around ride height as a chain of points STRIDE_in apart, closer where it is narrow. It begins where
 * the way to both wheels up leaves the inside; where that is the edge of a hole, at the next such place. Holes
 * are left out of it, but not out of what the stops allow.
 *
 * @param crossing points are found to this, in
 */
export function followEdge(ground: Ground, crossing = CROSSING_in): EdgePoint[] {
  let from = 0;
  let edge: EdgePoint[] = [];
  while (from < FAR_in) {
    const first = furthest(ground, [from, from], [1, 1]);
    edge = followFrom(ground, first, crossing);
    // around a hole the inside on the left makes it clockwise
    if (areaOf(edge) >= 0) break;
    from = first.left;
    do from += STRIDE_in;
    while (from < FAR_in && ground.travel(from, from).margin < 0);
  }
  return edge;
}

function areaOf(edge: readonly EdgePoint[]): number {
  return edge.reduce((sum, p, i) => {
    const q = edge[(i + 1) % edge.length] as EdgePoint;
    return sum + (p.left * q.right - q.left * p.right) / 2;
  }, 0);
}

function followFrom(ground: Ground, first: EdgePoint, crossing: number): EdgePoint[] {
  const edge: EdgePoint[] = [first];
  // from both up, inside on the left, the way goes towards left down: (−1, 1)/√2
  let heading = (3 * Math.PI) / 4;
  let point = first;
  let stride = STRIDE_in;
  for (let n = 0; n < MOST_POINTS; n++) {
    const next = turnAround(ground, point, heading, stride, crossing);
    if (!next) break;
    heading = Math.atan2(next.right - point.right, next.left - point.left);
    stride = Math.min(STRIDE_in, 2 * distanceOf(next, point));
    point = next;
    edge.push(point);
    if (n > 1 && distanceOf(point, first) < 0.9 * stride) break;
  }
  return edge;
}

const distanceOf = (a: EdgePoint, b: EdgePoint): number =>
  Math.hypot(a.left - b.left, a.right - b.right);

/**
 * The next point on a circle about `p`: from the outside on the right, counterclockwise, the first angle that
 * comes inside. The circle is halved where it misses the inside: in tips and in ranges smaller than it.
 */
function turnAround(
  ground: Ground,
  p: EdgePoint,
  heading: number,
  stride: number,
  crossing: number,
): EdgePoint | null {
  for (let radius = stride; radius > EDGE_in / 4; radius /= 2) {
    const at = (angle: number): [number, number] => [
      p.left + radius * Math.cos(angle),
      p.right + radius * Math.sin(angle),
    ];
    const state = (angle: number): Sided<End> => sided(ground, ...at(angle));
    let outer = heading - FIRST_TURN;
    let outside = state(outer);
    // past an edge that turns back to the right, further back
    while (outside.margin >= 0 && outer > heading - Math.PI - TURN_STEP) {
      outer -= TURN_STEP;
      outside = state(outer);
    }
    if (outside.margin >= 0) continue;
    const once = outer + 2 * Math.PI;
    for (let angle = outer + TURN_STEP; angle < once; angle += TURN_STEP) {
      const there = state(angle);
      if (there.margin < 0) {
        outer = angle;
        outside = there;
        continue;
      }
      const end = crossing / radius;
      const found: Crossing<End> = closeOn(state, angle, there.margin, outer, outside, end);
      const [left, right] = at(found.inner);
      return { left, right, ...found.outside };
    }
  }
  return null;
}

/**
 * Puts points in until the edge lies within `within` of its chords, in, and changes of the stop to that too.
 */
export function refineEdge(ground: Ground, edge: EdgePoint[], within = EDGE_in): EdgePoint[] {
  const out: EdgePoint[] = [];
  const between = (a: EdgePoint, b: EdgePoint, depth: number): void => {
    const chord = Math.hypot(b.left - a.left, b.right - a.right);
    const changes = a.by !== b.by || a.part !== b.part;
    if (depth === 0 || chord < within / 4) return;
    const middle = changes ? towardsCorner(ground, a, b, chord) : beyond(ground, a, b, chord, 0);
    if (!middle) return;
    const off = Math.hypot(
      middle.left - (a.left + b.left) / 2,
      middle.right - (a.right + b.right) / 2,
    );
    // the chord's error is off; half of it is aimed at, since the points in between are not looked at
    if (off <= within / 2 && !(changes && chord > within)) return;
    between(a, middle, depth - 1);
    out.push(middle);
    between(middle, b, depth - 1);
  };
  for (const [i, a] of edge.entries()) {
    out.push(a);
    between(a, edge[(i + 1) % edge.length] as EdgePoint, 14);
  }
  return out;
}

/** Ways from a chord to a corner beyond it, from its normal, rad: a tip may lie aslant. */
const ASLANT = [0, 12, -12, 25, -25, 40, -40, 60, -60].map(angle => (angle * Math.PI) / 180);

/** The point of the edge that is furthest beyond a chord between two stops, of those on some ways there. */
function towardsCorner(
  ground: Ground,
  a: EdgePoint,
  b: EdgePoint,
  chord: number,
): EdgePoint | null {
  const off = (p: EdgePoint): number =>
    Math.abs((b.left - a.left) * (p.right - a.right) - (b.right - a.right) * (p.left - a.left));
  let best: EdgePoint | null = null;
  for (const angle of ASLANT) {
    const found = beyond(ground, a, b, chord, angle);
    if (found && (!best || off(found) > off(best))) best = found;
  }
  return best;
}

/**
 * The edge's point on a way from the middle of a chord, `angle` from its normal, rad: outward where the middle is
 * inside, else inward. Null where none is near.
 */
function beyond(
  ground: Ground,
  a: EdgePoint,
  b: EdgePoint,
  chord: number,
  angle: number,
): EdgePoint | null {
  const along = [(b.left - a.left) / chord, (b.right - a.right) / chord] as const;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  // the normal to the right, turned towards `b`
  const outward = [cos * along[1] + sin * along[0], -cos * along[0] + sin * along[1]] as const;
  const middle = [(a.left + b.left) / 2, (a.right + b.right) / 2] as const;
  const at = (t: number): [number, number] => [
    middle[0] + t * outward[0],
    middle[1] + t * outward[1],
  ];
  const state = (t: number): Sided<End> => sided(ground, ...at(t));
  let here = { t: 0, ...state(0) };
  const way = here.margin >= 0 ? 1 : -1;
  // from inside it may be far to the end of a tip that the chord cuts off
  const shares = way > 0 ? [0.02, 0.1, 0.4, 1, 2, 4, 8] : [0.02, 0.1, 0.4, 1];
  for (const share of shares) {
    const t = way * share * chord;
    if (share > 1 && t > 2 * STRIDE_in) break;
    const there = { t, ...state(t) };
    if (there.margin >= 0 !== here.margin >= 0) {
      const [inner, outer] = here.margin >= 0 ? [here, there] : [there, here];
      const crossing = closeOn(state, inner.t, inner.margin, outer.t, outer, CROSSING_in);
      const [left, right] = at(crossing.inner);
      return { left, right, ...crossing.outside };
    }
    here = there;
  }
  return null;
}
