/** What is done before the first paint: the looks as they were left, and the slow things begun. */
import { theReader } from './files/reader.ts';
import { followTheme } from './frame/theme.ts';
import { recall, remember } from './state/remember.ts';
import { theWorkshop } from './state/study.ts';

export function startPage(): void {
  recall();
  followTheme();
  remember();
  // both are needed for the first axle and take their time: a failure is told when they are used
  theWorkshop();
  theReader().catch(() => {});
}
