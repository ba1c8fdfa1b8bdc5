/** Takes the picture of the page at the top of the README, docs/page.png: `npx tsx tests/tools/pagePicture.ts` */
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { bringChromium, SWITCHES } from '../browser/chromium.ts';
import { serve } from '../browser/serve.ts';

const path = fileURLToPath(new URL('../../docs/page.png', import.meta.url));
const served = await serve();
const browser = await chromium.launch({ executablePath: bringChromium(), args: SWITCHES });
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.goto(served.address);
  await page.getByRole('button', { name: 'Got it' }).click({ timeout: 120_000 });
  while (!(await page.evaluate('window.axlewalk.read().isFinal'))) await page.waitForTimeout(500);
  await page.keyboard.press('n');
  // the view comes to rest, and is then drawn once more at its best
  await page.waitForTimeout(20_000);
  await page.screenshot({ path });
  console.log(path);
} finally {
  await browser.close();
  await served.close();
}
