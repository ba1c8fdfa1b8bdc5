/** A file argument to an opened build, its axle and its tape entries, or the lines that say what is wrong. */
import type { AxleName } from '../../geometry/build/build.ts';
import { resolveDimensions } from '../../geometry/build/dimensions.ts';
import { problemLine, shown } from '../../geometry/build/problem.ts';
import { problemLines } from '../../geometry/build/read.ts';
import { readEntry } from '../../geometry/build/tape.ts';
import { axleOf, type OpenedBuild, openBuild } from '../../geometry/cycle/open.ts';
import type { OpenedAxle } from '../../geometry/cycle/openAxle.ts';
import { problemsOfWanted } from '../../geometry/finding/wanted.ts';
import { problemsOfPairs } from '../../geometry/gap/pairNames.ts';
import type { FileArgument } from './arguments.ts';
import { readBytes } from './files.ts';
import type { OptionName } from './verbs.ts';

export type Lines = { lines: string[] };

/** Reads and opens a build; the measures and the parts that it names in what it wants are ones that there are. */
export function openFile(
  { path, variant }: FileArgument,
  folder: string,
): { opened: OpenedBuild } | Lines {
  const read = readBytes(path, folder);
  if ('line' in read) return { lines: [read.line] };
  const opened = openBuild(read.bytes, { variant });
  if (!opened.ok) return { lines: problemLines(opened.problems) };
  const unknown = [...problemsOfWanted(opened.build), ...problemsOfPairs(opened.build)];
  return unknown.length > 0 ? { lines: problemLines(unknown) } : { opened };
}

/** The axle that `--axle` asks for. */
export function chooseAxle(
  opened: OpenedBuild,
  name: AxleName | null,
): { axle: OpenedAxle } | Lines {
  const axle = axleOf(opened, name);
  if (axle) return { axle };
  const there = opened.axles.map(({ axle: { name: each } }) => each);
  const wanted = there.length > 0 ? `--axle ${there.join(' or --axle ')}` : 'a build with an axle';
  return {
    lines: [
      problemLine({
        path: '--axle',
        found: name ?? 'nothing',
        message: `the build has no ${name ?? ''} axle`,
        wanted,
      }),
    ],
  };
}

/** Reads options that are tape entries; the build's named dimensions may be used in them. */
export class Entries {
  /** What is wrong so far, one line an entry. */
  readonly lines: string[] = [];
  readonly #names: ReturnType<typeof resolveDimensions>['values'];

  constructor({ file }: OpenedBuild) {
    this.#names = resolveDimensions(file.dimensions, file.unit === 'mm' ? 'mm' : 'in').values;
  }

  /**
   * An option's value in in or rad; a bare number is in or deg, whatever the build's own unit is. 0 where the
   * option is not given, or is wrong.
   */
  read(option: OptionName, typed: string | null, dimension: 'length' | 'angle'): number {
    if (typed === null) return 0;
    const entry = readEntry(typed, { dimension, unit: 'in', names: this.#names });
    if (entry.ok) return entry.value;
    const { reason: message, wanted } = entry;
    this.refuse(option, typed, message, wanted);
    return 0;
  }

  /** A length that must be above 0. */
  above0(option: OptionName, typed: string, message: string, wanted: string): number {
    const before = this.lines.length;
    const inches = this.read(option, typed, 'length');
    if (inches <= 0 && this.lines.length === before) this.refuse(option, typed, message, wanted);
    return inches;
  }

  /** The bounds of `--travel`, in. */
  travel(travel: { up: string; down: string } | null): { up: number; down: number } | null {
    const bound = (typed: string): number =>
      this.above0(
        'travel',
        typed,
        'it is no way to go',
        'up-travel and droop, both above 0 and without a sign, such as 5,4 1/2',
      );
    return travel && { up: bound(travel.up), down: bound(travel.down) };
  }

  /** The length of `--resolution`, in; undefined where none is asked for. */
  resolution(typed: string | null): number | undefined {
    if (typed === null) return undefined;
    const wanted = 'a length above 0, such as 1/64';
    return this.above0('resolution', typed, 'nothing is as fine as that', wanted);
  }

  refuse(option: OptionName, typed: string, message: string, wanted: string): void {
    this.lines.push(problemLine({ path: `--${option}`, found: shown(typed), message, wanted }));
  }
}
