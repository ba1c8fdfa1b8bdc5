/** Reads a build file. Loaded by reader.ts when it is wanted. */
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
