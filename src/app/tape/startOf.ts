/** What the build that is open was started from: it stands in its file. */
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import type { Start } from '../../../geometry/build/start/answers.ts';
import { startIn } from '../../../geometry/build/start/startIn.ts';
import type { Shop } from '../state/shop.ts';

const starts = new WeakMap<BuildFile, Start | null>();
let last: Start | null = null;

/** Null where it was not started from a tape. The same object as long as it says the same. */
export function startOf({ opened }: Pick<Shop, 'opened'>): Start | null {
  if (!opened) return null;
  const known = starts.get(opened.file);
  if (known !== undefined) return known;
  const read = startIn(opened.file);
  if (JSON.stringify(read) !== JSON.stringify(last)) last = read;
  starts.set(opened.file, last);
  return last;
}
