/**
 * What a moved point costs stage by stage: all made anew, and with what the move leaves as it was kept, at a glance, as
 * the page and its worker do it. Time of the processor, each stage's median of some moves. `npm run bench -- drag`
 */
import { readFileSync } from 'node:fs';
import { keepAlike } from '../../geometry/alike.ts';
import type { Build } from '../../geometry/build/build.ts';
import { movedEntries } from '../../geometry/build/moves.ts';
import { Shifts } from '../../geometry/build/shift.ts';
import { COARSE, coarseGrid, GLANCE } from '../../geometry/cycle/grid.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { type OpenedAxle, openAxle } from '../../geometry/cycle/openAxle.ts';
import { findRange, glanceAtRange } from '../../geometry/cycle/range.ts';
import { CoarseMap } from '../../geometry/gap/map.ts';
import { type FoundPairs, pairsOf } from '../../geometry/gap/pairs.ts';
import type { Part } from '../../geometry/gap/part.ts';
import { partsOf } from '../../geometry/gap/parts.ts';
import { PlacedGrid } from '../../geometry/gap/placedGrid.ts';
import { meshReader } from '../../src/cli/meshes.ts';
import type { PartShape } from '../../src/viewer/shapes/shape.ts';
import { disposeShapes, shapesOf } from '../../src/viewer/shapes/shapes.ts';

const MOVED = [
  ['whole-vehicle', 'axles["front"].links["track bar"].axle.at[2]'],
  ['long-arm-front', 'axles["front"].links["lower link"].axle.at[2]'],
] as const;
const MOVES = 30;
/** Moves before the engine has made its code. */
const WARM = 5;

const STAGES = [
  'build',
  'axle',
  'parts',
  '3D shapes',
  'range',
  'grid',
  'pairs',
  'gaps as drawn',
  'placed',
  'map',
];

interface Known {
  build: Build;
  parts: readonly Part[];
  shapes: readonly PartShape[];
  found: FoundPairs;
  map: CoarseMap;
}

/** One move; the times of its stages in ms go to `times`. */
function move(make: () => Build, path: string, before: Known | null, times: number[][]): Known {
  let stage = 0;
  const timed = <Made>(run: () => Made): Made => {
    const start = process.cpuUsage();
    const made = run();
    const { user, system } = process.cpuUsage(start);
    times[stage] ??= [];
    times[stage++]?.push((user + system) / 1000);
    return made;
  };
  const build = timed(() => (before ? keepAlike(before.build, make()) : make()));
  const [axle] = build.axles;
  if (!axle) throw new Error('no axle');
  const { model } = timed((): OpenedAxle => {
    const opened = openAxle(build, axle);
    if (!opened.ok) throw new Error('it does not stand');
    return opened.axle;
  });
  const readMesh = meshReader(path, 'examples');
  const { parts } = timed(() => partsOf(build, axle, readMesh, before?.parts));
  const shapes = timed(() => shapesOf(build, axle, parts, before?.shapes));
  const { range, reach } = timed(() => (before ? glanceAtRange : findRange)(build, axle, model));
  const grid = timed(() => coarseGrid(range, reach, before ? GLANCE : COARSE));
  const found = timed(() => pairsOf(build, axle.name, parts, { before: before?.found ?? null }));
  const map = timed(() => new CoarseMap(parts, found.pairs, 'share', before?.map));
  const placed = timed(() => new PlacedGrid(map.motions, grid));
  timed(() => map.run(placed));
  return { build, parts, shapes, found, map };
}

export function benchDrag(): void {
  for (const [example, entry] of MOVED) {
    const path = `examples/${example}.axlewalk.json`;
    const opened = openBuild(readFileSync(path));
    if (!opened.ok) throw new Error(`${example} does not open`);
    const shifts = new Shifts(opened.file, null);
    const [anew, kept]: [number[][], number[][]] = [[], []];
    let before = move(() => opened.build, path, null, []);
    for (let k = 0; k < MOVES; k++) {
      const moves = [{ path: entry, by: ((k % 8) + 1) / 16 }];
      const make = (): Build => {
        const build = shifts.together(moves);
        if (!build) throw new Error(`${entry} does not move`);
        return { ...build, entries: movedEntries(opened.build, moves) };
      };
      disposeShapes(move(make, path, null, anew).shapes);
      const next = move(make, path, before, kept);
      disposeShapes(before.shapes, next.shapes);
      before = next;
    }
    console.log(`\nA point moved, ${example}: ms of the processor, all anew and what changed`);
    const sums = [0, 0];
    for (const [i, stage] of STAGES.entries()) {
      const [a, b] = [anew[i], kept[i]].map(median) as [number, number];
      sums[0] = (sums[0] as number) + a;
      sums[1] = (sums[1] as number) + b;
      console.log(`  ${stage.padEnd(14)} ${a.toFixed(1).padStart(7)} ${b.toFixed(1).padStart(7)}`);
    }
    console.log(
      `  ${'together'.padEnd(14)} ${sums.map(sum => sum.toFixed(1).padStart(7)).join(' ')}`,
    );
  }
}

function median(times: readonly number[] = []): number {
  const sorted = times.slice(WARM).sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? Number.NaN;
}
