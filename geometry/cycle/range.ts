/** The range: the region of left × right travel that the stops allow, connected to ride height. */
import type { Axle, Build } from '../build/build.ts';
import type { AxleModel } from '../pose/model.ts';
import { EDGE_in, type EdgePoint, followEdge, furthest, GLANCE_in, refineEdge } from './edge.ts';
import { countPieces } from './pieces.ts';
import { type End, FAR_in, GLANCE_STEER_END, Reach } from './reach.ts';

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
  /** Pieces of the region that the stops allow, seen on a coarse grid; more than one is told. */
  pieces: number;
}

/** Travel assumed where nothing stops the axle and the build does not say, in. Common practice, no source. */
export const DEFAULT_ASSUMED_in = { up: 5, down: 5 };

interface Found {
  range: Range;
  reach: Reach;
}

/**
 * Finds the range of an axle. The reach that comes back has its box set where directions have no stop.
 *
 * @param travel go no further than this, in, whatever the stops allow
 * @param resolution follow the edge to within this, in, where that is finer than EDGE_in
 */
export function findRange(
  build: Build,
  axle: Axle,
  model: AxleModel,
  travel: { up: number; down: number } | null = null,
  resolution: number = EDGE_in,
): Found {
  const found = followRange(new Reach(build, axle, model), travel);
  const { range, reach } = found;
  if (!range.holdsRide) return found;
  const edge = refineEdge(reach, range.edge, Math.min(EDGE_in, resolution));
  return { range: { ...range, edge, ends: endsOf(edge), pieces: countPieces(reach, edge) }, reach };
}

/**
 * The range at a glance, for what is shown while a hand moves a point: each point of its edge is one of the edge to
 * GLANCE_in and its steering ends to GLANCE_STEER_END, but its corners are cut by up to half a stride, and other pieces are not looked for.
 */
export const glanceAtRange = (build: Build, axle: Axle, model: AxleModel): Found =>
  followRange(new Reach(build, axle, model, GLANCE_STEER_END), null, GLANCE_in);

/** The range with its edge in strides. */
function followRange(
  reach: Reach,
  travel: { up: number; down: number } | null,
  crossing?: number,
): Found {
  const assumedTravel = travel ?? reach.build.wanted.assumedTravel ?? DEFAULT_ASSUMED_in;
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
  let edge = followEdge(reach, crossing);
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
      // no more is a direction stopped where the links only reach no further than it is assumed to go
      const alone = furthest(reach, [0, 0], side === 'left' ? [sign, 0] : [0, sign]);
      const ends = alone.by === 'noPose' && sign * alone[side] > assumedTravel[direction];
      if (!far && !rolls && !ends) continue;
      unstopped.push({ side, direction });
      reach.box[side][direction] = assumedTravel[direction];
    }
  }
  if (unstopped.length > 0) edge = followEdge(reach, crossing);
  const range: Range = {
    edge,
    ends: endsOf(edge),
    unstopped,
    assumedTravel,
    holdsRide: true,
    pieces: 1,
  };
  return { range, reach };
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
