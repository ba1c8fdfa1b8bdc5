/** The command line as a process: what only shows there. */
import { type SpawnSyncReturns, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { FIXTURES, TRUCK } from './terminal.ts';

const TOP = join(import.meta.dirname, '../..');

function axlewalk(words: readonly string[], folder: string): SpawnSyncReturns<string> {
  return spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/main.ts', ...words], {
    cwd: TOP,
    encoding: 'utf8',
    env: { ...process.env, INIT_CWD: folder },
  });
}

// each starts Node and reads everything in anew
const SLOW_ms = 60_000;

test(
  'a file is taken relative to where npm was called, from any folder',
  () => {
    const { status, stdout, stderr } = axlewalk(['check', TRUCK, '--json'], FIXTURES);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(JSON.parse(stdout)).toMatchObject({ build: 'fence truck', valid: true });
    const elsewhere = mkdtempSync(join(tmpdir(), 'axlewalk-'));
    try {
      expect(axlewalk(['check', TRUCK], elsewhere)).toMatchObject({
        status: 2,
        stdout: '',
        stderr: expect.stringContaining('no file of that name'),
      });
    } finally {
      rmSync(elsewhere, { recursive: true });
    }
  },
  SLOW_ms,
);

test(
  'exit 1 where a limit is passed, with the result on stdout',
  () => {
    const { status, stdout, stderr } = axlewalk(['pose', TRUCK, '--left=7'], FIXTURES);
    expect({ status, stderr }).toEqual({ status: 1, stderr: '' });
    expect(stdout).toMatch(/Past their limits here/);
  },
  SLOW_ms,
);

test(
  'a reader that goes away is no error and leaves no trace',
  () => {
    const call = `"${process.execPath}" --import tsx src/cli/main.ts pose "${TRUCK}" --json`;
    const { stdout, stderr } = spawnSync(
      'bash',
      ['-c', `${call} | true; echo " \${PIPESTATUS[0]}"`],
      {
        cwd: TOP,
        encoding: 'utf8',
        env: { ...process.env, INIT_CWD: FIXTURES },
      },
    );
    expect(stderr).toBe('');
    expect(stdout).toBe(' 0\n');
  },
  SLOW_ms,
);
