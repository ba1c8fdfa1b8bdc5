import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: 'src',
  cacheDir: '../node_modules/.vite',
  test: {
    dir: 'tests',
    include: ['**/*.test.ts'],
    exclude: ['browser/**'],
    // sweeps and recorded placements take their time on two shared cores
    testTimeout: 120_000,
  },
});
