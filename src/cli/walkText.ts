/** The report of `walk` for a person: the range, what is wrong, the extremes. */
import type { Build } from '../../geometry/build/build.ts';
import type { Finding, Severity } from '../../geometry/finding/finding.ts';
import { listed } from '../../geometry/finding/words.ts';
import { CAUTIONS } from './cautions.ts';
import { extremeLines } from './extremesText.ts';
import type { Screen } from './io.ts';
import { type Style, styleOf, wrap } from './layout.ts';
import { rangeLines } from './rangeText.ts';
import type { FullWalkReport, Walked } from './walk.ts';
import { walkPicture } from './walkPicture.ts';
import { several } from './words.ts';

export function walkText(
  report: FullWalkReport,
  walked: readonly Walked[],
  build: Build,
  screen: Screen,
): string {
  const style = styleOf(screen);
  const name = report.variant === null ? report.build : `${report.build}, ${report.variant}`;
  const lines: string[] = [];
  for (const each of walked) {
    const { counts, axle } = each.report;
    const lost = [
      ...(counts.unreachable > 0 ? [`${counts.unreachable} out of reach`] : []),
      ...(counts.undecided > 0 ? [`${counts.undecided} undecided`] : []),
    ];
    const poses = listed([several(counts.solved, 'pose'), ...lost]);
    if (lines.length > 0) lines.push('');
    lines.push(style.heading(`${name}: ${axle} axle, ${poses} in the range`));
    lines.push(...rangeLines(each, build, style));
    const picture = walkPicture(each.walk, screen);
    if (picture.length > 0) lines.push('', ...picture);
  }
  lines.push('', ...findingLines(report.findings, style, report.axles.length > 1));
  for (const { report: axle } of walked) {
    lines.push(
      '',
      style.heading(`extremes of the ${axle.axle} axle`),
      ...extremeLines(axle, build),
    );
  }
  lines.push('', ...wrap(CAUTIONS).map(style.aside));
  return `${lines.join('\n')}\n`;
}

const SEVERITIES: Readonly<Record<Severity, string>> = {
  mustFix: 'MUST FIX',
  watch: 'watch',
  note: 'note',
};

export function findingLines(
  findings: readonly Finding[],
  style: Style,
  isNamed: boolean,
): string[] {
  const lines = [style.heading('findings, worst first')];
  if (findings.length === 0) return [...lines, '  none'];
  for (const { severity, axle, text, assumed } of findings) {
    const whole = `${isNamed ? `${axle} axle: ` : ''}${text}${assumed ? ' Hangs on something assumed.' : ''}`;
    const words = wrap(whole, `  ${SEVERITIES[severity].padEnd(10)}`, ' '.repeat(12));
    lines.push(...(severity === 'mustFix' ? words.map(style.wrong) : words));
  }
  return lines;
}
