/** Somebody sees a hit and moves the bracket until it is clear: by keys, by hand in 3D, with a finger. */
import { readFileSync } from 'node:fs';
import type { Download, Page } from 'playwright-core';
import { expect } from 'vitest';
import { drop, fingerDrag, PHONE, type read, standing, story, until } from './shop.ts';
import { smallBuild } from './smallBuild.ts';

/** Without a graphics card a frame takes as long as its picture is large. */
const SMALL = { width: 1000, height: 800 };
const SMALL_TABLET = { width: 620, height: 800 };

/** Frames of the picture and the check share two slow cores. */
const LONG_ms = 150_000;

const NAME = 'small.axlewalk.json';

/** Browsers that let a page write a file ask with a dialog of their own: these stories save as the others do. */
const withoutPicker = async (page: Page): Promise<void> => {
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, 'showSaveFilePicker');
  });
};

async function openSmall(page: Page): Promise<void> {
  page.setDefaultTimeout(25_000);
  await standing(page);
  await drop(page, [{ name: NAME, bytes: smallBuild() }]);
  await until(page, 'the small build', ({ build, pose }) => build === 'small build' && !!pose);
}

/** All findings of the newest change, and all gaps of it. */
const checked = (page: Page) => until(page, 'the check', ({ isFinal }) => isFinal);

const isHit = ({ findings }: Awaited<ReturnType<typeof read>>): boolean =>
  findings.some(({ kind, parts }) => kind === 'partsTouch' && parts.includes('gear housing'));

const points = (page: Page) => page.getByRole('group', { name: 'Move a point' });
const height = (page: Page) => page.locator('.steppers').getByRole('textbox', { name: 'Height' });
const sideways = (page: Page) =>
  page.locator('.steppers').getByRole('textbox', { name: 'Sideways' });
const steps = (page: Page) => page.getByRole('button', { name: /^\d+ steps?$/ });

async function saved(page: Page): Promise<string> {
  const [download] = await Promise.all<Download | undefined>([
    page.waitForEvent('download'),
    page.keyboard.press('Control+s').then(() => undefined),
  ]);
  const path = await download?.path();
  if (!path) throw new Error('nothing was saved');
  return readFileSync(path, 'utf8');
}

story(
  'see a hit, choose it, move the bracket until it is clear; undo, redo, type, save, reload',
  { before: withoutPicker },
  async page => {
    await openSmall(page);
    expect(isHit(await checked(page))).toBe(true);

    // the hit, and from it to the part
    const row = page
      .getByRole('list', { name: /^Findings/ })
      .locator('li', { hasText: 'gear housing' });
    await row.locator('.finding-main').click();
    await row.locator('.finding-more').click();
    await row.getByRole('button', { name: 'Gear housing', exact: true }).click();
    await points(page).getByRole('button', { name: 'Center' }).click();

    // inboard by 3 in: seen from the corner that is to the left
    for (let k = 0; k < 6; k++) await page.keyboard.press('Shift+ArrowLeft');
    expect(await sideways(page).inputValue()).toBe('13 1/4');
    await page.getByText('was 16 1/4').waitFor();
    await page.keyboard.press('Enter');
    await steps(page).waitFor();
    expect(isHit(await checked(page))).toBe(false);

    // what it did: in the sentence, and in a row with what was before
    await page
      .getByRole('heading', { level: 1 })
      .getByText(/clears the/)
      .waitFor();
    const did = page.getByRole('region', { name: 'What the last change did' });
    await did.getByText('Gear housing, center: 3 right').waitFor();
    expect(await did.locator('.did-row', { hasText: 'gear housing' }).textContent()).toContain(
      '−1 1/8',
    );

    // undo and redo
    await page.keyboard.press('Control+z');
    await page.waitForFunction(
      () => document.querySelectorAll('.step-button[aria-label="Undo"]:disabled').length === 1,
    );
    expect(await sideways(page).inputValue()).toBe('16 1/4');
    expect(isHit(await checked(page))).toBe(true);
    await page.keyboard.press('Control+y');
    await page.waitForFunction(
      () => document.querySelectorAll('.step-button[aria-label="Undo"]:enabled').length === 1,
    );
    expect(await sideways(page).inputValue()).toBe('13 1/4');

    // typed as a tape reads; what is wrong says why, and the last good one stays in use
    await height(page).fill('33 5/8');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: '2 steps' }).waitFor();
    const alert = page.getByRole('alert');
    for (const [typed, why] of [
      ['33 5/', /write|5/],
      ['3 kg', /mass/],
      ['', /write/],
      ['tall + 2', /tall/],
      ['1/0', /write/],
      ['10-3', /10/],
      ['1e99', /write|most/],
    ] as const) {
      await height(page).fill(typed);
      await page.keyboard.press('Enter');
      await alert.getByText('Still using 33 5/8.').waitFor();
      expect(await alert.textContent()).toMatch(why);
      await page.keyboard.press('Escape');
      expect(await height(page).inputValue()).toBe('33 5/8');
    }
    await page.getByRole('button', { name: '2 steps' }).waitFor();

    // saved, and after a reload the same again
    const text = await saved(page);
    const gear = JSON.parse(text).solids.find(
      ({ name }: { name: string }) => name === 'gear housing',
    );
    expect(gear.box.center).toEqual([14, '13 1/4', '33 5/8']);
    await page.reload();
    await until(page, 'the build again', ({ build, pose }) => build === 'small build' && !!pose);
    await page.getByText('Your changes of last time are open again.').waitFor();
    expect(await saved(page)).toBe(text);
  },
  LONG_ms,
);

story(
  'by the keyboard alone',
  {},
  async page => {
    await openSmall(page);
    await checked(page);
    const tabTo = async (what: string, is: (name: string) => boolean): Promise<void> => {
      for (let k = 0; k < 60; k++) {
        await page.keyboard.press('Tab');
        const name = await page.evaluate(() => {
          const at = document.activeElement;
          return at?.getAttribute('aria-label') ?? at?.textContent ?? '';
        });
        if (is(name)) return;
      }
      throw new Error(`Tab does not come to ${what}`);
    };
    await page.keyboard.press('p');
    await tabTo('the search', name => name === 'Search parts');
    await page.keyboard.type('gear');
    await tabTo('the part', name => name.startsWith('Gear housing'));
    await page.keyboard.press('Enter');
    await tabTo('its point', name => name === 'Center');
    await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('PageUp');
    expect(await height(page).inputValue()).toBe('33 3/8');
    // put back, then once more and kept
    await page.keyboard.press('Escape');
    expect(await height(page).inputValue()).toBe('33 1/4');
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Enter');
    await steps(page).waitFor();
    expect(await height(page).inputValue()).toBe('32 3/4');
    await page.keyboard.press('Control+z');
    await page.waitForFunction(
      () => document.querySelectorAll('.step-button[aria-label="Undo"]:disabled').length === 1,
    );
    expect(await height(page).inputValue()).toBe('33 1/4');
  },
  LONG_ms,
);

story(
  'with a finger on a phone',
  { touch: true, size: PHONE },
  async page => {
    await openSmall(page);
    await page.getByRole('navigation').getByRole('button', { name: 'Parts' }).tap();
    await page.getByRole('searchbox', { name: 'Search parts' }).fill('gear');
    await page.getByRole('button', { name: 'Gear housing', exact: true }).tap();
    await points(page).getByRole('button', { name: 'Center' }).tap();
    await page.getByRole('button', { name: '1/8' }).tap();
    const up = page.getByRole('button', { name: 'Height: up' });
    await up.tap();
    await up.tap();
    expect(await height(page).inputValue()).toBe('33 1/2');
    // it is kept by itself after a moment
    await until(
      page,
      'the step',
      ({ build }) => build !== null && document.querySelector('.step-button') !== null,
    );
  },
  LONG_ms,
);

/** The middle of a mark of the held grip once it stands still, px of the page. */
async function restingPlace(page: Page, mark: string): Promise<[number, number]> {
  const found = page.locator(`.grip[data-state="held"] ${mark}`);
  let last = '';
  for (;;) {
    const box = await found.boundingBox();
    const now = JSON.stringify(box);
    if (box && now === last) return [box.x + box.width / 2, box.y + box.height / 2];
    last = now;
    await page.waitForTimeout(400);
  }
}

const arrow = (page: Page, axis: number): Promise<[number, number]> =>
  restingPlace(page, `.grip-arrow[data-axis="${axis}"] .grip-head`);

async function chooseGear(page: Page): Promise<void> {
  await page.keyboard.press('p');
  await page.getByRole('searchbox', { name: 'Search parts' }).fill('gear');
  await page.getByRole('button', { name: 'Gear housing', exact: true }).click();
  await points(page).getByRole('button', { name: 'Center' }).click();
  await page.locator('.grip-arrow').first().waitFor();
}

story(
  'dragged in the picture, along an axis and in a plane',
  { has3D: true, size: SMALL },
  async page => {
    await openSmall(page);
    await chooseGear(page);
    const [x, y] = await arrow(page, 2);
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let k = 1; k <= 2; k++) await page.mouse.move(x, y - 8 * k);
    await page.waitForFunction(() => document.querySelector('.stepper small') !== null);
    const now = await height(page).inputValue();
    expect(now).not.toBe('33 1/4');
    // along its axis alone
    expect(await sideways(page).inputValue()).toBe('16 1/4');
    // Escape while it is held: all is back, and what the hand does then is nothing
    await page.keyboard.press('Escape');
    expect(await height(page).inputValue()).toBe('33 1/4');
    await page.mouse.move(x, y - 40);
    await page.mouse.up();
    expect(await height(page).inputValue()).toBe('33 1/4');
    expect(await steps(page).count()).toBe(0);

    // the ring goes in the plane that is seen most squarely; letting go is one step
    const [rx, ry] = await restingPlace(page, '.grip-ring');
    await page.mouse.move(rx, ry);
    await page.mouse.down();
    for (let k = 1; k <= 2; k++) await page.mouse.move(rx - 8 * k, ry - 6 * k);
    await page.waitForFunction(() => document.querySelectorAll('.stepper small').length === 2);
    await page.mouse.up();
    await page.getByRole('button', { name: '1 step' }).waitFor();
    expect(await height(page).inputValue()).not.toBe('33 1/4');
    expect(await sideways(page).inputValue()).not.toBe('16 1/4');
  },
  LONG_ms,
);

story(
  'dragged with a finger',
  { has3D: true, touch: true, size: SMALL_TABLET },
  async page => {
    await openSmall(page);
    await chooseGear(page);
    await page.locator('.stage').scrollIntoViewIfNeeded();
    const [x, y] = await arrow(page, 1);
    await fingerDrag(page, [
      [x, y],
      [x - 6, y],
      [x - 12, y],
      [x - 18, y],
    ]);
    await page.getByRole('button', { name: '1 step' }).waitFor();
    expect(await sideways(page).inputValue()).not.toBe('16 1/4');
  },
  LONG_ms,
);
