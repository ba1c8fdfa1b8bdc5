/** The page for those who do not see it or do not use a pointer: axe's rules, and what the pictures say in words. */
import { expect } from 'vitest';
import { violations } from './axe.ts';
import { PHONE, story, until } from './shop.ts';

for (const scheme of ['light', 'dark'] as const) {
  story(`no serious violation, ${scheme}`, { scheme, isFirstVisit: true }, async page => {
    await until(page, 'findings', ({ findings }) => findings.length > 0);
    expect(await violations(page)).toEqual([]);
    for (const name of ['Charts', 'Parts', 'Findings']) {
      await page.getByRole('tab', { name }).click();
      await page.waitForTimeout(300);
      expect(await violations(page), name).toEqual([]);
    }
    await page.keyboard.press('n');
    await page.keyboard.press('?');
    await page.getByRole('dialog').waitFor();
    expect(await violations(page), 'commands').toEqual([]);
  });
}

story('no serious violation on a phone', { size: PHONE, touch: true }, async page => {
  await until(page, 'findings', ({ findings }) => findings.length > 0);
  for (const name of ['Findings', 'Charts', 'Parts', 'Walk']) {
    await page
      .getByRole('navigation', { name: 'Parts of the page' })
      .getByRole('button', { name })
      .tap();
    await page.waitForTimeout(300);
    expect(await violations(page), name).toEqual([]);
  }
});

story('map, steering and walk say where they stand', {}, async page => {
  await until(page, 'the map and the walk', ({ findings }) => findings.length > 0);
  const said = (name: RegExp): Promise<string | null> =>
    page.getByRole('slider', { name }).getAttribute('aria-valuetext');
  expect(await said(/^Travel map: driver wheel across, passenger wheel up/)).toMatch(
    /^(At ride height|Ride height)\. Tightest over all steering: .+ to .+, .+ in (gap|overlap)$/,
  );
  expect(await said(/^Steering, as the driver sits/)).toMatch(/straight/);
  expect(await said(/^Place on the walk/)).toMatch(/\w/);
});
