import { expect, test } from 'vitest';
import { progressWords } from '../../../src/app/frame/Progress.tsx';
import { NO_RESULTS } from '../../../src/app/state/shop.ts';

const at = (working: typeof NO_RESULTS.working) => progressWords({ ...NO_RESULTS, working });

test('what the worker is at, in words', () => {
  expect(at(null)).toBeNull();
  expect(at({ what: 'range', done: 0, of: 1 })).toEqual({
    what: 'Finding the travel',
    share: null,
    count: '',
  });
  expect(at({ what: 'gaps', done: 6, of: 8 })).toEqual({
    what: 'Checking gaps',
    share: 0.75,
    count: '6 of 8 pairs',
  });
  expect(at({ what: 'extremes', done: 3, of: 60 })?.count).toBe('3 of 60 measures');
});
