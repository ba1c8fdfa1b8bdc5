/** What is done before the first paint: the looks as they were left, and the slow things begun. */
import { keepPage } from './files/keepPage.ts';
import { theReader } from './files/reader.ts';
import { followTheme } from './frame/theme.ts';
import { recall, remember } from './state/remember.ts';
import { useShop } from './state/shop.ts';
import { theWorkshop } from './state/study.ts';

export function startPage(): void {
  recall();
  followTheme();
  remember();
  // needed for the first axle, and it takes its time
  theWorkshop();
  // needed for the first file: fetched when the first axle is done with
  const end = useShop.subscribe(({ results }) => {
    if (!results.isFinal && results.failed === null) return;
    end();
    theReader().catch(() => {
      // told when it is used
    });
    void keepPage();
  });
}
