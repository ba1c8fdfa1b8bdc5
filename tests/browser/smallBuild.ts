/** A build with little about its axle, so that a change of it is checked in seconds: one hit, and what it takes. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { drop, examplePath, standing, until } from './shop.ts';

/** Drawn parts that are kept: the gear housing is what the driver tire hits. */
const KEPT = ['gear housing', 'rail'];

export function smallBuild(name = 'small build'): string {
  const file = JSON.parse(readFileSync(examplePath('long-arm-front.axlewalk.json'), 'utf8'));
  const kept = file.solids.filter((solid: { name: string }) => KEPT.includes(solid.name));
  const [axle] = file.axles;
  const { lines: _, coils: __, ...rest } = axle;
  return `${JSON.stringify({ ...file, name, notes: undefined, solids: kept, axles: [rest], variants: undefined, alternatives: undefined, wanted: undefined, taped: undefined }, null, 2)}\n`;
}

/** The small build, dropped on the page and standing there. */
export async function openSmall(page: Page): Promise<void> {
  page.setDefaultTimeout(25_000);
  await standing(page);
  await drop(page, [{ name: 'small.axlewalk.json', bytes: smallBuild() }]);
  await until(page, 'the small build', ({ build, pose }) => build === 'small build' && !!pose);
}
