/**
 * Alternatives of one part in a table: where each candidate clears, where not, and what else it changes against the
 * build as it stands.
 */
import { partName } from '../build/address.ts';
import type { BuildFile } from '../build/schema/file.ts';
import type { PairGap } from '../gap/pairGap.ts';
import type { Part } from '../gap/part.ts';
import { axlePairsOf, comparisonOf, type Side } from './compare.ts';
import type { Sentence } from './paragraph.ts';

type AlternativeFile = NonNullable<BuildFile['alternatives']>[number];
type OptionFile = AlternativeFile['options'][number];

interface Choice {
  alternative: string;
  option: string;
}

/** One candidate, with all that it brings along. */
export interface Candidate extends Choice {
  /** Address of the part that it is a candidate for. */
  part: string;
  /** Options of other alternatives without which it cannot be built, and what those need. */
  needs: Choice[];
  why: string | null;
  /** Names of the parts that it changes or adds, as they are written. */
  touches: string[];
}

/** The candidates of an alternative, in their order; of all where none is named. */
export function candidatesOf(file: BuildFile, name: string | null = null): Candidate[] {
  const alternatives = file.alternatives ?? [];
  const find = ({ alternative, option }: Choice): OptionFile | undefined =>
    alternatives.find(each => each.name === alternative)?.options.find(o => o.name === option);
  return alternatives
    .filter(each => name === null || each.name === name)
    .flatMap(({ name: alternative, part, options }) =>
      options.map((option): Candidate => {
        const needs = needsOf(option, find);
        const sets = [option, ...needs.flatMap(need => find(need) ?? [])];
        return {
          alternative,
          option: option.name,
          part,
          needs,
          why: option.why ?? null,
          touches: [...new Set([partName(part), ...sets.flatMap(namesIn)])],
        };
      }),
    );
}

/** What an option needs and what that needs, each once. */
function needsOf(option: OptionFile, find: (need: Choice) => OptionFile | undefined): Choice[] {
  const all: Choice[] = [];
  const gather = (needs: readonly Choice[]): void => {
    for (const { alternative, option: name } of needs) {
      if (all.some(each => each.alternative === alternative && each.option === name)) continue;
      all.push({ alternative, option: name });
      gather(find({ alternative, option: name })?.needs ?? []);
    }
  };
  gather(option.needs ?? []);
  return all;
}

const namesIn = ({ changes, add }: OptionFile): string[] => [
  ...(changes ?? []).map(({ part }) => partName(part)),
  ...(add ?? []).flatMap(({ part: { name } }) => (typeof name === 'string' ? [name] : [])),
];

/**
 * The file with a candidate as its one variant, to be opened as that: alternatives that it does not choose and the
 * file's own variants are left out, since they are changes on the base.
 */
export function withCandidate(
  file: BuildFile,
  { alternative, option, needs }: Candidate,
): { file: BuildFile; variant: string } {
  const choices = [...needs, { alternative, option }];
  return {
    variant: option,
    file: {
      ...file,
      alternatives: (file.alternatives ?? []).filter(each =>
        choices.some(choice => choice.alternative === each.name),
      ),
      variants: [{ name: option, choose: choices }],
    },
  };
}

/** A row of the table. */
export interface CandidateRow {
  /** Null: the build as it stands. */
  candidate: Candidate | null;
  /** Pairs with one of its parts that overlap, worst first. */
  touches: PairGap[];
  /** Pairs with one of its parts that come nearer than is asked, worst first. */
  short: PairGap[];
  /** How many of its pairs have what is asked. */
  clear: number;
  /** What differs from the build as it stands, biggest first. */
  changes: Sentence[];
}

/** The row of the build as it stands. @param part address of the part */
export const rowAsBuilt = (side: Side, part: string): CandidateRow => ({
  candidate: null,
  ...gapsWith(side, [partName(part)]),
  changes: [],
});

/** The row of a candidate, walked with its gaps like the build. */
export function candidateRow(base: Side, side: Side, candidate: Candidate): CandidateRow {
  const report = comparisonOf(base, side, axlePairsOf(base.walks, side.walks), null);
  return {
    candidate,
    ...gapsWith(side, candidate.touches),
    changes: report.sentences,
  };
}

/** The pairs that a part of one of these names is in. */
function gapsWith(
  { gaps }: Side,
  names: readonly string[],
): Pick<CandidateRow, 'touches' | 'short' | 'clear'> {
  const isOf = ({ name, of }: Part): boolean =>
    names.some(own => [own, `left ${own}`, `right ${own}`].some(n => n === name || n === of));
  const own = gaps
    .flatMap(each => each.gaps)
    .filter(({ pair }) => isOf(pair.a) || isOf(pair.b))
    .sort((p, q) => p.gap - p.pair.required - (q.gap - q.pair.required));
  const touches = own.filter(({ gap }) => gap < 0);
  const short = own.filter(({ gap, pair }) => gap >= 0 && gap < pair.required);
  return { touches, short, clear: own.length - touches.length - short.length };
}
