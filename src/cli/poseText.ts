/** The report of `pose` for a person: what is broken first, then measures, lengths and bind. */
import type { Build } from '../../geometry/build/build.ts';
import type { BracketResult } from '../../geometry/cycle/bracketRates.ts';
import type { BrokenLimit, PoseReport } from '../../geometry/cycle/poseReport.ts';
import { lengthWords, seat } from '../../geometry/finding/words.ts';
import { CAUTIONS } from './cautions.ts';
import type { Screen } from './io.ts';
import { labeled, styleOf, table, wrap } from './layout.ts';
import { measureLines } from './measureText.ts';
import { fixed, limitLabel, poseWords, quantity } from './words.ts';

export function poseText(report: PoseReport, build: Build, screen: Screen): string {
  const style = styleOf(screen);
  const name = report.variant === null ? report.build : `${report.build}, ${report.variant}`;
  const lines = [
    ...wrap(`${name}: ${report.axle.name} axle, ${poseWords(build, report)}`).map(style.heading),
  ];
  if (report.status === 'solved') {
    // bind stands with the lengths and joints below
    const shown = report.measures.filter(({ id }) => id !== 'bind');
    lines.push(...brokenLines(report, build).map(report.broken.length > 0 ? style.wrong : same));
    lines.push('', style.heading('measures'), ...measureLines(shown, build));
    lines.push('', style.heading('lengths'), ...lengthLines(report, build));
    if (isCompliant(report)) lines.push('', style.heading('bind'), ...bindLines(report, build));
  } else {
    lines.push(...wrap(`${reasonWords(report)}.`, '  ').map(style.wrong));
  }
  lines.push('', ...wrap(CAUTIONS).map(style.aside));
  return `${lines.join('\n')}\n`;
}

const same = (text: string): string => text;

function reasonWords({ status, part, reason }: PoseReport): string {
  if (status === 'unreachable') {
    return part === null
      ? 'The axle cannot get there'
      : `The axle cannot get there: ${part} runs out of length`;
  }
  return reason ?? status;
}

/** What this pose breaks, or where it stands in the range. */
function brokenLines({ broken, inRange }: PoseReport, build: Build): string[] {
  if (broken.length === 0) {
    return wrap(
      inRange
        ? 'No stop and no limit of this build is passed here.'
        : 'No stop is passed here, but the axle cannot come here from ride height without passing one.',
      '  ',
    );
  }
  return [
    '  Past their limits here:',
    ...broken.flatMap(each => wrap(brokenWords(each, build), '    ', '      ')),
  ];
}

/** 'shock topped out: left shock, by 1 1/4 in'. */
export function brokenWords(
  { limit, part, side, amount, unit }: BrokenLimit,
  build: Build,
): string {
  const by =
    unit === 'in' && amount >= 1 / 32
      ? lengthWords(build, amount)
      : quantity(amount, unit, build.unit);
  const of = side === null ? part : `${part} (${seat(build, side)} side)`;
  return `${limitLabel(limit)}: ${of}, by ${by}`;
}

function lengthLines(report: PoseReport, build: Build): string[] {
  const compliant = isCompliant(report);
  const head = compliant ? [['', 'length', 'stretched', 'force']] : [];
  return table([
    ...head,
    ...report.links.map(link => {
      const length = lengthWords(build, link.length_in);
      if (!compliant) return [link.name, length];
      const gives = link.kind === 'link' || link.kind === 'track bar';
      return [
        link.name,
        length,
        gives ? quantity(link.stretch_in, 'in', build.unit) : '',
        gives ? `${fixed(link.force_lbf, 0)} lbf` : '',
      ];
    }),
  ]);
}

function isCompliant({ links, joints }: PoseReport): boolean {
  return joints.length > 0 || links.some(link => link.force_lbf !== 0);
}

function bindLines({ links, joints, bracketRates }: PoseReport, build: Build): string[] {
  const lines: string[] = [];
  const largest = [...links].sort((a, b) => Math.abs(b.force_lbf) - Math.abs(a.force_lbf))[0];
  if (largest && largest.force_lbf !== 0) {
    const way = largest.force_lbf > 0 ? 'tension' : 'compression';
    lines.push(
      ...wrap(
        `${largest.name} carries the most of all links: ${fixed(Math.abs(largest.force_lbf), 0)} lbf ` +
          `of ${way}, ${quantity(Math.abs(largest.stretch_in), 'in', build.unit)} of give.`,
        '  ',
      ),
    );
  }
  if (joints.length > 0) {
    lines.push(
      ...table([
        ['joint', 'gives', 'force'],
        ...joints.map(joint => [
          joint.name,
          quantity(joint.offset_in, 'in', build.unit),
          `${fixed(joint.force_lbf, 0)} lbf`,
        ]),
      ]),
    );
  }
  if (bracketRates) {
    const words = (result: BracketResult): string =>
      result === null
        ? 'no such pose'
        : `most give ${quantity(Math.abs(result.stretch_in), 'in', build.unit)}, most force ` +
          `${fixed(Math.abs(result.force_lbf), 0)} lbf, mean steer ${fixed(result.meanSteer_deg, 2)}°`;
    lines.push('  if the brackets are stiffer or softer than entered:');
    lines.push(
      ...labeled([
        ['half as stiff', words(bracketRates.half)],
        ['twice as stiff', words(bracketRates.twice)],
      ]),
    );
  }
  return lines;
}
