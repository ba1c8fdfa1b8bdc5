/**
 * Bench of the proof: the proved cycle of the richest example at 0.02 in, with its scan cold and without it warm, by
 * stages; and how the cost grows as parts, triangles and resolution double. Processor time of one run each: the proof is
 * too long for rounds.
 */
import { readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { coarseGrid } from '../../geometry/cycle/grid.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import { GapSearch } from '../../geometry/gap/leastGaps.ts';
import { type Pair, pairsOf } from '../../geometry/gap/pairs.ts';
import { type MeshReader, partsOf } from '../../geometry/gap/parts.ts';
import { ProofRun, RESOLUTION_in } from '../../geometry/gap/proofRun.ts';
import { mesh } from '../../geometry/solid/mesh.ts';
import { meshReader } from '../../src/cli/meshes.ts';
import { type Example, pathOf } from '../gap/cycled.ts';
import { quartered } from './gap.ts';

const RICHEST: Example = 'whole-vehicle';
/** The one whose parts and resolution are doubled: exact, and quick. */
const DOUBLED: Example = 'triangulated-rear';

/** Processor time, ms. */
function clock(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

interface Proved {
  ms: Record<'range' | 'parts' | 'search' | 'proof', number>;
  pairs: Pair[];
  open: number;
  /** By pair, ms. */
  cost: number[];
}

interface How {
  resolution?: number;
  readMesh?: MeshReader;
  only?: (pair: Pair, index: number) => boolean;
}

/** The first axle of an example walked, searched and proved. */
function proved(name: Example, how: How = {}): Proved {
  const path = pathOf(name);
  const opened = openBuild(readFileSync(path));
  if (!opened.ok || !opened.axles[0]) throw new Error(`${name} can't be read`);
  const { build, axle, model } = opened.axles[0];
  const ms = { range: 0, parts: 0, search: 0, proof: 0 };
  let last = clock();
  const lap = (stage: keyof typeof ms): void => {
    const now = clock();
    ms[stage] = now - last;
    last = now;
  };
  const { range, reach } = findRange(build, axle, model);
  const walk = { build, axle, model, range, reach, grid: coarseGrid(range, reach) };
  lap('range');
  const { parts } = partsOf(build, axle, how.readMesh ?? meshReader(path, dirname(path)));
  const pairs = pairsOf(build, axle.name, parts).pairs.filter(how.only ?? (() => true));
  lap('parts');
  const search = new GapSearch(walk, parts, pairs);
  const found = pairs.map((_, p) => search.least(p));
  lap('search');
  const run = new ProofRun(walk, search, found, how.resolution ?? RESOLUTION_in);
  const cost = pairs.map(() => 0);
  for (let more = pairs.length > 0; more; ) {
    const from = clock();
    more = run.step();
    if (run.last >= 0) cost[run.last] = (cost[run.last] ?? 0) + clock() - from;
  }
  lap('proof');
  const open = run.gaps.filter(({ status }) => status === 'undecided').length;
  return { ms, pairs, open, cost };
}

const seconds = (ms: number): string => `${(ms / 1000).toFixed(1)} s`;

function tell(what: string, { ms, pairs, open }: Proved): void {
  const stages = Object.entries(ms).map(([stage, each]) => `${stage} ${seconds(each)}`);
  console.log(`${what}: ${pairs.length} pairs, ${open} not settled; ${stages.join(', ')}`);
}

/** The dearest pairs, and what share of the proof they take. */
function tellDearest({ pairs, cost, ms }: Proved): void {
  const order = [...cost.keys()].sort((p, q) => (cost[q] as number) - (cost[p] as number));
  const first = order.slice(0, 10);
  const sum = first.reduce((total, p) => total + (cost[p] as number), 0);
  console.log(
    `  the dearest ten pairs take ${((100 * sum) / ms.proof).toFixed(0)} % of the proof:`,
  );
  for (const p of first) {
    const { a, b } = pairs[p] as Pair;
    console.log(`    ${seconds(cost[p] as number).padStart(8)}  ${a.name} / ${b.name}`);
  }
}

/** Runs the bench and prints its tables. */
export function benchProof(): void {
  console.log(`cost of the proof of ${DOUBLED} as the resolution halves`);
  for (const resolution of [0.04, 0.02, 0.01]) {
    tell(`  ${resolution} in`, proved(DOUBLED, { resolution }));
  }
  console.log(`as its pairs double: every 4th, every other, all`);
  for (const each of [4, 2, 1]) {
    tell(`  1 of ${each}`, proved(DOUBLED, { only: (_, p) => p % each === 0 }));
  }

  const richest = proved(RICHEST);
  tell(`proved cycle of ${RICHEST}, first axle, ${RESOLUTION_in} in, with its scan, cold`, richest);
  tellDearest(richest);
  const noMesh: MeshReader = () => ({ problem: 'left out' });
  tell('the same without the scan, warm', proved(RICHEST, { readMesh: noMesh }));
  console.log(
    `as the triangles of the scan of ${RICHEST} grow fourfold, pairs with the scan alone`,
  );
  const read = meshReader(pathOf(RICHEST), dirname(pathOf(RICHEST)));
  const finer: MeshReader = (shape, name) => {
    const made = read(shape, name);
    if ('problem' in made || !made.solid.mesh) return made;
    return mesh(quartered(made.solid.mesh.positions, made.solid.mesh.triangles));
  };
  const only = ({ solidA, solidB }: Pair): boolean => !!(solidA.mesh ?? solidB.mesh);
  for (const readMesh of [read, finer]) {
    const of = proved(RICHEST, { readMesh, only });
    const [pair] = of.pairs;
    const triangles = ((pair?.solidA.mesh ?? pair?.solidB.mesh)?.triangles.length ?? 0) / 3;
    tell(`  ${triangles} triangles`, of);
  }
}
