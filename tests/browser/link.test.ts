/** Builds that come by a link: one that is sent, some that were made to harm, and never over somebody's changes. */
import { deflateRawSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { expect, inject } from 'vitest';
import { drop, read, standing, story, until } from './shop.ts';
import { smallBuild } from './smallBuild.ts';

const LONG_ms = 150_000;
const linkOf = (text: string): string =>
  `${inject('address')}#build=${deflateRawSync(Buffer.from(text)).toString('base64url')}`;
const isOpen = (page: Page, name: string) =>
  until(page, name, ({ build, pose }, known) => build === known && !!pose, name);

story(
  'a link carries the build to another page',
  { context: { permissions: ['clipboard-read', 'clipboard-write'] } },
  async page => {
    page.setDefaultTimeout(25_000);
    await standing(page);
    await drop(page, [{ name: 'small.axlewalk.json', bytes: smallBuild() }]);
    await isOpen(page, 'small build');
    await page.getByRole('button', { name: 'More' }).click();
    await page.getByRole('menuitem', { name: 'Copy a link that carries the build' }).click();
    await page.getByText('A link that carries the build is copied.').waitFor();
    const link = await page.evaluate(() => navigator.clipboard.readText());
    const other = await page.context().newPage();
    await other.goto(link);
    await isOpen(other, 'small build');
    // the address is clean again
    expect(new URL(other.url()).hash).toBe('');
  },
  LONG_ms,
);

story(
  'a link asks before it takes the place of changes, and they stay kept',
  {},
  async page => {
    page.setDefaultTimeout(25_000);
    await standing(page);
    await drop(page, [{ name: 'small.axlewalk.json', bytes: smallBuild() }]);
    await isOpen(page, 'small build');
    await page.keyboard.press('p');
    await page.getByRole('searchbox', { name: 'Search parts' }).fill('gear');
    await page.getByRole('button', { name: 'Gear housing', exact: true }).click();
    await page.getByRole('textbox', { name: 'Center, height' }).fill('34');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: '1 step' }).waitFor();

    const link = linkOf(smallBuild('by a link'));
    const asked: string[] = [];
    page.once('dialog', dialog => {
      asked.push(dialog.message());
      void dialog.dismiss();
    });
    await page.goto(link);
    await expect.poll(() => asked.length, { timeout: 25_000 }).toBe(1);
    expect((await read(page)).build).toBe('small build');

    page.once('dialog', dialog => void dialog.accept());
    await page.goto(link);
    await isOpen(page, 'by a link');
    await page.getByRole('button', { name: /By a link/ }).click();
    await page.getByRole('menuitem', { name: /^Small/ }).waitFor();
  },
  LONG_ms,
);

const hostile: readonly (readonly [what: string, text: string, told: RegExp])[] = [
  ['no build at all', '{"axlewalk": 1, "name": "<img src=x onerror=alert(1)>"}', /unit/],
  ['no JSON', 'alert(1)', /JSON|text/],
  [
    'keys that reach for the page',
    '{"axlewalk": 1, "__proto__": {"polluted": true}, "constructor": {}, "name": "x", "unit": "in"}',
    /__proto__|constructor|wheelbase|axles/,
  ],
];

story(
  'links that were made to harm open nothing, and say what is wrong',
  {},
  async page => {
    page.setDefaultTimeout(25_000);
    await standing(page);
    for (const [what, text, told] of hostile) {
      await page.goto(linkOf(text));
      const refused = await until(page, what, ({ refused: problems }) => problems !== null);
      expect(JSON.stringify(refused.refused), what).toMatch(told);
      expect(refused.build).toBe('fence-line truck, long arms');
      await page.keyboard.press('Escape');
      await until(page, 'the page as before', ({ refused: problems }) => problems === null);
    }
    await page.goto(`${inject('address')}#build=${'A'.repeat(20_000)}`);
    await page.getByText(/The link brings no build/).waitFor();
    expect(await page.evaluate(() => 'polluted' in {})).toBe(false);
  },
  LONG_ms,
);
