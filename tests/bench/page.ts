/**
 * Figures of the built page: what is fetched until it is of use, how soon that is, how long a move of the pointer takes
 * until the travel map shows it, alone and with two axles compared, and what a frame of the walk costs. Without a graphics card the 3D view is drawn by the
 * processor, which the figures with 3D then measure. `npm run bench -- page`
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { type Browser, chromium, type Page } from 'playwright-core';
import { findChromium, SWITCHES } from '../browser/chromium.ts';
import { type Served, serve } from '../browser/serve.ts';
import { benchEditing } from './editing.ts';

/** As the menu calls it, and as it calls itself. */
const RICHEST = 'Whole vehicle';
const BUILD = 'water hauler';
const MOVES = 120;
const WALK_s = 6;

export async function benchPage(): Promise<void> {
  console.log('\nThe page');
  const executablePath = findChromium();
  if (!executablePath) {
    console.log('  no Chromium here: nothing measured');
    return;
  }
  const served = await serve();
  try {
    for (const has3D of [false, true]) {
      const args = has3D ? SWITCHES : [...SWITCHES, '--disable-3d-apis'];
      const browser = await chromium.launch({ executablePath, args });
      console.log(has3D ? '  with 3D' : '  without 3D');
      await benchOpening(browser, served, has3D);
      await benchMoves(browser, served);
      await benchBoth(browser, served);
      await benchEditing(browser, served, has3D);
      await browser.close();
    }
  } finally {
    await served.close();
  }
}

async function freshPage(browser: Browser): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  // what the runner of this script puts into functions that are carried into the page
  await context.addInitScript({ content: 'window.__name = each => each' });
  return context.newPage();
}

/** Waits for something of the numbers behind the page. */
async function until(page: Page, what: string): Promise<void> {
  // the content policy lets no script be made of a text, but a debugger may
  while (!(await page.evaluate<boolean>(`Boolean(window.axlewalk?.read().${what})`))) {
    await page.waitForTimeout(50);
  }
}

/** What is fetched until map and findings, and with 3D until that is drawn; and how soon. */
async function benchOpening(
  browser: Browser,
  { address, dist }: Served,
  has3D: boolean,
): Promise<void> {
  const page = await freshPage(browser);
  const asked = new Set<string>();
  page.context().on('request', request => asked.add(new URL(request.url()).pathname));
  const start = performance.now();
  await page.goto(address, { waitUntil: 'commit' });
  const since = (): string => `${((performance.now() - start) / 1000).toFixed(1)} s`;
  const holds = (what: string): Promise<void> => until(page, what);
  await holds('pose !== null');
  const axle = since();
  await page.waitForFunction(
    () =>
      document
        .querySelector('.travel-map [role="slider"]')
        ?.getAttribute('aria-valuetext')
        ?.includes('Tightest'),
    null,
    { polling: 50, timeout: 120_000 },
  );
  const map = since();
  await holds('findings.length > 0');
  const findings = since();
  console.log(
    `    axle posed after ${axle}, travel map after ${map}, first findings after ${findings}`,
  );
  if (has3D) await page.waitForSelector('.view-box canvas', { timeout: 120_000 });
  if (has3D) console.log(`    3D view there after ${since()}`);
  const { letters, rest } = weigh(dist, asked);
  console.log(
    `    fetched: ${kilo(rest)} as gzip (script, worker, styles, example) and ${kilo(letters)} of letters`,
  );
  await page.context().close();
}

const kilo = (bytes: number): string => `${(bytes / 1000).toFixed(0)} kB`;

function weigh(dist: string, asked: ReadonlySet<string>): { letters: number; rest: number } {
  let [letters, rest] = [0, 0];
  for (const path of asked) {
    const bytes = readFileSync(join(dist, path === '/' ? 'index.html' : path));
    if (path.endsWith('.woff2')) letters += bytes.length;
    else rest += gzipSync(bytes, { level: 9 }).length;
  }
  return { letters, rest };
}

/** From moves of the pointer over the travel map to the frames that show them, ms: told for a share of all. */
async function pointerWaits(page: Page): Promise<(share: number) => string> {
  const map = page.getByRole('slider', { name: /^Travel map/ });
  const box = await map.boundingBox();
  if (!box) throw new Error('no map');
  await page.evaluate(() => {
    const waits: number[] = [];
    Object.assign(window, { waits });
    const channel = new MessageChannel();
    let pressed = 0;
    // the message comes when the frame's own work is done
    channel.port1.onmessage = () => waits.push(performance.now() - pressed);
    window.addEventListener('pointermove', event => {
      pressed = event.timeStamp;
      requestAnimationFrame(() => channel.port2.postMessage(null));
    });
  });
  const [x, y] = [box.x + box.width * 0.55, box.y + box.height * 0.45];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let k = 0; k < MOVES; k++) {
    const turn = (2 * Math.PI * k) / 40;
    await page.mouse.move(x + 50 * Math.cos(turn), y + 50 * Math.sin(turn));
    await page.waitForTimeout(25);
  }
  await page.mouse.up();
  const waits = await page.evaluate(() => (window as unknown as { waits: number[] }).waits);
  waits.sort((a, b) => a - b);
  return share => (waits[Math.floor(share * (waits.length - 1))] ?? 0).toFixed(1);
}

/** From a move of the pointer to the frame that shows it, on the richest example; and frames of its walk. */
async function benchMoves(browser: Browser, { address }: Served): Promise<void> {
  const page = await freshPage(browser);
  await page.goto(address);
  await page.locator('.top .build').click();
  await page.getByRole('menuitem', { name: RICHEST }).click();
  await until(page, `build === ${JSON.stringify(BUILD)}`);
  await until(page, 'isFinal');
  const at = await pointerWaits(page);
  console.log(
    `    pointer move to map repainted: median ${at(0.5)} ms, 95 of 100 within ${at(0.95)} ms`,
  );

  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  const script = async (): Promise<number> => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'ScriptDuration')?.value ?? 0;
  };
  await page.locator('body').press('1');
  await page.getByRole('button', { name: 'Walk', exact: true }).first().click();
  const before = await script();
  const frames = await page.evaluate(
    seconds =>
      new Promise<number>(resolve => {
        const end = performance.now() + seconds * 1000;
        let count = 0;
        const step = (now: number): void => {
          count++;
          if (now < end) requestAnimationFrame(step);
          else resolve(count);
        };
        requestAnimationFrame(step);
      }),
    WALK_s,
  );
  const each = ((await script()) - before) / frames;
  console.log(
    `    walking: ${(each * 1000).toFixed(1)} ms of script a frame, ${(frames / WALK_s).toFixed(0)} frames a second`,
  );
  await page.context().close();
}

/** The same while two axles are compared: both are posed, and both maps and what differs between them repainted. */
async function benchBoth(browser: Browser, { address }: Served): Promise<void> {
  const page = await freshPage(browser);
  await page.goto(address);
  await until(page, 'isFinal');
  await page.getByRole('button', { name: 'Compare' }).click();
  await until(page, "comparing?.stage === 'worth'");
  await until(page, 'comparing?.hasMaps');
  await page.getByRole('tab', { name: 'Maps' }).click();
  await page.waitForTimeout(500);
  const at = await pointerWaits(page);
  console.log(
    `    two compared, pointer move to both posed and all maps repainted: median ${at(0.5)} ms, 95 of 100 within ${at(0.95)} ms`,
  );
  await page.context().close();
}
