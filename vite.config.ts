import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: 'src',
  test: {
    dir: 'tests',
    include: ['**/*.test.ts'],
    exclude: ['browser/**'],
  },
});
