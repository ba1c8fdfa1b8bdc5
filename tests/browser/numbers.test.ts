/**
 * The numbers on the page are those of the command line: of each example the ranked findings, the extremes, a pose to
 * the last digits that two engines share, and what is written on the page is the number behind it, rounded.
 */
import { execFile } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { formatLength } from '../../geometry/build/format.ts';
import type { PoseReport } from '../../geometry/cycle/poseReport.ts';
import type { Finding } from '../../geometry/finding/finding.ts';
import { titleOf } from '../../src/app/state/titleOf.ts';
import type { FullWalkReport } from '../../src/cli/walk.ts';
import { examplePath, read, standing, story, until } from './shop.ts';

const top = fileURLToPath(new URL('../..', import.meta.url));
const run = promisify(execFile);

/** What the command line prints as JSON; exit code 1 says that something must be fixed. */
async function axlewalk<Report>(...words: string[]): Promise<Report> {
  const command = ['--import', 'tsx', 'src/cli/main.ts', ...words, '--json'];
  const { stdout } = await run(process.execPath, command, {
    cwd: top,
    maxBuffer: 256 * 1024 * 1024,
  }).catch((error: { code?: number; stdout?: string }) => {
    if (error.code === 1 && error.stdout) return { stdout: error.stdout };
    throw error;
  });
  return JSON.parse(stdout);
}

/** Sine, cosine and their like differ in the last bit between engines; a pose carries that on. */
const POSE = 1e-9;
/** Searches stop where they no longer gain; another last bit stops them elsewhere on a flat top. */
const SEARCH = 1e-6;
/** Most extremes lie on the edge of the range, which is followed to 1/1000 in. */
const EXTREME = 5e-5;

/** Numbers within a tolerance of their size, everything else equal. */
function near(one: unknown, other: unknown, tolerance: number, path = ''): void {
  if (typeof one === 'number' && typeof other === 'number') {
    const size = Math.max(1, Math.abs(other));
    expect(Math.abs(one - other) / size, `${path}: ${one} and ${other}`).toBeLessThanOrEqual(
      tolerance,
    );
  } else if (
    typeof one === 'object' &&
    one !== null &&
    typeof other === 'object' &&
    other !== null
  ) {
    expect(Object.keys(one), path).toEqual(Object.keys(other));
    for (const [key, value] of Object.entries(one)) {
      near(value, (other as Record<string, unknown>)[key], tolerance, `${path}.${key}`);
    }
  } else expect(one, path).toEqual(other);
}

const told = ({ kind, severity, axle, parts, text }: Finding) => ({
  kind,
  severity,
  axle,
  parts,
  text,
});

async function openOnPage(page: Page, file: string): Promise<void> {
  if ((await standing(page)).file === file) return;
  await page.locator('.top .build').click();
  await page.getByRole('menuitem', { name: titleOf(file) }).click();
  await until(page, file, (now, known) => now.file === known && now.pose !== null, file);
}

/** Amounts, travels and angles as they are written on the page. */
async function checkWritten(page: Page): Promise<void> {
  const { findings, pose, unit } = await read(page);
  const rows = await page.locator('.finding-amount').allTextContents();
  for (const [i, finding] of findings.entries()) {
    if (finding.kind !== 'partsTouch' && finding.kind !== 'gapShort') continue;
    if (finding.amount.value < 1 / 32) continue;
    const sign = finding.kind === 'partsTouch' ? '−' : '';
    expect(rows[i]).toBe(`${sign}${formatLength(finding.amount.value, { unit })}″`);
  }
  const articulation = page.locator('.here-row', { hasText: 'Articulation' }).locator('dd');
  if ((await articulation.count()) > 0) {
    const degrees = Number.parseFloat((await articulation.textContent()) ?? '');
    expect(Math.abs(degrees - Math.abs(pose?.roll_deg ?? 0))).toBeLessThanOrEqual(0.0500001);
  }
  const words = await page
    .getByRole('slider', { name: /^Travel map/ })
    .getAttribute('aria-valuetext');
  for (const travel of [pose?.travel_in.left ?? 0, pose?.travel_in.right ?? 0]) {
    expect(words).toContain(formatLength(Math.abs(travel), { unit }));
  }
}

const files = readdirSync(examplePath('.')).filter(name => name.endsWith('.axlewalk.json'));

for (const file of files) {
  story(
    titleOf(file),
    {},
    async page => {
      const path = `examples/${file}`;
      // the two work side by side
      const walked = axlewalk<FullWalkReport>('walk', path, ...axleOf(file));
      await openOnPage(page, file);

      // the driver's wheel up, the other down, full left: as the page poses it, and as the command line does
      await page.keyboard.press('4');
      await page.keyboard.press('6');
      const { pose } = await read(page);
      if (!pose) throw new Error('no pose');
      const { left, right } = pose.travel_in;
      expect(left * right).toBeLessThan(0);
      const steer = pose.steer ? [`--steer=${pose.steer.value}`] : [];
      near(
        pose,
        await axlewalk<PoseReport>(
          'pose',
          path,
          ...axleOf(file),
          `--left=${left}`,
          `--right=${right}`,
          ...steer,
        ),
        POSE,
      );

      const final = await until(
        page,
        'the findings',
        now => now.isFinal && now.extremes.length > 0,
        null,
        150_000,
      );
      const { build, axles, findings } = await walked;
      expect(final.build).toBe(build);
      expect(final.findings.map(told)).toEqual(findings.map(told));
      near(
        final.findings.map(({ amount }) => amount),
        findings.map(({ amount }) => amount),
        SEARCH,
      );
      const extremes = axles[0]?.extremes ?? [];
      near(valuesOf(final.extremes), valuesOf(extremes), EXTREME);
      await checkWritten(page);
    },
    240_000,
  );
}

/** The page shows the front axle first. */
const axleOf = (file: string): string[] => (file.startsWith('whole') ? ['--axle', 'front'] : []);

const valuesOf = (extremes: FullWalkReport['axles'][number]['extremes']) =>
  extremes.map(({ id, part, side, unit, least, greatest }) => ({
    id,
    part,
    side,
    unit,
    least: least?.value ?? null,
    greatest: greatest?.value ?? null,
  }));
