/**
 * The questions of a new build, asked one after the other: layout first, then the measurements in the order of one
 * walk around the vehicle. An empty line skips, `back` goes to the question before; nothing that was answered is lost.
 */
import { type Problem, problemLine } from '../../geometry/build/problem.ts';
import {
  type Answer,
  rangeWords,
  readAnswer,
  type Start,
} from '../../geometry/build/start/answers.ts';
import {
  axleChoice,
  linkLayouts,
  steeringLayouts,
  strapLayouts,
} from '../../geometry/build/start/layouts.ts';
import type { HeightDatum, Measurement } from '../../geometry/build/start/measurement.ts';
import { measurementsFor } from '../../geometry/build/start/measurements.ts';
import { surroundings } from '../../geometry/build/start/surroundings.ts';
import { readEntry } from '../../geometry/build/tape.ts';
import type { Io } from './io.ts';

/** One question: how it is asked, and what an answer makes of the start; a text is what is wrong with it. */
interface Question {
  /** Names the place, so that what was answered is known again when the list of questions changes. */
  id: string;
  text(start: Start): string[];
  /** What an empty line means. */
  otherwise: string;
  take(start: Start, typed: string): Start | string;
}

export interface Dialog {
  start: Start;
  /** False where the input ended before the last question. */
  isComplete: boolean;
}

/** Words that are commands and no answers. */
const BACK = 'back';

export const emptyStart = (): Start => ({
  name: 'new build',
  unit: 'in',
  layout: { axles: [axleChoice('front')], driverSide: 'left' },
  answers: {},
});

/**
 * Asks until all is asked or the input ends.
 *
 * @param from what is known already
 * @param done ids of questions that were answered before and are not asked again
 * @param kept called after each answer, so that nothing is lost whatever happens
 */
export async function ask(
  io: Io,
  from: Start,
  done: readonly string[],
  kept: (start: Start, done: readonly string[]) => void,
): Promise<Dialog> {
  let start = from;
  const answered = [...done];
  const asked: string[] = [];
  io.err(
    'Empty line: skip. "back": the question before. End of input: what was answered is kept.\n',
  );
  for (;;) {
    const questions = questionsFor(start);
    const question = questions.find(({ id }) => !answered.includes(id));
    if (!question) return { start, isComplete: true };
    const count = `${questions.indexOf(question) + 1}/${questions.length}`;
    io.err(`\n${question.text(start).join('\n')}\n`);
    const typed = await io.line(`${count} [${question.otherwise}] > `);
    if (typed === null) {
      io.err('\n');
      return { start, isComplete: false };
    }
    if (typed.trim().toLowerCase() === BACK) {
      const before = asked.pop();
      if (before === undefined) io.err('  this is the first question\n');
      else answered.splice(answered.indexOf(before), 1);
      continue;
    }
    const next = typed.trim() === '' ? start : question.take(start, typed.trim());
    if (typeof next === 'string') {
      io.err(`  ${next}\n`);
      continue;
    }
    start = next;
    answered.push(question.id);
    asked.push(question.id);
    kept(start, answered);
  }
}

function questionsFor(start: Start): Question[] {
  const { axles } = start.layout;
  return [
    ...vehicle,
    ...axles.flatMap((_, i) => axleQuestions(start, i)),
    ...stance,
    nearby(start),
    ...measurementsFor(start.layout).map(measurementQuestion),
  ];
}

const vehicle: Question[] = [
  {
    id: 'name',
    text: () => ['What is the build called?'],
    otherwise: 'new build',
    take: (start, typed) =>
      typed.length > 80 ? 'at most 80 characters' : { ...start, name: typed },
  },
  choose('unit', 'Is your tape in inches or millimeters?', ['in', 'mm'], (start, unit) => ({
    ...start,
    unit,
  })),
  choose(
    'driver',
    'On which side does the driver sit?',
    ['left', 'right'],
    (start, driverSide) => ({
      ...start,
      layout: {
        driverSide,
        axles: start.layout.axles.map(axle =>
          axle.differential === null ? axle : { ...axle, differential: driverSide },
        ),
      },
    }),
  ),
  choose('axles', 'Which axle is it?', ['front', 'rear', 'both'], (start, which) => {
    const names = which === 'both' ? (['front', 'rear'] as const) : [which];
    const { axles, driverSide } = start.layout;
    return {
      ...start,
      layout: {
        driverSide,
        axles: names.map(
          name => axles.find(each => each.name === name) ?? axleChoice(name, {}, driverSide),
        ),
      },
    };
  }),
];

/** A question with a few words as answers; the first is meant by an empty line. */
function choose<const T extends string>(
  id: string,
  text: string,
  choices: readonly T[],
  take: (start: Start, choice: T) => Start,
): Question {
  return {
    id,
    text: () => [text],
    otherwise: choices[0] ?? '',
    take: (start, typed) => {
      const choice = choices.find(each => each === typed.toLowerCase());
      return choice === undefined ? `one of ${choices.join(', ')}` : take(start, choice);
    },
  };
}

type Picked = readonly { id: string; label: string; text: string }[];

/** A question with a numbered list. */
function pick<const T extends Picked>(
  id: string,
  text: string,
  choices: T,
  now: string,
  take: (start: Start, choice: T[number]['id']) => Start,
): Question {
  return {
    id,
    text: () => [
      text,
      ...choices.map(({ label, text: more }, i) => `  ${i + 1}  ${label}: ${more}`),
    ],
    otherwise: String(choices.findIndex(each => each.id === now) + 1),
    take: (start, typed) => {
      const choice = /^\d+$/.test(typed) ? choices[Number(typed) - 1] : undefined;
      return choice ? take(start, choice.id) : `a number from 1 to ${choices.length}`;
    },
  };
}

function axleQuestions(start: Start, index: number): Question[] {
  const axle = start.layout.axles[index];
  if (!axle) return [];
  const change =
    <T>(key: string) =>
    (from: Start, value: T): Start => ({
      ...from,
      layout: {
        ...from.layout,
        axles: from.layout.axles.map((each, i) => (i === index ? { ...each, [key]: value } : each)),
      },
    });
  const id = (what: string): string => `${axle.name} ${what}`;
  const steers = axle.name === 'front';
  const yesNo = (key: string, text: string): Question => ({
    id: id(key),
    text: () => [text],
    otherwise: 'no',
    take: (from, typed) =>
      /^y(es)?$|^no?$/i.test(typed) ? change<boolean>(key)(from, /^y/i.test(typed)) : 'yes or no',
  });
  return [
    pick(
      id('links'),
      `What holds the ${axle.name} axle?`,
      linkLayouts,
      axle.links,
      change('links'),
    ),
    ...(steers
      ? [
          pick(
            id('steering'),
            'What steers it?',
            steeringLayouts,
            axle.steering ?? 'dragLinkToKnuckle',
            change('steering'),
          ),
        ]
      : []),
    ...(steers && axle.steering !== 'doubleRam'
      ? [yesNo('assistRam', 'Does a ram from the axle assist the tie rod? (yes, no)')]
      : []),
    pick(id('straps'), 'What holds it in droop?', strapLayouts, axle.straps, change('straps')),
  ];
}

const stance: Question[] = [
  typedStance(
    'rise',
    'How far is the frame going to be raised from where it stands now?',
    'length',
    '2 1/2',
  ),
  typedStance(
    'rake',
    'How many degrees does the frame stand nose down now, against how it will stand?',
    'angle',
    '1 deg',
  ),
];

function typedStance(
  key: 'rise' | 'rake',
  text: string,
  dimension: 'length' | 'angle',
  such: string,
): Question {
  return {
    id: key,
    text: () => [text],
    otherwise: '0',
    take: (start, typed) => {
      const read = readEntry(typed, { dimension, unit: start.unit });
      if (!read.ok) return told(key, typed, read.reason, read.wanted);
      const most = dimension === 'length' ? 20 : 0.2;
      if (Math.abs(read.value) > most)
        return told(key, typed, 'too large to be right', `such as ${such}`);
      return { ...start, stands: { ...start.stands, [key]: typed } };
    },
  };
}

function nearby(from: Start): Question {
  const names = from.layout.axles.map(({ name }) => name);
  const offered = surroundings.filter(({ axle }) => axle === 'either' || names.includes(axle));
  return {
    id: 'near',
    text: () => [
      'What stands near the axle and could be struck? Numbers with spaces between, or none.',
      ...offered.map(({ label, isUsual }, i) => `  ${i + 1}  ${label}${isUsual ? ' (usual)' : ''}`),
    ],
    otherwise: 'the usual ones',
    take: (start, typed) => {
      if (/^none$/i.test(typed)) return { ...start, near: [] };
      const picked = typed.split(/[\s,]+/).map(each => offered[Number(each) - 1]);
      const known = picked.filter(each => each !== undefined);
      if (known.length < picked.length) return `numbers from 1 to ${offered.length}, or none`;
      return { ...start, near: known.map(({ id }) => id) };
    },
  };
}

const DATUMS: Readonly<Record<string, HeightDatum>> = {
  floor: 'floor',
  wheel: 'wheelCenter',
  rail: 'railBottom',
};

function measurementQuestion(measurement: Measurement): Question {
  const { id, question, hint, sided, datums } = measurement;
  return {
    id,
    text: ({ unit }) => [
      question,
      `  ${hint}`,
      `  ${rangeWords(measurement, unit)}${sided ? '; left | right where they differ' : ''}${
        datums.length > 1
          ? '; "3 1/2 from wheel" up from the wheel center, "from rail" up from the bottom of the rail'
          : ''
      }`,
    ],
    otherwise: 'skip',
    take: (start, typed) => {
      const answer = answerOf(typed);
      const read = readAnswer(measurement, answer, start.unit);
      if (!read.ok) return read.problems.map(problemLine).join('\n  ');
      return { ...start, answers: { ...start.answers, [id]: answer } };
    },
  };
}

/** '21 1/2 | 21 1/4', '-3 1/2 from wheel'. */
function answerOf(typed: string): Answer {
  const [, whole = typed, datum] = /^(.*?)\s+from\s+(floor|wheel|rail)$/i.exec(typed) ?? [];
  const [left, right, ...more] = whole.split('|').map(each => each.trim());
  const from = datum === undefined ? undefined : DATUMS[datum.toLowerCase()];
  const value =
    left === undefined || right === undefined || more.length > 0 ? whole.trim() : { left, right };
  return from === undefined ? { value } : { value, from };
}

const told = (path: string, typed: string, message: string, wanted: string): string => {
  const problem: Problem = { path, found: JSON.stringify(typed), message, wanted };
  return problemLine(problem);
};
