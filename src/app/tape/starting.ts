/** What starts a build and says what of it is open. Loaded by starter.ts when it is wanted: it reads files. */
import type { TapeCheck } from '../../../geometry/advice/tapeCheck.ts';
import { checkTapeSteps } from '../../../geometry/advice/tapedReadings.ts';
import { pathSteps, valueAt } from '../../../geometry/build/address.ts';
import type { Axle, Build } from '../../../geometry/build/build.ts';
import { type EntrySlope, entrySlopeSteps } from '../../../geometry/build/entrySlopes.ts';
import { formatLength } from '../../../geometry/build/format.ts';
import { own, problemParts } from '../../../geometry/build/problem.ts';
import { readBuild } from '../../../geometry/build/read.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import {
  type Answer,
  rangeWords,
  readAnswer,
  type Start,
} from '../../../geometry/build/start/answers.ts';
import {
  carriedOver,
  differences,
  isByOtherRules,
} from '../../../geometry/build/start/carryOver.ts';
import type { StartLayout } from '../../../geometry/build/start/layouts.ts';
import type { Measurement } from '../../../geometry/build/start/measurement.ts';
import { measurementsFor } from '../../../geometry/build/start/measurements.ts';
import { type Proposal, propose } from '../../../geometry/build/start/propose.ts';
import { readOff } from '../../../geometry/build/start/readOff.ts';
import { MOST_STAND } from '../../../geometry/build/start/taped.ts';
import { withUnitNamed } from '../../../geometry/build/start/unitNamed.ts';
import { readEntry } from '../../../geometry/build/tape.ts';
import type { LengthUnit } from '../../../geometry/build/units.ts';
import { sentence } from '../../../geometry/finding/words.ts';
import type { Drawn } from '../../charts/tapeDrawing.ts';

export { carriedOver, propose, rangeWords, withUnitNamed };

/** A build that nobody has taped anything of, of that layout. */
export function bareAxles(layout: StartLayout): Axle[] {
  const read = readBuild(JSON.stringify(propose({ ...bare, layout }).file));
  return read.ok ? read.build.axles : [];
}

const bare = { name: 'new build', unit: 'in', answers: {} } as const;

/** What the drawings of the measurements show, as the vehicle stands today, and what each would read. */
export interface Today {
  proposal: Proposal;
  drawn: Drawn;
  reads: (measurement: Measurement) => number | null;
  /** What was answered, in one form however it was typed; null where nothing was. */
  taped: (measurement: Measurement) => string | null;
}

export function today(start: Start): Today | null {
  // points are taped as they stand, before the frame is raised
  const { stands: _, ...standing } = start;
  const proposal = propose(standing);
  const read = readBuild(JSON.stringify(proposal.file));
  if (!read.ok) return null;
  const { axles, solids } = read.build;
  return {
    proposal,
    drawn: { axles, solids, anchors: proposal.anchors },
    reads: measurement => readOff(measurement, proposal),
    taped: measurement => {
      const answer = start.answers[measurement.id];
      return answer ? tapedWords(measurement, answer, start.unit) : null;
    },
  };
}

/** An answer in one form however it was typed: '27-¼' is '27 1/4', a side each '16 | 16 1/8'; null where it can't be read. */
export function tapedWords(
  measurement: Measurement,
  answer: Answer,
  unit: LengthUnit,
): string | null {
  const read = readAnswer(measurement, answer, unit);
  if (!read.ok) return null;
  const { left, right } = read.answer;
  const words = (value: number, typed: string): string => {
    if (measurement.dimension === 'angle') return `${Math.round((value * 18000) / Math.PI) / 100}°`;
    // a mark of a tape as its fraction; what lies between two says most as it was typed
    const isMark = unit === 'mm' || Math.abs(value * 64 - Math.round(value * 64)) < 1e-6;
    return isMark ? formatLength(value, { unit, denominator: 64 }) : typed.trim();
  };
  const { value } = answer;
  if (typeof value === 'string') return words(left, value);
  return `${words(left, value.left)} | ${words(right, value.right)}`;
}

/** What is wrong with an answer, in a line for beside its field; null where it can be used. */
export function wrongWith(
  measurement: Measurement,
  answer: Answer,
  unit: LengthUnit,
): string | null {
  const read = readAnswer(measurement, answer, unit);
  if (read.ok) return null;
  return read.problems.map(problem => problemParts(problem).what).join(' ');
}

/** The same for any length or angle that is typed. */
export function wrongWords(
  typed: string,
  dimension: 'length' | 'angle',
  unit: LengthUnit,
): string | null {
  const read = readEntry(typed, { dimension, unit });
  return read.ok ? null : `${read.reason}; write ${read.wanted}`;
}

/** The same for how the frame stands. */
export function wrongStand(
  typed: string,
  dimension: 'length' | 'angle',
  unit: LengthUnit,
): string | null {
  const read = readEntry(typed, { dimension, unit });
  if (!read.ok) return wrongWords(typed, dimension, unit);
  if (Math.abs(read.value) <= MOST_STAND[dimension]) return null;
  return dimension === 'length' ? "more than 20 in can't be right" : "more than 11° can't be right";
}

/** What no answer changes any more, since somebody changed it by hand. */
export interface KeptByHand {
  /** Paths of fields and parts. */
  paths: readonly string[];
  /** Other rules proposed the build: all that is not assumed is kept. */
  isByOtherRules: boolean;
  /** True for a number that was proposed and has been taped on its own since. */
  isTaped: (path: string) => boolean;
  /** Which of them the answer to a measurement would change. */
  of: (measurement: Measurement) => readonly string[];
}

export function keptByHand(start: Start, file: BuildFile): KeptByHand {
  const proposed = propose(start).file;
  const isOther = isByOtherRules(proposed, file);
  // readings beside the rest move nothing, and nothing moves them
  const { taped: _, ...moved } = file;
  const paths = isOther ? [] : differences(proposed, moved);
  return {
    paths,
    isByOtherRules: isOther,
    isTaped: path => fromAt(file, path) === 'measured' && fromAt(proposed, path) !== 'measured',
    of: ({ id }) => {
      const { [id]: answer, ...others } = start.answers;
      if (!answer || paths.length === 0) return [];
      const without = propose({ ...start, answers: others }).file;
      const moved = new Set(differences(without, proposed));
      return paths.filter(path => moved.has(path));
    },
  };
}

/** Where the number at a path comes from; null where none stands there. */
function fromAt(file: BuildFile, path: string): unknown {
  const steps = pathSteps(file, path);
  return steps && own(valueAt(file, steps), 'from');
}

/** Answers that can't be right beside each other, each with what is wrong. */
export function contradictions(start: Start): string[] {
  const labels = new Map(measurementsFor(start.layout).map(({ id, label }) => [id, label]));
  return propose(start).problems.map(problem => {
    const { place, what } = problemParts(problem);
    return `${sentence(labels.get(place) ?? place)}: ${what}.`;
  });
}

/** Slopes of every entry that may be off; null where `isStill` no longer holds. */
export const slopesOf = (
  file: BuildFile,
  build: Build,
  isStill: () => boolean,
): Promise<EntrySlope[] | null> => inPieces(entrySlopeSteps(file, build), isStill);

/** Readings of the tape against each other; null where they can't be, or `isStill` no longer holds. */
export const checkOf = (file: BuildFile, isStill: () => boolean): Promise<TapeCheck | null> =>
  inPieces(checkTapeSteps(file), isStill);

/** Longest piece of work before the page gets its turn, ms. */
const PIECE_ms = 8;

async function inPieces<Result>(
  steps: Generator<void, Result>,
  isStill: () => boolean,
): Promise<Result | null> {
  let since = performance.now();
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
    if (performance.now() - since < PIECE_ms) continue;
    await new Promise(resolve => setTimeout(resolve));
    if (!isStill()) return null;
    since = performance.now();
  }
}
