/** `axlewalk gaps --alternative`: the candidates for one part in a table. */
import { nearest } from '../../geometry/build/nearest.ts';
import { problemLine, shown } from '../../geometry/build/problem.ts';
import { problemLines } from '../../geometry/build/read.ts';
import {
  type CandidateRow,
  candidateRow,
  candidatesOf,
  rowAsBuilt,
  withCandidate,
} from '../../geometry/compare/candidates.ts';
import type { Side } from '../../geometry/compare/compare.ts';
import { type OpenedBuild, openBuild } from '../../geometry/cycle/open.ts';
import type { PoseName } from '../../geometry/cycle/walkReport.ts';
import { lengthWords, type Shop } from '../../geometry/finding/words.ts';
import { named } from '../../geometry/gap/gapReport.ts';
import type { PairGap } from '../../geometry/gap/pairGap.ts';
import type { CommandOf } from './arguments.ts';
import { CAUTIONS } from './cautions.ts';
import { shortPose } from './extremesText.ts';
import { meshLines, toKnow } from './gaps.ts';
import type { Io } from './io.ts';
import { styleOf, table, wrap } from './layout.ts';
import { meshReader } from './meshes.ts';
import { chooseAxle, Entries, openFile } from './opened.ts';
import { type Outcome, refused } from './outcome.ts';
import { Progress } from './progress.ts';
import { sideOf, type Walking } from './sides.ts';
import { several } from './words.ts';

interface GapThere {
  a: string;
  b: string;
  gap_in: number;
  required_in: number;
  pose: PoseName;
}

/** A row as `--json` prints it. */
export interface CandidateReport {
  /** Null: the build as it stands. */
  option: string | null;
  needs: { alternative: string; option: string }[];
  why: string | null;
  /** Why it can't be built; then all below is empty. */
  refused: string[];
  touches: GapThere[];
  short: GapThere[];
  clear: number;
  changes: string[];
}

export interface CandidatesReport {
  build: string;
  variant: string | null;
  alternative: string;
  part: string;
  options: CandidateReport[];
}

export function candidates(command: CommandOf<'gaps'>, io: Io): Outcome {
  const { files, options, output } = command;
  const read = openFile(files[0], io.folder);
  if ('lines' in read) return refused(read.lines);
  const { opened } = read;
  const asked = readOptions(command, opened);
  if ('lines' in asked) return refused(asked.lines);

  const name = options.alternative ?? '';
  const all = candidatesOf(opened.file, name);
  const readMesh = meshReader(files[0].path, io.folder);
  const progress = new Progress(io);
  const walked = (of: OpenedBuild, walking: Walking, i: number, what: string): Side =>
    sideOf(of, walking, readMesh, done => progress.at((i + done) / (all.length + 1), what));
  const base = walked(opened, asked, 0, 'as it stands');
  const first = rowAsBuilt(base, all[0]?.part ?? '');
  const rows = all.map((candidate, i): CandidateReport => {
    const { file, variant } = withCandidate(opened.file, candidate);
    const other = openBuild(JSON.stringify(file), { variant });
    const head = { option: candidate.option, needs: candidate.needs, why: candidate.why };
    if (!other.ok) {
      const empty = { touches: [], short: [], clear: 0, changes: [] };
      return { ...head, refused: problemLines(other.problems), ...empty };
    }
    const axles = other.axles.filter(({ axle }) =>
      asked.axles.some(each => each.axle.name === axle.name),
    );
    const side = walked(other, { ...asked, axles }, i + 1, candidate.option);
    return { ...head, refused: [], ...told(candidateRow(base, side, candidate)) };
  });
  progress.end();
  const { build } = opened;
  const report: CandidatesReport = {
    build: build.name,
    variant: build.variant,
    alternative: name,
    part: all[0]?.part ?? '',
    options: [{ option: null, needs: [], why: null, refused: [], ...told(first) }, ...rows],
  };
  return {
    code: first.touches.length > 0 ? 1 : 0,
    out: output === 'json' ? `${JSON.stringify(report)}\n` : text(report, build, io),
    err: [...build.warnings.map(toKnow), ...meshLines(base.gaps)],
  };
}

function told({
  touches,
  short,
  clear,
  changes,
}: CandidateRow): Pick<CandidateReport, 'touches' | 'short' | 'clear' | 'changes'> {
  const there = (found: PairGap): GapThere => ({
    a: found.pair.a.name,
    b: found.pair.b.name,
    gap_in: found.gap,
    required_in: found.pair.required,
    pose: named(found),
  });
  return {
    touches: touches.map(there),
    short: short.map(there),
    clear,
    changes: changes.map(each => each.text),
  };
}

function readOptions(
  { options, output }: CommandOf<'gaps'>,
  opened: OpenedBuild,
): Walking | { lines: string[] } {
  const entries = new Entries(opened);
  const travel = entries.travel(options.travel);
  const resolution = entries.resolution(options.resolution);
  const typed = options.alternative ?? '';
  const names = (opened.file.alternatives ?? []).map(each => each.name);
  if (!names.includes(typed)) {
    const near = nearest(typed, names);
    const wanted = near === null ? names.map(each => `"${each}"`).join(', ') : `"${near}"`;
    entries.lines.push(
      problemLine({
        path: '--alternative',
        found: shown(typed),
        message: 'the build has no alternative of that name',
        wanted: wanted || 'a build with alternatives',
      }),
    );
  }
  for (const [name, given] of [
    ['--pair', options.pair !== null],
    ['--csv', output === 'csv'],
  ] as const) {
    if (given) entries.lines.push(`${name} and --alternative are both given: keep one`);
  }
  const chosen = options.axle === null ? null : chooseAxle(opened, options.axle);
  if (chosen && 'lines' in chosen) return { lines: [...chosen.lines, ...entries.lines] };
  if (entries.lines.length > 0) return { lines: entries.lines };
  return { axles: chosen ? [chosen.axle] : opened.axles, travel, resolution };
}

function text(report: CandidatesReport, shop: Shop, io: Io): string {
  const style = styleOf(io.screen);
  const name = report.variant === null ? report.build : `${report.build}, ${report.variant}`;
  const calls = ({ option }: CandidateReport): string => option ?? 'as it stands';
  const lines = [
    style.heading(`${name}: candidates for the ${report.alternative}`),
    '',
    ...table([
      ['', 'hits', 'short', 'clear', 'tightest'],
      ...report.options.map(each => {
        if (each.refused.length > 0) return [calls(each), '', '', '', "can't be built"];
        const worst = each.touches[0] ?? each.short[0];
        return [
          calls(each),
          String(each.touches.length),
          String(each.short.length),
          String(each.clear),
          worst ? gapWords(worst, shop) : '',
        ];
      }),
    ]),
  ];
  for (const each of report.options) {
    lines.push('', style.heading(calls(each)));
    if (each.needs.length > 0) {
      const needs = each.needs.map(({ alternative, option }) => `${option} (${alternative})`);
      lines.push(...wrap(`only with ${needs.join(', ')}`, '  ', '    '));
    }
    if (each.why) lines.push(...wrap(each.why, '  ', '    '));
    lines.push(...each.refused.flatMap(line => wrap(line, '  ', '    ')));
    for (const [what, list] of [
      ['hits', each.touches],
      ['short', each.short],
    ] as const) {
      lines.push(
        ...list.flatMap(found =>
          wrap(
            `${what.padEnd(7)}${found.a} / ${found.b}: ${gapWords(found, shop)} of ${lengthWords(shop, found.required_in)} asked, at ${shortPose(found.pose, shop.driverSide)}`,
            '  ',
            '         ',
          ),
        ),
      );
    }
    if (each.refused.length === 0) {
      lines.push(`  clear  ${several(each.clear, 'other pair')} of its parts`);
    }
    lines.push(...each.changes.flatMap(line => wrap(line, '  ', '    ')));
  }
  lines.push('', ...wrap(CAUTIONS).map(style.aside));
  return `${lines.join('\n')}\n`;
}

const gapWords = ({ gap_in }: GapThere, shop: Shop): string =>
  `${gap_in < 0 ? '−' : ''}${lengthWords(shop, Math.abs(gap_in))}`;
