/** `axlewalk check`: what a build describes, or what is wrong with it. */
import { type CheckReport, checkReport } from '../../geometry/cycle/checkReport.ts';
import type { CommandOf } from './arguments.ts';
import { checkText } from './checkText.ts';
import type { Io } from './io.ts';
import { openFile } from './opened.ts';
import { type Outcome, refused } from './outcome.ts';

export function check({ files: [file], output }: CommandOf<'check'>, io: Io): Outcome {
  const read = openFile(file, io.folder);
  if ('lines' in read) return refused(read.lines);
  const report: CheckReport = checkReport(read.opened);
  const out =
    output === 'json'
      ? `${JSON.stringify(report)}\n`
      : checkText(report, read.opened.build, io.screen);
  return { code: 0, out, err: [] };
}
