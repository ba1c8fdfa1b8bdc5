/** Reads a build file. Loaded by reader.ts when it is wanted. */

import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import { Shifts } from '../../../geometry/build/shift.ts';
import { readEntry } from '../../../geometry/build/tape.ts';
import { readText } from '../../../geometry/build/text.ts';
import type { LengthUnit } from '../../../geometry/build/units.ts';
import { upgrade } from '../../../geometry/build/upgrade.ts';
import { type Opened, openBuild } from '../../../geometry/cycle/open.ts';
import { problemsOfWanted } from '../../../geometry/finding/wanted.ts';
import { problemsOfPairs } from '../../../geometry/gap/pairNames.ts';

/** A build from its file, or all that is wrong with it: the measures and parts that it names are there too. */
export function read(bytes: Uint8Array | string, variant: string | null = null): Opened {
  const opened = openBuild(bytes, { variant });
  if (!opened.ok) return opened;
  const unknown = [...problemsOfWanted(opened.build), ...problemsOfPairs(opened.build)];
  return unknown.length > 0 ? { ok: false, problems: unknown } : opened;
}

/** The base of a file that was read without a problem, of the current version, with its variants. */
export function baseOf(text: string): BuildFile {
  const parsed = readText(text);
  const upgraded = parsed.ok ? upgrade(parsed.value) : null;
  if (!upgraded?.ok) throw new Error('the file was read before and is not read now');
  return upgraded.file as unknown as BuildFile;
}

export { movedEntries, withMoves } from '../../../geometry/build/moves.ts';
export { fitted, takenOut } from '../../../geometry/build/takeOut.ts';
export { withNewPart } from '../../../geometry/build/withNewPart.ts';

/** A length as it was typed, in; or what is wrong with it. */
export function lengthOf(typed: string, unit: LengthUnit): number | { problem: string } {
  const read = readEntry(typed, { dimension: 'length', unit });
  return read.ok ? read.value : { problem: `${read.reason}; write ${read.wanted}` };
}

/** What shifts entries of a file that was read without a problem, its variant applied. */
export const shifts = (file: BuildFile, variant: string | null): Shifts =>
  new Shifts(file, variant);
