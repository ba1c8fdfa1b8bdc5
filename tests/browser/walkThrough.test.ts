/** What somebody does who opens the page for the first time, at a desk and with a finger. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { formatLength } from '../../geometry/build/format.ts';
import { mapFrame, xOf, yOf } from '../../src/charts/mapFrame.ts';
import { mapMargins } from '../../src/charts/mapRules.ts';
import { fingerDrag, PHONE, read, standing, story, TABLET, until } from './shop.ts';

const map = (page: Page) => page.getByRole('slider', { name: /^Travel map/ });
const steering = (page: Page) => page.getByRole('slider', { name: /^Steering/ });
const tape = (page: Page) => page.getByRole('slider', { name: 'Place on the walk' });
const rows = (page: Page) => page.getByRole('list', { name: /^Findings/ }).locator('.finding-main');

/** Where travels are on the map, px of the page. */
async function onMap(page: Page): Promise<(left: number, right: number) => [number, number]> {
  const box = await map(page).boundingBox();
  const { range } = await read(page);
  if (!box || !range) throw new Error('no map yet');
  const { left, right, top, bottom } = mapMargins('in');
  const size = Math.max(80, Math.min(box.width - left - right, box.height - top - bottom));
  const frame = mapFrame(range.edge, left, top, size);
  return (l, r) => [box.x + xOf(frame, l), box.y + yOf(frame, r)];
}

const travels = async (page: Page): Promise<[number, number]> => {
  const { pose } = await read(page);
  return [pose?.travel_in.left ?? Number.NaN, pose?.travel_in.right ?? Number.NaN];
};

/** A px of the map is some 1/20 in. */
const PX_in = 0.12;

story(
  'open, see a hit, choose it, see the spot, walk, drive by pointer and keys',
  {},
  async page => {
    const seen = await until(page, 'findings', ({ findings }) => findings.length > 0);
    expect(seen.build).toBe('fence-line truck, long arms');

    // the worst is a hit, and the row says so with its amount
    const [worst] = seen.findings;
    expect(worst?.kind).toBe('partsTouch');
    const first = rows(page).first();
    expect(await first.textContent()).toContain(
      `−${formatLength(worst?.amount.value ?? 0, { unit: 'in' })}″`,
    );

    // choose it: the sentence, the pose, the section
    await first.click();
    const chosen = await until(page, 'the finding', ({ finding }) => finding === 0);
    const hit = chosen.findings[0];
    const sentence = page.getByRole('heading', { level: 1 });
    await sentence.getByText(/ hits the /).waitFor();
    expect(await sentence.textContent()).toContain(
      formatLength(hit?.amount.value ?? 0, { unit: 'in' }),
    );
    expect(chosen.pose?.travel_in).toEqual({ left: hit?.pose.left_in, right: hit?.pose.right_in });
    await page.locator('.section-inset canvas').waitFor();
    expect(await page.locator('.section-inset [role="img"]').getAttribute('aria-label')).toMatch(
      /in/,
    );

    // the walk: by its button, then scrubbed by pointer and by keys
    await page.getByRole('button', { name: 'Walk', exact: true }).first().click();
    await until(page, 'the walk', ({ play }) => play.isPlaying && play.at > 0.2);
    await page.keyboard.press('Escape');
    const box = await tape(page).boundingBox();
    if (!box) throw new Error('no tape');
    await page.mouse.move(box.x + box.width * 0.3, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.6, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    const scrubbed = await read(page);
    expect(scrubbed.play.isPlaying).toBe(false);
    const count = Number(await tape(page).getAttribute('aria-valuemax'));
    expect(scrubbed.play.at / count).toBeGreaterThan(0.5);
    expect(scrubbed.play.at / count).toBeLessThan(0.7);
    await tape(page).focus();
    await page.keyboard.press('Home');
    expect((await read(page)).play.at).toBe(0);

    // the ring: by pointer
    await page.keyboard.press('1');
    expect(await travels(page)).toEqual([0, 0]);
    const at = await onMap(page);
    await page.mouse.move(...at(0, 0));
    await page.mouse.down();
    await page.mouse.move(...at(1, 1), { steps: 3 });
    await page.mouse.move(...at(2, 3), { steps: 3 });
    await page.mouse.up();
    const [left, right] = await travels(page);
    expect(Math.abs(left - 2)).toBeLessThan(PX_in);
    expect(Math.abs(right - 3)).toBeLessThan(PX_in);

    // by keys: a quarter of an inch each, and the spoken value says where
    await map(page).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Shift+ArrowLeft');
    const [l, r] = await travels(page);
    expect(l).toBeCloseTo(left + 0.25 - 1, 9);
    expect(r).toBeCloseTo(right - 0.25, 9);
    const spoken = `${formatLength(Math.abs(l), { unit: 'in' })} up`;
    await page.waitForFunction(
      ([name, words]) =>
        document
          .querySelector(`[aria-label^="${name}"]`)
          ?.getAttribute('aria-valuetext')
          ?.includes(words ?? ''),
      ['Travel map', spoken],
    );
    expect(await map(page).getAttribute('aria-valuetext')).toMatch(
      /Tightest over all steering: .+ in (gap|overlap)/,
    );

    // beyond the edge the ring stays on it
    await page.mouse.move(...at(l, r));
    await page.mouse.down();
    await page.mouse.move(...at(12, 12), { steps: 4 });
    const [heldLeft, heldRight] = await travels(page);
    expect(heldLeft).toBeLessThan(9);
    expect(heldRight).toBeLessThan(9);
    await page.mouse.up();
    expect((await read(page)).pose?.inRange).toBe(true);

    // steering: by keys, to its stop
    await page.keyboard.press('1');
    await steering(page).focus();
    for (let k = 0; k < 3; k++) await page.keyboard.press('ArrowLeft');
    expect((await read(page)).pose?.steer?.value).toBeGreaterThan(0.5);
    await page.keyboard.press('7');
    expect(await steering(page).getAttribute('aria-valuetext')).not.toBe('');
    expect((await read(page)).pose?.steer?.value).toBeLessThan(-20);

    // inches and millimeters
    await page.getByRole('button', { name: 'mm', exact: true }).click();
    expect(await rows(page).first().textContent()).toContain('mm');
  },
);

story('everything by the keyboard, and a list of what there is', {}, async page => {
  await until(page, 'findings', ({ findings }) => findings.length > 1);
  await page.keyboard.press('n');
  expect((await read(page)).finding).toBe(0);
  await page.keyboard.press('n');
  expect((await read(page)).finding).toBe(1);
  await page.keyboard.press('Escape');
  expect((await read(page)).finding).toBe(null);

  await page.keyboard.press('?');
  const dialog = page.getByRole('dialog', { name: 'What can I do here?' });
  await dialog.waitFor();
  await page.keyboard.type('both do');
  await page.keyboard.press('Enter');
  await dialog.waitFor({ state: 'detached' });
  expect((await read(page)).pose?.travel_in.left).toBeLessThan(-3);

  // letters can be turned off
  await page.keyboard.press('?');
  await dialog.getByRole('checkbox').uncheck();
  await page.keyboard.press('Escape');
  await dialog.waitFor({ state: 'detached' });
  await page.keyboard.press('1');
  expect((await read(page)).pose?.travel_in.left).toBeLessThan(-3);
});

story('another example, its other axle and a variant', {}, async page => {
  await standing(page);
  await page.getByRole('button', { name: 'Short arms' }).click();
  await until(page, 'the variant', ({ variant }) => variant !== null);
  await page.getByRole('button', { name: 'As drawn' }).click();
  await until(page, 'the base', ({ variant }) => variant === null);
  await page.getByRole('button', { name: /front axle/ }).click();
  await page.getByRole('menuitem', { name: 'Whole vehicle' }).click();
  await until(page, 'the other example', ({ build }) => build === 'water hauler');
  await page.getByRole('button', { name: /front axle/ }).click();
  await page.getByRole('menuitemradio', { name: 'Rear axle' }).click();
  await until(page, 'the rear axle', ({ axle, pose }) => axle === 'rear' && pose !== null);
});

const touched = { touch: true, size: PHONE } as const;

story('on a phone, with a finger', touched, async page => {
  await until(page, 'findings', ({ findings }) => findings.length > 0);
  const tab = (name: string) => page.getByRole('navigation').getByRole('button', { name });
  await tab('Findings').tap();
  await rows(page).first().tap();
  await until(page, 'the finding', ({ finding }) => finding === 0);
  await tab('Walk').tap();
  await page.getByRole('button', { name: 'Ride', exact: true }).tap();
  expect(await travels(page)).toEqual([0, 0]);
  await map(page).scrollIntoViewIfNeeded();
  const at = await onMap(page);
  await fingerDrag(page, [at(0, 0), at(1, 0.5), at(3, 2)]);
  const [left, right] = await travels(page);
  expect(Math.abs(left - 3)).toBeLessThan(2 * PX_in);
  expect(Math.abs(right - 2)).toBeLessThan(2 * PX_in);

  await page.getByRole('button', { name: 'Full screen' }).tap();
  await map(page).waitFor({ state: 'hidden' });
  await page.getByRole('button', { name: 'Back to the page' }).tap();
  await map(page).waitFor();
  for (const name of ['Charts', 'Parts'] as const) {
    await tab(name).tap();
    expect(await tab(name).getAttribute('aria-current')).toBe('page');
  }
});

story('nothing is wider than a phone or a tablet', { touch: true, size: TABLET }, async page => {
  await until(page, 'findings', ({ findings }) => findings.length > 0);
  for (const size of [TABLET, PHONE, { width: 1180, height: 820 }, { width: 844, height: 390 }]) {
    await page.setViewportSize(size);
    await page.waitForTimeout(200);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide, `${size.width} × ${size.height}`).toBeLessThanOrEqual(size.width);
  }
});
