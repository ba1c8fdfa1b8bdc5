/**
 * Swept volume: a mesh around all that a part passes over the range and all steering that the stops allow (of what is
 * free to roll, over its window), good to a stated tolerance.
 *
 * The part is placed on a lattice of poses. Between two neighbors no point of it goes further than the corners of the
 * boxes around it do, for what two placements differ by is an affine map. A pose of the range is no further from a
 * sample than half a step in each parameter, so that with d_k the longest such way by parameter k every point of the
 * part is within
 *   (1) r = 1.25 · ½ (d_left + d_right + d_steer + d_roll)
 * of where a sample has it. The quarter more is for the rim, where samples stand on the edge itself and the lattice is
 * cut, and for the curvature between samples, which is under w²/8 times a curvature of a few hundredths an inch. The
 * mesh holds all within r of the samples (`solid/outerMesh.ts`); the tolerance is r + h √3.
 */

import { inside } from '../cycle/edge.ts';
import type { Range } from '../cycle/range.ts';
import type { Place } from '../cycle/spots.ts';
import type { Pose } from '../pose/pose.ts';
import { type OuterMesh, outerMesh } from '../solid/outerMesh.ts';
import { carryPoint, type Placement, relativePlacement, unmoved } from '../solid/placement.ts';
import type { Solid } from '../solid/solid.ts';
import type { Searched } from './leastGaps.ts';
import type { Part } from './part.ts';
import { placed, placeRolled } from './place.ts';
import { isSteered } from './placedGrid.ts';
import { RangePoses } from './rangePoses.ts';
import { isHeld, rollRange } from './roll.ts';

export interface SweptOptions {
  /** No point of the mesh is to be further from the part in some pose than this, in. */
  tolerance?: number;
  /** As seen from the chassis (its vehicle axes), or from the axle (vehicle axes as drawn). */
  from?: 'chassis' | 'axle';
  /** Most placements of the part; with more the steps are made longer, and the tolerance with them. */
  mostPlaces?: number;
}

export interface Swept extends OuterMesh {
  part: string;
  from: 'chassis' | 'axle';
  /** Placements of the part that were looked at. */
  places: number;
}

/** Good to see, and a matter of seconds; an export may ask for less, and wait. */
const TOLERANCE_in = 1.5;
const MOST_PLACES = 4000;
/** What (1) takes for rim and curvature. */
const SLACK = 1.25;
/** Share of the tolerance that is for poses between samples; the rest is for the lattice in space. */
const FOR_POSES = 0.5;

/** Steps: of travel (in), of the share of the steering, of the share of the roll window. */
type Steps = readonly [travel: number, steer: number, roll: number];

/**
 * The mesh around what a part sweeps.
 *
 * @example
 * const mesh = sweptVolume(walk, tire, { tolerance: 0.5 });
 * await writeFile('left tire.stl', writeStl(mesh, 'left tire swept')); // inches
 */
export function sweptVolume(
  walk: Searched,
  part: Part,
  { tolerance = TOLERANCE_in, from = 'chassis', mostPlaces = MOST_PLACES }: SweptOptions = {},
): Swept {
  const sampler = new Sampler(walk, part, from);
  const ways = sampler.ways();
  const allowed = (2 * FOR_POSES * tolerance) / SLACK;
  // each parameter takes its part of what is allowed: both travels one together
  const moving = ways.filter(way => way > 0).length;
  let steps = ways.map(way => (way > 0 ? allowed / (moving * way) : Number.POSITIVE_INFINITY));
  for (let k = 0; k < 60 && sampler.count(steps as unknown as Steps) > mostPlaces; k++) {
    steps = steps.map(step => 1.1 * step);
  }
  const samples = sampler.at(steps as unknown as Steps);
  const reach = (SLACK / 2) * samples.ways;
  // where samples are too few, a finer lattice in space would gain nothing
  const step = Math.max(tolerance - reach, reach / 3, tolerance / 8) / Math.sqrt(3);
  const mesh = outerMesh(part.solid, samples.placements, { step, reach });
  return { ...mesh, part: part.name, from, places: samples.placements.length };
}

/** Steps in which a way is first measured. */
const FIRST: Steps = [1, 0.25, 0.125];

class Sampler {
  readonly #part: Part;
  readonly #from: 'chassis' | 'axle';
  readonly #poses: RangePoses;
  readonly #range: Range;
  readonly #ride: Pose;
  readonly #corners: Float64Array;
  readonly #steers: boolean;
  readonly #rolls: boolean;
  readonly #still: boolean;

  constructor({ range, reach, grid, model }: Searched, part: Part, from: 'chassis' | 'axle') {
    this.#part = part;
    this.#from = from;
    this.#poses = new RangePoses(range, reach, grid);
    this.#range = range;
    this.#ride = model.ride;
    this.#corners = cornersOf(part.solid);
    const m = part.motion;
    const bodies =
      m.kind === 'rigid'
        ? [m.body]
        : m.kind === 'ends'
          ? [m.from.on, m.to.on]
          : [m.at.on, m.towards.on];
    this.#steers = this.#poses.steers && bodies.some(isSteered);
    this.#rolls = part.roll !== null && !isHeld(part.roll);
    this.#still = range.edge.length === 0 || bodies.every(body => body === from);
  }

  /** Longest ways of the part a unit of each parameter, by a coarse lattice; both travels together. */
  ways(): [number, number, number] {
    if (this.#still) return [0, 0, 0];
    const { byTravel, bySteer, byRoll } = this.at(FIRST);
    return [byTravel / FIRST[0], bySteer / FIRST[1], byRoll / FIRST[2]];
  }

  /** About how many placements a lattice has. */
  count([travel, steer, roll]: Steps): number {
    if (this.#still) return 1;
    const { edge } = this.#range;
    let area = 0;
    let rim = 0;
    for (const [i, p] of edge.entries()) {
      const q = edge[(i + 1) % edge.length] as (typeof edge)[number];
      area += (p.left * q.right - q.left * p.right) / 2;
      rim += Math.hypot(q.left - p.left, q.right - p.right);
    }
    const places = area / (travel * travel) + rim / travel;
    return places * this.#shares(steer).length * this.#windowShares(roll).length;
  }

  /** All placements of a lattice, and what a step of each parameter moves the part by at most. */
  at([travel, steer, roll]: Steps): {
    placements: Placement[];
    byTravel: number;
    bySteer: number;
    byRoll: number;
    /** Of all parameters together. */
    ways: number;
  } {
    const placements: Placement[] = [];
    let [byLeft, byRight, bySteer, byRoll] = [0, 0, 0, 0];
    if (this.#still) {
      placements.push(this.#seen(this.#ride, placed(this.#part, this.#ride)));
      return { placements, byTravel: 0, bySteer: 0, byRoll: 0, ways: 0 };
    }
    const shares = this.#shares(steer);
    const rolls = this.#windowShares(roll);
    /** Placements of the column before, and of the place before in this one. */
    const columns = new Map<string, Placement[]>();
    for (const { place, i, k } of this.#places(travel)) {
      const here: Placement[] = [];
      for (const share of shares) {
        const pose = this.#poses.pose({ ...place, share });
        if (!pose) continue;
        const before = here.length;
        for (const each of rolls) here.push(this.#placed(pose, each));
        for (let r = before + 1; r < here.length; r++) {
          byRoll = Math.max(byRoll, this.#way(here[r], here[r - 1]));
        }
        for (let r = 0; before > 0 && r < rolls.length; r++) {
          bySteer = Math.max(bySteer, this.#way(here[before + r], here[before + r - rolls.length]));
        }
      }
      placements.push(...here);
      if (i === null || k === null) continue;
      columns.set(`${i},${k}`, here);
      const left = columns.get(`${i - 1},${k}`);
      const below = columns.get(`${i},${k - 1}`);
      for (let n = 0; n < here.length; n++) {
        if (left?.length === here.length) byLeft = Math.max(byLeft, this.#way(here[n], left[n]));
        if (below?.length === here.length)
          byRight = Math.max(byRight, this.#way(here[n], below[n]));
      }
    }
    const byTravel = byLeft + byRight;
    return { placements, byTravel, bySteer, byRoll, ways: byTravel + bySteer + byRoll };
  }

  /** Places of the lattice inside the range, with their place in it, and places along its edge. */
  *#places(step: number): Generator<{ place: Place; i: number | null; k: number | null }> {
    const { edge } = this.#range;
    const along = (pick: (p: (typeof edge)[number]) => number): [number, number] => {
      const values = edge.map(pick);
      return [Math.min(...values), Math.max(...values)];
    };
    const [left, right] = [along(p => p.left), along(p => p.right)];
    const counts = [left, right].map(([low, high]) => Math.max(1, Math.ceil((high - low) / step)));
    const at = ([low, high]: [number, number], n: number, of: number): number =>
      low + (n / of) * (high - low);
    const [columns = 1, rows = 1] = counts;
    for (let i = 0; i <= columns; i++) {
      for (let k = 0; k <= rows; k++) {
        const place = { left: at(left, i, columns), right: at(right, k, rows), share: 0 };
        if (inside(edge, place.left, place.right)) yield { place: { ...place, along: null }, i, k };
      }
    }
    for (const place of this.#poses.edgePlaces(step / 2)) yield { place, i: null, k: null };
  }

  #shares(step: number): number[] {
    return this.#steers ? evenly(-1, 1, step) : [0];
  }

  #windowShares(step: number): number[] {
    return this.#rolls ? evenly(0, 1, step) : [0];
  }

  #placed(pose: Pose, share: number): Placement {
    const { roll } = this.#part;
    if (!this.#rolls || !roll) return this.#seen(pose, placed(this.#part, pose));
    const { from, to } = rollRange(roll, pose);
    const out = unmoved();
    if (!placeRolled(this.#part, pose, from + share * (to - from), out)) {
      return this.#seen(pose, placed(this.#part, pose));
    }
    return this.#seen(pose, out);
  }

  /** A placement as it is seen from the axle, whose own is a rigid one. */
  #seen(pose: Pose, place: Placement): Placement {
    if (this.#from === 'chassis') return place;
    const { R, t } = pose.displacement('axle');
    const axle = unmoved();
    axle.set(R, 0);
    axle.set(t, 9);
    const out = unmoved();
    relativePlacement(out, axle, place);
    return out;
  }

  /** The longest way that a point of the part goes between two placements. */
  #way(a: Placement | undefined, b: Placement | undefined): number {
    if (!a || !b) return 0;
    const [p, q] = [new Float64Array(3), new Float64Array(3)];
    let most = 0;
    for (let i = 0; i < this.#corners.length; i += 3) {
      carryPoint(a, this.#corners, i, p, 0);
      carryPoint(b, this.#corners, i, q, 0);
      most = Math.max(most, Math.hypot(...p.map((c, axis) => c - (q[axis] as number))));
    }
    return most;
  }
}

const evenly = (from: number, to: number, step: number): number[] => {
  const count = Math.max(1, Math.ceil((to - from) / step));
  return Array.from({ length: count + 1 }, (_, n) => from + (n / count) * (to - from));
};

/** Corners of a box around all of a solid, vehicle axes as drawn. */
function cornersOf(solid: Solid): Float64Array {
  const least = [Infinity, Infinity, Infinity];
  const most = [-Infinity, -Infinity, -Infinity];
  const take = (x: readonly number[], radius: number): void => {
    for (let axis = 0; axis < 3; axis++) {
      least[axis] = Math.min(least[axis] as number, (x[axis] as number) - radius);
      most[axis] = Math.max(most[axis] as number, (x[axis] as number) + radius);
    }
  };
  const { bound } = solid;
  if (solid.rods) {
    for (const { data, radius } of solid.pieces) {
      take([...data.subarray(0, 3)], radius);
      take([...data.subarray(3, 6)], radius);
    }
  } else take([...bound.subarray(0, 3)], bound[3] as number);
  return Float64Array.from(
    Array.from({ length: 24 }, (_, n) =>
      (Math.floor(n / 3) >> (n % 3)) & 1 ? (most[n % 3] as number) : (least[n % 3] as number),
    ),
  );
}
