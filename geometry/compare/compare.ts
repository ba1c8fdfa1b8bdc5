/**
 * Two builds, or two variants of one, side by side: what one buys and what it costs.
 *
 * @example
 * const report = comparisonOf({ a: { build, walks, gaps, findings }, b: …, worth: null });
 * console.log(report.paragraph.join(' '));
 */
import type { AxleName, Build } from '../build/build.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import type { Finding } from '../finding/finding.ts';
import type { AxleGaps } from '../gap/gapReport.ts';
import { type FindingComparison, findingPairsOf } from './findingPairs.ts';
import { type GapRow, gapRowsOf } from './gapRows.ts';
import {
  type FieldRow,
  fieldRowsOf,
  type LengthRow,
  lengthRowsOf,
  type PointRow,
  pointRowsOf,
  type SolidRow,
  solidRowsOf,
} from './hardware.ts';
import { namesOf, shopOf } from './names.ts';
import { type Sentence, sentencesOf, type Told } from './paragraph.ts';
import { type Of, placesOf } from './places.ts';
import { type RangeComparison, rangesOf } from './ranges.ts';
import { type Row, rowsOf } from './rows.ts';
import { type Table, tableOf } from './table.ts';
import type { PairWorth } from './worth.ts';

/** A build with all that was found out about it. */
export interface Side {
  build: Build;
  walks: readonly AxleWalk[];
  gaps: readonly AxleGaps[];
  findings: readonly Finding[];
}

/** An axle that both builds have, with what both measure. */
export interface AxlePair {
  name: AxleName;
  a: AxleWalk;
  b: AxleWalk;
  table: Table;
}

export interface Comparison {
  a: SideName;
  b: SideName;
  rows: Row[];
  /** Mount points that differ, as drawn. */
  points: PointRow[];
  lengths: LengthRow[];
  fields: FieldRow[];
  solids: SolidRow[];
  /** By axle. */
  range: Partial<Record<AxleName, RangeComparison>>;
  gaps: GapRow[];
  findings: FindingComparison;
  paragraph: string[];
  /** What the paragraph is made of. */
  sentences: Sentence[];
  /** Axles that one of the two has alone: nothing is compared of them. */
  alone: { axle: AxleName; of: Of }[];
}

export interface SideName {
  build: string;
  variant: string | null;
  /** As the sentences call it. */
  name: string;
}

/** The axles that both have, each measured at the places that the two can be compared at. */
export function axlePairsOf(a: readonly AxleWalk[], b: readonly AxleWalk[]): AxlePair[] {
  return a.flatMap((walk): AxlePair[] => {
    const twin = b.find(({ axle }) => axle.name === walk.axle.name);
    if (!twin) return [];
    const table = tableOf(walk, twin, placesOf(walk, twin));
    return [{ name: walk.axle.name, a: walk, b: twin, table }];
  });
}

/**
 * The comparison as the plain object that command line and page show.
 *
 * @param pairs of `axlePairsOf`
 * @param worth what the differences of each pair are worth; null: they count as soon as they are there
 */
export function comparisonOf(
  a: Side,
  b: Side,
  pairs: readonly AxlePair[],
  worth: readonly PairWorth[] | null,
): Comparison {
  const names = namesOf(a.build, b.build);
  const rows = pairs.map((pair, i) =>
    rowsOf(pair.a, pair.b, pair.table, worth?.[i]?.table ?? null),
  );
  const gapsOf = (side: Side, name: AxleName): AxleGaps | null =>
    side.gaps.find(({ walk }) => walk.axle.name === name) ?? null;
  const range = Object.fromEntries(pairs.map(pair => [pair.name, rangesOf(pair.a, pair.b)]));
  const told = pairs.map((pair, i): Told => {
    const [inA, inB] = [gapsOf(a, pair.name), gapsOf(b, pair.name)];
    return {
      axles: { a: pair.a.axle, b: pair.b.axle },
      rows: rows[i] ?? [],
      gaps: inA && inB ? gapRowsOf(inA, inB, worth?.[i]?.gaps ?? null) : [],
      clearances: { a: inA?.clearances ?? [], b: inB?.clearances ?? [] },
      range: range[pair.name] as RangeComparison,
    };
  });
  const sentences = sentencesOf(told, names, shopOf(a.build, b.build));
  const alone = (of: Of, own: Side, twin: Side): Comparison['alone'] =>
    own.walks
      .filter(({ axle }) => twin.walks.every(each => each.axle.name !== axle.name))
      .map(({ axle }) => ({ axle: axle.name, of }));
  return {
    a: { build: a.build.name, variant: a.build.variant, name: names.a },
    b: { build: b.build.name, variant: b.build.variant, name: names.b },
    rows: rows.flat(),
    points: pairs.flatMap(pair => pointRowsOf(pair.a, pair.b)),
    lengths: pairs.flatMap(pair => lengthRowsOf(pair.a, pair.b)),
    fields: pairs.flatMap(pair => fieldRowsOf(pair.a.axle, pair.b.axle)),
    solids: solidRowsOf(a.build, b.build),
    range,
    gaps: told.flatMap(each => each.gaps),
    findings: findingPairsOf(a, b),
    paragraph: sentences.map(({ text }) => text),
    sentences,
    alone: [...alone('a', a, b), ...alone('b', b, a)],
  };
}
