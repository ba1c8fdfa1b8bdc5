/** Builds walked for the tests of comparison, and whole comparisons of them. */
import { readFileSync } from 'node:fs';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import {
  type AxlePair,
  axlePairsOf,
  type Comparison,
  comparisonOf,
  type Side,
} from '../../geometry/compare/compare.ts';
import { tolerancesOf, type WithGaps } from '../../geometry/compare/shifted.ts';
import type { PairWorth } from '../../geometry/compare/worth.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { walkAxle } from '../../geometry/cycle/walkReport.ts';
import { findFindings } from '../../geometry/finding/finding.ts';
import { gapsOf } from '../../geometry/gap/gapReport.ts';

export interface OpenedSide extends Side, WithGaps {
  file: BuildFile;
}

export interface SideOptions {
  variant?: string;
  /** Gaps take seconds: false unless they are what is tested. */
  gaps?: boolean;
  travel?: { up: number; down: number };
}

/** Walks a build from its text. @throws where it is refused */
export function sideOf(text: string | Uint8Array, options: SideOptions = {}): OpenedSide {
  const opened = openBuild(text, { variant: options.variant ?? null });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const { build, file } = opened;
  const walks = opened.axles.map(({ axle, model }) =>
    walkAxle(build, axle, model, {
      extremes: false,
      path: 'both',
      travel: options.travel ?? null,
    }),
  );
  const readMesh = () => ({ problem: 'no mesh is read in these tests' });
  const gaps = options.gaps
    ? walks.map((walk, i) => gapsOf(walk, { readMesh, still: i === 0 }))
    : [];
  const findings = options.gaps ? findFindings(build, walks, gaps) : [];
  return { build, file, walks, gaps, findings, readMesh };
}

export const exampleSide = (name: string, options: SideOptions = {}): OpenedSide =>
  sideOf(readFileSync(new URL(`../../examples/${name}.axlewalk.json`, import.meta.url)), options);

/** What the differences of two builds are worth, all at once. */
export function worthOf(a: OpenedSide, b: OpenedSide, pairs: readonly AxlePair[]): PairWorth[] {
  const steps = tolerancesOf(a, b, pairs, { a, b });
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}

/** @param withWorth false: without the tolerances, which take seconds */
export function compared(a: OpenedSide, b: OpenedSide, withWorth = false): Comparison {
  const pairs = axlePairsOf(a.walks, b.walks);
  return comparisonOf(a, b, pairs, withWorth ? worthOf(a, b, pairs) : null);
}
