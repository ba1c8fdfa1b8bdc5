/** The guide's drawings are what the script makes (after a change: vitest -u). */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { drawings } from './drawings.ts';

const GUIDE = join(import.meta.dirname, '../../docs/guide');

test.each(Object.entries(drawings))('%s', async (name, draw) => {
  const text = draw();
  expect(text).toMatch(/^<svg /);
  expect(text).not.toMatch(/NaN|undefined|Infinity/);
  await expect(text).toMatchFileSnapshot(join(GUIDE, name));
});
