/** Findings that hang on assumed numbers alone: what they say may be so, and nothing is proved of the vehicle. */
import type { Build } from '../../../geometry/build/build.ts';
import type { Finding } from '../../../geometry/finding/finding.ts';

const assumedOf = new WeakMap<Build, ReadonlySet<string>>();

function assumedIn(build: Build): ReadonlySet<string> {
  let known = assumedOf.get(build);
  if (!known) {
    known = new Set(build.entries.filter(({ from }) => from === 'assumed').map(each => each.path));
    assumedOf.set(build, known);
  }
  return known;
}

/** Whether every number that a finding hangs on is assumed; what is wanted is a wish, and no number of the vehicle. */
export function isGuess(build: Build, { hangsOn }: Pick<Finding, 'hangsOn'>): boolean {
  const assumed = assumedIn(build);
  const numbers = hangsOn.filter(path => !path.startsWith('wanted'));
  return numbers.length > 0 && numbers.every(path => assumed.has(path));
}
