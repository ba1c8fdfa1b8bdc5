/**
 * Two axles side by side on the page: the numbers are those of the command line, exchanging the two turns them round,
 * both follow the handle, and all of it goes by keys alone and on a phone.
 */
import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Comparison } from '../../geometry/compare/compare.ts';
import type { Read } from '../../src/app/state/hook.ts';
import { violations } from './axe.ts';
import { drop, examplePath, PHONE, read, standing, story, until } from './shop.ts';

const top = fileURLToPath(new URL('../..', import.meta.url));
const FILE = 'few-parts.axlewalk.json';

/** The first example with its variant and little drawn on the frame, so that its gaps are checked in seconds. */
function fewParts(): string {
  const file = JSON.parse(readFileSync(examplePath('long-arm-front.axlewalk.json'), 'utf8'));
  const solids = file.solids.filter(({ name }: { name: string }) => name === 'gear housing');
  const { alternatives: _, taped: __, wanted, ...rest } = file;
  // the other wishes are about parts that are left out
  return JSON.stringify({ ...rest, solids, wanted: { bands: wanted.bands } });
}

/** Has it on the page. */
async function openFewParts(page: Page): Promise<void> {
  await standing(page);
  await drop(page, [{ name: FILE, bytes: fewParts() }]);
  await until(page, 'few parts', ({ file, pose }, name) => file === name && pose !== null, FILE);
}

/** What the command line prints; exit code 1 says that something must be fixed. */
async function onCommandLine(a: string, b: string): Promise<Comparison> {
  const words = ['--import', 'tsx', 'src/cli/main.ts', 'compare', a, b, '--json'];
  const { stdout } = await promisify(execFile)(process.execPath, words, {
    cwd: top,
    maxBuffer: 256 * 1024 * 1024,
  }).catch((error: { code?: number; stdout?: string }) => {
    if (error.code === 1 && error.stdout) return { stdout: error.stdout };
    throw error;
  });
  return JSON.parse(stdout);
}

/** Two engines differ in the last bit of a sine, and tolerances are differences of whole solutions over a small step. */
const NEAR = 1e-6;

const near = (one: number | null, other: number | null, what: string): void => {
  if (one === null || other === null) expect(one, what).toBe(other);
  else {
    const size = Math.max(1, Math.abs(other));
    expect(Math.abs(one - other) / size, `${what}: ${one} and ${other}`).toBeLessThan(NEAR);
  }
};

const keyOf = ({ id, part, side, at }: Comparison['rows'][number]): string =>
  [id, part, side, at.pose, at.reachedBy === 'both' ? '' : 'alone'].join(' ');

const reportOf = ({ comparing }: Read): Comparison => {
  if (!comparing?.report) throw new Error('nothing is compared');
  return comparing.report;
};

/** Two axles are walked here, beside the study of the one that is shown. */
const LONGEST_ms = 150_000;

const compared = (page: Page, stage: 'measures' | 'gaps' | 'worth'): Promise<Read> =>
  until(
    page,
    `what differs, ${stage}`,
    ({ comparing }, wanted) => {
      const stages = ['measures', 'gaps', 'worth'];
      return stages.indexOf(comparing?.stage ?? '') >= stages.indexOf(wanted);
    },
    stage,
    LONGEST_ms,
  );

story(
  'long arms and short arms: the numbers of the command line, turned round when exchanged',
  {},
  async page => {
    const path = join(mkdtempSync(join(tmpdir(), 'axlewalk-')), FILE);
    writeFileSync(path, fewParts());
    const printing = onCommandLine(path, `${path}#short arms`);
    await openFewParts(page);
    await page.getByRole('button', { name: 'Compare' }).click();
    const report = reportOf(await compared(page, 'worth'));
    const printed = await printing;
    expect(report.rows.map(keyOf)).toEqual(printed.rows.map(keyOf));
    for (const [i, row] of report.rows.entries()) {
      const other = printed.rows[i];
      near(row.difference, other?.difference ?? null, keyOf(row));
      near(row.tolerance, other?.tolerance ?? null, `tolerance of ${keyOf(row)}`);
    }
    expect(report.paragraph).toEqual(printed.paragraph);
    for (const kind of ['fixed', 'new', 'unchanged'] as const) {
      const texts = (all: Comparison): (string | undefined)[] =>
        all.findings[kind].map(({ a, b }) => (b ?? a)?.text);
      expect(texts(report), kind).toEqual(texts(printed));
    }

    // what is written is what is behind it
    const first = report.sentences[0];
    await expect.poll(() => page.locator('.trade-row').count()).toBe(report.sentences.length);
    const kind = first?.buys === null ? 'other' : first?.buys ? 'gain' : 'cost';
    expect(await page.locator('.trade-row').first().textContent()).toContain(kind);

    await page.keyboard.press('x');
    const turned = reportOf(
      await until(page, 'both exchanged', ({ comparing, variant }) => {
        const now = comparing?.report?.a.variant;
        return variant === 'short arms' && now === 'short arms' && comparing?.stage !== 'measures';
      }),
    );
    const differences = new Map(turned.rows.map(row => [keyOf(row), row.difference]));
    for (const row of report.rows) {
      const back = differences.get(keyOf(row)) ?? null;
      near(back, row.difference === null ? null : -row.difference, `${keyOf(row)} exchanged`);
    }
    expect(turned.findings.new).toHaveLength(report.findings.fixed.length);
    expect(turned.findings.fixed).toHaveLength(report.findings.new.length);
  },
  2 * LONGEST_ms,
);

story('both follow the handle, and a pose that one alone reaches is told', {}, async page => {
  await openFewParts(page);
  await page.keyboard.press('v');
  await compared(page, 'measures');
  const ring = await page.locator('.travel-map [role="slider"]').boundingBox();
  if (!ring) throw new Error('the map is not on the page');
  const [x, y] = [ring.x + 0.6 * ring.width, ring.y + 0.4 * ring.height];
  await page.mouse.move(x, y);
  await page.mouse.down();
  const seen = new Set<number>();
  for (let i = 0; i < 5; i++) {
    await page.mouse.move(x - 12 * i, y + 8 * i);
    const { pose, comparing } = await read(page);
    expect(comparing?.pose?.travel_in.left).toBe(pose?.travel_in.left);
    expect(comparing?.pose?.travel_in.right).toBe(pose?.travel_in.right);
    seen.add(pose?.travel_in.left ?? 0);
  }
  await page.mouse.up();
  expect(seen.size).toBeGreaterThan(3);
  const cells = page.locator('.here-table tr', { hasText: 'Pinion angle' }).locator('td');
  const [a, b] = await cells.allTextContents();
  expect(a).not.toBe(b);

  // the poses go as far as both go; short arms end a little before long ones
  await page.keyboard.press('2');
  const up = await until(page, 'both up', ({ pose }) => (pose?.travel_in.left ?? 0) > 4);
  expect(up.comparing?.isBeyond).toBe(false);
  await page.keyboard.press('m');
  await page.keyboard.press('Alt+ArrowUp');
  await until(page, 'only A', ({ comparing }) => comparing?.isBeyond === true);
  await page.getByText('Only A goes here.').waitFor();
  await page.keyboard.press('1');
  await page.getByText('Only A goes here.').waitFor({ state: 'detached' });
});

story(
  'by keys alone, and without a serious violation',
  {},
  async page => {
    await openFewParts(page);
    await page.keyboard.press('v');
    await compared(page, 'gaps');
    await page.getByRole('tab', { name: 'Buys and costs' }).focus();
    for (const name of ['Findings', 'Numbers', 'Maps', 'Charts', 'Travel', 'Parts']) {
      await page.keyboard.press('ArrowRight');
      const tab = page.getByRole('tab', { name, exact: true });
      await expect.poll(() => tab.getAttribute('aria-selected'), { message: name }).toBe('true');
      await page.getByRole('tabpanel').locator('section, p').first().waitFor();
      expect(await violations(page), name).toEqual([]);
    }
    await page.keyboard.press('m');
    await page.keyboard.press('ArrowUp');
    const { pose, comparing } = await read(page);
    expect(pose?.travel_in.right).toBeCloseTo(0.25, 9);
    expect(comparing?.pose?.travel_in.right).toBe(pose?.travel_in.right);
    await page.keyboard.press('Escape');
    await until(page, 'one axle alone', told => told.comparing === null);
  },
  2 * LONGEST_ms,
);

story(
  'another file beside it, exchanged and undone: nothing of one gets into the other',
  {},
  async page => {
    await openFewParts(page);
    await page.keyboard.press('v');
    await compared(page, 'measures');
    await page.getByRole('button', { name: /^B:/ }).click();
    await page.getByRole('menuitem', { name: 'Four link rear' }).click();
    await page.getByText('has no front axle to compare with').waitFor();
    await page.getByRole('button', { name: /^B:/ }).click();
    await page.getByRole('menuitem', { name: 'Radius arm front' }).click();
    const beside = await until(
      page,
      'another file',
      ({ comparing }) => comparing?.name === 'Radius arm front' && comparing.pose !== null,
    );
    await page.keyboard.press('x');
    await until(page, 'on the page', ({ file }) => file === 'radius-arm-front.axlewalk.json');
    await page.keyboard.press('Control+z');
    await page.keyboard.press('x');
    const back = await until(page, 'back', ({ file }, name) => file === name, FILE);
    expect(back.comparing?.pose?.build).toBe(beside.comparing?.pose?.build);
    expect(back.build).not.toBe(beside.comparing?.pose?.build);
  },
);

story('on a phone', { size: PHONE, touch: true, scheme: 'dark' }, async page => {
  await openFewParts(page);
  await page.getByRole('button', { name: 'More' }).tap();
  await page.getByRole('menuitem', { name: 'Compare with another' }).tap();
  await compared(page, 'measures');
  const tabs = page.getByRole('navigation', { name: 'Parts of the page' });
  await tabs.getByRole('button', { name: 'What differs' }).tap();
  await page.getByRole('tab', { name: 'Numbers' }).tap();
  await page.getByRole('button', { name: 'Both down', exact: true }).tap();
  await page.getByRole('rowheader', { name: 'Pinion angle', exact: true }).waitFor();
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(PHONE.width);
  expect(await violations(page)).toEqual([]);
  await page.getByRole('button', { name: 'Exchange' }).tap();
  await until(page, 'both exchanged', ({ variant }) => variant === 'short arms');
  await page.getByRole('button', { name: 'Close' }).tap();
  await until(page, 'one axle alone', ({ comparing }) => comparing === null);
});
