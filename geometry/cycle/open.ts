/**
 * The library's door: a build file's bytes to axles that can be asked for poses, measures and walks. The
 * command line stands on nothing else.
 *
 * @example
 * const opened = openBuild(await readFile('truck.axlewalk.json'));
 * if (!opened.ok) throw new Error(problemLines(opened.problems).join('\n'));
 * for (const axle of opened.axles) {
 *   const report = poseReport(axle, { left: 4, right: -2.25, steer: 0 }); // in, in, rad
 *   console.log(axle.axle.name, report.status, report.measures);
 * }
 */
import type { Build } from '../build/build.ts';
import type { Problem } from '../build/problem.ts';
import { readBuild } from '../build/read.ts';
import type { BuildFile } from '../build/schema/file.ts';
import { type OpenedAxle, openAxle } from './openAxle.ts';

export interface OpenedBuild {
  build: Build;
  /** In the order of the file. */
  axles: OpenedAxle[];
  /** The file as written, of the current version, the variant applied. */
  file: BuildFile;
}

export type Opened = ({ ok: true } & OpenedBuild) | { ok: false; problems: Problem[] };

/**
 * Reads a build file and settles each of its axles at ride height. Never throws on bad input: the problems
 * are all those of the first stage that has any (text; schema and tape; names; geometry; mechanism), and of
 * the last stage those of all axles.
 *
 * @param bytes UTF-8 text of the file, at most 8 MiB
 * @param options `variant`: name of the variant to apply to the base
 */
export function openBuild(
  bytes: Uint8Array | string,
  options: { variant?: string | null } = {},
): Opened {
  const read = readBuild(bytes, options);
  if (!read.ok) return read;
  const { build, file } = read;
  const axles: OpenedAxle[] = [];
  const problems: Problem[] = [];
  for (const axle of build.axles) {
    const opened = openAxle(build, axle);
    if (opened.ok) axles.push(opened.axle);
    else problems.push(...opened.problems);
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, build, axles, file };
}

export { axleOf } from './openAxle.ts';
