/** `axlewalk walk`: the axles cycled through all that their stops allow. */
import type { OpenedBuild } from '../../geometry/cycle/open.ts';
import type { OpenedAxle } from '../../geometry/cycle/openAxle.ts';
import {
  type AxleWalk,
  type WalkOptions,
  type WalkReport,
  walkAxle,
  walkReport,
} from '../../geometry/cycle/walkReport.ts';
import { type Finding, findFindings } from '../../geometry/finding/finding.ts';
import { gapsOf } from '../../geometry/gap/gapReport.ts';
import type { CommandOf } from './arguments.ts';
import { meshLines, toKnow } from './gaps.ts';
import type { Io } from './io.ts';
import { meshReader } from './meshes.ts';
import { chooseAxle, Entries, openFile } from './opened.ts';
import { type Outcome, refused } from './outcome.ts';
import { Progress } from './progress.ts';
import { walkCsv } from './walkCsv.ts';
import { walkText } from './walkText.ts';

/** What `walk --json` prints. */
export interface FullWalkReport {
  build: string;
  variant: string | null;
  axles: WalkReport[];
  findings: Finding[];
}

/** A walked axle beside its report. */
export interface Walked {
  walk: AxleWalk;
  report: WalkReport;
}

/** Share of the time that goes into walking; the rest goes into gaps and findings. */
const WALKING = 0.6;

export function walk(command: CommandOf<'walk'>, io: Io): Outcome {
  const { files, options, output } = command;
  const read = openFile(files[0], io.folder);
  if ('lines' in read) return refused(read.lines);
  const { opened } = read;
  const asked = readOptions(command, opened);
  if ('lines' in asked) return refused(asked.lines);

  const progress = new Progress(io);
  const walked = asked.axles.map((axle, i): Walked => {
    const result = walkAxle(axle.build, axle.axle, axle.model, {
      ...asked.options,
      progress: done =>
        progress.at(((i + done) / asked.axles.length) * WALKING, `${axle.axle.name} axle`),
    });
    const report = walkReport(result);
    // of two axles, the one that does not steer has no walk from lock to lock
    const has = options.path !== 'lock-to-lock' || axle.axle.steered;
    return { walk: result, report: has ? report : { ...report, walks: [] } };
  });
  const { build } = opened;
  progress.at(WALKING, 'gaps and findings');
  const readMesh = meshReader(files[0].path, io.folder);
  const gaps = walked.map((each, i) => gapsOf(each.walk, { readMesh, still: i === 0 }));
  const findings = findFindings(
    build,
    walked.map(each => each.walk),
    gaps,
  );
  progress.end();

  const report: FullWalkReport = {
    build: build.name,
    variant: build.variant,
    axles: walked.map(each => each.report),
    findings,
  };
  return {
    code: findings.some(finding => finding.severity === 'mustFix') ? 1 : 0,
    out: {
      json: () => `${JSON.stringify(report)}\n`,
      csv: () => walkCsv(report.axles),
      text: () => walkText(report, walked, build, io.screen),
    }[output](),
    err: [...build.warnings.map(toKnow), ...meshLines(gaps)],
  };
}

/** The axles that are asked for and how to walk them, or what is wrong with the options. */
function readOptions(
  { options }: CommandOf<'walk'>,
  opened: OpenedBuild,
): { axles: OpenedAxle[]; options: WalkOptions } | { lines: string[] } {
  const entries = new Entries(opened);
  const { travel, grid, path } = options;
  const bounds = entries.travel(travel);
  const resolution = entries.resolution(options.resolution);
  const chosen = options.axle === null ? null : chooseAxle(opened, options.axle);
  if (chosen && 'lines' in chosen) return { lines: [...chosen.lines, ...entries.lines] };
  const axles = chosen ? [chosen.axle] : opened.axles;
  if (path === 'lock-to-lock' && !axles.some(({ axle }) => axle.steered)) {
    const names = axles.map(({ axle }) => `${axle.name} axle`).join(' and ');
    entries.refuse('path', path, `the ${names} does not steer`, 'another walk');
  }
  if (entries.lines.length > 0) return { lines: entries.lines };
  return {
    axles,
    options: {
      ...(grid ? { grid } : {}),
      ...(resolution === undefined ? {} : { resolution }),
      travel: bounds,
      path,
    },
  };
}
