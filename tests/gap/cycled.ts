/** Examples cycled once for the tests of gaps, with their parts and pairs. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Axle, AxleName, Build } from '../../geometry/build/build.ts';
import { coarseGrid } from '../../geometry/cycle/grid.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import type { Cycled } from '../../geometry/cycle/walkReport.ts';
import { type Pair, type Pairs, pairsOf } from '../../geometry/gap/pairs.ts';
import type { Part } from '../../geometry/gap/part.ts';
import { partsOf } from '../../geometry/gap/parts.ts';
import { meshReader } from '../../src/cli/meshes.ts';

const examples = fileURLToPath(new URL('../../examples', import.meta.url));

export const EXAMPLES = [
  'long-arm-front',
  'short-arm-front',
  'radius-arm-front',
  'hung-tie-rod-front',
  'double-ram-front',
  'triangulated-rear',
  'four-link-rear',
  'wishbone-rear',
  'whole-vehicle',
] as const;
export type Example = (typeof EXAMPLES)[number];

export const pathOf = (name: Example): string => join(examples, `${name}.axlewalk.json`);

export function buildOf(name: Example): Build {
  const opened = openBuild(readFileSync(pathOf(name)));
  if (!opened.ok) throw new Error(`${name} can't be read`);
  return opened.build;
}

export interface CycledExample extends Pairs {
  build: Build;
  axle: Axle;
  parts: Part[];
  walk: Cycled;
}

const known = new Map<string, CycledExample>();

/** An axle of an example (its first one unless named), cycled, with its parts and pairs. */
export function cycled(name: Example, which: AxleName | null = null): CycledExample {
  const key = `${name} ${which}`;
  let found = known.get(key);
  if (!found) {
    const opened = openBuild(readFileSync(pathOf(name)));
    if (!opened.ok) throw new Error(`${name} can't be read`);
    const one = opened.axles.find(({ axle }) => which === null || axle.name === which);
    if (!one) throw new Error(`${name} has no ${which} axle`);
    const { build, axle, model } = one;
    const { range, reach } = findRange(build, axle, model);
    const grid = coarseGrid(range, reach);
    const readMesh = meshReader(pathOf(name), dirname(pathOf(name)));
    const { parts, problems } = partsOf(build, axle, readMesh);
    if (problems.length > 0) throw new Error(`${name}: ${problems[0]?.problem}`);
    const walk = { build, axle, model, range, reach, grid };
    found = { build, axle, parts, walk, ...pairsOf(build, axle.name, parts) };
    known.set(key, found);
  }
  return found;
}

export function pairOf({ pairs }: Pairs, a: string, b: string): Pair {
  const found = pairs.find(
    pair => [pair.a.name, pair.b.name].includes(a) && [pair.a.name, pair.b.name].includes(b),
  );
  if (!found) throw new Error(`${a} and ${b} are not compared`);
  return found;
}

export function partOf({ parts }: CycledExample, name: string): Part {
  const found = parts.find(part => part.name === name);
  if (!found) throw new Error(`no part is called ${name}`);
  return found;
}

/** The minimal standard generator of Park and Miller: the same numbers from 0 to 1 each time. */
export function draws(seed: number): () => number {
  let s = seed;
  return () => {
    s = (s * 16807) % 2147483647;
    return s / 2147483647;
  };
}
