/** Nothing that somebody did is lost: the tab or the browser dies, two tabs, another build, no room. */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Locator, type Page } from 'playwright-core';
import { expect, inject, test } from 'vitest';
import { SWITCHES } from './chromium.ts';
import { drop, standing, story, until } from './shop.ts';
import { smallBuild } from './smallBuild.ts';

const LONG_ms = 150_000;
/** How often the browser is killed: more by `KILLS=20`. */
const KILLS = Number(process.env.KILLS ?? 2);
/** What is older than this is kept, ms. */
const KEPT_ms = 1000;
/** Processes of a killed browser may still write for a moment into its folder. */
const REMOVED = { recursive: true, force: true, maxRetries: 20, retryDelay: 250 };

/** Browsers that were started, each a process group. */
const started = new Set<number>();

const end = (group: number): void => {
  started.delete(group);
  try {
    process.kill(-group, 'SIGKILL');
  } catch {
    // it has ended
  }
};

/** Removes what the browsers of a story wrote; those that a failed story left running end first. */
function remove(folder: string): void {
  for (const group of started) end(group);
  rmSync(folder, REMOVED);
}

const height = (page: Page) => page.locator('.steppers').getByRole('textbox', { name: 'Height' });

async function openSmall(page: Page, name = 'small build'): Promise<void> {
  await standing(page);
  await drop(page, [{ name: 'small.axlewalk.json', bytes: smallBuild(name) }]);
  await until(page, 'the build', ({ build, pose }, known) => build === known && !!pose, name);
}

async function choosePoint(page: Page): Promise<void> {
  await page.keyboard.press('p');
  await page.getByRole('searchbox', { name: 'Search parts' }).fill('gear');
  await page.getByRole('button', { name: 'Gear housing', exact: true }).click();
  await page
    .getByRole('group', { name: 'Move a point' })
    .getByRole('button', { name: 'Center' })
    .click();
}

async function type(page: Page, text: string, steps: string): Promise<void> {
  await height(page).fill(text);
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: steps }).waitFor();
}

interface Living {
  page: Page;
  /** Ends its process without a word to the page. */
  kill(): Promise<void>;
}

/** A browser with a folder of its own, as it is started again after it died. */
async function start(folder: string, has3D = false): Promise<Living> {
  const port = join(folder, 'DevToolsActivePort');
  rmSync(port, { force: true });
  const child = spawn(
    inject('chromium'),
    [
      ...SWITCHES,
      '--headless=new',
      ...(has3D ? [] : ['--disable-3d-apis']),
      `--user-data-dir=${folder}`,
      '--remote-debugging-port=0',
      // a small picture, where the processor draws it, yet with the arrows of a point in it
      `--window-size=${has3D ? '1000,1000' : '1440,900'}`,
      'about:blank',
    ],
    { stdio: 'ignore', detached: true },
  );
  if (child.pid !== undefined) started.add(child.pid);
  const gone = new Promise<void>(resolve => child.once('exit', () => resolve()));
  while (!existsSync(port)) await new Promise(resolve => setTimeout(resolve, 50));
  const [number] = readFileSync(port, 'utf8').split('\n');
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${number}`);
  const [context] = browser.contexts();
  if (!context) throw new Error('the browser has no window');
  await context.addInitScript(() => {
    localStorage.setItem('axlewalk.look', JSON.stringify({ isGreeted: true }));
  });
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  await page.goto(inject('address'));
  return {
    page,
    kill: async () => {
      if (child.pid !== undefined) end(child.pid);
      await gone;
      await browser.close().catch(() => {});
    },
  };
}

test(
  'the browser is killed while a point is held, and after a change: nothing older than a second is lost',
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'axlewalk-kept-'));
    try {
      let expected = '33 1/4';
      for (let round = 0; round < KILLS; round++) {
        const { page, kill } = await start(folder);
        if (round === 0) await openSmall(page);
        else
          await until(
            page,
            'what was kept',
            ({ build, pose }) => build === 'small build' && !!pose,
          );
        await choosePoint(page);
        expect(await height(page).inputValue()).toBe(expected);
        if (round % 2 === 0) {
          // by a key, and held: it is no step yet
          await page.keyboard.press('ArrowUp');
        } else {
          const typed = `33 ${1 + 2 * (round % 7)}/16`;
          await height(page).fill(typed);
          await page.keyboard.press('Enter');
        }
        await page.locator('.steppers').waitFor();
        await page.waitForTimeout(KEPT_ms);
        expected = await height(page).inputValue();
        await kill();
      }
      const { page, kill } = await start(folder);
      await until(page, 'what was kept', ({ build, pose }) => build === 'small build' && !!pose);
      await page.getByText('Your changes of last time are open again.').waitFor();
      await choosePoint(page);
      expect(await height(page).inputValue()).toBe(expected);
      await kill();
    } finally {
      remove(folder);
    }
  },
  Math.max(LONG_ms, 30_000 * KILLS),
);

/** The small build as it was kept, with the height of its gear housing. */
async function keptHeight({ page }: Living): Promise<string> {
  await until(page, 'what was kept', ({ build, pose }) => build === 'small build' && !!pose);
  await choosePoint(page);
  return height(page).inputValue();
}

/** Takes hold of an arrow and pulls it three times `by` px; again where the picture still moved under the hand. */
async function dragged(page: Page, grip: Locator, by: number): Promise<void> {
  for (;;) {
    let [last, box] = ['', await grip.boundingBox()];
    while (!box || JSON.stringify(box) !== last) {
      last = JSON.stringify(box);
      await page.waitForTimeout(400);
      box = await grip.boundingBox();
    }
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let k = 1; k <= 3; k++) await page.mouse.move(x, y + by * k);
    const moved = page.locator('.stepper small').first().waitFor({ timeout: 5000 });
    if (await moved.then(() => true).catch(() => false)) return;
    await page.mouse.up();
  }
}

test(
  'the browser is killed in the middle of a drag in the picture: what the hand did is open again',
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'axlewalk-kept-'));
    try {
      for (let round = 0; round < Math.ceil(KILLS / 2); round++) {
        const { page, kill } = await start(folder, true);
        if (round === 0) await openSmall(page);
        else await until(page, 'what was kept', ({ build, pose }) => !!pose && !!build);
        await choosePoint(page);
        const before = await height(page).inputValue();
        const grip = page.locator('.grip[data-state="held"] .grip-arrow[data-axis="2"] .grip-head');
        // up and down in turn: it stays in the picture however often
        const way = round % 2 === 0 ? -12 : 12;
        await dragged(page, grip, way);
        await page.waitForTimeout(KEPT_ms);
        const held = await height(page).inputValue();
        expect(held).not.toBe(before);
        await kill();
        const living = await start(folder);
        expect(await keptHeight(living)).toBe(held);
        await living.kill();
      }
    } finally {
      remove(folder);
    }
  },
  Math.max(LONG_ms, 40_000 * KILLS),
);

/** Where a write of a file hangs when the browser is killed. */
type Hangs = 'half written' | 'not closed' | null;

/** Files of the browser's own in place of a picker, which only a hand can use: they are written just as those are. */
async function pickOwnFile(page: Page, hangs: Hangs): Promise<void> {
  await page.evaluate(where => {
    Object.assign(window, {
      isHanging: false,
      showSaveFilePicker: async () => {
        const folder = await navigator.storage.getDirectory();
        const file = await folder.getFileHandle('saved.json', { create: true });
        const hang = (): Promise<never> => {
          Object.assign(window, { isHanging: true });
          return new Promise(() => {});
        };
        return {
          name: file.name,
          createWritable: async () => {
            const out = await file.createWritable();
            return {
              write: async (text: string) => {
                await out.write(where === 'half written' ? text.slice(0, text.length / 2) : text);
                if (where === 'half written') await hang();
              },
              close: () => (where === 'not closed' ? hang() : out.close()),
            };
          },
        };
      },
    });
  }, hangs);
}

const savedFile = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const folder = await navigator.storage.getDirectory();
    const file = await (await folder.getFileHandle('saved.json')).getFile();
    return file.text();
  });

test(
  'the browser is killed in the middle of a save: the file is the old one, and the change is kept',
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'axlewalk-kept-'));
    const save = async (page: Page): Promise<string> => {
      await pickOwnFile(page, null);
      await page.keyboard.press('Control+s');
      await page.getByText('saved.json is saved.').waitFor();
      return savedFile(page);
    };
    try {
      let old = '';
      for (let round = 0; round < KILLS; round++) {
        const { page, kill } = await start(folder);
        if (round === 0) {
          await openSmall(page);
          await choosePoint(page);
          old = await save(page);
          expect(JSON.parse(old).name).toBe('small build');
        } else {
          await until(page, 'what was kept', ({ build, pose }) => !!pose && !!build);
          await choosePoint(page);
        }
        const typed = `33 ${1 + 2 * (round % 7)}/16`;
        await height(page).fill(typed);
        await page.keyboard.press('Enter');
        await page.getByRole('button', { name: /^\d+ steps?$/ }).waitFor();
        await pickOwnFile(page, round % 2 === 0 ? 'half written' : 'not closed');
        await page.keyboard.press('Control+s');
        await page.waitForFunction(() => (window as { isHanging?: boolean }).isHanging === true);
        await page.waitForTimeout(KEPT_ms);
        await kill();

        const living = await start(folder);
        expect(await keptHeight(living)).toBe(typed);
        expect(await savedFile(living.page)).toBe(old);
        const saved = await save(living.page);
        expect(saved).not.toBe(old);
        expect(JSON.parse(saved).name).toBe('small build');
        old = saved;
        await living.kill();
      }
    } finally {
      remove(folder);
    }
  },
  Math.max(LONG_ms, 40_000 * KILLS),
);

story(
  'two tabs with the same build keep their own',
  {},
  async page => {
    await openSmall(page);
    await choosePoint(page);
    await type(page, '34', '1 step');
    const other = await page.context().newPage();
    await other.goto(inject('address'));
    // what a living tab is at is its own: the other begins as at first
    await until(other, 'the first example', ({ build, pose }) => build !== 'small build' && !!pose);
    await openSmall(other);
    await choosePoint(other);
    await type(other, '35', '1 step');
    await page.waitForTimeout(KEPT_ms);
    await page.close();
    await other.close();

    // each new tab takes one of them, the newest first
    const heights: string[] = [];
    const tabs: Page[] = [];
    for (let k = 0; k < 2; k++) {
      const tab = await (tabs[0] ?? page).context().newPage();
      tabs.push(tab);
      await tab.goto(inject('address'));
      await until(tab, 'what was kept', ({ build, pose }) => build === 'small build' && !!pose);
      await choosePoint(tab);
      heights.push(await height(tab).inputValue());
    }
    expect(heights).toEqual(['35', '34']);
  },
  LONG_ms,
);

story(
  'another build that is opened puts nothing away for good',
  {},
  async page => {
    await openSmall(page);
    await choosePoint(page);
    await type(page, '34', '1 step');
    await openSmall(page, 'second build');
    await page.getByRole('button', { name: /Second build/ }).click();
    await page.getByRole('menuitem', { name: /^Small/ }).click();
    await until(page, 'the first again', ({ build }) => build === 'small build');
    await choosePoint(page);
    expect(await height(page).inputValue()).toBe('34');
  },
  LONG_ms,
);

/** Storage that says no, as browsers do: with an error of this name at each write. */
const refusing =
  (name: string) =>
  async (page: Page): Promise<void> => {
    await page.addInitScript(kind => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('no', kind);
      };
    }, name);
  };

story(
  'a browser that keeps nothing is told of',
  { before: refusing('InvalidStateError') },
  async page => {
    await openSmall(page);
    await choosePoint(page);
    await type(page, '34', '1 step');
    await page
      .getByText('The browser keeps no copy of your changes. Save the build yourself.')
      .waitFor();
  },
  LONG_ms,
);

story(
  'a full disk is told of',
  { before: refusing('QuotaExceededError') },
  async page => {
    await openSmall(page);
    await choosePoint(page);
    await type(page, '34', '1 step');
    await page.getByText('The disk is full: the browser keeps no copy').waitFor();
  },
  LONG_ms,
);
