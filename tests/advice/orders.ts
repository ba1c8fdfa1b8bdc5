/** The order in which a vehicle is taped: as proposed each time anew, or at random. */
import { nextMeasurements, type Settled } from '../../geometry/advice/nextMeasurement.ts';
import { spotOf } from '../../geometry/advice/spots.ts';
import { type EntrySlope, entrySlopes } from '../../geometry/build/entrySlopes.ts';
import type { Finding } from '../../geometry/finding/finding.ts';
import { difference, isSame } from './sameFindings.ts';
import {
  exampleFile,
  noMeshes,
  openedFile,
  proposedFor,
  type Taping,
  tape,
  type Vehicle,
  walked,
} from './taping.ts';

/** A proposal before anything but the start was taped. */
export function started(vehicle: Vehicle): Taping {
  const example = exampleFile(vehicle);
  return { example, file: proposedFor(vehicle, example), taped: new Set() };
}

/** What is still open: not what was taped since, nor the example's own datums and dimensions. */
export function openSlopes({ file, taped }: Taping): EntrySlope[] {
  const { build, file: read } = openedFile(file);
  return entrySlopes(read, build).filter(
    ({ path }) => !/^(datums|dimensions)/.test(path) && !taped.has(spotOf(path)),
  );
}

export const findingsOf = (file: object): Finding[] => walked(openedFile(file)).findings;

/** Findings of a taping, and what it says to tape next. */
export function look(taping: Taping): { findings: Finding[]; settled: Settled } {
  const opened = openedFile(taping.file);
  const { axles, findings } = walked(opened);
  return { findings, settled: nextMeasurements(opened.build, axles, openSlopes(taping), noMeshes) };
}

export interface Taped {
  /** Spots in the order in which they were taped. */
  spots: string[];
  /** Numbers that were open in them. */
  readings: number;
  /** Share that was settled at the end. */
  share: number;
}

/** Tapes in the proposed order until the findings are those of the example; null after too many. */
export function inProposedOrder(vehicle: Vehicle, most: number): Taped | null {
  let taping = started(vehicle);
  const wanted = findingsOf(taping.example);
  const spots: string[] = [];
  let readings = 0;
  for (;;) {
    const { findings, settled } = look(taping);
    if (isSame(difference(wanted, findings))) return { spots, readings, share: settled.share };
    const [first] = settled.next;
    if (!first || spots.length >= most) return null;
    spots.push(first.spot);
    readings += first.paths.length;
    taping = tape(taping, first.spot);
  }
}

/**
 * How many it takes in an order at random: the least count after which the findings are the same. Bisected, as if they
 * stayed the same from there on, which they do but for chance.
 */
export function atRandom(vehicle: Vehicle, random: () => number): number {
  const start = started(vehicle);
  const wanted = findingsOf(start.example);
  const spots = [...new Set(openSlopes(start).map(({ path }) => spotOf(path)))];
  for (let i = spots.length - 1; i > 0; i--) {
    const k = Math.floor(random() * (i + 1));
    [spots[i], spots[k]] = [spots[k] as string, spots[i] as string];
  }
  const isEnough = (count: number): boolean => {
    const taping = spots.slice(0, count).reduce(tape, start);
    return isSame(difference(wanted, findingsOf(taping.file)));
  };
  let [least, most] = [0, spots.length];
  while (least < most) {
    const middle = Math.floor((least + most) / 2);
    if (isEnough(middle)) most = middle;
    else least = middle + 1;
  }
  return most;
}

/** A small generator with a seed (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
