/** A value of the shown variant that differs from the base, made as it is there. */
import type { Entry } from '../../../../geometry/build/build.ts';
import { takeBase } from '../../edit/editParts.ts';

interface AsInBaseProps {
  /** All that are taken back, as one step. */
  entries: readonly Entry[];
  /** What they are called, for the step. */
  words: string;
  label: string;
}

export function AsInBase({ entries, words, label }: AsInBaseProps) {
  return (
    <button
      type="button"
      className="quiet as-in-base"
      onClick={() =>
        void takeBase(
          entries.map(({ path }) => path),
          words,
        )
      }
    >
      {label}
    </button>
  );
}
