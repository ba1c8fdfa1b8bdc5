/**
 * The tolerances of a comparison's differences: each taped value of both builds is shifted and the axles are solved
 * again. This reads builds anew, so it stays where builds are read.
 */
import type { Build } from '../build/build.ts';
import type { BuildFile } from '../build/schema/file.ts';
import { Shifts } from '../build/shift.ts';
import { openAxle } from '../cycle/openAxle.ts';
import type { AxleGaps } from '../gap/gapReport.ts';
import type { MeshReader } from '../gap/parts.ts';
import type { AxlePair } from './compare.ts';
import { GapWorth } from './gapWorth.ts';
import type { Measured, Of } from './places.ts';
import { type PairWorth, type ShiftedAxle, STEP, tapedOf, Worth } from './worth.ts';

/** A build with the file that it came from, the variant applied. */
export interface WithFile {
  build: Build;
  file: BuildFile;
}

/** The gaps that were found in a build, with what reads its meshes. */
export interface WithGaps {
  gaps: readonly AxleGaps[];
  readMesh: MeshReader;
}

/**
 * Half-width of each difference of each pair's table, and of its least gaps. One step a taped value: a caller that
 * must not wait takes them one by one; the last value is the result.
 *
 * @param found gaps of both; null: they were not looked for
 * @example
 * let step = steps.next();
 * while (!step.done) { show(step.value); step = steps.next(); }
 * const worth = step.value;
 */
export function* tolerancesOf(
  a: WithFile,
  b: WithFile,
  pairs: readonly AxlePair[],
  found: Record<Of, WithGaps> | null,
): Generator<number, PairWorth[], undefined> {
  const shifts = { a: new Shifts(a.file, a.build.variant), b: new Shifts(b.file, b.build.variant) };
  const worth = pairs.map(pair => ({
    table: new Worth(pair.table),
    gaps: found && gapWorthOf(found, pair),
  }));
  const taped = tapedOf(a.build.entries, b.build.entries);
  for (const [i, { entry, of }] of taped.entries()) {
    yield i / taped.length;
    const step = STEP * (entry.tolerance ?? 0);
    const shifted = of.map(one => ({
      one,
      less: shifts[one].build(entry.path, -step),
      more: shifts[one].build(entry.path, step),
    }));
    for (const [p, pair] of pairs.entries()) {
      const axles: Partial<Record<Of, ShiftedAxle>> = {};
      for (const { one, less, more } of shifted) {
        axles[one] = { less: axleOf(less, pair), more: axleOf(more, pair) };
      }
      worth[p]?.table.add(axles);
      worth[p]?.gaps?.add(axles);
    }
  }
  return worth.map(({ table, gaps }) => ({
    table: table.tolerances(),
    gaps: gaps?.tolerances() ?? new Map(),
  }));
}

function gapWorthOf(found: Record<Of, WithGaps>, { name }: AxlePair): GapWorth | null {
  const [a, b] = (['a', 'b'] as const).map(of => {
    const { gaps, readMesh } = found[of];
    const own = gaps.find(({ walk }) => walk.axle.name === name);
    return own ? { gaps: own, readMesh } : null;
  });
  return a && b ? new GapWorth(a, b) : null;
}

function axleOf(build: Build | null, { name }: AxlePair): Measured | null {
  const axle = build?.axles.find(each => each.name === name);
  if (!build || !axle) return null;
  const opened = openAxle(build, axle);
  return opened.ok ? opened.axle : null;
}
