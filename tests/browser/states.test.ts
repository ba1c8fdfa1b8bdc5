/** What the page says and still does where something is not there: 3D, storage, the worker, a way to a pose. */
import { expect } from 'vitest';
import { DESKTOP, PHONE, read, standing, story, until } from './shop.ts';

/** How bright, 0 to 255, the brightest share of a canvas is at least; 0 where nothing is drawn. */
function lightOf(drawn: HTMLElement | SVGElement, share: number): number {
  const { width, height } = drawn as HTMLCanvasElement;
  const copy = document.createElement('canvas');
  copy.width = width;
  copy.height = height;
  const context = copy.getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error('no canvas');
  context.drawImage(drawn as HTMLCanvasElement, 0, 0);
  const { data } = context.getImageData(0, 0, width, height);
  const lights = new Uint8Array(width * height);
  for (let i = 0; i < lights.length; i++) lights[i] = data[4 * i + 1] ?? 0;
  return lights.sort()[Math.floor((1 - share) * lights.length)] ?? 0;
}

story(
  'a first visit: three lines that are put away for good',
  { isFirstVisit: true },
  async page => {
    await standing(page);
    const greeting = page.getByRole('region', { name: 'How to begin' });
    await greeting.getByText('Drag the ring').waitFor();
    await page.getByRole('button', { name: 'Got it' }).click();
    await greeting.waitFor({ state: 'detached' });
    await page.reload();
    await standing(page);
    expect(await greeting.count()).toBe(0);
  },
);

story('it comes back as it was left: unit, colors, sheet, speed', {}, async page => {
  await standing(page);
  await page.getByRole('button', { name: 'mm', exact: true }).click();
  await page.getByRole('button', { name: 'slow' }).click();
  await page.getByRole('tab', { name: 'Parts' }).click();
  await page.getByRole('button', { name: 'More' }).click();
  await page.getByRole('menuitemradio', { name: 'Dark', exact: true }).click();
  await page.reload();
  const back = await standing(page);
  expect(back.unit).toBe('mm');
  expect(back.play.speed).toBe('slow');
  expect(await page.locator('html').getAttribute('data-theme')).toBe('dark');
  expect(await page.getByRole('tab', { name: 'Parts' }).getAttribute('aria-selected')).toBe('true');
});

story(
  'where storage is refused everything works, and begins anew each time',
  {
    isFirstVisit: true,
    before: async page => {
      await page.addInitScript(() => {
        Object.defineProperty(window, 'localStorage', {
          get: () => {
            throw new DOMException('refused', 'SecurityError');
          },
        });
      });
    },
  },
  async page => {
    await standing(page);
    await page.getByRole('button', { name: 'mm', exact: true }).click();
    expect((await read(page)).unit).toBe('mm');
  },
);

story(
  'where no worker comes the axle still moves, and the page says what to do',
  {
    expected: /Failed to load resource/,
    before: async page => {
      await page.route(/\/workshop-[^/]*\.js$/, route => route.abort());
    },
  },
  async page => {
    await standing(page);
    await page.getByText('The gaps could not be checked to the end').waitFor();
    const { failed, working } = await read(page);
    expect([typeof failed, working]).toEqual(['string', null]);
    // by hand it still goes where the links allow
    await page.keyboard.press('2');
    await until(page, 'both wheels up', ({ pose }) => (pose?.travel_in.left ?? 0) > 1);
    await page.unroute(/\/workshop-[^/]*\.js$/);
    await page.getByRole('button', { name: 'Check again' }).click();
    await until(
      page,
      'findings',
      ({ findings, failed: again }) => again === null && findings.length > 0,
    );
  },
);

story('without 3D the page says so, and everything else is there', {}, async page => {
  await page.getByText('This browser draws no 3D picture').waitFor();
  await until(page, 'findings', ({ findings }) => findings.length > 0);
  await page.keyboard.press('n');
  await page.locator('.section-inset canvas').waitFor();
});

story(
  'with 3D the axle is drawn, and told in words',
  { has3D: true, size: { width: 1000, height: 700 } },
  async page => {
    await standing(page);
    const view = page.getByRole('application', { name: /^Front axle, seen from a corner/ });
    await view.waitFor();
    // something is drawn: the picture has more than its ground
    await page.waitForFunction(
      () => {
        const canvas = document.querySelector<HTMLCanvasElement>('.view-box canvas[data-engine]');
        return canvas !== null && canvas.width > 100;
      },
      null,
      // frames of the page come slowly where the processor draws them
      { timeout: 60_000, polling: 500 },
    );
    await page.getByRole('button', { name: 'Side' }).click();
    await page.getByRole('application', { name: /seen from the driver side/ }).waitFor();
    // paper has a copy, since the drawing itself is not kept for it
    const paper = page.locator('.view-paper');
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    expect(await paper.count()).toBe(1);
    expect(await paper.evaluate(lightOf, 0.02)).toBeGreaterThan(0);
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    expect(await paper.count()).toBe(0);
  },
  120_000,
);

story('cautions stand at the foot, and in full one click away', {}, async page => {
  await standing(page);
  await page.getByText('no approval of a part, a weld or a vehicle').first().waitFor();
  await page.getByRole('button', { name: 'Read the cautions' }).click();
  const dialog = page.getByRole('dialog', { name: 'Cautions' });
  await dialog.getByText('Local law on vehicle modification decides').waitFor();
  await page.keyboard.press('Escape');
  await dialog.waitFor({ state: 'detached' });
  // nothing on the page is called safe
  const text = await page.locator('.page').textContent();
  expect(text).not.toMatch(/\bsafe\b/i);
});

story('what is assumed is one click away', {}, async page => {
  await standing(page);
  await page.getByRole('button', { name: 'More' }).click();
  await page.getByRole('menuitem', { name: 'What is assumed' }).click();
  const dialog = page.getByRole('dialog', { name: 'What is assumed' });
  await dialog.getByText(/entered number/).waitFor();
});

story(
  'on paper: light, with the sentence, the findings and the cautions',
  { scheme: 'dark' },
  async page => {
    await until(page, 'findings', ({ findings }) => findings.length > 0);
    expect(await page.locator('html').getAttribute('data-theme')).toBe('dark');
    const ground = () => page.locator('.travel-map canvas').first().evaluate(lightOf, 0.25);
    expect(await ground()).toBeLessThan(160);
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    // a printer waits for no frame: canvases are light at once
    expect(await ground()).toBeGreaterThan(200);
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('html').getAttribute('data-theme')).toBe('light');
    for (const text of ['Steering and suspension changes can kill.', 'Geometry only.']) {
      expect(await page.getByText(text).first().isVisible()).toBe(true);
    }
    expect(await page.getByRole('heading', { level: 1 }).isVisible()).toBe(true);
    expect(await page.locator('.finding').first().isVisible()).toBe(true);
    expect(await page.locator('.walk').isVisible()).toBe(false);
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    expect(await page.locator('html').getAttribute('data-theme')).toBe('dark');
  },
);

story('letters are no smaller than they may be', {}, async page => {
  await until(page, 'findings', ({ findings }) => findings.length > 0);
  const least = (): Promise<string[]> =>
    page.evaluate(() => {
      const small: string[] = [];
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      const limit = matchMedia('(pointer: coarse)').matches ? 14 : 13;
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const element = node.parentElement;
        if (!element?.checkVisibility() || node.textContent?.trim() === '') continue;
        if (element.closest('.visually-hidden, script, noscript, svg title')) continue;
        const size = Number.parseFloat(getComputedStyle(element).fontSize);
        if (size < limit) small.push(`${size}px: ${node.textContent}`);
      }
      return small;
    });
  expect(await least()).toEqual([]);
  await page.setViewportSize(PHONE);
  expect(await least()).toEqual([]);
  await page.setViewportSize(DESKTOP);
});
