/** Numbers that were assumed, taken as they stand: somebody taped them, and they read the same. */
import type { Entry } from '../../../geometry/build/build.ts';
import { withEntry } from '../../../geometry/build/edit.ts';
import { changeFile, type Refused } from './takeStart.ts';

/** How far off a number is that was taped carefully, as the build file says it: common practice, no source. */
export const CAREFUL: Readonly<Record<string, string | undefined>> = {
  length: '1/16 in',
  angle: '0.5 deg',
};

export function markTaped(what: string, entries: readonly Entry[]): Promise<Refused> {
  return changeFile(`${what}: taped as it stands`, (base, variant) => {
    let file = base;
    for (const { path, dimension } of entries) {
      const tolerance = CAREFUL[dimension] ?? null;
      const edit = withEntry({ file, variant }, path, { from: 'measured', tolerance });
      if (!edit.ok) return edit.message;
      file = edit.file;
    }
    return file;
  });
}
