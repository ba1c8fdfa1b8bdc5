import { expect, test } from 'vitest';
import { editDistance, nearest } from '../../geometry/build/nearest.ts';

// Wagner and Fischer's own kind of example, widely reprinted: kitten -> sitting takes 3 edits
// (from memory); the rest can be counted by hand.
test('edit distance counts insertions, deletions, replacements and swaps', () => {
  expect(editDistance('kitten', 'sitting')).toBe(3);
  expect(editDistance('', 'abc')).toBe(3);
  expect(editDistance('abc', '')).toBe(3);
  expect(editDistance('abc', 'abc')).toBe(0);
  expect(editDistance('abdc', 'abcd')).toBe(1); // one swap, where plain Levenshtein says 2
  expect(editDistance('ca', 'abc')).toBe(3); // restricted form: 3, unrestricted would be 2
});

test('the nearest name is offered for a slip and withheld for a different word', () => {
  const known = ['wheelCenters', 'wheelbase', 'weights', 'unit'];
  expect(nearest('weelbase', known)).toBe('wheelbase');
  expect(nearest('WHEELBASE', known)).toBe('wheelbase');
  expect(nearest('uint', known)).toBe('unit');
  expect(nearest('wheelCentres', known)).toBe('wheelCenters');
  expect(nearest('zebra', known)).toBeNull();
  expect(nearest('wheel', [])).toBeNull();
});

test('of equally near names the first listed wins', () => {
  expect(nearest('lift', ['left', 'lint'])).toBe('left');
  expect(nearest('lift', ['lint', 'left'])).toBe('lint');
});
