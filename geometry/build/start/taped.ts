/** The answers of a start as values, and the proposal in their place where there is none. */
import { formatLength } from '../format.ts';
import { type Problem, shown } from '../problem.ts';
import { readEntry } from '../tape.ts';
import { type ReadAnswer, readAnswers, type Start } from './answers.ts';
import { derived, FINDER_rad, Pen, TAPE_in, type Value } from './value.ts';

/** How far a frame can be raised and how far it can lean for it to be believed, in and rad. */
export const MOST_STAND = { length: 20, angle: 0.2 } as const;

/** A value for each side. */
export interface Both {
  left: Value;
  right: Value;
}

/** A rule by which something was proposed. */
export interface Rule {
  /** Field or part of the build file that it made, as messages write paths. */
  path: string;
  /** What is shown, with its source or 'common practice, no source'. */
  sentence: string;
  /** Id of the measurement that it stands in for; none where nothing is asked. */
  measurement?: string;
}

export const isSame = ({ left, right }: Both): boolean =>
  left.at === right.at && left.typed === right.typed;

/** What a proposal is made from, and the rules that were used on the way. */
export class Taped {
  readonly start: Start;
  readonly pen: Pen;
  readonly rules: Rule[] = [];
  readonly problems: Problem[];
  /** How far the chassis is going to be raised, in, and its rake as taped, rad; 0 where they can't be read. */
  readonly #rise: number;
  readonly #rake: number;
  readonly #read: Map<string, ReadAnswer>;

  constructor(start: Start) {
    this.start = start;
    this.pen = new Pen(start.unit);
    const read = (typed: string | undefined, dimension: 'length' | 'angle'): number => {
      const entry = readEntry(typed ?? '0', { dimension, unit: start.unit });
      return entry.ok && Math.abs(entry.value) <= MOST_STAND[dimension] ? entry.value : 0;
    };
    this.#rise = read(start.stands?.rise, 'length');
    this.#rake = read(start.stands?.rake, 'angle');
    const answers = readAnswers(start);
    this.#read = answers.read;
    this.problems = answers.problems;
  }

  has(id: string): boolean {
    return this.#read.has(id);
  }

  /**
   * How far a chassis point rises from where it was taped to ride height, in: raised, and turned back by the rake
   * about the front wheel centers.
   *
   * @param x forward of the front axle, in
   */
  lift(x: number): number {
    return this.#rise + x * Math.sin(this.#rake);
  }

  /** Notes how something came about. */
  rule(path: string, sentence: string, measurement?: string): void {
    this.rules.push({ path, sentence, ...(measurement === undefined ? {} : { measurement }) });
  }

  /** An answer that was left out of the proposal, since it contradicts another. */
  refuse(id: string, message: string, wanted: string): void {
    if (this.problems.some(({ path, message: told }) => path === id && told === message)) return;
    const answer = this.start.answers[id];
    const value = typeof answer?.value === 'string' ? answer.value : answer && 'left and right';
    this.problems.push({ path: id, found: shown(value), message, wanted });
  }

  /** The answer for both sides, or the proposal for both, whose rule is then noted. */
  both(id: string, fallback: () => { value: Value; path: string; sentence: string }): Both {
    const answer = this.#read.get(id);
    if (!answer) {
      const { value, path, sentence } = fallback();
      this.rule(path, sentence, id);
      return { left: value, right: value };
    }
    const { left, right } = answer;
    const tolerance = id.endsWith('Angle') ? FINDER_rad : TAPE_in;
    const value = (at: number, typed: string | null): Value => ({
      at,
      from: 'measured',
      tolerance,
      ...(typed === null ? {} : { typed }),
    });
    const sided = this.start.answers[id]?.value;
    const [l, r] =
      typeof sided === 'object' ? [sided.left, sided.right] : [answer.typed, answer.typed];
    return { left: value(left, l), right: value(right, r) };
  }

  /** The mean of both sides. */
  one(id: string, fallback: () => { value: Value; path: string; sentence: string }): Value {
    const { left, right } = this.both(id, fallback);
    return left.at === right.at ? left : derived((left.at + right.at) / 2, left, right);
  }

  /**
   * The same answer, or the fallback where it cannot be right beside the others; that is told then.
   *
   * @param least, most what the others leave for it, each side, in
   */
  fitting(
    id: string,
    taped: Both,
    least: number,
    most: number,
    told: { message: string; fallback: () => Value },
  ): Both {
    const fits = ({ at }: Value): boolean => at >= least && at <= most;
    if (fits(taped.left) && fits(taped.right)) return taped;
    if (this.has(id)) {
      const words = (value: number): string =>
        formatLength(value, { unit: this.start.unit, denominator: 8 });
      const where = this.datum(id) === 'floor' ? '' : ' above the floor';
      const range =
        most === Number.POSITIVE_INFINITY
          ? `at least ${words(least)}`
          : `from ${words(least)} to ${words(most)}`;
      this.refuse(id, told.message, `${range} ${this.start.unit}${where}`);
    }
    const value = told.fallback();
    const held = { ...value, at: Math.min(most, Math.max(least, value.at)) };
    return { left: held, right: held };
  }

  /** Where the tape started. */
  datum(id: string): ReadAnswer['from'] {
    return this.#read.get(id)?.from ?? 'floor';
  }

  /**
   * A height above the floor, whatever datum it was taped from.
   *
   * @param datums heights of the wheel center and of the bottom of the rail, where they are known by now
   */
  heights(
    id: string,
    datums: { wheelCenter: Value; railBottom: Value | null },
    fallback: () => { value: Value; path: string; sentence: string },
  ): Both {
    const taped = this.both(id, fallback);
    const from = this.datum(id);
    const datum = from === 'floor' ? null : datums[from];
    if (datum === null) return taped;
    const over = (value: Value): Value => derived(datum.at + value.at, datum, value);
    return { left: over(taped.left), right: over(taped.right) };
  }
}
