/** Builds the page into a folder of its own and serves it for all browser tests. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { preview } from 'vite';
import type { TestProject } from 'vitest/node';
import { bringChromium } from './chromium.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Address of the page, with a slash at its end. */
    address: string;
    /** Folder of the built page. */
    dist: string;
    chromium: string;
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  project.provide('chromium', bringChromium());
  const dist = mkdtempSync(join(tmpdir(), 'axlewalk-page-'));
  // in a process of its own: the test runner's environment would make a page for developers
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
  project.provide('address', address);
  project.provide('dist', dist);
  return async () => {
    await server.close();
    rmSync(dist, { recursive: true, force: true });
  };
}
