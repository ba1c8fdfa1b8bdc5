/**
 * Figures of editing: from a press that moves a point to the axle that stands so and to the map that the worker made of
 * it, on the richest example; memory after a thousand moves; 200 steps and their undo. Reported, never asserted.
 */
import type { Browser, Page } from 'playwright-core';
import type { Served } from '../browser/serve.ts';

const RICHEST = 'Whole vehicle';
const BUILD = 'water hauler';
/** Presses that are timed to the map, and moves before memory is looked at. */
const TIMED = 20;
const MOVES = 1000;
const STEPS = 200;

export async function benchEditing(
  browser: Browser,
  { address }: Served,
  has3D: boolean,
): Promise<void> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  await context.addInitScript({ content: 'window.__name = each => each' });
  const page = await context.newPage();
  page.setDefaultTimeout(120_000);
  await page.goto(address);
  await page.locator('.top .build').click();
  await page.getByRole('menuitem', { name: RICHEST }).click();
  const holds = async (what: string): Promise<void> => {
    while (!(await page.evaluate<boolean>(`Boolean(window.axlewalk?.read().${what})`))) {
      await page.waitForTimeout(50);
    }
  };
  await holds(`build === ${JSON.stringify(BUILD)}`);
  await holds('isFinal');
  await page.keyboard.press('p');
  await page.getByRole('button', { name: 'Track bar', exact: true }).click();
  const end = page
    .getByRole('group', { name: 'Move a point' })
    .getByRole('button', { name: 'Frame end' });
  await end.click();
  await end.press('Shift+ArrowUp');
  await end.press('Escape');

  const { heap, script } = await metersOf(page);
  const before = await heap();
  await page.evaluate(watch);
  const spent = await script();
  for (let k = 0; k < TIMED; k++) {
    await end.press(k % 2 === 0 ? 'Shift+ArrowUp' : 'Shift+ArrowDown');
    await page.waitForTimeout(400);
  }
  const each = (((await script()) - spent) / TIMED).toFixed(0);
  const { posed, mapped } = await page.evaluate(
    () => (window as unknown as { waits: Record<'posed' | 'mapped', number[]> }).waits,
  );
  console.log(
    `    a point moved: axle posed after ${told(posed)}, coarse map of it after ${told(mapped)}; ${each} ms of the page's script a move, with all that the worker tells after it`,
  );
  await end.press('Escape');
  // with 3D drawn by the processor a thousand moves take a quarter of an hour
  if (has3D) {
    await context.close();
    return;
  }
  for (let k = 0; k < MOVES; k++) await end.press(k % 2 === 0 ? 'ArrowUp' : 'ArrowDown');
  await end.press('Escape');
  console.log(
    `    memory: ${mega(before)} before, ${mega(await heap())} after ${MOVES + TIMED} moves`,
  );

  // Escape without anything held lets go of the point too
  await end.click();
  const height = page.locator('.steppers').getByRole('textbox', { name: 'Height' });
  // moves that were kept are steps too
  const kept = await page.evaluate(() =>
    Number(/(\d+) step/.exec(document.querySelector('.steps')?.textContent ?? '')?.[1] ?? 0),
  );
  const start = performance.now();
  for (let k = kept + 1; k <= STEPS; k++) {
    await height.fill(`${28 + k / 64}`);
    await height.press('Enter');
    await page.waitForFunction(
      count => document.querySelector('.steps')?.textContent?.includes(`${count} step`),
      k,
    );
  }
  const step = (performance.now() - start) / (STEPS - kept);
  const full = await heap();
  const undone = performance.now();
  await page.locator('.step-button[aria-label="Undo"]').click();
  await page.waitForFunction(
    count => document.querySelector('.steps')?.textContent?.includes(`${count} step`),
    STEPS - 1,
  );
  console.log(
    `    ${STEPS} steps: ${step.toFixed(0)} ms each, ${mega(full)} with all of them; one undone in ${(performance.now() - undone).toFixed(0)} ms`,
  );
  await context.close();
}

/** Median and 95 of 100, ms. */
function told(waits: number[]): string {
  waits.sort((a, b) => a - b);
  const at = (share: number): string =>
    (waits[Math.floor(share * (waits.length - 1))] ?? Number.NaN).toFixed(0);
  return `${at(0.5)} ms (95 of 100 within ${at(0.95)} ms)`;
}

const mega = (bytes: number): string => `${(bytes / 1e6).toFixed(0)} MB`;

interface Meters {
  /** What the page's script holds once all that is let go of is gone, bytes. */
  heap(): Promise<number>;
  /** Time of the processor that the page's script has taken, ms. */
  script(): Promise<number>;
}

async function metersOf(page: Page): Promise<Meters> {
  const session = await page.context().newCDPSession(page);
  // of the thread's own: what else runs on the machine does not count
  await session.send('Performance.setTimeDomain', { timeDomain: 'threadTicks' });
  await session.send('Performance.enable');
  const metric = async (which: string): Promise<number> => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === which)?.value ?? 0;
  };
  return {
    heap: async () => {
      await session.send('HeapProfiler.collectGarbage');
      return metric('JSHeapUsedSize');
    },
    script: async () => 1000 * (await metric('ScriptDuration')),
  };
}

/** In the page: from each press of an arrow to the end of the frame with it, and to the map painted anew. */
function watch(): void {
  const waits: Record<'posed' | 'mapped', number[]> = { posed: [], mapped: [] };
  Object.assign(window, { waits });
  const channel = new MessageChannel();
  let pressed = 0;
  let isWaiting = false;
  channel.port1.onmessage = () => waits.posed.push(performance.now() - pressed);
  // the first of the map's two: the handle's is painted in each frame
  const map = document.querySelector('.travel-map canvas');
  const clear = CanvasRenderingContext2D.prototype.clearRect;
  CanvasRenderingContext2D.prototype.clearRect = function (...box) {
    if (this.canvas === map && isWaiting) {
      isWaiting = false;
      waits.mapped.push(performance.now() - pressed);
    }
    clear.apply(this, box);
  };
  window.addEventListener(
    'keydown',
    event => {
      if (!event.key.startsWith('Arrow')) return;
      pressed = event.timeStamp;
      isWaiting = true;
      requestAnimationFrame(() => channel.port2.postMessage(null));
    },
    true,
  );
}
