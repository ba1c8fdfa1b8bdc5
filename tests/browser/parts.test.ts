/** Parts come and go, variants are made, and pairs are left out or want another gap: all on the page. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { drop, standing, story, until } from './shop.ts';
import { smallBuild } from './smallBuild.ts';

const LONG_ms = 150_000;

async function openSmall(page: Page): Promise<void> {
  page.setDefaultTimeout(25_000);
  await standing(page);
  await drop(page, [{ name: 'small.axlewalk.json', bytes: smallBuild() }]);
  await until(page, 'the small build', ({ build, pose }) => build === 'small build' && !!pose);
}

const steps = (page: Page, words: string) => page.getByRole('button', { name: words, exact: true });
const view = (page: Page, name: string) =>
  page.getByRole('group', { name: 'Show' }).getByRole('button', { name: new RegExp(`^${name}`) });

story(
  'a part is added, copied and taken out; one that the axle stands on is not let go',
  {},
  async page => {
    await openSmall(page);
    await page.keyboard.press('p');
    await page.getByRole('button', { name: 'Add a part …' }).click();
    await page.getByRole('button', { name: 'Add it' }).click();
    await page.getByRole('alert').getByText('Write what it is called').waitFor();
    await page
      .getByRole('combobox', { name: 'What it is' })
      .selectOption('Limit strap, both sides');
    await page.getByRole('textbox', { name: 'What it is called' }).fill('rail');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').getByText(/rail/).waitFor();
    await page.getByRole('textbox', { name: 'What it is called' }).fill('cargo strap');
    await page.keyboard.press('Enter');
    await steps(page, '1 step').waitFor();
    await page.getByRole('button', { name: /^Cargo strap/ }).click();
    await page.getByRole('button', { name: 'Copy …' }).click();
    await page.getByRole('button', { name: 'Make the copy' }).click();
    await steps(page, '2 steps').waitFor();
    await page.getByRole('button', { name: /^Cargo strap 2/ }).click();
    await page.getByRole('button', { name: 'Take out' }).click();
    await steps(page, '3 steps').waitFor();
    expect(await page.getByRole('button', { name: /^Cargo strap 2/ }).count()).toBe(0);

    // without the track bar nothing holds the axle sideways
    await page.getByRole('button', { name: 'Track bar', exact: true }).click();
    await page.getByRole('button', { name: 'Take out' }).click();
    await page.getByRole('alert').waitFor();
    await steps(page, '3 steps').waitFor();
  },
  LONG_ms,
);

story(
  'a variant is made, changed and named; what differs from the base is marked',
  {},
  async page => {
    await openSmall(page);
    await page.keyboard.press('p');
    await view(page, 'Variants').click();
    await page.getByRole('textbox', { name: 'Name of the new variant' }).fill('gear inboard');
    await page.keyboard.press('Enter');
    await until(page, 'the variant', ({ variant }) => variant === 'gear inboard');
    await view(page, 'Entered').click();
    await page.getByRole('searchbox', { name: 'Search parts' }).fill('gear');
    await page.getByRole('button', { name: 'Gear housing', exact: true }).click();
    const sideways = page.getByRole('textbox', { name: 'Center, sideways' });
    await sideways.fill('13 1/4');
    await page.keyboard.press('Enter');
    await page.getByText('base 16 1/4').waitFor();
    await view(page, 'Variants').click();
    await page.getByText('1 value of its own').waitFor();
    await page.getByRole('textbox', { name: 'Name of gear inboard' }).fill('inboard');
    await page.keyboard.press('Enter');
    await until(page, 'its name', ({ variant }) => variant === 'inboard');

    // the base is as it was
    await page.getByRole('listitem').filter({ hasText: 'As drawn' }).getByRole('button').click();
    await until(page, 'the base', ({ variant }) => variant === null);
    await view(page, 'Entered').click();
    await page.getByRole('button', { name: 'Gear housing', exact: true }).click();
    expect(await sideways.inputValue()).toBe('16 1/4');
  },
  LONG_ms,
);

story(
  'a pair is left out with a reason, and compared again',
  {},
  async page => {
    await openSmall(page);
    await until(page, 'the check', ({ isFinal }) => isFinal);
    const row = page
      .getByRole('list', { name: /^Findings/ })
      .locator('li', { hasText: 'hits gear housing' });
    await row.locator('.finding-more').click();
    await row.getByRole('button', { name: 'Leave the pair out' }).click();
    await page.getByRole('alert').getByText('Say why').waitFor();
    await row.getByRole('textbox', { name: 'Why' }).fill('another tire is ordered');
    await row.getByRole('button', { name: 'Leave the pair out' }).click();
    await steps(page, '1 step').waitFor();
    const isHit = 'gear housing';
    await until(
      page,
      'a check without it',
      ({ isFinal, findings }, part) =>
        isFinal &&
        !findings.some(({ kind, parts }) => kind === 'partsTouch' && parts.includes(part)),
      isHit,
    );
    await page.keyboard.press('p');
    await view(page, 'Left out').click();
    const muted = page.getByRole('listitem').filter({ hasText: 'another tire is ordered' });
    await muted.getByRole('button', { name: 'Compare again' }).click();
    await until(
      page,
      'the hit again',
      ({ isFinal, findings }, part) =>
        isFinal &&
        findings.some(({ kind, parts }) => kind === 'partsTouch' && parts.includes(part)),
      isHit,
    );
  },
  LONG_ms,
);
