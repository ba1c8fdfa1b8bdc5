/** `axlewalk gaps`: the least gap of each pair of parts over the whole range. */
import { problemLine, shown } from '../../geometry/build/problem.ts';
import { coarseGrid } from '../../geometry/cycle/grid.ts';
import type { OpenedBuild } from '../../geometry/cycle/open.ts';
import type { OpenedAxle } from '../../geometry/cycle/openAxle.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import { type Finding, findFindings } from '../../geometry/finding/finding.ts';
import {
  type AxleGapReport,
  type AxleGaps,
  gapReport,
  gapsOf,
} from '../../geometry/gap/gapReport.ts';
import { isCalled, namesOfParts, nameWanted } from '../../geometry/gap/pairNames.ts';
import type { CommandOf } from './arguments.ts';
import { gapsCsv } from './gapsCsv.ts';
import { gapsText } from './gapsText.ts';
import type { Io } from './io.ts';
import { meshReader } from './meshes.ts';
import { chooseAxle, Entries, openFile } from './opened.ts';
import { type Outcome, refused } from './outcome.ts';
import { Progress } from './progress.ts';

/** What `gaps --json` prints. */
export interface FullGapReport {
  build: string;
  variant: string | null;
  axles: AxleGapReport[];
  /** What all gaps hold for. */
  holdsFor: 'rigid parts';
  /** Down to how much the least gaps are proved, in. */
  resolution_in: number | null;
  findings: Finding[];
}

/** Share of the time that goes into the range. */
const RANGE = 0.2;

export function gaps(command: CommandOf<'gaps'>, io: Io): Outcome {
  const { files, options, output } = command;
  const read = openFile(files[0], io.folder);
  if ('lines' in read) return refused(read.lines);
  const { opened } = read;
  const asked = readOptions(command, opened);
  if ('lines' in asked) return refused(asked.lines);

  const { build } = opened;
  const { pair } = options;
  const readMesh = meshReader(files[0].path, io.folder);
  const progress = new Progress(io);
  const found = asked.axles.map(({ axle, model }, i): AxleGaps => {
    const at = (done: number): void =>
      progress.at((i + done) / asked.axles.length, `${axle.name} axle`);
    const { range, reach } = findRange(build, axle, model, asked.travel, asked.resolution);
    at(RANGE);
    const walk = { build, axle, model, range, reach, grid: coarseGrid(range, reach) };
    return gapsOf(walk, {
      readMesh,
      ...(pair
        ? {
            only: ({ a, b }) =>
              (isCalled(a, axle.name, pair.a) && isCalled(b, axle.name, pair.b)) ||
              (isCalled(b, axle.name, pair.a) && isCalled(a, axle.name, pair.b)),
          }
        : {}),
      still: i === 0,
      prove: asked.resolution === undefined ? {} : { resolution: asked.resolution },
      progress: done => at(RANGE + (1 - RANGE) * done),
    });
  });
  const findings = findFindings(build, [], found);
  progress.end();

  const report: FullGapReport = {
    build: build.name,
    variant: build.variant,
    axles: found.map(gapReport),
    holdsFor: 'rigid parts',
    resolution_in: found[0]?.resolution ?? null,
    findings,
  };
  return {
    code: findings.some(finding => finding.severity === 'mustFix') ? 1 : 0,
    out: {
      json: () => `${JSON.stringify(report)}\n`,
      csv: () => gapsCsv(report.axles),
      text: () => gapsText(report, found, build, io.screen, pair),
    }[output](),
    err: [...build.warnings.map(toKnow), ...meshLines(found)],
  };
}

export const toKnow = (message: string): string =>
  problemLine({ path: 'to know', found: '', message, wanted: '' });

/** What could not be made of the drawn solids, and what is to be known of meshes; once for all axles. */
export function meshLines(found: readonly AxleGaps[]): string[] {
  const lines = found.flatMap(({ problems, notes }) => [
    ...problems.map(({ problem }) => `${problem}; it is left out, the rest goes on`),
    ...notes.map(({ part, problem }) => toKnow(`${part}: ${problem}`)),
  ]);
  return [...new Set(lines)];
}

/** The axles that are asked for and how far they go, or what is wrong with the options. */
function readOptions(
  { options }: CommandOf<'gaps'>,
  opened: OpenedBuild,
):
  | {
      axles: OpenedAxle[];
      travel: { up: number; down: number } | null;
      resolution: number | undefined;
    }
  | { lines: string[] } {
  const entries = new Entries(opened);
  const travel = entries.travel(options.travel);
  const resolution = entries.resolution(options.resolution);
  if (options.pair) {
    const names = namesOfParts(opened.build);
    for (const name of [options.pair.a, options.pair.b]) {
      if (names.includes(name)) continue;
      entries.lines.push(
        problemLine({
          path: '--pair',
          found: shown(name),
          message: 'no part is called that',
          wanted: nameWanted(name, names),
        }),
      );
    }
  }
  const chosen = options.axle === null ? null : chooseAxle(opened, options.axle);
  if (chosen && 'lines' in chosen) return { lines: [...chosen.lines, ...entries.lines] };
  if (entries.lines.length > 0) return { lines: entries.lines };
  return { axles: chosen ? [chosen.axle] : opened.axles, travel, resolution };
}
