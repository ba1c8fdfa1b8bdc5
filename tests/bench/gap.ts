/**
 * Bench of gaps on the richest example: ratios within one run, beside what came of the work.
 *
 * - the coarse map (11 × 11 × 5; exact tightest gap a cell, a lower bound a pair): 10 ms without the scan, 16 with it;
 * - its parts: placing, bounds, searches; and what it costs as parts and triangles double;
 * - the least gaps of all pairs.
 */
import { readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Build, Solid } from '../../geometry/build/build.ts';
import { COARSE, coarseGrid } from '../../geometry/cycle/grid.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import type { Cycled } from '../../geometry/cycle/walkReport.ts';
import { GapSearch } from '../../geometry/gap/leastGaps.ts';
import { CoarseMap } from '../../geometry/gap/map.ts';
import { pairsOf } from '../../geometry/gap/pairs.ts';
import { type MeshReader, partsOf } from '../../geometry/gap/parts.ts';
import { PlacedGrid } from '../../geometry/gap/placedGrid.ts';
import { mesh } from '../../geometry/solid/mesh.ts';
import { meshReader } from '../../src/cli/meshes.ts';
import { type Candidate, ratioOfMedians, tableOf, timeInRounds } from './timing.ts';

const path = fileURLToPath(new URL('../../examples/whole-vehicle.axlewalk.json', import.meta.url));

/** The front axle of the richest example, cycled. */
function cycle(): Cycled {
  const opened = openBuild(readFileSync(path));
  if (!opened.ok) throw new Error('the example can be read');
  const front = opened.axles.find(({ axle }) => axle.name === 'front');
  if (!front) throw new Error('the example has a front axle');
  const { build, axle, model } = front;
  const { range, reach } = findRange(build, axle, model);
  return { build, axle, model, range, reach, grid: coarseGrid(range, reach, COARSE) };
}

function mapOf(walk: Cycled, build: Build, readMesh: MeshReader) {
  const { parts } = partsOf(build, walk.axle, readMesh);
  const { pairs } = pairsOf(build, walk.axle.name, parts);
  const map = new CoarseMap(parts, pairs);
  const grid = new PlacedGrid(map.motions, walk.grid);
  map.run(grid);
  return { map, grid, parts, pairs };
}

const isMesh = ({ shape }: Solid): boolean => shape.kind === 'mesh';

const sumOf = (map: CoarseMap): number => map.gap.reduce((sum, gap) => sum + gap, 0);

/** Runs the benches and prints their tables and ratios. */
export function benchGap(): void {
  const walk = cycle();
  const { build } = walk;
  const readMesh = meshReader(path, dirname(path));
  const bare: Build = { ...build, solids: build.solids.filter(solid => !isMesh(solid)) };
  const without = mapOf(walk, bare, readMesh);
  const withScan = mapOf(walk, build, readMesh);
  benchMap(walk, without, withScan);
  benchParts(walk, bare, readMesh);
  benchTriangles(walk, build, readMesh);
  benchLeast(walk, withScan);
}

type Mapped = ReturnType<typeof mapOf>;

function benchMap(walk: Cycled, without: Mapped, withScan: Mapped): void {
  const { grid } = without;
  console.log(
    `coarse map of the richest example: ${without.parts.length} parts, ${without.pairs.length} pairs, ` +
      `${grid.cells.length} places and ${grid.poses.length} poses in the range`,
  );
  const { stage } = without.map;
  const run =
    ({ map, grid: placed }: Mapped) =>
    (): number => {
      map.run(placed);
      return sumOf(map);
    };
  const outcome =
    ({ map }: Mapped) =>
    (): string =>
      `${map.stage.searches} searches, least ${Math.min(...map.gap).toFixed(4)} in`;
  const candidates: Candidate[] = [
    { name: 'map without scan', items: 1, run: run(without), outcome: outcome(without) },
    { name: 'map with scan', items: 1, run: run(withScan), outcome: outcome(withScan) },
    {
      name: 'of it: capsules at their poses',
      items: 1,
      run: () => {
        stage.place(grid);
        return stage.bound(0, 0);
      },
    },
    {
      name: 'of it: bounds of all pairs',
      items: 1,
      run: () => {
        let sum = 0;
        for (let c = 0; c < grid.cells.length; c++) {
          for (let p = 0; p < without.pairs.length; p++) sum += stage.bound(c, p);
        }
        return sum;
      },
    },
    {
      name: 'beside it: placing parts',
      items: 1,
      run: () => new PlacedGrid(without.map.motions, walk.grid).places.length,
    },
  ];
  const timings = timeInRounds(candidates, { rounds: 9, warmUp_ms: 1500, sample_ms: 50 });
  console.log(tableOf(timings));
  const ms = (name: string): string => {
    const timing = timings.find(each => each.name === name);
    return `${((timing?.median_us ?? 0) / 1000).toFixed(1)} ms, at best ${((timing?.least_us ?? 0) / 1000).toFixed(1)}`;
  };
  console.log(
    `without scan: ${ms('map without scan')} (aim 10); with scan: ${ms('map with scan')} (aim 16)`,
  );
  const ratio = ratioOfMedians(timings, 'map with scan', 'map without scan');
  console.log(`the scan makes the map ${ratio.toFixed(2)} × as long\n`);
}

/** Drawn solids twice and four times, the copies a little aside: pairs grow with the parts on the chassis. */
function benchParts(walk: Cycled, build: Build, readMesh: MeshReader): void {
  const copies = (times: number): Build => ({
    ...build,
    solids: Array.from({ length: times }, (_, k) =>
      build.solids.map(solid => ({
        ...solid,
        name: k === 0 ? solid.name : `${solid.name} ${k}`,
        shape: lifted(solid.shape, 3 * k),
      })),
    ).flat(),
  });
  const maps = [1, 2, 4].map(times => ({ times, ...mapOf(walk, copies(times), readMesh) }));
  const timings = timeInRounds(
    maps.map(({ times, map, grid, parts, pairs }) => ({
      name: `drawn solids × ${times}: ${parts.length} parts`,
      items: 1,
      run: () => {
        map.run(grid);
        return sumOf(map);
      },
      outcome: () => `${pairs.length} pairs, ${map.stage.searches} searches`,
    })),
    { rounds: 7, warmUp_ms: 1000, sample_ms: 50 },
  );
  console.log('the map as parts double');
  console.log(`${tableOf(timings)}\n`);
}

/** A shape raised by some inches. */
function lifted(shape: Solid['shape'], by: number): Solid['shape'] {
  const up = ([x, y, z]: readonly [number, number, number]) => [x, y, z + by] as const;
  switch (shape.kind) {
    case 'sphere':
    case 'box':
      return { ...shape, center: up(shape.center) };
    case 'capsule':
    case 'cylinder':
      return { ...shape, from: up(shape.from), to: up(shape.to) };
    case 'bentTube':
    case 'hull':
      return { ...shape, points: shape.points.map(up) };
    case 'mesh':
      return { ...shape, at: up(shape.at) };
  }
}

/** The scan with each triangle split in four, once and twice. */
function benchTriangles(walk: Cycled, build: Build, readMesh: MeshReader): void {
  const split =
    (times: number): MeshReader =>
    (shape, name) => {
      const made = readMesh(shape, name);
      if ('problem' in made || !made.solid.mesh) return made;
      let { positions, triangles }: { positions: Float64Array; triangles: Uint32Array } =
        made.solid.mesh;
      for (let k = 0; k < times; k++) ({ positions, triangles } = quartered(positions, triangles));
      return mesh({ positions, triangles });
    };
  const maps = [0, 1, 2].map(times => mapOf(walk, build, split(times)));
  const timings = timeInRounds(
    maps.map(({ map, grid, parts }) => {
      const count = parts.reduce(
        (sum, { solid }) => sum + (solid.mesh?.triangles.length ?? 0) / 3,
        0,
      );
      return {
        name: `${count} triangles`,
        items: 1,
        run: () => {
          map.run(grid);
          return sumOf(map);
        },
        outcome: () => `${map.stage.searches} searches`,
      };
    }),
    { rounds: 7, warmUp_ms: 1000, sample_ms: 50 },
  );
  console.log('the map as triangles double twice');
  console.log(`${tableOf(timings)}\n`);
}

export function quartered(positions: Float64Array, triangles: Uint32Array) {
  const points = [...positions];
  const middles = new Map<string, number>();
  const middle = (a: number, b: number): number => {
    const key = a < b ? `${a} ${b}` : `${b} ${a}`;
    let found = middles.get(key);
    if (found === undefined) {
      found = points.length / 3;
      for (let c = 0; c < 3; c++) {
        points.push(((points[3 * a + c] as number) + (points[3 * b + c] as number)) / 2);
      }
      middles.set(key, found);
    }
    return found;
  };
  const out: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [triangles[i], triangles[i + 1], triangles[i + 2]] as [
      number,
      number,
      number,
    ];
    const [ab, bc, ca] = [middle(a, b), middle(b, c), middle(c, a)];
    out.push(a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca);
  }
  return { positions: Float64Array.from(points), triangles: Uint32Array.from(out) };
}

function benchLeast(walk: Cycled, { parts, pairs }: Mapped): void {
  const started = performance.now();
  const search = new GapSearch(walk, parts, pairs);
  const ready = performance.now();
  const found = pairs.map((_, p) => search.least(p));
  const ended = performance.now();
  const refined = found.filter(each => each.isRefined).length;
  console.log(
    `least gaps of ${pairs.length} pairs, ${refined} of them searched beyond the coarse cycle: ` +
      `${(ended - ready).toFixed(0)} ms after ${(ready - started).toFixed(0)} ms of sampling the edge, cold\n`,
  );
}
