/** A build file whose lengths say their unit, so that the unit of bare numbers can be another from there on. */
import { pathSteps, valueAt, withValue } from '../address.ts';
import { own } from '../problem.ts';
import { readValue } from '../read.ts';
import type { BuildFile } from '../schema/file.ts';

/** A number alone: no unit, no name, no reckoning with names. */
const BARE = /^[\d\s./-]+$/;

/** The same file with its own unit behind every bare length, and behind the tolerance of one; variants stay as they are. */
export function withUnitNamed(file: BuildFile): BuildFile {
  const read = readValue(file);
  if (!read.ok) return file;
  const named = (value: unknown): unknown => {
    const text = String(value);
    return BARE.test(text) ? `${text} ${file.unit}` : value;
  };
  let now: unknown = file;
  for (const { path, dimension } of read.build.entries) {
    if (dimension !== 'length') continue;
    const steps = pathSteps(now, path);
    if (!steps) continue;
    const written = valueAt(now, steps);
    const [value, tolerance] = [own(written, 'value'), own(written, 'tolerance')];
    const entry =
      value === undefined
        ? named(written)
        : {
            ...(written as object),
            value: named(value),
            ...(tolerance === undefined || tolerance === null
              ? {}
              : { tolerance: named(tolerance) }),
          };
    now = withValue(now, steps, entry);
  }
  return now as BuildFile;
}
