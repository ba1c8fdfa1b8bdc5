/** Files that are not taken: every problem is listed as the command line lists it, and the last good build stays. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { problemLines } from '../../geometry/build/read.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { drop, examplePath, read, standing, story, until } from './shop.ts';

/** Every example, as the page fetches it. */
const EXAMPLES = /(first-example|axlewalk)-[^/]*\.json$/;

const folder = fileURLToPath(new URL('../build/broken/', import.meta.url));

/** The lines of the list of problems, as they are read out. */
const listed = (page: Page): Promise<string[]> =>
  page.locator('.problems li').evaluateAll(items => items.map(item => item.textContent ?? ''));

const title = (page: Page): Promise<string | null> => page.locator('.problems h2').textContent();

story('every broken file lists its problems and leaves the last good build', {}, async page => {
  const before = await standing(page);
  for (const name of readdirSync(folder)) {
    const bytes = readFileSync(`${folder}${name}`);
    const opened = openBuild(bytes);
    if (opened.ok) throw new Error(`${name} is no broken file`);
    await drop(page, [{ name, bytes }]);
    await page.getByRole('heading', { name: `to fix in ${name}.` }).waitFor();
    expect(await listed(page), name).toEqual(problemLines(opened.problems));
    expect(await title(page)).toContain('The last good build is still here.');
  }
  const after = await read(page);
  expect(after.build).toBe(before.build);
  expect(after.pose).toEqual(before.pose);
  await page.getByRole('button', { name: 'Put away' }).click();
  expect(await page.locator('.problems').count()).toBe(0);
});

story('a file that is too large is refused before it is read', {}, async page => {
  await standing(page);
  const bytes = new Uint8Array(9 * 1024 * 1024);
  const asked = page.waitForEvent('filechooser');
  // the browser has heard that its dialog is wanted here before the key is pressed
  await page.title();
  await page.keyboard.press('Control+o');
  await (await asked).setFiles([
    { name: 'scan.axlewalk.json', mimeType: 'application/json', buffer: Buffer.from(bytes) },
  ]);
  await page.getByRole('heading', { name: '1 thing to fix in scan.axlewalk.json.' }).waitFor();
  expect(await listed(page)).toEqual([
    'the file: found 9.0 MiB; wanted: at most 8 MiB (meshes stand in files of their own)',
  ]);
});

story(
  'names of measures and parts that are not there are told as by the command line',
  {},
  async page => {
    await standing(page);
    const written = JSON.parse(readFileSync(examplePath('long-arm-front.axlewalk.json'), 'utf8'));
    written.wanted = { gaps: [{ pair: ['drag lnk', 'track bar'], required: 1, why: 'room' }] };
    const text = JSON.stringify(written);
    await drop(page, [{ name: 'misspelled.axlewalk.json', bytes: text }]);
    await page.locator('.problems').waitFor();
    expect((await listed(page)).join('\n')).toContain('drag lnk');
  },
);

story(
  'an invalid file on a fresh page, an empty page, and an example after it',
  {
    before: async page => {
      await page.route(EXAMPLES, route => route.abort());
    },
    expected: /Failed to load resource/,
  },
  async page => {
    await page.getByText('No axle on the stands.').waitFor();
    await drop(page, [{ name: 'truck.axlewalk.json', bytes: '{ "axlewalk": 1, }' }]);
    await page.locator('.problems').waitFor();
    expect(await title(page)).not.toContain('still here');
    await page.unroute(EXAMPLES);
    await page.getByRole('button', { name: 'Show an example' }).click();
    await standing(page);
    expect(await page.locator('.problems').count()).toBe(0);
  },
);

story('a mesh that is missing is asked for by name, and taken when it comes', {}, async page => {
  await standing(page);
  const build = readFileSync(examplePath('whole-vehicle.axlewalk.json'));
  await drop(page, [{ name: 'whole-vehicle.axlewalk.json', bytes: build }]);
  const missing = page.getByText('engine-underside.stl is missing.');
  await missing.waitFor();
  expect((await read(page)).build).toBe('water hauler');
  // one that nothing asks for may be added; an empty one can't
  await drop(page, [{ name: 'hood.stl', bytes: 'solid hood\nendsolid hood\n' }]);
  const added = page.getByRole('dialog', { name: 'Add a mesh' });
  await added.getByRole('alert').getByText('hood.stl: the mesh is empty').waitFor();
  await added.getByRole('button', { name: 'Put away' }).click();
  // one that holds no mesh is told, and the rest goes on
  await drop(page, [{ name: 'engine-underside.stl', bytes: 'not a mesh' }]);
  await page.getByText('it is left out, the rest goes on').waitFor();
  const bytes = readFileSync(examplePath('engine-underside.stl'));
  await drop(page, [{ name: 'engine-underside.stl', bytes }]);
  await missing.waitFor({ state: 'detached' });
  await page.getByText('it is left out').waitFor({ state: 'detached' });
  await until(
    page,
    'the mesh among the parts',
    ({ gaps, working }) => gaps !== null || working !== null,
  );
});

story('a build and its mesh dropped together', {}, async page => {
  await standing(page);
  const files = ['whole-vehicle.axlewalk.json', 'engine-underside.stl'];
  await drop(
    page,
    files.map(name => ({ name, bytes: readFileSync(examplePath(name)) })),
  );
  await until(page, 'the other build', ({ build }) => build === 'water hauler');
  expect(await page.getByText('is missing').count()).toBe(0);
});
