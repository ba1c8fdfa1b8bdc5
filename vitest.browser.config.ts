import { defineConfig } from 'vitest/config';

/** Stories on the built page, in a real browser: `npm run test:browser`. */
export default defineConfig({
  test: {
    dir: 'tests/browser',
    include: ['**/*.test.ts'],
    globalSetup: ['tests/browser/setup.ts'],
    // each file has a browser of its own, which keeps a core busy
    maxWorkers: 2,
    testTimeout: 90_000,
    hookTimeout: 60_000,
  },
});
