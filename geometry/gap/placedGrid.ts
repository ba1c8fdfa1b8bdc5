/**
 * Where the parts of an axle are at every pose of a grid, as flat arrays that a worker can be sent. Parts that ride
 * on one body share a placement; one that the steering does not move has one for each place of the grid, one that is free
 to roll has several for each pose, evenly over its window.
 */
import type { Pose } from '../pose/pose.ts';
import { PLACEMENT_SIZE, type Placement } from '../solid/placement.ts';
import type { Part } from './part.ts';
import { placePart, placeRolled } from './place.ts';
import { isHeld, rollRange } from './roll.ts';

/** How a motion changes over a grid: not at all, with the travels, or with travels and steering. */
export const STILL = 0;
export const BY_TRAVEL = 1;
export const BY_POSE = 2;
export type Changes = typeof STILL | typeof BY_TRAVEL | typeof BY_POSE;

/** Rolls of what is free to roll at each pose, ends of its window included. */
const ROLLS = 9;

/** The motions of parts, each once. */
export interface Motions {
  /** A part that has it. */
  parts: Part[];
  changes: Changes[];
  /** How many rolls each is placed at. */
  rolls: number[];
  /** Of each part: which is its own. */
  of: Int32Array;
  /** Which one the axle housing has. */
  axle: number;
}

const STEERED = /^(left|right) knuckle$|^pitman arm$|^ram rod$|^drag link$|tie rod$/;

/** Whether the steering moves a body. */
export const isSteered = (body: string): boolean => STEERED.test(body);

const bodiesOf = ({ motion: m }: Part): string[] =>
  m.kind === 'rigid'
    ? [m.body]
    : m.kind === 'ends'
      ? [m.from.on, m.to.on]
      : [m.at.on, m.towards.on];

export function motionsOf(parts: readonly Part[]): Motions {
  const byKey = new Map<string, number>();
  const motions: Motions = {
    parts: [],
    changes: [],
    rolls: [],
    of: new Int32Array(parts.length),
    axle: -1,
  };
  for (const [i, part] of parts.entries()) {
    const key = `${part.body}|${part.motion.kind}|${part.roll?.by ?? ''}`;
    let motion = byKey.get(key);
    if (motion === undefined) {
      motion = motions.parts.length;
      byKey.set(key, motion);
      motions.parts.push(part);
      const bodies = bodiesOf(part);
      const changes = bodies.some(isSteered)
        ? BY_POSE
        : bodies.every(body => body === 'chassis')
          ? STILL
          : BY_TRAVEL;
      motions.changes.push(changes);
      motions.rolls.push(part.roll && !isHeld(part.roll) ? ROLLS : 1);
      if (part.body === 'axle') motions.axle = motion;
    }
    motions.of[i] = motion;
  }
  return motions;
}

/** What is used of a grid. */
export interface SteeredPlaces {
  places: readonly { steered: readonly { pose: Pose }[] }[];
}

export class PlacedGrid {
  readonly motions: Motions;
  /** Cells: places of the grid that have poses, as their indices there. */
  readonly cells: Int32Array;
  /** Of each cell, the first of its poses; one more at the end. */
  readonly first: Int32Array;
  readonly poses: readonly Pose[];
  /** Of each pose, its cell. */
  readonly cellOf: Int32Array;
  /** Twelve numbers a slot, `chassisFromPart`. */
  readonly numbers: Float64Array;
  /** The same, a view a slot. */
  readonly places: readonly Placement[];
  /** Of each motion, its first slot. */
  readonly slots: Int32Array;

  constructor(motions: Motions, grid: SteeredPlaces) {
    this.motions = motions;
    const cells: number[] = [];
    const first: number[] = [];
    const poses: Pose[] = [];
    const cellOf: number[] = [];
    for (const [k, place] of grid.places.entries()) {
      if (place.steered.length === 0) continue;
      first.push(poses.length);
      for (const { pose } of place.steered) {
        poses.push(pose);
        cellOf.push(cells.length);
      }
      cells.push(k);
    }
    first.push(poses.length);
    this.cells = Int32Array.from(cells);
    this.first = Int32Array.from(first);
    this.poses = poses;
    this.cellOf = Int32Array.from(cellOf);
    this.slots = new Int32Array(motions.parts.length);
    let count = 0;
    for (const [m, changes] of motions.changes.entries()) {
      this.slots[m] = count;
      const at = changes === STILL ? 1 : changes === BY_TRAVEL ? cells.length : poses.length;
      count += at * (motions.rolls[m] as number);
    }
    this.numbers = new Float64Array(PLACEMENT_SIZE * count);
    this.places = Array.from({ length: count }, (_, k) =>
      this.numbers.subarray(PLACEMENT_SIZE * k, PLACEMENT_SIZE * (k + 1)),
    );
    this.#fill();
  }

  /** Slot of a motion at a pose; of what is free to roll the first, the rolls stand after each other. */
  slot(motion: number, pose: number): number {
    const changes = this.motions.changes[motion];
    const first = this.slots[motion] as number;
    if (changes === STILL) return first;
    const at = changes === BY_POSE ? pose : (this.cellOf[pose] as number);
    return first + at * (this.motions.rolls[motion] as number);
  }

  #fill(): void {
    for (const [m, part] of this.motions.parts.entries()) {
      const changes = this.motions.changes[m];
      if (this.poses.length === 0) continue;
      const count = changes === BY_POSE ? this.poses.length : this.cells.length;
      for (let i = 0; i < (changes === STILL ? 1 : count); i++) {
        const k = changes === BY_POSE ? i : (this.first[i] as number);
        this.#place(m, part, k);
      }
    }
  }

  #place(m: number, part: Part, k: number): void {
    const pose = this.poses[k] as Pose;
    const slot = this.slot(m, k);
    const rolls = this.motions.rolls[m] as number;
    if (rolls === 1 || !part.roll) {
      placePart(part, pose, this.places[slot] as Placement);
      return;
    }
    const { from, to } = rollRange(part.roll, pose);
    for (let r = 0; r < rolls; r++) {
      const out = this.places[slot + r] as Placement;
      const roll = from + (r / (rolls - 1)) * (to - from);
      if (!placeRolled(part, pose, roll, out)) placePart(part, pose, out);
    }
  }
}
