/** Starting a vehicle of one's own with a tape: from the pictures of layouts to what to tape next. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { expect, inject } from 'vitest';
import { violations } from './axe.ts';
import { drop, PHONE, read, standing, story, TABLET, until } from './shop.ts';

const dialog = (page: Page) =>
  page.getByRole('dialog', { name: 'What are you building under it?' });
const asked = (page: Page) => page.locator('.question h3');
const field = (page: Page) => page.locator('.question input.entry-input').first();
const view = (page: Page, name: string) =>
  page.getByRole('group', { name: 'Show' }).getByRole('button', { name, exact: true });
const item = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Measurements' }).getByRole('button', { name });

/** Types into the field of the question and goes on. */
async function answer(page: Page, question: RegExp, typed: string): Promise<void> {
  await asked(page).getByText(question).waitFor();
  await field(page).fill(typed);
  await field(page).press('Enter');
  await asked(page).getByText(question).waitFor({ state: 'detached' });
}

/** A build whose axle does not steer is looked through in seconds. */
async function startRear(page: Page): Promise<void> {
  await page.keyboard.press('y');
  await dialog(page).getByRole('button', { name: 'Rear', exact: true }).click();
  await dialog(page).getByRole('button', { name: 'Start with the tape' }).click();
  await until(page, 'the new build', ({ build, pose }) => build === 'new build' && pose !== null);
}

/** Waits until the browser keeps a text of the build with this in it. */
async function kept(page: Page, text: string): Promise<void> {
  await page.waitForFunction(
    async wanted => {
      const open = indexedDB.open('keyval-store');
      await new Promise(resolve => {
        open.onsuccess = resolve;
      });
      const all = open.result.transaction('keyval').objectStore('keyval').getAll();
      await new Promise(resolve => {
        all.onsuccess = resolve;
      });
      open.result.close();
      return JSON.stringify(all.result).includes(wanted);
    },
    text,
    { polling: 200, timeout: 30_000 },
  );
}

story(
  'from a first visit to an axle of one’s own, one measurement after the other',
  { isFirstVisit: true },
  async page => {
    await standing(page);
    const steps = page.getByRole('region', { name: 'How to begin' });
    await steps.getByRole('button', { name: 'Start your own' }).click();
    await dialog(page).getByText('Radius arms and a track bar').click();
    await dialog(page).getByText('Double-ended ram, no drag link').click();
    await dialog(page).getByLabel('Called').fill('Wood lot truck');
    await dialog(page).getByRole('button', { name: 'Start with the tape' }).click();
    const begun = await until(page, 'it walks', ({ build, range }) => {
      return build === 'Wood lot truck' && range !== null;
    });
    expect(begun.file).toBe('Wood-lot-truck.axlewalk.json');

    // what nobody has taped says by which rule it is there
    await asked(page)
      .getByText(/front wheel center to the rear/)
      .waitFor();
    await page.getByText('The wheelbase is 115 in (common practice, no source).').waitFor();
    await page.getByRole('img', { name: 'The tape goes from the front wheel center' }).waitFor();

    // a wrong entry is told beside the field, and nothing goes on
    await field(page).fill('112 1/4/2');
    await field(page).press('Enter');
    const wrong = page.locator('.question').getByRole('alert');
    await wrong.filter({ hasText: '112' }).waitFor();
    await asked(page)
      .getByText(/front wheel center to the rear/)
      .waitFor();
    await field(page).fill('12');
    await field(page).press('Enter');
    await wrong.getByText('too small to be right').waitFor();
    await answer(page, /front wheel center to the rear/, "9' 4 1/4");

    // left and right apart
    await page.getByLabel('Left and right differ').check();
    await page.getByLabel('Left, driver side').fill('18 1/2');
    await page.getByLabel('Right, passenger side').fill('18 3/8');
    await page.getByRole('button', { name: 'Next', exact: true }).click();

    // skipped, and given later
    await asked(page).getByText('How tall is a front tire').waitFor();
    await page.getByRole('button', { name: 'Skip for now' }).click();
    await asked(page).getByText('the middle of one front tire').waitFor();
    await item(page, 'Tire height').click();
    await answer(page, /How tall/, '41');

    // back: nothing was lost
    await page.getByRole('button', { name: 'Back' }).click();
    await page.getByRole('button', { name: 'Back' }).click();
    expect(await page.getByLabel('Left, driver side').inputValue()).toBe('18 1/2');
    expect(await page.getByLabel('Right, passenger side').inputValue()).toBe('18 3/8');
    await page.getByText('3 of 13 taped').waitFor();
  },
);

story(
  'what is half typed waits, each answer is walked at once, and is one step',
  {},
  async page => {
    await standing(page);
    await startRear(page);
    await item(page, 'Bump stop to what it strikes').click();
    await field(page).fill('3 1/');
    await item(page, 'Frame, outside to outside').click();
    await item(page, 'Bump stop to what it strikes').getByText('to fix').waitFor();
    await item(page, 'Bump stop to what it strikes').click();
    expect(await field(page).inputValue()).toBe('3 1/');
    const before = JSON.stringify((await read(page)).range?.ends);
    await answer(page, /bump stop/, '3 1/4');
    await until(
      page,
      'another range, with less air under the stops',
      ({ range }, old) => range !== null && JSON.stringify(range.ends) !== old,
      before,
    );

    // each answer is one step
    await page.getByRole('button', { name: 'Undo' }).click();
    await item(page, 'Bump stop to what it strikes').click();
    await expect.poll(() => field(page).inputValue()).toBe('');
  },
);

story('by keys alone', {}, async page => {
  await standing(page);
  const { keyboard } = page;
  await keyboard.press('y');
  await dialog(page).waitFor();
  const tabTo = async (name: string): Promise<void> => {
    for (let count = 0; count < 40; count++) {
      const at = await page.evaluate(() => {
        const { activeElement: on } = document;
        return on?.closest('label')?.textContent ?? on?.textContent ?? '';
      });
      if (at.includes(name)) return;
      await keyboard.press('Tab');
    }
    throw new Error(`no tab stop says ${name}`);
  };
  await page.getByRole('radio', { name: 'Three links' }).waitFor();
  await tabTo('Three links and a track bar');
  await keyboard.press('ArrowRight');
  await keyboard.press('ArrowRight');
  expect(await page.getByRole('radio', { name: 'Radius arms' }).isChecked()).toBe(true);
  await tabTo('Start with the tape');
  await keyboard.press('Enter');
  await asked(page).waitFor();
  // the field has the keyboard, and Enter goes on
  for (const [question, typed] of [
    ['rear wheel center', '112'],
    ['front wheel center above', '19'],
    ['How tall', '40'],
  ] as const) {
    await asked(page).getByText(question).waitFor();
    await page.waitForFunction(() => document.activeElement?.matches('.question input') === true);
    await keyboard.type(typed);
    await keyboard.press('Enter');
  }
  await page.getByText('3 of 13 taped').waitFor();
  const { pose } = await read(page);
  expect(pose?.status).toBe('solved');
});

story('on a phone, by finger', { size: PHONE, touch: true }, async page => {
  await standing(page);
  await page.getByRole('button', { name: /^Fence-line truck/ }).tap();
  await page.getByRole('menuitem', { name: /^New build/ }).tap();
  await dialog(page).getByText('Triangulated four links').tap();
  await dialog(page).getByRole('button', { name: 'Start with the tape' }).tap();
  await asked(page).getByText('rear wheel center').waitFor();
  // the axle stands over the question
  expect(await page.locator('.stage').isVisible()).toBe(true);
  await field(page).fill('118 1/2');
  await page.getByRole('button', { name: 'Next', exact: true }).tap();
  await asked(page).getByText('front wheel center above').waitFor();
  await page.getByRole('button', { name: 'Skip for now' }).tap();
  await asked(page).getByText('How tall').waitFor();
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  expect(wide).toBeLessThanOrEqual(0);
  expect(await violations(page)).toEqual([]);
  // the map is one tap away, and the answers wait
  const tabs = page.getByRole('navigation', { name: 'Parts of the page' });
  await tabs.getByRole('button', { name: 'Walk' }).tap();
  await page.getByRole('slider', { name: /^Travel map/ }).waitFor();
  await tabs.getByRole('button', { name: 'Tape' }).tap();
  await page.getByText('1 of 14 taped').waitFor();
});

story('both axles on a tablet: the one that is taped is shown', { size: TABLET }, async page => {
  await standing(page);
  await page.keyboard.press('y');
  await dialog(page).getByRole('button', { name: 'Front and rear' }).click();
  await dialog(page).getByRole('button', { name: 'Right', exact: true }).first().click();
  await dialog(page).getByRole('button', { name: 'Millimeters' }).click();
  await dialog(page).getByRole('button', { name: 'Start with the tape' }).click();
  await answer(page, /rear wheel center/, '2850');
  await item(page, 'Rear lower link, bolt to bolt').click();
  await until(page, 'the rear axle', ({ axle, pose }) => axle === 'rear' && pose !== null);
  await answer(page, /lower link/, '900');
  await item(page, 'Front tire height').click();
  await until(page, 'the front axle', ({ axle }) => axle === 'front');
  const { unit } = await read(page);
  expect(unit).toBe('mm');
});

story('a tab that is closed in the middle: what was taped is open again', {}, async page => {
  await standing(page);
  await startRear(page);
  await answer(page, /front wheel center to the rear/, '109 7/8');
  await kept(page, '109 7/8');
  const again = await page.context().newPage();
  await page.close();
  await again.goto(inject('address'));
  await again.getByText('Your changes of last time are open again.').waitFor();
  await again.keyboard.press('a');
  await again.getByText('1 of 14 taped').waitFor();
  await answer(again, /rear wheel center above/, '18 1/4');
  await again.getByText('2 of 14 taped').waitFor();
});

story(
  'another layout, and the saved file opened again, keep what was taped and what was changed by hand',
  {
    // where the page may write a file itself, a dialog of the system asks for its name
    before: async page => {
      await page.addInitScript(() => {
        Reflect.deleteProperty(window, 'showSaveFilePicker');
      });
    },
  },
  async page => {
    await standing(page);
    await startRear(page);
    await answer(page, /front wheel center to the rear/, '111');
    await page.getByRole('tab', { name: 'Parts' }).click();
    await page.getByRole('button', { name: /^Tire/ }).click();
    const width = page.getByLabel('Width', { exact: true }).first();
    await width.fill('12 3/4');
    await width.press('Enter');
    await page.getByText('12 3/4').first().waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('tab', { name: 'Tape' }).click();
    await page.getByRole('button', { name: 'Change the layout' }).click();
    await dialog(page).getByText('Wishbone and two lower links').click();
    await dialog(page).getByRole('button', { name: 'Use this layout' }).click();
    await dialog(page).waitFor({ state: 'detached' });
    await page.getByText('1 of 14 taped').waitFor();
    await page.getByRole('tab', { name: 'Parts' }).click();
    await page
      .getByRole('button', { name: /wishbone/i })
      .first()
      .waitFor();
    await page.getByRole('button', { name: /^Tire/ }).click();
    expect(await width.inputValue()).toBe('12 3/4');

    // saved and opened elsewhere it goes on where it was, and what was skipped is given
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    const bytes = await readFile(await (await saving).path(), 'utf8');
    const { start } = JSON.parse(bytes) as { start: { answers: object } };
    expect(start.answers).toEqual({ wheelbase: '111' });
    await page.keyboard.press('Escape');
    await drop(page, [{ name: 'from-the-shop.axlewalk.json', bytes }]);
    await until(page, 'the saved build', ({ file }) => file === 'from-the-shop.axlewalk.json');
    await page.getByRole('tab', { name: 'Tape' }).click();
    await page.getByText('1 of 14 taped').waitFor();
    await page.getByText('Changed by hand, and kept').waitFor();
    await page.getByText('tire, width').first().waitFor();
    await answer(page, /rear wheel center above/, '18 1/4');
    await page.getByText('2 of 14 taped').waitFor();
    await page.getByRole('tab', { name: 'Parts' }).click();
    await page.getByRole('button', { name: /^Tire/ }).click();
    expect(await width.inputValue()).toBe('12 3/4');
    expect(await page.getByLabel('Loaded radius', { exact: true }).inputValue()).toBe('18 1/4');
  },
  60_000,
);

story(
  'what to tape next: with its reason, typed right there, and more is settled',
  {},
  async page => {
    await standing(page);
    await startRear(page);
    await view(page, 'What next').click();
    const next = page.getByRole('region', { name: 'Tape this' });
    await next.waitFor({ timeout: 60_000 });
    expect(await next.getByRole('heading').textContent()).toMatch(
      /^The .+ decides? whether .+: tape (it|them)\.$/,
    );
    expect(await violations(page)).toEqual([]);
    const settled = page.getByRole('meter', { name: 'How much of the answer is settled' });
    const share = async (): Promise<number> => Number(await settled.getAttribute('value'));
    const before = await share();
    // it reads what was assumed: taped with care, it no longer leaves anything open
    await next.getByRole('button', { name: /^These are taped/ }).click();
    await page.getByText('Asked again since the last change').waitFor();
    await page
      .getByText('Asked again since the last change')
      .waitFor({ state: 'detached', timeout: 60_000 });
    expect(await share()).toBeGreaterThan(before);
    await next.getByRole('button', { name: 'To what is worth most now' }).click();
    const first = next.getByRole('textbox').first();
    await first.fill('twelve');
    await first.press('Enter');
    await next.getByRole('alert').waitFor();
  },
  90_000,
);

story('what was taped twice and does not fit is told, with the culprit', {}, async page => {
  await standing(page);
  await startRear(page);
  await view(page, 'Check').click();
  await page.getByText('Tape something a second way').waitFor();
  // the rear pinion is at its 4 degrees: over 8 in that is 0.56 in
  await page.getByRole('combobox', { name: 'What', exact: true }).selectOption('rise');
  await page.getByLabel('Higher at the flange by').fill('9/16');
  await page.getByLabel('Over a length of').fill('8');
  await page.getByRole('button', { name: 'Add', exact: true }).click();
  await page.getByText('Nothing contradicts.').waitFor();
  await page.getByRole('combobox', { name: 'What', exact: true }).selectOption('straight');
  for (const [side, length] of [
    ['left', '31'],
    ['right', '35'],
  ]) {
    for (const [label, end] of [
      ['From', 'axle'],
      ['To', 'chassis'],
    ] as const) {
      await page
        .getByRole('combobox', { name: label, exact: true })
        .selectOption(`${side} lower link.${end}`);
    }
    await page.getByLabel('It reads').fill(length ?? '');
    await page.getByRole('button', { name: 'Add', exact: true }).click();
    await expect.poll(() => page.getByLabel('It reads').inputValue()).toBe('');
  }
  await page.getByText('What was taped does not fit together').waitFor();
  const named = await page.locator('.suspects li').allTextContents();
  expect(named.length).toBeLessThanOrEqual(3);
  expect(named.some(each => /lower link, axle end to frame end/.test(each))).toBe(true);
  expect(await violations(page)).toEqual([]);
});

story('the guide opens over the page, from page to page', {}, async page => {
  await standing(page);
  await page.keyboard.press('o');
  const guide = page.getByRole('dialog', { name: 'Guide' });
  await guide.getByRole('article').getByRole('link', { name: 'Curing a hit' }).click();
  await guide.getByRole('heading', { name: '3. Move something' }).waitFor();
  await guide.getByRole('button', { name: 'Measuring a vehicle' }).click();
  await guide.getByRole('img', { name: 'Where to tape, seen from ahead' }).waitFor();
  expect(await violations(page)).toEqual([]);
  await page.keyboard.press('Escape');
  await guide.waitFor({ state: 'detached' });
});

for (const scheme of ['light', 'dark'] as const) {
  story(`no serious violation while starting, ${scheme}`, { scheme }, async page => {
    await standing(page);
    await page.keyboard.press('y');
    await page.getByRole('radio', { name: 'Wishbone' }).waitFor();
    await dialog(page).locator('.card-picture svg').nth(8).waitFor();
    expect(await violations(page), 'pictures').toEqual([]);
    await dialog(page).getByRole('button', { name: 'Start with the tape' }).click();
    await asked(page).waitFor();
    expect(await violations(page), 'question').toEqual([]);
    await view(page, 'Rules').click();
    await page.getByText('rules made what was not taped').waitFor();
    expect(await violations(page), 'rules').toEqual([]);
  });
}
