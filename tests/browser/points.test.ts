/** Points measured from any place, sides that go their own ways, and a link of another length: all on the page. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { story } from './shop.ts';
import { openSmall } from './smallBuild.ts';

const part = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Parts' }).getByRole('button', { name, exact: true });
const point = (page: Page, name: string) =>
  page.getByRole('group', { name: 'Move a point' }).getByRole('button', { name });
const field = (page: Page, name: string) =>
  page.locator('.steppers').getByRole('textbox', { name, exact: true });
const steps = (page: Page, words: string) => page.getByRole('button', { name: words, exact: true });

story(
  'a mount is measured from the ground, each side goes its own way, and both are alike again',
  {},
  async page => {
    await openSmall(page);
    await page.keyboard.press('p');
    await part(page, 'Lower link').click();
    await point(page, 'Frame end').click();

    // as it was taped, and from the floor
    const height = field(page, 'Height');
    expect(await height.inputValue()).toBe('-2');
    await page.locator('.steppers').getByText('from rail bottom').first().waitFor();
    const from = page.getByRole('combobox', { name: 'Measured from' });
    await from.selectOption({ label: 'ground below the front axle' });
    await from.press('ArrowUp');
    await from.press('ArrowDown');
    expect(await height.inputValue()).toBe('22');
    expect(await field(page, 'Fore and aft').inputValue()).toBe('38');
    await page.locator('.stepper').getByText('rearward').waitFor();

    // what is read off there stays as it was read; what is wrong says why
    await height.fill('22 1/4');
    await page.keyboard.press('Enter');
    await steps(page, '1 step').waitFor();
    await height.fill('22 1/');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').getByText('Still using 22 1/4 above it.').waitFor();
    await page.keyboard.press('Escape');
    await from.selectOption({ label: 'as taped: rail bottom' });
    expect(await height.inputValue()).toBe('22 1/4');
    expect(await field(page, 'Fore and aft').inputValue()).toBe('-10');

    // each side by itself: the passenger one is moved, the driver one stays
    await page.getByRole('button', { name: 'Enter each side by itself' }).click();
    await part(page, 'Passenger lower link').click();
    await point(page, 'Frame end').click();
    expect(await field(page, 'Sideways').inputValue()).toBe('-1/2');
    await page.getByRole('button', { name: 'Height: up' }).click();
    await page.keyboard.press('Enter');
    await steps(page, '3 steps').waitFor();
    expect(await height.inputValue()).toBe('22 5/16');
    await part(page, 'Driver lower link').click();
    await point(page, 'Frame end').click();
    expect(await height.inputValue()).toBe('22 1/4');

    // and alike again, after the one that was moved
    await page.getByRole('button', { name: 'as the passenger one' }).click();
    await part(page, 'Lower link').waitFor();
    await point(page, 'Frame end').click();
    expect(await height.inputValue()).toBe('22 5/16');
    expect(await field(page, 'Sideways').inputValue()).toBe('1/2');
    await page.keyboard.press('Control+z');
    await part(page, 'Passenger lower link').waitFor();
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await part(page, 'Lower link').waitFor();
  },
);

story(
  'a longer link is tried, one out of reach is refused, and it is drawn again',
  {},
  async page => {
    await openSmall(page);
    await page.keyboard.press('p');
    await part(page, 'Upper link').click();
    const length = page.locator('.link-length');
    const typed = length.getByRole('textbox', { name: 'Length' });
    const drawn = await typed.inputValue();
    await typed.fill('33');
    await page.keyboard.press('Enter');
    await length.getByText('longer').waitFor();
    expect(await length.getByRole('definition').allTextContents()).toEqual(
      expect.arrayContaining([expect.stringMatching(/° further up$/), 'None']),
    );
    await typed.fill('90');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').getByText('Out of reach').waitFor();
    await page.keyboard.press('Escape');
    expect(await typed.inputValue()).toBe('33');
    await length.getByRole('button', { name: 'As drawn again' }).click();
    await length.getByText('As drawn, from point to point').waitFor();
    expect(await typed.inputValue()).toBe(drawn);
    await steps(page, '2 steps').waitFor();
  },
);
