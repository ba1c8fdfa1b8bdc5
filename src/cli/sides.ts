/** A build walked with its gaps and findings, for what sets builds side by side. */
import type { Side } from '../../geometry/compare/compare.ts';
import type { OpenedBuild } from '../../geometry/cycle/open.ts';
import type { OpenedAxle } from '../../geometry/cycle/openAxle.ts';
import { walkAxle } from '../../geometry/cycle/walkReport.ts';
import { findFindings } from '../../geometry/finding/finding.ts';
import { gapsOf } from '../../geometry/gap/gapReport.ts';
import type { MeshReader } from '../../geometry/gap/parts.ts';

/** Which axles, and how they are walked. */
export interface Walking {
  axles: readonly OpenedAxle[];
  travel: { up: number; down: number } | null;
  resolution: number | undefined;
}

/** @param progress called now and then with a share of the work done, 0 to 1 */
export function sideOf(
  { build }: OpenedBuild,
  { axles, travel, resolution }: Walking,
  readMesh: MeshReader,
  progress: (done: number) => void,
): Side {
  const share = (i: number, done: number): void => progress((i + done) / axles.length);
  const walks = axles.map((each, i) =>
    walkAxle(build, each.axle, each.model, {
      travel,
      ...(resolution === undefined ? {} : { resolution }),
      extremes: false,
      path: 'both',
      progress: done => share(i, 0.2 * done),
    }),
  );
  const gaps = walks.map((walk, i) =>
    gapsOf(walk, { readMesh, still: i === 0, progress: done => share(i, 0.2 + 0.6 * done) }),
  );
  return { build, walks, gaps, findings: findFindings(build, walks, gaps) };
}
