/**
 * The range: the region of left × right travel that the stops allow, connected to ride height, found as a
 * closed curve.
 *
 * The curve is followed by turning: on a circle of radius s about a point of the edge, with the inside on the
 * left, the next point is where the circle first leaves the inside. That takes corners, hollows and edges
 * that are no smooth function (a pad that slides off, a pose that ends) alike; following the gradient of one
 * stop and solving corners for two was left, since neither exists there. Then points are put in until the
 * curve lies within EDGE_in of its chords.
 */
import type { Axle, Build } from '../build/build.ts';
import type { AxleModel } from '../pose/model.ts';
import { type Crossing, closeOn, type Sided } from './crossing.ts';
import { type End, FAR_in, Reach } from './reach.ts';

/** A point of the edge: travels, and what ends the travel from it on to the next point. */
export interface EdgePoint extends End {
  left: number;
  right: number;
}

export interface Range {
  /** Closed, inside on the left (counterclockwise in left × right); empty where the range is. */
  edge: EdgePoint[];
  /** What makes the edge, each once, longest stretch first. */
  ends: End[];
  /** Directions that nothing stops: the walk goes to the assumed travel there. */
  unstopped: { side: 'left' | 'right'; direction: 'up' | 'down' }[];
  /** Travel taken for those, in. */
  assumedTravel: { up: number; down: number };
  holdsRide: boolean;
  /** Pieces of the region that the stops allow, seen on a grid of PIECE_GRID_in; more than one is told. */
  pieces: number;
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
/** Points of the edge are found to this, in. */
const CROSSING_in = 1e-9;
/** Grid on which separate pieces are looked for, in. */
const PIECE_GRID_in = 1;
/** How far around the traced piece others are looked for, in. */
const PIECE_REACH_in = 4;
/** Travel assumed where nothing stops the axle and the build does not say, in. Common practice, no source. */
export const DEFAULT_ASSUMED_in = { up: 5, down: 5 };

/**
 * Finds the range of an axle. The reach that comes back has its box set where directions have no stop.
 *
 * @param travel go no further than this, in, whatever the stops allow
 */
export function findRange(
  build: Build,
  axle: Axle,
  model: AxleModel,
  travel: { up: number; down: number } | null = null,
): { range: Range; reach: Reach } {
  const reach = new Reach(build, axle, model);
  const assumedTravel = travel ?? build.wanted.assumedTravel ?? DEFAULT_ASSUMED_in;
  if (travel) reach.box = { left: { ...travel }, right: { ...travel } };
  const start = reach.travel(0, 0);
  if (start.margin < 0) {
    const range: Range = {
      edge: [],
      ends: [start.nearest],
      unstopped: [],
      assumedTravel,
      holdsRide: false,
      pieces: 0,
    };
    return { range, reach };
  }
  let edge = followEdge(reach);
  const unstopped: Range['unstopped'] = [];
  for (const side of ['left', 'right'] as const) {
    for (const direction of ['up', 'down'] as const) {
      const sign = direction === 'up' ? 1 : -1;
      if (travel) continue;
      const far = edge.some(p => p.by === 'assumedTravel' && sign * p[side] > FAR_in - 1);
      // a roll that nothing ends is a direction without a stop on both of its sides
      const rolls = edge.some(
        p =>
          p.by === 'assumedTravel' &&
          p.part === 'roll' &&
          sign * p[side] > assumedTravel[direction],
      );
      if (!far && !rolls) continue;
      unstopped.push({ side, direction });
      reach.box[side][direction] = assumedTravel[direction];
    }
  }
  if (unstopped.length > 0) edge = followEdge(reach);
  edge = refine(reach, edge);
  const range: Range = {
    edge,
    ends: endsOf(edge),
    unstopped,
    assumedTravel,
    holdsRide: true,
    pieces: countPieces(reach, edge),
  };
  return { range, reach };
}

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
 * The edge around ride height, within EDGE_in of its chords; holes in what it encloses are left out of it, but
 * not out of what the stops allow.
 */
export const traceEdge = (ground: Ground): EdgePoint[] => refine(ground, followEdge(ground));

/**
 * The edge as a chain of points STRIDE_in apart, closer where it is narrow. It begins where the way to both
 * wheels up leaves the inside; where that is the edge of a hole, at the next such place.
 */
function followEdge(ground: Ground): EdgePoint[] {
  let from = 0;
  let edge: EdgePoint[] = [];
  while (from < FAR_in) {
    const first = furthest(ground, [from, from], [1, 1]);
    edge = followFrom(ground, first);
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

function followFrom(ground: Ground, first: EdgePoint): EdgePoint[] {
  const edge: EdgePoint[] = [first];
  // from both up, inside on the left, the way goes towards left down: (−1, 1)/√2
  let heading = (3 * Math.PI) / 4;
  let point = first;
  let stride = STRIDE_in;
  for (let n = 0; n < MOST_POINTS; n++) {
    const next = turnAround(ground, point, heading, stride);
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
      const end = CROSSING_in / radius;
      const crossing: Crossing<End> = closeOn(state, angle, there.margin, outer, outside, end);
      const [left, right] = at(crossing.inner);
      return { left, right, ...crossing.outside };
    }
  }
  return null;
}

/** Puts points in until the edge lies within EDGE_in of its chords, and changes of the stop to that too. */
function refine(ground: Ground, edge: EdgePoint[]): EdgePoint[] {
  const out: EdgePoint[] = [];
  const between = (a: EdgePoint, b: EdgePoint, depth: number): void => {
    const chord = Math.hypot(b.left - a.left, b.right - a.right);
    const changes = a.by !== b.by || a.part !== b.part;
    if (depth === 0 || chord < EDGE_in / 4) return;
    const middle = changes ? towardsCorner(ground, a, b, chord) : beyond(ground, a, b, chord, 0);
    if (!middle) return;
    const off = Math.hypot(
      middle.left - (a.left + b.left) / 2,
      middle.right - (a.right + b.right) / 2,
    );
    // the chord's error is off; half of it is aimed at, since the points in between are not looked at
    if (off <= EDGE_in / 2 && !(changes && chord > EDGE_in)) return;
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

/** What makes the edge, each once, longest stretch first. */
function endsOf(edge: readonly EdgePoint[]): End[] {
  const lengths = new Map<string, { end: End; length: number }>();
  for (const [i, p] of edge.entries()) {
    const q = edge[(i + 1) % edge.length] as EdgePoint;
    const key = `${p.by}|${p.part}|${p.side}`;
    const entry = lengths.get(key) ?? { end: { by: p.by, part: p.part, side: p.side }, length: 0 };
    entry.length += Math.hypot(q.left - p.left, q.right - p.right);
    lengths.set(key, entry);
  }
  return [...lengths.values()].sort((a, b) => b.length - a.length).map(entry => entry.end);
}

/** Pieces of what the stops allow: the traced one, and others on a grid around it, by flooding. */
export function countPieces(ground: Ground, edge: readonly EdgePoint[]): number {
  const spread = (pick: (p: EdgePoint) => number): [number, number] => [
    Math.min(...edge.map(pick)) - PIECE_REACH_in,
    Math.max(...edge.map(pick)) + PIECE_REACH_in,
  ];
  const [l0, l1] = spread(p => p.left);
  const [r0, r1] = spread(p => p.right);
  const columns = Math.ceil((l1 - l0) / PIECE_GRID_in) + 1;
  const rows = Math.ceil((r1 - r0) / PIECE_GRID_in) + 1;
  const apart = new Uint8Array(columns * rows);
  for (let r = 0; r < rows; r++) {
    for (let k = 0; k < columns; k++) {
      // to and fro, so that each pose starts from its neighbor
      const c = r % 2 === 0 ? k : columns - 1 - k;
      const left = l0 + c * PIECE_GRID_in;
      const right = r0 + r * PIECE_GRID_in;
      if (inside(edge, left, right)) continue;
      // chords leave slivers of the traced piece outside
      if (ground.travel(left, right).margin > EDGE_in) apart[r * columns + c] = 1;
    }
  }
  let pieces = 1;
  for (let start = 0; start < apart.length; start++) {
    if (apart[start] !== 1) continue;
    pieces++;
    const open = [start];
    apart[start] = 0;
    while (open.length > 0) {
      const cell = open.pop() as number;
      const c = cell % columns;
      const neighbors = [
        c > 0 ? cell - 1 : -1,
        c < columns - 1 ? cell + 1 : -1,
        cell - columns,
        cell + columns,
      ];
      for (const next of neighbors) {
        if (apart[next] !== 1) continue;
        apart[next] = 0;
        open.push(next);
      }
    }
  }
  return pieces;
}
