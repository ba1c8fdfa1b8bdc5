/** The command line run in this process, with its words on both channels kept. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Io } from '../../src/cli/io.ts';
import { run } from '../../src/cli/run.ts';
// read in with the test file, so that the first test does not wait for what a verb reads in late
import '../../src/cli/check.ts';
import '../../src/cli/pose.ts';
import '../../src/cli/walk.ts';

/** Folder that file names in the tests are relative to. */
export const FIXTURES = join(import.meta.dirname, 'fixtures');
/** A front axle with every kind of limit, a rear one on bushings, and a variant. */
export const TRUCK = 'truck.axlewalk.json';

export interface Ran {
  code: number;
  out: string;
  err: string;
}

/** Runs `axlewalk` with these words; `around` puts other surroundings in place. */
export async function axlewalk(words: readonly string[], around: Partial<Io> = {}): Promise<Ran> {
  let out = '';
  let err = '';
  const code = await run(words, {
    out: text => {
      out += text;
    },
    err: text => {
      err += text;
    },
    folder: FIXTURES,
    screen: { colors: 0, isTerminal: false, columns: null },
    isErrTerminal: false,
    line: async () => null,
    now: () => 0,
    ...around,
  });
  return { code, out, err };
}

type Json = Record<string, unknown>;

/** The fixture, changed and put into a folder of its own for as long as `use` needs it. */
export async function withFile<T>(
  change: (truck: Json) => unknown,
  use: (path: string) => Promise<T>,
): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'axlewalk-'));
  try {
    const truck = JSON.parse(readFileSync(join(FIXTURES, TRUCK), 'utf8')) as Json;
    const changed = change(truck) ?? truck;
    const path = join(folder, 'changed.axlewalk.json');
    writeFileSync(path, typeof changed === 'string' ? changed : JSON.stringify(changed));
    return await use(path);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** An axle of the fixture as written. */
export function axleIn(truck: Json, index: number): Json {
  const axle = (truck.axles as Json[])[index];
  if (!axle) throw new Error(`no axle ${index}`);
  return axle;
}
