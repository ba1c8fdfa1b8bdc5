/** `axlewalk compare`: two builds, or two variants of one, side by side. */
import type { AxleName } from '../../geometry/build/build.ts';
import { axlePairsOf, comparisonOf, type Side } from '../../geometry/compare/compare.ts';
import { tolerancesOf, type WithGaps } from '../../geometry/compare/shifted.ts';
import type { OpenedBuild } from '../../geometry/cycle/open.ts';
import type { CommandOf, FileArgument } from './arguments.ts';
import { compareHtml } from './compareHtml.ts';
import { compareText } from './compareText.ts';
import { meshLines, toKnow } from './gaps.ts';
import type { Io } from './io.ts';
import { meshReader } from './meshes.ts';
import { chooseAxle, Entries, openFile } from './opened.ts';
import { type Outcome, refused } from './outcome.ts';
import { Progress } from './progress.ts';
import { sideOf, type Walking } from './sides.ts';

/** Shares of the time: each build is walked and its gaps are found; the rest goes into tolerances. */
const EACH = 0.4;

export function compare(command: CommandOf<'compare'>, io: Io): Outcome {
  const { files, output } = command;
  const reads = files.map(file => openFile(file, io.folder));
  const [a, b] = reads;
  if (!a || !b || 'lines' in a || 'lines' in b) {
    return refused(linesOf(files, reads));
  }
  const asked = [readOptions(command, a.opened), readOptions(command, b.opened)];
  const [askedA, askedB] = asked;
  if (!askedA || !askedB || 'lines' in askedA || 'lines' in askedB) {
    const lines = asked.flatMap(each => (each && 'lines' in each ? each.lines : []));
    return refused([...new Set(lines)]);
  }

  const progress = new Progress(io);
  const sides = [
    { file: files[0], opened: a.opened, asked: askedA },
    { file: files[1], opened: b.opened, asked: askedB },
  ].map((each, i) => {
    const readMesh = meshReader(each.file.path, io.folder);
    const side = sideOf(each.opened, each.asked, readMesh, done =>
      progress.at((i + done) * EACH, each.opened.build.name),
    );
    return { ...side, readMesh };
  });
  const [sideA, sideB] = sides as [ReadSide, ReadSide];
  const pairs = axlePairsOf(sideA.walks, sideB.walks);
  const steps = tolerancesOf(a.opened, b.opened, pairs, { a: sideA, b: sideB });
  let step = steps.next();
  while (!step.done) {
    progress.at(2 * EACH + (1 - 2 * EACH) * step.value, 'what the differences are worth');
    step = steps.next();
  }
  progress.end();
  const report = comparisonOf(sideA, sideB, pairs, step.value);

  const { driverSide, unit } = sideB.build;
  const shop = { driverSide, unit };
  const warnings = new Set([a.opened, b.opened].flatMap(({ build }) => build.warnings.map(toKnow)));
  return {
    code: [sideA, sideB].some(hasMustFix) ? 1 : 0,
    out: {
      json: () => `${JSON.stringify(report)}\n`,
      html: () => compareHtml(report, [sideA, sideB], shop),
      text: () => compareText(report, shop, io.screen),
    }[output](),
    err: [...warnings, ...new Set(sides.flatMap(each => meshLines(each.gaps)))],
  };
}

/** A build that was walked, with what reads its meshes. */
type ReadSide = Side & WithGaps;

const hasMustFix = ({ findings }: Side): boolean =>
  findings.some(({ severity }) => severity === 'mustFix');

/** What is wrong with the files, each line with the file that it is of where there are two of them. */
function linesOf(
  files: readonly FileArgument[],
  reads: readonly ({ opened: OpenedBuild } | { lines: string[] })[],
): string[] {
  const bad = reads.flatMap((read, i) => {
    const { path, variant } = files[i] ?? { path: '', variant: null };
    const name = variant === null ? path : `${path}#${variant}`;
    return 'lines' in read ? [{ name, lines: read.lines }] : [];
  });
  const [first, second] = bad;
  if (!first || !second) return first?.lines ?? [];
  if (first.name === second.name) return first.lines;
  return bad.flatMap(({ name, lines }) => lines.map(line => `${name}: ${line}`));
}

function readOptions(
  { options }: CommandOf<'compare'>,
  opened: OpenedBuild,
): Walking | { lines: string[] } {
  const entries = new Entries(opened);
  const travel = entries.travel(options.travel);
  const resolution = entries.resolution(options.resolution);
  const name: AxleName | null = options.axle;
  const chosen = name === null ? null : chooseAxle(opened, name);
  if (chosen && 'lines' in chosen) return { lines: [...chosen.lines, ...entries.lines] };
  if (entries.lines.length > 0) return { lines: entries.lines };
  return { axles: chosen ? [chosen.axle] : opened.axles, travel, resolution };
}
