/**
 * Builds that differ from one in a single entered number: what a result hangs on is found by asking again with
 * the number a little greater and a little less. The file is read once; each shift only settles names and points
 * anew, and evaluates the entries again where a named dimension is shifted.
 */
import { pathSteps, type Steps, valueAt, withValue } from './address.ts';
import type { Build, Entry } from './build.ts';
import { resolveDimensions } from './dimensions.ts';
import { evaluateFile, type ReadEntry } from './evaluate.ts';
import { own } from './problem.ts';
import { resolveBuild } from './resolve/build.ts';
import type { BuildFile, EvaluatedFile } from './schema/file.ts';
import type { LengthUnit } from './units.ts';

/** Digits behind the point of a shifted dimension, as it is written for the tape reader. */
const DIGITS = 14;

/**
 * @example
 * const shifts = new Shifts(opened.file, opened.build.variant);
 * const longer = shifts.build('axles["front"].wheelCenters', 1 / 16); // in
 */
export class Shifts {
  readonly #file: BuildFile;
  readonly #variant: string | null;
  readonly #unit: LengthUnit;
  readonly #evaluated: EvaluatedFile;
  readonly #entries: readonly ReadEntry[];
  /** The same with what they use, once a build has been made: shifts change none of it. */
  #settled: Entry[] | null = null;

  /** @param file a file that was read without a problem, its variant applied */
  constructor(file: BuildFile, variant: string | null) {
    this.#file = file;
    this.#variant = variant;
    this.#unit = file.unit === 'mm' ? 'mm' : 'in';
    const { file: evaluated, entries } = this.#evaluate(file.dimensions);
    this.#evaluated = evaluated;
    this.#entries = entries;
  }

  /**
   * The build with one entry shifted.
   *
   * @param path of the entry, as `build.entries` has it
   * @param by in internal units: in, rad, lbf …
   * @returns null where the shifted value is refused, or the path is no entry of this file
   */
  build(path: string, by: number): Build | null {
    return this.together([{ path, by }]);
  }

  /** The same with several entries shifted at once, at most one of them a named dimension. */
  together(shifts: readonly Shift[]): Build | null {
    let shifted: EvaluatedFile | null = this.#evaluated;
    // what uses a dimension is evaluated again, so that the fields come after it
    const inOrder = shifts.toSorted((a, b) => rank(a) - rank(b));
    for (const { path, by } of inOrder) {
      const steps = pathSteps(this.#file, path);
      if (!steps || !shifted) return null;
      shifted = steps[0] === 'dimensions' ? this.#dimension(steps, by) : field(shifted, steps, by);
    }
    if (!shifted) return null;
    const { build, names, geometry } = resolveBuild(shifted, this.#entries, this.#settled);
    if (names.length + geometry.length > 0) return null;
    this.#settled = build.entries;
    return { ...build, variant: this.#variant };
  }

  /** What uses the dimension follows it. */
  #dimension(steps: Steps, by: number): EvaluatedFile | null {
    const list: readonly unknown[] = this.#file.dimensions ?? [];
    const index = Number(steps[1]);
    const { values } = resolveDimensions(list, this.#unit);
    const found = values.get(String(own(list[index], 'name')));
    const unit = found && BASE[found.dimension];
    if (!found || !unit) return null;
    const text = `${(found.value + by).toFixed(DIGITS)} ${unit}`;
    const dimensions = list.with(index, { ...(list[index] as object), value: text });
    return this.#evaluate(dimensions).file;
  }

  #evaluate(dimensions: unknown): { file: EvaluatedFile; entries: readonly ReadEntry[] } {
    const { values } = resolveDimensions(dimensions, this.#unit);
    return evaluateFile(this.#file, { values, broken: new Set(), unit: this.#unit });
  }
}

export interface Shift {
  path: string;
  by: number;
}

const rank = ({ path }: Shift): number => (path.startsWith('dimensions') ? 0 : 1);

function field(file: EvaluatedFile, steps: Steps, by: number): EvaluatedFile | null {
  const value = valueAt(file, steps);
  if (typeof value !== 'number') return null;
  return (withValue(file, steps, value + by) as EvaluatedFile | undefined) ?? null;
}

/** The internal units, as an entry names them; other dimensions are not shifted. */
const BASE: Readonly<Record<string, string>> = {
  length: 'in',
  angle: 'rad',
  force: 'lbf',
  rate: 'lbf/in',
};
