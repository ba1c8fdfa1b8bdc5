/** The example that is read while the page is built comes through as JSON unchanged. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readBuild } from '../../../geometry/build/read.ts';
import { FIRST_EXAMPLE } from '../../../src/app/state/firstExample.ts';

test('a build that was read is the same after JSON', () => {
  const read = readBuild(readFileSync(`examples/${FIRST_EXAMPLE}`));
  if (!read.ok) throw new Error('the first example has problems');
  // no NaN, no infinity, no undefined, no class among it
  expect(JSON.parse(JSON.stringify(read.build))).toStrictEqual(read.build);
});
