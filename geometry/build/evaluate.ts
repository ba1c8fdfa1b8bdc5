/**
 * Reads every tape entry of a build file: the same tree with numbers in internal units, and the list of
 * entries with their places. Works on files that do not quite fit the schema too, so that all problems
 * of the stage can be told at once.
 */
import type { z } from 'zod';
import type { Entry, From } from './build.ts';
import { fieldPath, own, type Problem, shown } from './problem.ts';
import { type EntryDimension, entrySchemas, type Range } from './schema/entry.ts';
import { buildFile, type EvaluatedFile } from './schema/file.ts';
import { schemaOf, settled, unwrapped } from './schema/walk.ts';
import { type NamedValue, namesIn, readAny, readEntry, type TapeText } from './tape.ts';
import type { Dimension, LengthUnit } from './units.ts';

/** An entry, with the names of the places from which its point was taped. */
export interface ReadEntry extends Entry {
  places: string[];
}

export interface Evaluation {
  /** Holds what it says where there are no problems. */
  file: EvaluatedFile;
  entries: ReadEntry[];
  /** Entries that cannot be read. */
  problems: Problem[];
  /** Entries that can be read, but are too small or too great for their field. */
  outOfRange: Problem[];
}

/** The named dimensions, resolved, and the unit of bare lengths. */
export interface Names {
  values: ReadonlyMap<string, NamedValue>;
  /** Names of dimensions that have a problem of their own: what uses them is not told again. */
  broken: ReadonlySet<string>;
  unit: LengthUnit;
}

/** @param file the file as parsed; its `dimensions` are left as they stand */
export function evaluateFile(file: unknown, names: Names): Evaluation {
  const reader = new Reader(names);
  const tree = reader.walk(buildFile, file, '', []) as EvaluatedFile;
  const { entries, problems, outOfRange } = reader;
  return { file: tree, entries, problems, outOfRange };
}

/** Collects entries and problems along one walk through a file. */
class Reader {
  readonly entries: ReadEntry[] = [];
  readonly problems: Problem[] = [];
  readonly outOfRange: Problem[] = [];
  private readonly names: Names;

  constructor(names: Names) {
    this.names = names;
  }

  /** @param places names of the places from which the point around this value was taped */
  walk(schema: z.core.$ZodType, value: unknown, path: string, places: string[]): unknown {
    if (value === null || value === undefined) return value;
    const entry = entrySchemas.get(unwrapped(schema));
    if (entry !== undefined) return this.entry(value, entry, path, places);
    const here = settled(schema, value);
    if (here === null) return value;
    if (Array.isArray(value)) {
      return value.map((item, i) => {
        const of = schemaOf(here, i);
        return of === null ? item : this.walk(of, item, path + fieldPath(value, [i]), places);
      });
    }
    if (typeof value !== 'object') return value;
    const from = schemaOf(here, 'from') === null ? [] : placesOf(own(value, 'from'));
    const inner = from.length > 0 ? from : places;
    return Object.fromEntries(
      Object.entries(value).map(([key, field]) => {
        const of = path === '' && key === 'dimensions' ? null : schemaOf(here, key);
        return [key, of === null ? field : this.walk(of, field, joined(path, key), inner)];
      }),
    );
  }

  private entry(
    value: unknown,
    { dimension, range }: { dimension: EntryDimension; range: Range },
    path: string,
    places: string[],
  ): number {
    const written = writtenEntry(value);
    const read = written === null ? null : this.read(written.text, dimension, path);
    if (written === null || read === null) return 0;
    this.entries.push({
      path,
      typed: String(written.text),
      value: read.value,
      dimension: read.dimension,
      from: written.from,
      tolerance: this.tolerance(written.tolerance, read.dimension, path),
      uses: namesIn(String(written.text)).map(name => `dimensions["${name}"].value`),
      places,
    });
    const { least, greatest, isOpen, wanted } = range;
    if (read.value < least || (isOpen && read.value === least) || read.value > greatest) {
      this.outOfRange.push({ path, found: shown(written.text), message: '', wanted });
    }
    return read.value;
  }

  private read(text: TapeText, dimension: EntryDimension, path: string): NamedValue | null {
    const read =
      dimension === 'any' ? readBound(text, this.names) : readField(text, dimension, this.names);
    if (read.ok) return read;
    if (namesIn(String(text)).some(name => this.names.broken.has(name))) return null;
    this.problems.push({ path, found: shown(text), message: read.reason, wanted: read.wanted });
    return null;
  }

  private tolerance(text: TapeText | null, dimension: Dimension, path: string): number | null {
    if (text === null) return null;
    const at = `${path}.tolerance`;
    const read = this.read(text, dimension, at);
    if (read !== null && read.value < 0) {
      const wanted = 'half the width of the band in which the value lies, 0 or more';
      this.outOfRange.push({ path: at, found: shown(text), message: 'it is negative', wanted });
    }
    return read?.value ?? null;
  }
}

function readField(text: TapeText, dimension: Dimension, { values, unit }: Names) {
  const read = readEntry(text, { dimension, unit, names: values });
  return read.ok ? { ...read, dimension } : read;
}

/** A bound of a band: a bare number or a share is in the measure's own unit, whatever that is. */
function readBound(text: TapeText, names: Names) {
  const plain = readField(text, 'ratio', names);
  return plain.ok ? plain : readAny(text, { unit: names.unit, names: names.values });
}

function joined(path: string, key: string): string {
  const step = fieldPath({}, [key]);
  return path === '' || step.startsWith('[') ? path + step : `${path}.${step}`;
}

function placesOf(from: unknown): string[] {
  const names = Array.isArray(from) ? from : [from];
  return names.filter(name => typeof name === 'string');
}

const isText = (value: unknown): value is TapeText =>
  typeof value === 'string' || typeof value === 'number';

function writtenEntry(
  value: unknown,
): { text: TapeText; from: From; tolerance: TapeText | null } | null {
  if (isText(value)) return { text: value, from: 'drawing', tolerance: null };
  const text = own(value, 'value');
  if (!isText(text)) return null;
  const from = own(value, 'from');
  const tolerance = own(value, 'tolerance');
  return {
    text,
    from: from === 'measured' || from === 'assumed' ? from : 'drawing',
    tolerance: isText(tolerance) ? tolerance : null,
  };
}
