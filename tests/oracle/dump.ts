/**
 * Writes the resolved Build of a build file as JSON, for the oracle to read.
 *
 * `npx tsx tests/oracle/dump.ts FILE[#VARIANT]` prints `{ file, variant, sha256, build }`; exit 2 with the
 * problems on stderr where the file is refused.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { Build } from '../../geometry/build/build.ts';
import { problemLines, readBuild } from '../../geometry/build/read.ts';

/** What a record of a build file holds of its input: if this changes, the record is out of date. */
export function geometryDigest(build: Build): string {
  const { wheelbase, weights, axles } = build;
  return createHash('sha256').update(JSON.stringify({ wheelbase, weights, axles })).digest('hex');
}

function main(argument: string | undefined): number {
  const [file, variant] = (argument ?? '').split('#');
  if (!file) {
    process.stderr.write('usage: dump.ts FILE[#VARIANT]\n');
    return 2;
  }
  const read = readBuild(readFileSync(file), { variant: variant ?? null });
  if (!read.ok) {
    process.stderr.write(`${problemLines(read.problems).join('\n')}\n`);
    return 2;
  }
  const sha256 = geometryDigest(read.build);
  const dump = { file, variant: variant ?? null, sha256, build: read.build };
  process.stdout.write(`${JSON.stringify(dump)}\n`);
  return 0;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  process.exitCode = main(process.argv[2]);
}
