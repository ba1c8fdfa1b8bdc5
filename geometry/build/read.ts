/** The door of this room: a build file's bytes to a Build, or all that is wrong with one stage of it. */
import type { Build } from './build.ts';
import { resolveDimensions } from './dimensions.ts';
import { evaluateFile, type ReadEntry } from './evaluate.ts';
import { tooMuch } from './limits.ts';
import { type Problem, problemLine, shown } from './problem.ts';
import { resolveBuild } from './resolve/build.ts';
import { parentOf } from './resolve/paths.ts';
import { type BuildFile, buildFile } from './schema/file.ts';
import { shapeProblems } from './shapeProblems.ts';
import { startProblems } from './start/startBlock.ts';
import { readText } from './text.ts';
import { upgrade } from './upgrade.ts';
import { applyVariant, checkVariants } from './variant.ts';

/** A build that can be walked, or the problems of the first stage that has any. */
export type ReadResult =
  | {
      ok: true;
      build: Build;
      /** The file as written, of the current version, the variant applied. */
      file: BuildFile;
    }
  | { ok: false; problems: Problem[] };

export interface ReadBuildOptions {
  /** Name of the variant to apply to the base. */
  variant?: string | null | undefined;
}

/**
 * Reads a build file. Never throws.
 *
 * Stages: text (JSON, size, version); schema and tape entries; names; geometry. All problems of a stage
 * are given at once, and no stage is entered after one with problems.
 *
 * @example
 * const read = readBuild(bytes);
 * if (!read.ok) for (const line of problemLines(read.problems)) console.error(line);
 */
export function readBuild(bytes: Uint8Array | string, options: ReadBuildOptions = {}): ReadResult {
  const text = readText(bytes);
  return text.ok ? readValue(text.value, options) : text;
}

/** The same for a file that was parsed before; it is not changed. */
export function readValue(
  value: Record<string, unknown>,
  options: ReadBuildOptions = {},
): ReadResult {
  const much = tooMuch(value);
  if (much.length > 0) return refused(much);
  const upgraded = upgrade(value);
  if (!upgraded.ok) return upgraded;
  const base = readCurrent(upgraded.file, checkVariants);
  if (!base.ok || !options.variant) return base;
  const applied = applyVariant(base.file, options.variant);
  if (!applied.ok) return refused(applied.problems);
  // Its variants are changes on the base, not on this one.
  const read = readCurrent(applied.file, () => []);
  if (read.ok) return { ...read, build: { ...read.build, variant: options.variant } };
  return refused(read.problems.map(problem => inVariant(problem, options.variant ?? '')));
}

/** The base is right: what is wrong now stands in the variant. */
function inVariant(problem: Problem, variant: string): Problem {
  const where = `in variant ${shown(variant)}`;
  return { ...problem, message: problem.message ? `${problem.message}, ${where}` : where };
}

function readCurrent(
  file: Readonly<Record<string, unknown>>,
  check: (file: BuildFile) => Problem[],
): ReadResult {
  const unit = file.unit === 'mm' ? 'mm' : 'in';
  const dimensions = resolveDimensions(file.dimensions, unit);
  const broken = new Set(namesOf(file.dimensions).filter(name => !dimensions.values.has(name)));
  const read = evaluateFile(file, { values: dimensions.values, broken, unit });
  const shape = shapeProblems(buildFile, file);
  const start = shape.length === 0 ? startProblems(file as BuildFile) : [];
  const problems = [...shape, ...dimensions.problems, ...read.problems, ...start];
  if (problems.length > 0) return refused(problems);

  const named: ReadEntry[] = [...dimensions.values].map(([name, dimension]) => ({
    path: `dimensions["${name}"].value`,
    typed: String(dimension.typed),
    value: dimension.value,
    dimension: dimension.dimension,
    from: dimension.from ?? 'drawing',
    tolerance: dimension.tolerance,
    uses: dimension.uses.map(use => `dimensions["${use}"].value`),
    places: [],
  }));
  const resolved = resolveBuild(read.file, [...named, ...read.entries]);
  const written = file as BuildFile;
  const names = [...resolved.names, ...check(written)];
  if (names.length > 0) return refused(names);
  // What is computed from a value that is out of range is not told again.
  const parts = new Set(read.outOfRange.map(({ path }) => parentOf(path)));
  const geometry = [
    ...read.outOfRange,
    ...resolved.geometry.filter(({ path }) => !parts.has(path) && !parts.has(parentOf(path))),
  ];
  if (geometry.length > 0) return refused(geometry);
  return { ok: true, build: resolved.build, file: written };
}

function namesOf(dimensions: unknown): string[] {
  const list: unknown[] = Array.isArray(dimensions) ? dimensions : [];
  return list.flatMap(item =>
    typeof item === 'object' && item !== null && 'name' in item && typeof item.name === 'string'
      ? [item.name]
      : [],
  );
}

/** Each problem once. */
function refused(problems: readonly Problem[]): { ok: false; problems: Problem[] } {
  const byLine = new Map(problems.map(problem => [problemLine(problem), problem]));
  return { ok: false, problems: [...byLine.values()] };
}

/** Most problems that are listed one by one. */
export const MOST_LISTED = 50;

/** Problems as lines to print: at most 50, and then a count. */
export function problemLines(problems: readonly Problem[]): string[] {
  const lines = problems.slice(0, MOST_LISTED).map(problemLine);
  const more = problems.length - lines.length;
  return more === 0 ? lines : [...lines, `and ${more.toLocaleString('en-US')} more`];
}
