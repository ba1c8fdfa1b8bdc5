/** The page in a shop without a network: once it was open, it opens again, with all that it fetches late. */
import { titleOf } from '../../src/app/state/titleOf.ts';
import { standing, story, until } from './shop.ts';

story(
  'opened once, it opens without a network',
  { context: { serviceWorkers: 'allow' } },
  async page => {
    await standing(page);
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await page.context().setOffline(true);
    await page.reload();
    await until(page, 'findings without a network', ({ findings }) => findings.length > 0);
    await page.getByRole('tab', { name: 'Charts' }).click();
    await page.locator('.chart canvas').first().waitFor();
    const file = 'wishbone-rear.axlewalk.json';
    await page.locator('.top .build').click();
    await page.getByRole('menuitem', { name: titleOf(file) }).click();
    await until(page, file, (now, known) => now.file === known && now.pose !== null, file);
  },
);
