/** Rams and meshes come, what hangs on a part goes with it, and alternatives are made and walked beside each other. */
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
  await page.keyboard.press('p');
}

const steps = (page: Page, words: string) => page.getByRole('button', { name: words, exact: true });
const part = (page: Page, name: RegExp) =>
  page.getByRole('navigation', { name: 'Parts' }).getByRole('button', { name });

/** A closed tetrahedron of 100 mm. */
function bracket(): string {
  const faces = [
    '0 0 0,0 100 0,100 0 0',
    '0 0 0,100 0 0,0 0 100',
    '0 0 0,0 0 100,0 100 0',
    '100 0 0,0 100 0,0 0 100',
  ];
  const facet = (face: string): string =>
    `facet normal 0 0 0\nouter loop\n${face
      .split(',')
      .map(each => `vertex ${each}`)
      .join('\n')}\nendloop\nendfacet`;
  return `solid bracket\n${faces.map(facet).join('\n')}\nendsolid bracket\n`;
}

story(
  'a ram and a mesh are added; a tie rod tells what hangs on it and goes with it',
  {},
  async page => {
    await openSmall(page);
    await page.getByRole('button', { name: 'Add a part …' }).click();
    await page.getByRole('combobox', { name: 'What it is', exact: true }).selectOption('Ram');
    await page.getByRole('combobox', { name: 'What carries the ram' }).selectOption('chassis');
    await page.getByRole('textbox', { name: 'What it is called' }).fill('frame ram');
    await page.getByRole('button', { name: 'Add it' }).click();
    await page.getByRole('heading', { name: 'Frame ram' }).waitFor();
    await steps(page, '1 step').waitFor();

    await part(page, /^Tie rod/).click();
    await page.getByRole('button', { name: 'Take out' }).click();
    const hanging = page.getByRole('alertdialog', { name: 'Take out Tie rod' });
    await hanging.getByText('All of the steering').waitFor();
    await hanging.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('button', { name: 'Take out' }).click();
    await hanging.getByRole('button', { name: 'Take it all out' }).click();
    await steps(page, '2 steps').waitFor();
    expect(await part(page, /ram$/i).count()).toBe(0);
    await page.keyboard.press('Control+z');
    await steps(page, '1 step').waitFor();
    await part(page, /^Frame ram/).waitFor();

    await drop(page, [{ name: 'nothing.stl', bytes: 'solid nothing\nendsolid nothing\n' }]);
    const asked = page.getByRole('dialog', { name: 'Add a mesh' });
    await asked.getByRole('alert').getByText('nothing.stl').waitFor();
    await asked.getByRole('button', { name: 'Put away' }).click();
    await drop(page, [{ name: 'shock_bracket.stl', bytes: bracket() }]);
    expect(await asked.getByLabel('What it is called').inputValue()).toBe('shock bracket');
    await asked.getByRole('button', { name: 'By three points' }).click();
    await asked.getByRole('button', { name: 'Add it' }).click();
    await asked.getByRole('alert').getByText('Point A').waitFor();
    await asked.getByRole('button', { name: 'By its origin' }).click();
    await asked.getByLabel('Unit of the file').selectOption('mm');
    await asked.getByLabel('Height', { exact: true }).fill("3'4");
    await asked.getByRole('button', { name: 'Add it' }).click();
    await page.getByRole('heading', { name: 'Shock bracket' }).waitFor();
    await steps(page, '2 steps').waitFor();
    expect(await asked.count()).toBe(0);
    await page.getByRole('button', { name: 'Take out' }).click();
    await steps(page, '3 steps').waitFor();
    expect(await part(page, /^Shock bracket/).count()).toBe(0);
  },
  LONG_ms,
);

story(
  'alternatives for a part are made, typed, and walked in a table beside the build as it stands',
  {},
  async page => {
    await openSmall(page);
    const show = page.getByRole('group', { name: 'Show' });
    await show.getByRole('button', { name: /^Variants/ }).click();
    await page.getByRole('button', { name: /^Alternatives for a part/ }).click();
    await page.getByRole('button', { name: 'Add alternatives …' }).click();
    await page.getByRole('combobox', { name: 'For which part' }).selectOption('Gear housing');
    await page
      .getByRole('textbox', { name: 'What the first one is called' })
      .fill('compact housing');
    await page.keyboard.press('Enter');
    await steps(page, '1 step').waitFor();
    const option = page.getByRole('region', { name: 'compact housing' });
    await option.getByRole('combobox', { name: 'Another value' }).selectOption('Center, sideways');
    await steps(page, '2 steps').waitFor();
    const sideways = option.getByRole('textbox', { name: 'Center, sideways' });
    await sideways.fill('12 1/2/2');
    await sideways.press('Enter');
    await option.getByRole('alert').getByText('two slashes').waitFor();
    await sideways.fill('12 1/2');
    await sideways.press('Enter');
    await steps(page, '3 steps').waitFor();
    await option.getByText('base 16 1/4').waitFor();

    await page.getByRole('button', { name: 'Table of them' }).click();
    const row = page.getByRole('row', { name: /^Compact housing/ });
    const hits = (of: typeof row) => of.getByRole('cell').first();
    // the counts come once it is walked: the housing is out of the tire's way
    await hits(row).getByText('0', { exact: true }).waitFor({ timeout: 60_000 });
    expect(await hits(page.getByRole('row', { name: /^As it stands/ })).textContent()).not.toBe(
      '0',
    );
    await row.getByRole('button', { name: 'Set beside as B' }).click();
    await page.getByRole('button', { name: /^B: Compact housing/ }).waitFor();
  },
  LONG_ms,
);
