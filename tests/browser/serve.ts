/** The built page on a port of its own, for tests, figures and pictures. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { preview } from 'vite';

export interface Served {
  /** Address of the page, with a slash at its end. */
  address: string;
  /** Folder of the built page. */
  dist: string;
  close(): Promise<void>;
}

/** Builds the page into a folder that is gone when it is closed, and serves it. */
export async function serve(): Promise<Served> {
  const dist = mkdtempSync(join(tmpdir(), 'axlewalk-page-'));
  // in a process of its own: a test runner's environment would make a page for developers
  const { VITEST: _, NODE_ENV: __, ...env } = process.env;
  execFileSync('npx', ['vite', 'build', '--outDir', dist, '--logLevel', 'error'], {
    cwd: fileURLToPath(new URL('../..', import.meta.url)),
    stdio: 'inherit',
    env,
  });
  const server = await preview({
    build: { outDir: dist },
    preview: { port: 0 },
    logLevel: 'error',
  });
  const address = server.resolvedUrls?.local[0];
  if (!address) throw new Error('the preview has no address');
  return {
    address,
    dist,
    close: async () => {
      await server.close();
      rmSync(dist, { recursive: true, force: true });
    },
  };
}
