/** `axlewalk new`: a build from a layout and a few measurements, and what to tape next. */
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { nextMeasurements, type Settled } from '../../geometry/advice/nextMeasurement.ts';
import { entrySlopes } from '../../geometry/build/entrySlopes.ts';
import { problemLine, shown } from '../../geometry/build/problem.ts';
import { problemLines } from '../../geometry/build/read.ts';
import type { Start } from '../../geometry/build/start/answers.ts';
import { measurementsFor } from '../../geometry/build/start/measurements.ts';
import { type Proposal, propose } from '../../geometry/build/start/propose.ts';
import { readStart, writtenStart } from '../../geometry/build/start/readStart.ts';
import { writeBuild } from '../../geometry/build/write.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { walkAxle } from '../../geometry/cycle/walkReport.ts';
import { gapsOf } from '../../geometry/gap/gapReport.ts';
import type { CommandOf } from './arguments.ts';
import { ask, emptyStart } from './dialog.ts';
import { readBytes } from './files.ts';
import type { Io } from './io.ts';
import { wrap } from './layout.ts';
import { meshReader } from './meshes.ts';
import { type Outcome, refused } from './outcome.ts';
import { Progress } from './progress.ts';

/** How many of the next measurements are told. */
const TOLD = 6;

export async function newBuild(command: CommandOf<'new'>, io: Io): Promise<Outcome> {
  const { files, options } = command;
  const [{ path }] = files;
  const target = resolve(io.folder, path);
  if (existsSync(target) && options.replace !== true) {
    return refused([
      problemLine({
        path: shown(path),
        found: 'a file that is there already',
        message: '',
        wanted: 'another name, or --replace to write over it',
      }),
    ]);
  }
  const answered =
    options.answers === null ? await fromDialog(target, io) : fromFile(options.answers, io.folder);
  if ('lines' in answered) return refused(answered.lines);
  if ('kept' in answered) return { code: 0, out: `${answered.kept}\n`, err: [] };

  const { start } = answered;
  const proposal = propose(start);
  // contradictions are told in full before anything is written from a file; the dialog has told each
  if (options.answers !== null && proposal.problems.length > 0) {
    return refused(problemLines(proposal.problems));
  }
  const unwritten = written(target, writeBuild(proposal.file));
  if (unwritten !== null) return refused([unwritten]);
  if (options.answers === null) rmSync(keptPath(target), { force: true });
  const settled = whatNext(proposal, path, io);
  return {
    code: 0,
    out: `${text(path, start, proposal, settled).join('\n')}\n`,
    err: problemLines(proposal.problems),
  };
}

type Answered = { start: Start } | { lines: string[] } | { kept: string };

function fromFile(path: string, folder: string): Answered {
  const read = readBytes(path, folder);
  if ('line' in read) return { lines: [read.line] };
  const start = readStart(read.bytes);
  return start.ok ? { start: start.start } : { lines: problemLines(start.problems) };
}

/** Where answers are kept until the build is written. */
const keptPath = (target: string): string =>
  `${target.replace(/(?:\.axlewalk)?\.json$/i, '')}.answers.json`;

async function fromDialog(target: string, io: Io): Promise<Answered> {
  const path = keptPath(target);
  const before = takenUp(path);
  if (typeof before === 'string') return { lines: [before] };
  if (before) io.err(`taking up what was answered in ${path}\n`);
  const { start, isComplete } = await ask(
    io,
    before?.start ?? emptyStart(),
    before?.done ?? [],
    (now, done) => {
      const text = JSON.stringify({ ...writtenStart(now), notes: { done } }, null, 2);
      writeFileSync(path, `${text}\n`);
    },
  );
  if (isComplete) return { start };
  const isKept = existsSync(path);
  return {
    kept: isKept
      ? `Not all was asked. What was answered is kept in ${path}: the same command takes it up again, and --answers takes it as it is.`
      : 'Nothing was answered, and nothing was written.',
  };
}

/** What an earlier dialog left; a line where it cannot be read, null where there is none. */
function takenUp(path: string): { start: Start; done: string[] } | string | null {
  if (!existsSync(path)) return null;
  const text = readFileSync(path, 'utf8');
  const read = readStart(text);
  if (!read.ok) return problemLines(read.problems).join('\n');
  const { notes } = JSON.parse(text) as { notes?: { done?: unknown } };
  const done: unknown[] = Array.isArray(notes?.done) ? notes.done : [];
  return { start: read.start, done: done.filter(each => typeof each === 'string') };
}

/** Writes a file whole; a line where that fails. */
function written(path: string, text: string): string | null {
  try {
    writeFileSync(path, text);
    return null;
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'no reason given';
    const wanted = 'a folder that is there and may be written to';
    return problemLine({
      path: shown(path),
      found: `it can't be written (${code})`,
      message: '',
      wanted,
    });
  }
}

function whatNext(proposal: Proposal, path: string, io: Io): Settled | null {
  const opened = openBuild(JSON.stringify(proposal.file));
  if (!opened.ok) throw new Error(problemLines(opened.problems).join('; '));
  const { build } = opened;
  const readMesh = meshReader(path, io.folder);
  const progress = new Progress(io);
  const count = opened.axles.length;
  const walked = opened.axles.map(({ axle, model }, i) => {
    progress.at(i / (count + 1), `${axle.name} axle`);
    const walk = walkAxle(build, axle, model, { extremes: false, path: 'both' });
    return { walk, gaps: gapsOf(walk, { readMesh, still: i === 0 }) };
  });
  progress.at(count / (count + 1), 'what to tape next');
  const settled = nextMeasurements(build, walked, entrySlopes(opened.file, build), readMesh);
  progress.end();
  return settled;
}

function text(
  path: string,
  start: Start,
  { file, rules }: Proposal,
  settled: Settled | null,
): string[] {
  const asked = measurementsFor(start.layout);
  const taped = asked.filter(({ id }) => id in start.answers).length;
  const next = settled?.next.slice(0, TOLD) ?? [];
  return [
    `${path}: ${file.name}`,
    ...wrap(
      `${taped} of ${asked.length} measurements are yours. Everything else is proposed by rules and marked assumed: ${rules.length} rules were used.`,
      '  ',
    ),
    '',
    ...(settled
      ? wrap(
          `${Math.round(100 * settled.share)} % of the answer is settled, each of ${settled.questions} things counted by how surely it stays as it is; ${settled.answered} of them stand whatever is still open.`,
        )
      : []),
    ...(next.length > 0 ? ['', 'what to tape next, worth most first'] : []),
    ...next.flatMap(({ reason }, i) => wrap(reason, `  ${i + 1}  `, '     ')),
    '',
    ...wrap(`Walk it: axlewalk walk ${path}`),
    '',
    ...wrap(
      'A proposal is no vehicle: what it says holds as far as its numbers do. No approval of any part, weld or vehicle; check the finished vehicle on stands through its full travel.',
    ),
  ];
}
