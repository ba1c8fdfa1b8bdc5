/**
 * A page in a browser as a person has it: real pointer, touch and key events, never the state. A test fails on any
 * error or warning of the console, any error of the page and any request to another host.
 */
import { fileURLToPath } from 'node:url';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, inject, test as vitestTest } from 'vitest';
import type { Read } from '../../src/app/state/hook.ts';
import { SWITCHES } from './chromium.ts';

/** What is no fault of the page: how Chromium draws without a graphics card, and what these tests keep from it. */
const NO_FAULT = /GPU stall due to ReadPixels|Service Worker registration blocked by Playwright/;

export interface Opening {
  size?: { width: number; height: number };
  touch?: boolean;
  scheme?: 'light' | 'dark';
  /** Console messages that the test brings about on purpose. */
  expected?: RegExp;
  /** Done before the page is loaded. */
  before?(page: Page): Promise<void>;
  has3D?: boolean;
  /** The greeting of the first visit is left on the page. */
  isFirstVisit?: boolean;
  context?: BrowserContextOptions;
}

export const DESKTOP = { width: 1440, height: 900 };
export const TABLET = { width: 820, height: 1180 };
export const PHONE = { width: 390, height: 844 };

export const examplePath = (name: string): string =>
  fileURLToPath(new URL(`../../examples/${name}`, import.meta.url));

/**
 * Two browsers, each started when it is first wanted. Without a graphics card a frame of the 3D view takes a good part of
 * a second, so that only those stories have it that are about it; for the others the page says that there is none.
 */
const browsers = new Map<boolean, Promise<Browser>>();

function browserWith(has3D: boolean): Promise<Browser> {
  const args = has3D ? SWITCHES : [...SWITCHES, '--disable-3d-apis'];
  const running =
    browsers.get(has3D) ?? chromium.launch({ executablePath: inject('chromium'), args });
  browsers.set(has3D, running);
  return running;
}

afterAll(async () => {
  for (const running of browsers.values()) await (await running).close();
  browsers.clear();
});

/** A test with a page of its own, which is told off for whatever it complained of. */
export function story(
  name: string,
  opening: Opening,
  run: (page: Page) => Promise<void>,
  timeout?: number,
): void {
  vitestTest(name, { ...(timeout ? { timeout } : {}) }, async () => {
    const browser = await browserWith(opening.has3D ?? false);
    const { size = DESKTOP, touch = false, scheme = 'light', expected, isFirstVisit } = opening;
    const context = await browser.newContext({
      viewport: size,
      hasTouch: touch,
      isMobile: touch,
      colorScheme: scheme,
      // keeping the page for a shop without a network is a story of its own
      serviceWorkers: 'block',
      ...opening.context,
    });
    const wrong: string[] = [];
    const own = new URL(inject('address')).host;
    await context.route(
      url => url.protocol.startsWith('http') && url.host !== own,
      route => {
        wrong.push(`asks another host: ${route.request().url()}`);
        return route.abort();
      },
    );
    if (!isFirstVisit) {
      await context.addInitScript(() => {
        try {
          if (!localStorage.getItem('axlewalk.look')) {
            localStorage.setItem('axlewalk.look', JSON.stringify({ isGreeted: true }));
          }
        } catch {
          // storage is refused in this story
        }
      });
    }
    const page = await context.newPage();
    page.on('console', message => {
      const text = message.text();
      if (message.type() !== 'error' && message.type() !== 'warning') return;
      if (NO_FAULT.test(text) || expected?.test(text)) return;
      wrong.push(`${message.type()}: ${text}`);
    });
    page.on('pageerror', error => wrong.push(`error: ${error.stack ?? error.message}`));
    try {
      await opening.before?.(page);
      await page.goto(inject('address'));
      await run(page);
      if (wrong.length > 0) throw new Error(`the page complained:\n${wrong.join('\n')}`);
    } finally {
      await context.close();
    }
  });
}

/** The numbers behind what is shown. */
export async function read(page: Page): Promise<Read> {
  const told = await page.evaluate(() => {
    const all = window.axlewalk?.read();
    // an index of a list that does not pass as JSON is no number of interest
    return all ? JSON.stringify(all) : null;
  });
  if (told === null) throw new Error('the page offers no numbers yet');
  return JSON.parse(told);
}

/**
 * Waits until the numbers behind the page are so.
 *
 * @param holds is carried into the page as its text: it knows nothing but its two arguments
 */
export async function until<Known = null>(
  page: Page,
  what: string,
  holds: (told: Read, known: Known) => boolean,
  known: Known = null as Known,
  timeout = 80_000,
): Promise<Read> {
  const end = Date.now() + timeout;
  const ask = `(told => told !== undefined && (${holds})(told, ${JSON.stringify(known)}))(window.axlewalk?.read())`;
  for (;;) {
    if (await page.evaluate<boolean>(ask)) return read(page);
    if (Date.now() > end) {
      const working = await page.evaluate(() => window.axlewalk?.read().working);
      throw new Error(`waited in vain for ${what}; the page says ${JSON.stringify(working)}`);
    }
    await page.waitForTimeout(150);
  }
}

/** The first axle stands on the page. */
export const standing = (page: Page): Promise<Read> =>
  until(page, 'the first axle', ({ pose }) => pose !== null);

/** Drops files on the page, as from a file manager. */
export async function drop(
  page: Page,
  files: readonly { name: string; bytes: Uint8Array | string }[],
): Promise<void> {
  const held = files.map(({ name, bytes }) => ({
    name,
    base64: Buffer.from(bytes as Uint8Array).toString('base64'),
  }));
  const transfer = await page.evaluateHandle(given => {
    const data = new DataTransfer();
    for (const { name, base64 } of given) {
      const bytes = Uint8Array.from(atob(base64), each => each.charCodeAt(0));
      data.items.add(new File([bytes], name));
    }
    return data;
  }, held);
  for (const type of ['dragenter', 'dragover', 'drop'] as const) {
    await page.dispatchEvent('.page', type, { dataTransfer: transfer });
  }
  await transfer.dispose();
}

/** A finger put down at the first of these places, drawn along the others and lifted. */
export async function fingerDrag(
  page: Page,
  along: readonly (readonly [x: number, y: number])[],
): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', at?: readonly [number, number]) =>
    session.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: at ? [{ x: at[0], y: at[1] }] : [],
    });
  for (const [i, at] of along.entries()) await touch(i === 0 ? 'touchStart' : 'touchMove', at);
  await touch('touchEnd');
  await session.detach();
}
