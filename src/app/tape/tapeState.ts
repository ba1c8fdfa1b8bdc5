/** What the sheet of the tape shows, and what is known of what to tape next. */
import { create } from 'zustand';
import type { Settled } from '../../../geometry/advice/nextMeasurement.ts';
import type { Answer, Start } from '../../../geometry/build/start/answers.ts';
import type { HeightDatum } from '../../../geometry/build/start/measurement.ts';

export type TapeView = 'walk' | 'next' | 'check' | 'rules';

/** What stands in the fields of a question before it is taken. */
export interface Draft {
  /** The left one where both sides are given. */
  left: string;
  /** Null where one value holds for both sides. */
  right: string | null;
  from: HeightDatum;
}

export interface TapeShown {
  /** Null: the first that there is something for. */
  view: TapeView | null;
  /** Id of what is asked; null: the first that is open. */
  at: string | null;
  /** Fields that could not be taken yet, with why. */
  drafts: Readonly<Record<string, Draft>>;
  wrong: Readonly<Record<string, string>>;
  /** The pictures of layouts are for the build that is open, not for a new one. */
  isChange: boolean;
  /** What the worker said last, and of which generation. */
  settled: { generation: number; told: Settled } | null;
  isRanking: boolean;
}

export const useTape = create<TapeShown>()(() => ({
  view: null,
  at: null,
  drafts: {},
  wrong: {},
  isChange: false,
  settled: null,
  isRanking: false,
}));

/** A text that names no unit. */
const PLAIN = /^[^a-z"'°%″′]*$/i;

/** The same start read with another unit's tape: what was typed without a unit keeps the one that it had. */
export function inUnit(start: Start, unit: Start['unit']): Start {
  if (start.unit === unit) return start;
  const own = (typed: string): string =>
    typed.trim() !== '' && PLAIN.test(typed) ? `${typed.trim()} ${start.unit}` : typed;
  const answers = Object.entries(start.answers).map(([id, answer]): [string, Answer] => {
    const { value } = answer;
    if (id.endsWith('Angle')) return [id, answer];
    const kept =
      typeof value === 'string' ? own(value) : { left: own(value.left), right: own(value.right) };
    return [id, { ...answer, value: kept }];
  });
  const { rise } = start.stands ?? {};
  return {
    ...start,
    unit,
    answers: Object.fromEntries(answers),
    ...(rise === undefined ? {} : { stands: { ...start.stands, rise: own(rise) } }),
  };
}

/** Another build, or another layout: nothing is half typed. */
export const clearDrafts = (): void => useTape.setState({ drafts: {}, wrong: {} });

/** The fields of a question as they are filled in. */
export function draftOf(answer: Answer | undefined): Draft {
  const { value = '', from = 'floor' } = answer ?? {};
  return typeof value === 'string'
    ? { left: value, right: null, from }
    : { left: value.left, right: value.right, from };
}

/** What is told by them; null where they are empty. */
export function answerOf({ left, right, from }: Draft): Answer | null {
  const datum = from === 'floor' ? {} : { from };
  if (right === null) return left.trim() === '' ? null : { value: left.trim(), ...datum };
  if (left.trim() === '' && right.trim() === '') return null;
  return { value: { left: left.trim(), right: right.trim() }, ...datum };
}

/** An answer as a list shows it: '21 1/2', '18 1/2 | 18 3/8'. */
export const answerWords = ({ value }: Answer): string =>
  typeof value === 'string' ? value : `${value.left} | ${value.right}`;
