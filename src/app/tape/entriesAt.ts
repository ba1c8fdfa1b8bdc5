/** The entered numbers of one thing that is taped in one go. */
import type { Entry } from '../../../geometry/build/build.ts';

/** Those whose paths begin with it: the part's own, in the order of the file. */
export const entriesAt = (entries: readonly Entry[], spot: string): Entry[] =>
  entries.filter(
    ({ path }) => path === spot || (/^[.[]/.test(path.slice(spot.length)) && path.startsWith(spot)),
  );
