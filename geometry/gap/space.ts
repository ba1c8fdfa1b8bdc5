/**
 * One set of parameters for pairs of parts, with what is known at its lattice's points (poses, placements) and of its
 * cells (how the parts' points bend): made once, and shared by all pairs that are looked at in it.
 */
import type { AxleModel } from '../pose/model.ts';
import type { Pose } from '../pose/pose.ts';
import { rolledRod } from '../pose/rolledRod.ts';
import { PLACEMENT_SIZE, type Placement, relativePlacement } from '../solid/placement.ts';
import { type AxleCell, AxleEnclosure } from './axleCell.ts';
import { bendsOf, bendsOfBasis, CellBodies, type Frame, type Parameters } from './cellBodies.ts';
import {
  around,
  type Cell,
  cellId,
  centerOf,
  cornerOf,
  firstOf,
  halvesOf,
  LATTICE,
  type LatticePoint,
  pointId,
} from './cells.ts';
import { type Controls, controlsOf } from './controls.ts';
import type { Part, PartRoll } from './part.ts';
import { placePart } from './place.ts';

/** Numbers of one second derivative: center and spread of three components. */
export const BEND = 6;

/** Further halvings that are tried where a base cell can't be enclosed, by the number of parameters. */
const FURTHER = [0, 3, 3, 2, 1] as const;
/** Halvings of the third parameter to a base cell. */
const THIRD_DEPTH = 3;
/** Of the roll: of a rod within its window, of a link all around. */
const ROLL_DEPTH = { rod: 2, line: 4 };

/** From where to where a parameter goes. */
export interface Extent {
  low: number;
  size: number;
}

/** Poses and enclosures of the axle by travel alone, shared by all spaces. */
export class Travels {
  readonly model: AxleModel;
  readonly extents: readonly [Extent, Extent];
  /** Halvings of each travel to a base cell. */
  readonly depth: number;
  readonly #enclosure: AxleEnclosure;
  readonly #poses = new Map<number, Pose | null>();
  readonly #cells = new Map<number, AxleCell | null>();
  #last: Pose;
  /** Cells enclosed so far, for the bench. */
  enclosed = 0;

  constructor(model: AxleModel, extents: readonly [Extent, Extent]) {
    const { exact, arms } = model.mechanism;
    this.model = model;
    this.extents = extents;
    this.depth = exact ? 3 : arms.length > 0 ? 5 : 4;
    this.#enclosure = new AxleEnclosure(model.mechanism);
    this.#last = model.ride;
  }

  /** The pose straight ahead at a point of the lattice; null where none exists. */
  pose(left: number, right: number): Pose | null {
    const id = pointId([left, right]);
    let found = this.#poses.get(id);
    if (found === undefined) {
      const [l, r] = this.extents;
      found = this.model.near(
        this.#last,
        l.low + (l.size * left) / LATTICE,
        r.low + (r.size * right) / LATTICE,
        0,
      ).pose;
      if (found) this.#last = found;
      this.#poses.set(id, found);
    }
    return found;
  }

  /** The axle over a cell of travels; null where it can't be enclosed. */
  cell(cell: Cell): AxleCell | null {
    const id = cellId(cell);
    let found = this.#cells.get(id);
    if (found === undefined) {
      const [l, r] = centerOf(cell) as [number, number];
      const pose = this.pose(l, r);
      const half = (j: 0 | 1): number => this.extents[j].size / 2 ** (cell.depths[j] as number) / 2;
      found = pose ? this.#enclosure.over(pose.axle, [half(0), half(1)]) : null;
      this.enclosed++;
      this.#cells.set(id, found);
    }
    return found;
  }
}

/** What of a space's parameters moves a part, seen from its frame. */
export interface Dependence {
  travels: boolean;
  third: boolean;
  roll: boolean;
}

/** Where a part is known: in the space itself or in one of fewer parameters, and which of these each one is. */
export interface Home {
  space: Space;
  /** For each parameter of the wider space: which it is at home; −1: none, it does not move the part. */
  map: readonly number[];
}

/** Spaces of fewer parameters, with the same extents. */
export interface Fewer {
  travels: Space | null;
  third: Space | null;
  /** Without the roll. */
  noRoll: Space | null;
  /** With travels and roll, without the third. */
  noThird: Space | null;
}

export class Space {
  readonly parameters: Parameters;
  readonly frame: Frame;
  /** Number of parameters. */
  readonly p: number;
  readonly extents: readonly Extent[];
  readonly travels: Travels;
  readonly #base: number[];
  readonly #poses = new Map<number, Pose | null>();
  /** By what moves alike, then by point. */
  readonly #places = new Map<string, Map<number, Placement>>();
  readonly #placesOf = new Map<Part, Map<number, Placement>>();
  readonly #bodies = new Map<number, CellBodies | null>();
  readonly #bends = new Map<Part, Map<number, Float64Array | null>>();
  readonly #controls = new Map<Part, Controls>();
  readonly #homes = new Map<Part, Home>();
  readonly #dependence: (part: Part) => Dependence;
  readonly #fewer: Fewer;

  /**
   * @param dependence what moves a part: parts that fewer parameters move are looked up in spaces of these
   */
  constructor(
    travels: Travels,
    parameters: Parameters,
    frame: Frame,
    third: Extent | null,
    dependence: (part: Part) => Dependence = () => ({ travels: true, third: true, roll: true }),
    fewer: Fewer = { travels: null, third: null, noRoll: null, noThird: null },
    roll: Extent | null = null,
  ) {
    this.#dependence = dependence;
    this.#fewer = fewer;
    this.travels = travels;
    this.parameters = parameters;
    this.frame = frame;
    const { depth } = travels;
    this.extents = [
      ...(parameters.travels ? travels.extents : []),
      ...(third ? [third] : []),
      ...(roll ? [roll] : []),
    ];
    this.p = this.extents.length;
    this.#base = [
      ...(parameters.travels ? [depth, depth] : []),
      ...(third ? [THIRD_DEPTH] : []),
      ...(roll ? [ROLL_DEPTH[parameters.roll?.by ?? 'rod']] : []),
    ];
  }

  /** Value of parameter j at a point. */
  value(j: number, k: number): number {
    const { low, size } = this.extents[j] as Extent;
    return low + (size * k) / LATTICE;
  }

  half(cell: Cell, j: number): number {
    return (this.extents[j] as Extent).size / 2 ** ((cell.depths[j] as number) + 1);
  }

  /** The pose at a point, with its rod rolled; null where none exists. */
  pose(point: LatticePoint): Pose | null {
    const { third, travels, roll } = this.parameters;
    // a link's roll moves nothing that a pose tells
    if (roll?.by === 'line' && this.#fewer.noRoll) {
      return this.#fewer.noRoll.pose(point.slice(0, this.p - 1));
    }
    if (travels && !third) return this.travels.pose(point[0] as number, point[1] as number);
    const id = pointId(point);
    let found = this.#poses.get(id);
    if (found === undefined) {
      found = this.#makePose(point);
      this.#poses.set(id, found);
    }
    return found;
  }

  #makePose(point: LatticePoint): Pose | null {
    const { third, travels } = this.parameters;
    const { model } = this.travels;
    const straight = travels
      ? this.travels.pose(point[0] as number, point[1] as number)
      : model.ride;
    if (!straight || !third) return straight;
    const at = travels ? 2 : 0;
    const value = this.value(at, point[at] as number);
    if (third.kind === 'input') {
      const { pose } = model.atSteer(straight, value);
      const roll = this.rollAt(point);
      return pose && roll?.by === 'rod' ? rolledRod(pose, roll.of.name, roll.angle) : pose;
    }
    return turnedPose(model, straight, third.side, value);
  }

  /** What rolls in this space, and its roll at a point, rad; null where nothing does. */
  rollAt(point: LatticePoint): (PartRoll & { angle: number }) | null {
    const { roll } = this.parameters;
    const last = this.p - 1;
    return roll ? { ...roll, angle: this.value(last, point[last] as number) } : null;
  }

  home(part: Part): Home {
    let found = this.#homes.get(part);
    if (!found) {
      const { travels, third, roll } = this.#dependence(part);
      const { travels: byTravels, third: byThird, noRoll, noThird } = this.#fewer;
      if (noRoll && !roll) {
        const less = noRoll.home(part);
        found = { space: less.space, map: [...less.map, -1] };
      } else if (noThird && !third) found = { space: noThird, map: [0, 1, -1, 2] };
      else if (byTravels && !third) found = { space: byTravels, map: [0, 1, -1] };
      else if (byThird && !travels) found = { space: byThird, map: [-1, -1, 0] };
      else found = { space: this, map: this.extents.map((_, j) => j) };
      this.#homes.set(part, found);
    }
    return found;
  }

  /** A cell, or a point, of this space as a part's home sees it. */
  static at<T>(list: readonly T[], { map }: Home): readonly T[] {
    return map.includes(-1) ? list.filter((_, j) => (map[j] as number) >= 0) : list;
  }

  /** Where a part is at a point, in the space's frame; null where no pose exists. */
  place(part: Part, point: LatticePoint): Placement | null {
    const home = this.home(part);
    const own = Space.at(point, home);
    const places = home.space.#placesFor(part);
    return places.get(pointId(own)) ?? home.space.#makePlace(part, own, places);
  }

  /** The same at all corners of a cell, in their order; false where one has no pose. */
  placeCorners(part: Part, cell: Cell, out: Placement[]): boolean {
    const home = this.home(part);
    const { space, map } = home;
    const places = space.#placesFor(part);
    const { depths, index } = cell;
    for (let c = 0; c < 1 << this.p; c++) {
      // the point's name at home, without making the point
      let id = 0;
      for (let j = 0; j < this.p; j++) {
        if ((map[j] as number) < 0) continue;
        const at = (index[j] as number) + ((c >> j) & 1);
        id = id * (LATTICE + 1) + at * (LATTICE >> (depths[j] as number));
      }
      const place =
        places.get(id) ?? space.#makePlace(part, Space.at(cornerOf(cell, c), home), places);
      if (!place) return false;
      out[c] = place;
    }
    return true;
  }

  #placesFor(part: Part): Map<number, Placement> {
    let places = this.#placesOf.get(part);
    if (!places) {
      const key = `${part.body}|${part.motion.kind}|${part.roll?.by ?? ''}`;
      places = this.#places.get(key) ?? new Map();
      this.#places.set(key, places);
      this.#placesOf.set(part, places);
    }
    return places;
  }

  #makePlace(part: Part, point: LatticePoint, places: Map<number, Placement>): Placement | null {
    const pose = this.pose(point);
    if (!pose) return null;
    const roll = this.rollAt(point);
    const rolls = roll?.by === 'line' && part.roll?.by === 'line' && part.roll.of === roll.of;
    const place = placeIn(this.frame, part, pose, rolls ? roll.angle : undefined);
    places.set(pointId(point), place);
    return place;
  }

  controls(part: Part): Controls {
    let found = this.#controls.get(part);
    if (!found) {
      found = controlsOf(part);
      this.#controls.set(part, found);
    }
    return found;
  }

  /** Whether a part stands still in this space's frame. */
  isStill({ motion }: Part): boolean {
    return motion.kind === 'rigid' && motion.body === this.frame;
  }

  /**
   * Second derivatives of a part's control points on a cell: for each point and parameter BEND numbers. Those of
   * the base cell that the cell lies in, or the hull of those that it is made of; null where they are not known. By
   * the parameters of the part's home.
   */
  bends(cell: Cell, part: Part): Float64Array | null {
    const home = this.home(part);
    const at = { depths: Space.at(cell.depths, home), index: Space.at(cell.index, home) };
    return home.space.#ownBends(at, part);
  }

  #ownBends(cell: Cell, part: Part): Float64Array | null {
    let known = this.#bends.get(part);
    if (!known) {
      known = new Map();
      this.#bends.set(part, known);
    }
    return this.known(known, cell, each => this.#bendsOf(each, part), hullOf);
  }

  /**
   * What holds on a cell, (3): what was made for the base cell that it lies in, or merged from those that it is made
   * of. Where a base cell gives nothing its halves are asked, FURTHER times. Null where nothing is known.
   */
  known<T>(
    store: Map<number, T | null>,
    cell: Cell,
    make: (cell: Cell) => T | null,
    merge: (a: T, b: T) => T,
  ): T | null {
    const base = this.#base;
    const wide = cell.depths.findIndex((depth, j) => depth < (base[j] as number));
    if (wide >= 0) return this.#merged(store, cell, wide, make, merge);
    for (let further = 0; further <= (FURTHER[this.p] as number); further++) {
      const depths = base.map(depth => depth + further);
      const short = cell.depths.findIndex((depth, j) => depth < (depths[j] as number));
      // what the cell lies in gave nothing, and it is no smaller than that itself
      if (further > 0 && short >= 0) return this.#merged(store, cell, short, make, merge);
      const outer = around(cell, depths);
      const id = cellId(outer);
      let found = store.get(id);
      if (found === undefined) {
        found = make(outer);
        store.set(id, found);
      }
      if (found) return found;
    }
    return null;
  }

  #merged<T>(
    store: Map<number, T | null>,
    cell: Cell,
    j: number,
    make: (cell: Cell) => T | null,
    merge: (a: T, b: T) => T,
  ): T | null {
    // the same cell may have been asked for as a base cell, and have given nothing: merged ones have names of their own
    const id = -1 - cellId(cell);
    let found = store.get(id);
    if (found === undefined) {
      const [one, two] = halvesOf(cell, j);
      const a = this.known(store, one, make, merge);
      const b = a && this.known(store, two, make, merge);
      found = a && b ? merge(a, b) : null;
      store.set(id, found);
    }
    return found;
  }

  #bendsOf(cell: Cell, part: Part): Float64Array | null {
    const bodies = this.bodies(cell);
    if (!bodies) return null;
    const { points } = this.controls(part);
    const { p } = this;
    const out = new Float64Array(BEND * p * points.length);
    if (part.motion.kind === 'rigid') {
      const basis = bodies.basis(part.motion.body, this.frame);
      if (!basis) return null;
      for (const [i, point] of points.entries()) {
        for (let j = 0; j < p; j++) {
          bendsOfBasis(basis, point, this.slot(j), out, BEND * (i * p + j));
        }
      }
      return isWhole(out) ? out : null;
    }
    for (const [i, point] of points.entries()) {
      const form = bodies.pointOf(part, point, this.frame);
      if (!form) return null;
      for (let j = 0; j < p; j++) bendsOf(form, this.slot(j), out, BEND * (i * p + j));
    }
    return isWhole(out) ? out : null;
  }

  /** Parameter j among left, right, third, roll. */
  slot(j: number): 0 | 1 | 2 | 3 {
    if (this.parameters.roll && j === this.p - 1) return 3;
    return (this.parameters.travels ? j : j + 2) as 0 | 1 | 2 | 3;
  }

  /** The bodies over a cell; null where they can't be enclosed. */
  bodies(cell: Cell): CellBodies | null {
    const id = cellId(cell);
    let found = this.#bodies.get(id);
    if (found === undefined) {
      found = this.#makeBodies(cell);
      // smaller ones are many, and each is asked once a part
      const isBase = cell.depths.every((depth, j) => depth <= (this.#base[j] as number));
      if (isBase) this.#bodies.set(id, found);
    }
    return found;
  }

  #makeBodies(cell: Cell): CellBodies | null {
    const { parameters, travels } = this;
    const pose = this.pose(centerOf(cell));
    if (!pose) return null;
    const axle = parameters.travels ? travels.cell(firstOf(cell, 2)) : null;
    if (parameters.travels && !axle) return null;
    const halves: [number, number, number, number] = [0, 0, 0, 0];
    for (let j = 0; j < this.p; j++) halves[this.slot(j)] = this.half(cell, j);
    const { steering } = travels.model;
    return new CellBodies(
      // with its rod rolled
      pose.mechanism,
      pose,
      parameters,
      axle,
      halves,
      steering?.sense || 1,
      this.rollAt(centerOf(cell))?.angle,
    );
  }

  /** Halvings of each parameter to a base cell. */
  get base(): readonly number[] {
    return this.#base;
  }
}

/**
 * A part's placement at a pose, seen from the chassis or from the axle.
 *
 * @param roll of a link, rad, as `placePart` takes it
 */
export function placeIn(frame: Frame, part: Part, pose: Pose, roll?: number): Placement {
  const out = freshPlacement();
  if (frame === 'chassis') {
    placePart(part, pose, out, roll);
    return out;
  }
  placePart(part, pose, fromChassis, roll);
  const { R, o } = pose.axle;
  for (let i = 0; i < 9; i++) chassisFromAxle[i] = R[i] as number;
  for (let i = 0; i < 3; i++) chassisFromAxle[9 + i] = o[i] as number;
  relativePlacement(out, chassisFromAxle, fromChassis);
  return out;
}

const fromChassis = new Float64Array(PLACEMENT_SIZE);
const chassisFromAxle = new Float64Array(PLACEMENT_SIZE);

/** Placements that share memory: to ask for it once for each costs more than all else. */
const POOLED = 1024;
let pool = new Float64Array(0);
let taken = POOLED;

function freshPlacement(): Placement {
  if (taken === POOLED) {
    pool = new Float64Array(POOLED * PLACEMENT_SIZE);
    taken = 0;
  }
  const at = PLACEMENT_SIZE * taken++;
  return pool.subarray(at, at + PLACEMENT_SIZE);
}

/** A pose with one knuckle turned by hand, and the other by the tie rod where there is one from knuckle to knuckle. */
export function turnedPose(
  model: AxleModel,
  straight: Pose,
  side: 'left' | 'right',
  turn: number,
): Pose | null {
  const turns = model.steering?.turnedBy(side, turn);
  return turns ? straight.withTurns(turns) : null;
}

const isWhole = (a: Float64Array): boolean => a.every(x => Number.isFinite(x));

/** Boxes that hold both, BEND numbers each. */
export function hullOf(a: Float64Array, b: Float64Array): Float64Array {
  const out = new Float64Array(a.length);
  for (let i = 0; i < a.length; i += BEND) {
    for (let c = i; c < i + 3; c++) {
      const low = Math.min(
        (a[c] as number) - (a[c + 3] as number),
        (b[c] as number) - (b[c + 3] as number),
      );
      const high = Math.max(
        (a[c] as number) + (a[c + 3] as number),
        (b[c] as number) + (b[c + 3] as number),
      );
      out[c] = (low + high) / 2;
      out[c + 3] = (high - low) / 2;
    }
  }
  return out;
}
