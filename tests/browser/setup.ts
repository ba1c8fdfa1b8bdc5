/** Has a browser, and the built page served for all browser tests. */
import type { TestProject } from 'vitest/node';
import { bringChromium } from './chromium.ts';
import { serve } from './serve.ts';

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
  const { address, dist, close } = await serve();
  project.provide('address', address);
  project.provide('dist', dist);
  return close;
}
