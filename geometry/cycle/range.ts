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

/** Distance of the curve from its chords, in. */
export const EDGE_in = 1e-3;
/** Radius of the circle with which the edge is followed, in. */
const STRIDE_in = 0.4;
/** Points of the edge are found to this, in. */
const CROSSING_in = 1e-9;
/** Grid on which separate pieces are looked for, in. */
const PIECE_GRID_in = 1;
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
  reach: Reach,
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

function sided(reach: Reach, left: number, right: number): Sided<End> {
  const { margin, nearest } = reach.travel(left, right);
  return { margin, what: nearest };
}

/** The edge as a chain of points STRIDE_in apart. */
function followEdge(reach: Reach): EdgePoint[] {
  const first = furthest(reach, [0, 0], [1, 1]);
  const edge: EdgePoint[] = [first];
  // from both up, inside on the left, the way goes towards left down: (−1, 1)/√2
  let heading = (3 * Math.PI) / 4;
  let point = first;
  const most = 4000;
  for (let n = 0; n < most; n++) {
    const next = turnAround(reach, point, heading);
    if (!next) break;
    heading = Math.atan2(next.right - point.right, next.left - point.left);
    point = next;
    if (n > 3 && Math.hypot(point.left - first.left, point.right - first.right) < STRIDE_in * 0.9) {
      // the last stretch back to the start
      edge.push(point);
      break;
    }
    edge.push(point);
  }
  return edge;
}

/** The next point on the circle about `p`: from the inside, clockwise, the first angle that leaves it. */
function turnAround(reach: Reach, p: EdgePoint, heading: number): EdgePoint | null {
  const at = (angle: number): [number, number] => [
    p.left + STRIDE_in * Math.cos(angle),
    p.right + STRIDE_in * Math.sin(angle),
  ];
  const state = (angle: number): Sided<End> => sided(reach, ...at(angle));
  // a direction that is inside: to the left of the heading first
  let inner: number | null = null;
  let innerMargin = 0;
  for (const offset of [90, 120, 60, 150, 30, 170, 0, -30, -60, -90]) {
    const angle = heading + (offset * Math.PI) / 180;
    const { margin } = state(angle);
    if (margin < 0) continue;
    inner = angle;
    innerMargin = margin;
    break;
  }
  if (inner === null) return null;
  for (let k = 0; k < 24; k++) {
    const outer: number = inner - Math.PI / 8;
    const there = state(outer);
    if (there.margin < 0) {
      const end = CROSSING_in / STRIDE_in;
      const crossing: Crossing<End> = closeOn(state, inner, innerMargin, outer, there, end);
      const [left, right] = at(crossing.inner);
      return { left, right, ...crossing.outside };
    }
    inner = outer;
    innerMargin = there.margin;
  }
  return null;
}

/** Puts points in until the edge lies within EDGE_in of its chords, and changes of the stop to that too. */
function refine(reach: Reach, edge: EdgePoint[]): EdgePoint[] {
  const out: EdgePoint[] = [];
  const between = (a: EdgePoint, b: EdgePoint, depth: number): void => {
    const chord = Math.hypot(b.left - a.left, b.right - a.right);
    const changes = a.by !== b.by || a.part !== b.part;
    if (depth === 0 || chord < EDGE_in / 4) return;
    const middle = onNormal(reach, a, b, chord);
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

/** The edge's point on the normal of a chord at its middle, or null where none is within the chord's length. */
function onNormal(reach: Reach, a: EdgePoint, b: EdgePoint, chord: number): EdgePoint | null {
  const outward: [number, number] = [(b.right - a.right) / chord, -(b.left - a.left) / chord];
  const middle: [number, number] = [(a.left + b.left) / 2, (a.right + b.right) / 2];
  const at = (t: number): [number, number] => [
    middle[0] + t * outward[0],
    middle[1] + t * outward[1],
  ];
  const state = (t: number): Sided<End> => sided(reach, ...at(t));
  let here = { t: 0, ...state(0) };
  const way = here.margin >= 0 ? 1 : -1;
  for (const share of [0.02, 0.1, 0.4, 1]) {
    const t = way * share * chord;
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

/** Pieces of what the stops allow on a grid around the edge, by flooding. */
function countPieces(reach: Reach, edge: readonly EdgePoint[]): number {
  const reachOf = (pick: (p: EdgePoint) => number): [number, number] => [
    Math.min(...edge.map(pick)) - 4,
    Math.max(...edge.map(pick)) + 4,
  ];
  const [l0, l1] = reachOf(p => p.left);
  const [r0, r1] = reachOf(p => p.right);
  const columns = Math.ceil((l1 - l0) / PIECE_GRID_in) + 1;
  const rows = Math.ceil((r1 - r0) / PIECE_GRID_in) + 1;
  const allowed = new Uint8Array(columns * rows);
  for (let r = 0; r < rows; r++) {
    for (let k = 0; k < columns; k++) {
      // to and fro, so that each pose starts from its neighbor
      const c = r % 2 === 0 ? k : columns - 1 - k;
      const left = l0 + c * PIECE_GRID_in;
      const right = r0 + r * PIECE_GRID_in;
      if (inside(edge, left, right) || reach.travel(left, right).margin >= 0)
        allowed[r * columns + c] = 1;
    }
  }
  let pieces = 0;
  for (let start = 0; start < allowed.length; start++) {
    if (allowed[start] !== 1) continue;
    pieces++;
    const open = [start];
    allowed[start] = 2;
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
        if (allowed[next] !== 1) continue;
        allowed[next] = 2;
        open.push(next);
      }
    }
  }
  return pieces;
}
