/** What somebody who starts a build has told so far, and whether an answer can be right. */
import { formatLength } from '../format.ts';
import { type Problem, shown } from '../problem.ts';
import { readEntry } from '../tape.ts';
import type { LengthUnit } from '../units.ts';
import type { StartLayout } from './layouts.ts';
import type { HeightDatum, Measurement } from './measurement.ts';
import { measurementsFor } from './measurements.ts';

/** One answer as typed: one value, or left and right apart; a height with the datum that the tape started at. */
export interface Answer {
  value: string | { left: string; right: string };
  /** Floor unless given. */
  from?: HeightDatum;
}

/** Everything that a start can be saved as and taken up from again. Plain JSON. */
export interface Start {
  name: string;
  unit: LengthUnit;
  layout: StartLayout;
  /** How the chassis stood and how far it is going to be raised: tape entries; none is level and as it stands. */
  stands?: { rake?: string; roll?: string; rise?: string };
  /** By the id of their measurement; one that is missing was skipped. */
  answers: Record<string, Answer>;
  /** What stands near the axles: kinds of `surroundings`. */
  near?: string[];
}

/** A measurement's answer in inches or radians. */
export interface ReadAnswer {
  left: number;
  right: number;
  /** As typed; null where left and right were typed apart. */
  typed: string | null;
  from: HeightDatum;
}

export type AnswerRead = { ok: true; answer: ReadAnswer } | { ok: false; problems: Problem[] };

/**
 * Reads an answer, or says what is wrong with it: the measurement, what stands there, what would be right.
 *
 * @param path in front of the message; the measurement's label unless given
 */
export function readAnswer(
  measurement: Measurement,
  answer: Answer,
  unit: LengthUnit,
  path = measurement.label,
): AnswerRead {
  const { value, from = 'floor' } = answer;
  const problems: Problem[] = [];
  const read = (typed: string, at: string): number => {
    const entry = readEntry(typed, { dimension: measurement.dimension, unit });
    if (!entry.ok) {
      problems.push({ path: at, found: shown(typed), message: entry.reason, wanted: entry.wanted });
      return 0;
    }
    if (!isPlausible(measurement, from, entry.value)) {
      problems.push({
        path: at,
        found: shown(typed),
        message:
          entry.value < measurement.least ? 'too small to be right' : 'too large to be right',
        wanted: rangeWords(measurement, unit),
      });
    }
    return entry.value;
  };
  if (from !== 'floor' && !measurement.datums.includes(from)) {
    const among = measurement.datums.join(', ') || 'no datum here';
    problems.push({ path, found: shown(from), message: 'not taped from there', wanted: among });
  }
  if (typeof value === 'string') {
    const both = read(value, path);
    if (problems.length > 0) return { ok: false, problems };
    return { ok: true, answer: { left: both, right: both, typed: value, from } };
  }
  if (!measurement.sided) {
    const wanted = 'one value for both sides';
    problems.push({ path, found: 'left and right', message: 'it has no sides', wanted });
  }
  const left = read(value.left, `${path}, left`);
  const right = read(value.right, `${path}, right`);
  if (problems.length > 0) return { ok: false, problems };
  const typed = value.left.trim() === value.right.trim() ? value.left : null;
  return { ok: true, answer: { left, right, typed, from } };
}

/** A height from another datum than the floor may be of either sign. */
function isPlausible({ least, most }: Measurement, from: HeightDatum, value: number): boolean {
  if (from !== 'floor') return Math.abs(value) <= most;
  return value >= least && value <= most;
}

/** 'from 10 to 30 in, such as 18 1/2': what would be right. */
export function rangeWords(measurement: Measurement, unit: LengthUnit): string {
  const { least, most, dimension, such } = measurement;
  if (dimension === 'angle') {
    const whole = (angle: number): number => Math.round((angle * 180) / Math.PI);
    return `from ${whole(least)} to ${whole(most)} deg, such as ${such}`;
  }
  const words = (value: number): string => formatLength(value, { unit });
  const example = unit === 'in' ? such : `${such} in`;
  return `from ${words(least)} to ${words(most)} ${unit}, such as ${example}`;
}

/** All answers that can be read, by id, and what is wrong with the others (and with ids that nobody asked for). */
export function readAnswers(start: Start): {
  read: Map<string, ReadAnswer>;
  problems: Problem[];
} {
  const asked = new Map(measurementsFor(start.layout).map(each => [each.id, each]));
  const read = new Map<string, ReadAnswer>();
  const problems: Problem[] = [];
  for (const [id, answer] of Object.entries(start.answers)) {
    const measurement = asked.get(id);
    // kept for when the layout is changed back
    if (!measurement) continue;
    const result = readAnswer(measurement, answer, start.unit, id);
    if (result.ok) read.set(id, result.answer);
    else problems.push(...result.problems);
  }
  return { read, problems };
}
