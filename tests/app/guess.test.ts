/** Findings on assumed numbers alone are told apart from those that anything measured has a part in. */
import { expect, test } from 'vitest';
import type { Build } from '../../geometry/build/build.ts';
import { isGuess } from '../../src/app/words/guess.ts';

const entry = (path: string, from: string) => ({ path, from });
const build = {
  entries: [
    entry('axles["front"].tire.diameter', 'measured'),
    entry('solids["fender"].box.center[2]', 'assumed'),
    entry('solids["bumper"].box.center[0]', 'assumed'),
    entry('wanted.gaps[0].required', 'drawing'),
  ],
} as unknown as Build;

test.each([
  [['solids["fender"].box.center[2]', 'solids["bumper"].box.center[0]'], true],
  [['solids["fender"].box.center[2]', 'axles["front"].tire.diameter'], false],
  // a wish is no number of the vehicle
  [['solids["fender"].box.center[2]', 'wanted.gaps[0].required'], true],
  [['wanted.gaps[0].required'], false],
  [[], false],
])('%j: %s', (hangsOn, expected) => {
  expect(isGuess(build, { hangsOn })).toBe(expected);
});
