/**
 * How the numbers of a Build follow each number that was entered: what a worker needs to ask 'what if this were a
 * little more' without reading the file again.
 */
import { toEnd } from '../toEnd.ts';
import type { Build, Entry } from './build.ts';
import type { BuildFile } from './schema/file.ts';
import { Shifts } from './shift.ts';

/** One number of a Build: the way to it, and how much it moves by one unit of the entry. */
export interface Leaf {
  at: readonly (string | number)[];
  slope: number;
}

/** An entered number that may be off, with all that moves with it. */
export interface EntrySlope {
  path: string;
  from: Entry['from'];
  dimension: string;
  /** How far off it may be, internal unit. */
  tolerance: number;
  leaves: Leaf[];
}

/** Shift by which slopes are taken: points move by as much, turned directions by nearly so. */
const SHIFT = 1 / 64;
/** What rounding leaves of a leaf that does not move. */
const STILL = 1e-9;

/**
 * How far off an entry may be where its build does not say: a sixteenth where it was measured, nothing where it was
 * drawn, and for what is assumed an inch, 3° or a fifth of it. Common practice, no source.
 */
export function toleranceOf({ from, tolerance, dimension, value }: Entry): number {
  if (tolerance !== null) return tolerance;
  if (from === 'drawing') return 0;
  const isLength = dimension === 'length';
  if (from === 'measured') return isLength ? 1 / 16 : dimension === 'angle' ? 0.01 : 0;
  return isLength ? 1 : dimension === 'angle' ? (3 * Math.PI) / 180 : Math.abs(value) / 5;
}

/**
 * Slopes of every entry that may be off. Wishes are no measurements, and looks move nothing: entries without a
 * tolerance or without effect are left out.
 *
 * @param file a file that was read without a problem, its variant applied
 */
export function entrySlopes(file: BuildFile, build: Build): EntrySlope[] {
  return toEnd(entrySlopeSteps(file, build));
}

/** The same, stopping after each entry: hundreds of them take the better part of a second. */
export function* entrySlopeSteps(file: BuildFile, build: Build): Generator<void, EntrySlope[]> {
  const shifts = new Shifts(file, build.variant);
  const slopes: EntrySlope[] = [];
  for (const entry of build.entries) {
    const { path, from, dimension } = entry;
    const tolerance = path.startsWith('wanted') ? 0 : toleranceOf(entry);
    if (tolerance === 0) continue;
    const by = SHIFT * Math.max(1, Math.abs(entry.value) > 100 ? Math.abs(entry.value) / 100 : 1);
    const more = shifts.build(path, by);
    const shifted = more ?? shifts.build(path, -by);
    const leaves = shifted ? differences(build, shifted, more ? by : -by) : [];
    if (leaves.length > 0) slopes.push({ path, from, dimension, tolerance, leaves });
    yield;
  }
  return slopes;
}

function differences(from: Build, to: Build, by: number): Leaf[] {
  const leaves: Leaf[] = [];
  const walk = (a: unknown, b: unknown, at: (string | number)[]): void => {
    if (typeof a === 'number' && typeof b === 'number') {
      const moved = b - a;
      if (Math.abs(moved) > STILL * Math.max(1, Math.abs(a)))
        leaves.push({ at, slope: moved / by });
    } else if (Array.isArray(a) && Array.isArray(b)) {
      for (const [i, item] of a.entries()) walk(item, b[i], [...at, i]);
    } else if (typeof a === 'object' && a !== null && typeof b === 'object' && b !== null) {
      for (const [key, item] of Object.entries(a)) {
        walk(item, (b as Record<string, unknown>)[key], [...at, key]);
      }
    }
  };
  for (const key of ['wheelbase', 'weights', 'axles', 'solids'] as const)
    walk(from[key], to[key], [key]);
  return leaves;
}
