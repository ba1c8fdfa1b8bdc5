/**
 * What one build buys and costs against another, in sentences made from the numbers, biggest first. Exchanging the
 * two turns every sentence round: what was more is less, what was a gain is a cost. What does not differ is not said.
 */
import type { Axle, AxleName } from '../build/build.ts';
import { amountWords, lengthWords, partWords, type Shop, sentence } from '../finding/words.ts';
import type { Clearance } from '../gap/groundClearance.ts';
import type { GapRow } from './gapRows.ts';
import { differenceWords, valueWords, wayWords, whereWords } from './phrases.ts';
import type { At, Of, PlaceName } from './places.ts';
import type { RangeComparison, WayRow } from './ranges.ts';
import type { Row } from './rows.ts';
import { LEAST_SIZE, NOTICE_in, NOTICE_STEER_deg, type Subject, subjects } from './subjects.ts';

export interface Sentence {
  axle: AxleName;
  /** A measure's id; `gap`, `groundClearance` or `travel`. */
  about: string;
  text: string;
  /** The difference in parts of what a shop takes notice of; sentences are sorted by it. */
  size: number;
  /** True: the second is better off; false: worse; null: neither. */
  buys: boolean | null;
  a: number;
  b: number;
  unit: string;
}

/** What the sentences of one axle are made of. */
export interface Told {
  axles: Record<Of, Axle>;
  rows: readonly Row[];
  gaps: readonly GapRow[];
  clearances: Record<Of, readonly Clearance[]>;
  range: RangeComparison;
}

/** @param names of the two builds, as the sentences call them */
export function sentencesOf(
  told: readonly Told[],
  names: Record<Of, string>,
  shop: Shop,
): Sentence[] {
  const out = told.flatMap(each => {
    const writer = new Writer(each, names, shop, told.length > 1);
    return [
      ...subjects.flatMap(subject => writer.measure(subject)),
      ...writer.gaps(),
      ...writer.clearance(),
      ...each.range.ways.flatMap(way => writer.way(way)),
    ];
  });
  return out.sort((p, q) => q.size - p.size);
}

/** Two values of one thing. */
interface Pair {
  a: number;
  b: number;
}

interface Clause extends Pair {
  about: string;
  notice: number;
  unit: string;
  /** How much more the second has. */
  more: number;
  /** Which of the two is better off; null: neither. */
  toward: Of | null;
  clause: string;
  words: readonly [more: string, less: string];
  /** A value in words. */
  inWords: (value: number) => string;
  where: string;
}

class Writer {
  readonly #told: Told;
  readonly #names: Record<Of, string>;
  readonly #shop: Shop;
  readonly #namesAxle: boolean;

  constructor(told: Told, names: Record<Of, string>, shop: Shop, namesAxle: boolean) {
    this.#told = told;
    this.#names = names;
    this.#shop = shop;
    this.#namesAxle = namesAxle;
  }

  /** The place where the second has most more of a measure, and the one where it has most less. */
  measure(subject: Subject): Sentence[] {
    const { id, notice, better, signs, clause, words } = subject;
    const candidates = subject.at.flatMap(place => this.#rowsAt(subject, place));
    const more = ({ a, b }: Pair): number => (isSigned(subject) ? b - a : size(b) - size(a));
    const counts = candidates.filter(row => size(more(row)) > row.tolerance);
    const told = [1, -1].flatMap(way => {
      const best = largest(
        counts.filter(row => way * more(row) > 0),
        more,
      );
      if (!best) return [];
      const { a, b, at, unit } = best;
      const preferred: Of | null =
        better === null ? null : (better === 'less') === way < 0 ? 'b' : 'a';
      return this.#write({
        about: id,
        a,
        b,
        unit,
        notice,
        more: more(best),
        toward: best.toward ?? preferred,
        clause,
        words,
        inWords: value => valueWords(this.#shop, value, unit, signs),
        where: whereWords(this.#shop, at),
      });
    });
    if (told.length > 0) return told;
    const turned = largest(
      candidates.filter(
        ({ a, b, tolerance }) => signs !== null && a * b < 0 && size(b - a) > tolerance,
      ),
      ({ a, b }) => b - a,
    );
    return turned ? this.#otherWay(subject, turned, whereWords(this.#shop, turned.at)) : [];
  }

  /** Pairs of parts of which one build has less room than is asked. */
  gaps(): Sentence[] {
    const groups = new Map<string, { row: GapRow; room: Pair }>();
    for (const row of this.#told.gaps) {
      const { a, b, isNone } = row;
      if (!a || !b || isNone) continue;
      const room = {
        a: Math.min(a.gap_in, a.required_in),
        b: Math.min(b.gap_in, b.required_in),
      };
      const key = JSON.stringify([...row.of].sort());
      const before = groups.get(key);
      if (before && size(before.room.b - before.room.a) >= size(room.b - room.a)) continue;
      groups.set(key, { row, room });
    }
    return [...groups.values()].flatMap(({ row, room }) => {
      const more = room.b - room.a;
      const [one, other] = row.pair.map(part => partWords(this.#shop, this.#told.axles.a, part));
      const between = `between the ${one} and the ${other}`;
      return this.#write({
        about: 'gap',
        a: row.a?.gap_in ?? 0,
        b: row.b?.gap_in ?? 0,
        unit: 'in',
        notice: NOTICE_in.gap,
        more,
        toward: more > 0 ? 'b' : 'a',
        clause: 'there is',
        words: [`more room ${between}`, `less room ${between}`],
        inWords: value =>
          value < 0
            ? `${lengthWords(this.#shop, -value)} of overlap`
            : `a gap of ${lengthWords(this.#shop, value)}`,
        where: 'at the tightest pose of each, parts rigid',
      });
    });
  }

  /** Ground clearance under the lowest link. */
  clearance(): Sentence[] {
    const lowest = (of: Of): number | null => {
      const links = this.#told.clearances[of].filter(({ part }) => LINKS.has(part.kind));
      return links.length === 0 ? null : Math.min(...links.map(({ ride }) => ride));
    };
    const [a, b] = [lowest('a'), lowest('b')];
    if (a === null || b === null) return [];
    return this.#write({
      about: 'groundClearance',
      a,
      b,
      unit: 'in',
      notice: NOTICE_in.clearance,
      more: b - a,
      toward: b > a ? 'b' : 'a',
      clause: 'ground clearance under the links is',
      words: ['more', 'less'],
      inWords: value => lengthWords(this.#shop, value),
      where: 'at ride height, under the lowest link',
    });
  }

  /** How far the range goes one way. */
  way({ way, a, b, difference, unit }: WayRow): Sentence[] {
    if (!a || !b || difference === null) return [];
    const isSteer = way === 'fullLeft' || way === 'fullRight';
    return this.#write({
      about: 'travel',
      a: a.value,
      b: b.value,
      unit,
      notice: isSteer && unit === 'deg' ? NOTICE_STEER_deg : NOTICE_in.travel,
      more: difference,
      toward: isSteer ? null : difference > 0 ? 'b' : 'a',
      clause: wayWords(this.#shop, way),
      words: ['further', 'less far'],
      inWords: value => amountWords(this.#shop, value, unit),
      where: 'between the stops',
    });
  }

  /** The values of a measure at a place that both reach, the differing ones alone. */
  #rowsAt(
    { id, most }: Subject,
    place: PlaceName,
  ): (Pair & { at: At; unit: string; toward: Of | null; tolerance: number })[] {
    const rows = this.#told.rows.filter(
      row => row.id === id && row.at.pose === place && row.at.reachedBy === 'both',
    );
    if (!most) {
      return rows.flatMap(({ a, b, at, unit, toward, isNone, tolerance }) =>
        a === null || b === null || isNone
          ? []
          : [{ a, b, at, unit, toward, tolerance: tolerance ?? 0 }],
      );
    }
    const own = most === 'links' ? rows.filter(row => this.#isOfLink(row.part)) : rows;
    const [ofA, ofB] = [largest(own, row => row.a), largest(own, row => row.b)];
    if (!ofA || !ofB || ofA.a === null || ofB.b === null) return [];
    if (ofA === ofB && ofA.isNone) return [];
    // of two parts, what both differences are worth: nothing is told that hangs on a tape
    const tolerance = (ofA.tolerance ?? 0) + (ofA === ofB ? 0 : (ofB.tolerance ?? 0));
    return [{ a: ofA.a, b: ofB.b, at: ofA.at, unit: ofA.unit, toward: null, tolerance }];
  }

  #isOfLink(part: string | null): boolean {
    const whole = part?.replace(/\.[^.]*$/, '');
    const { a, b } = this.#told.axles;
    return [a, b].some(({ links, radiusArms }) =>
      [...links, ...radiusArms].some(({ name }) => name === whole),
    );
  }

  #otherWay(
    { id, clause, notice, signs }: Subject,
    row: Pair & { unit: string },
    where: string,
  ): Sentence[] {
    const { a, b, unit } = row;
    const size = Math.abs(b - a) / notice;
    if (size < LEAST_SIZE) return [];
    const value = (each: number): string => valueWords(this.#shop, each, unit, signs);
    return [
      {
        axle: this.#told.axles.a.name,
        about: id,
        text: this.#finish(`${clause} the other way: ${value(b)} against ${value(a)}, ${where}.`),
        size,
        buys: null,
        a,
        b,
        unit,
      },
    ];
  }

  #write(told: Clause): Sentence[] {
    const { about, a, b, unit, notice, more, toward, clause, words, inWords, where } = told;
    const bigness = Math.abs(more) / notice;
    if (bigness < LEAST_SIZE) return [];
    // what would read as the same is left unsaid
    if (inWords(a) === inWords(b)) return [];
    const amount = differenceWords(this.#shop, Math.abs(more), unit);
    const kind = toward === null ? '' : toward === 'b' ? ' (a gain)' : ' (a cost)';
    const text = `${clause} ${amount} ${words[more > 0 ? 0 : 1]}${kind}: ${inWords(b)} against ${inWords(a)}, ${where}.`;
    return [
      {
        axle: this.#told.axles.a.name,
        about,
        text: this.#finish(text),
        size: bigness,
        buys: toward === null ? null : toward === 'b',
        a,
        b,
        unit,
      },
    ];
  }

  #finish(text: string): string {
    const axle = this.#namesAxle ? `${sentence(this.#told.axles.a.name)} axle: with` : 'With';
    return `${axle} ${this.#names.b}, ${text}`;
  }
}

const LINKS: ReadonlySet<string> = new Set(['link', 'radiusArm']);

/** Told with its sign, since neither way is more of it. */
const isSigned = ({ signs, better }: Subject): boolean => signs === null && better === null;

const size = (value: number): number => Math.abs(value);

/** The one of which a number is largest, without its sign; the first of equals. */
function largest<T>(all: readonly T[], of: (each: T) => number | null): T | null {
  let best: { each: T; value: number } | null = null;
  for (const each of all) {
    const value = of(each);
    if (value === null) continue;
    if (!best || Math.abs(value) > best.value) best = { each, value: Math.abs(value) };
  }
  return best?.each ?? null;
}
