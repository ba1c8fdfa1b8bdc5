/** The start of a build as its file holds it: layout and answers as typed, and by which rules all else was proposed. */
import { nearest } from '../nearest.ts';
import { fieldPath, type Problem, shown } from '../problem.ts';
import type { BuildFile } from '../schema/file.ts';
import { readEntry } from '../tape.ts';
import { type Answer, readAnswers, type Start } from './answers.ts';
import { axleChoice, linkLayouts } from './layouts.ts';
import { measurementsFor } from './measurements.ts';
import { type AnswerBlock, type StartBlock, startIn } from './startIn.ts';
import { surroundings } from './surroundings.ts';

/** Version of the rules of proposal; it grows with every change of what they propose. */
export const RULES = 1;

/** The block that goes into the file, without answers that can't be read; `startIn` reads it back. */
export function startBlock(start: Start): StartBlock {
  const { layout, stands = {}, near, answers } = start;
  const told = Object.entries(stands).filter(([, typed]) => typed.trim() !== '');
  const unread = new Set(readAnswers(start).problems.map(({ path }) => path.split(', ')[0]));
  return {
    rules: RULES,
    axles: layout.axles.map(({ steering, differential, ...axle }) => ({
      ...axle,
      ...(steering === null ? {} : { steering }),
      differential: differential ?? 'middle',
    })),
    ...(told.length > 0 ? { stands: Object.fromEntries(told) } : {}),
    ...(near ? { near } : {}),
    answers: Object.fromEntries(
      Object.entries(answers)
        .filter(([id]) => !unread.has(id))
        .map(([id, answer]) => [id, writtenAnswer(answer)]),
    ),
  };
}

/** As short as it can be said: "22 1/2", both sides, or with the datum. */
const writtenAnswer = ({ value, from }: Answer): AnswerBlock =>
  from === undefined ? value : { value, from };

/**
 * What is wrong with the start of a file whose fields are of the right kind: axles, ids, entries that can't be read or
 * can't be right.
 */
export function startProblems(file: BuildFile): Problem[] {
  const start = startIn(file);
  if (!start || !file.start) return [];
  const { axles, near, stands } = file.start;
  const problems: Problem[] = [];
  const [first, second] = axles;
  if (first && first.name === second?.name) {
    problems.push({
      path: 'start.axles[1].name',
      found: shown(second.name),
      message: 'it is there already',
      wanted: '"front" and "rear"',
    });
  }
  for (const [i, { name, steering }] of axles.entries()) {
    if (name === 'front' || steering == null) continue;
    problems.push({
      path: `start.axles[${i}].steering`,
      found: shown(steering),
      message: 'a rear axle does not steer',
      wanted: 'no "steering"',
    });
  }
  const things = surroundings.map(({ id }) => id);
  for (const [i, thing] of near?.entries() ?? []) {
    if (things.includes(thing)) continue;
    problems.push({ path: `start.near[${i}]`, found: shown(thing), ...unknown(thing, things) });
  }
  for (const [key, typed] of Object.entries(stands ?? {})) {
    if (typed == null) continue;
    const dimension = key === 'rise' ? 'length' : 'angle';
    const read = readEntry(typed, { dimension, unit: file.unit });
    if (read.ok) continue;
    const { reason: message, wanted } = read;
    problems.push({ path: `start.stands.${key}`, found: shown(typed), message, wanted });
  }
  const ids = everyId();
  for (const id of Object.keys(start.answers)) {
    if (ids.includes(id)) continue;
    const found = shown(start.answers[id]?.value);
    problems.push({ path: fieldPath(file, ['start', 'answers', id]), found, ...unknown(id, ids) });
  }
  const { problems: unread } = readAnswers(start);
  return [
    ...problems,
    ...unread.map(problem => {
      const steps = ['start', 'answers', ...problem.path.split(', ')];
      return { ...problem, path: fieldPath(file, steps) };
    }),
  ];
}

function unknown(word: string, known: readonly string[]): Pick<Problem, 'message' | 'wanted'> {
  const near = nearest(word, known);
  const wanted = near === null ? `one of ${known.join(', ')}` : `"${near}"`;
  return { message: 'nobody asks for it', wanted };
}

/** Everything that any layout asks: answers outlive a change of the layout. */
function everyId(): string[] {
  const layouts = linkLayouts.map(({ id: links }) => ({
    driverSide: 'left' as const,
    axles: [axleChoice('front', { links }), axleChoice('rear', { links })],
  }));
  return [...new Set(layouts.flatMap(measurementsFor).map(({ id }) => id))];
}
