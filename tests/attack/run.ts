/** `npm run attack`: a million poses on the proved bounds of each example, and descents. Prints counts; exit 1 on a find. */

import { GapSearch } from '../../geometry/gap/leastGaps.ts';
import { ProofRun, proveAll } from '../../geometry/gap/proofRun.ts';
import { buildOf, cycled, draws, EXAMPLES } from '../gap/cycled.ts';
import { attack, inWords, ROUNDING_in } from './attack.ts';

const POSES = Number(process.argv[3] ?? 1_000_000);
const only = process.argv[2] ?? '';
const SEED = 20_301;
const STARTS = 500;

let isBroken = false;
for (const name of EXAMPLES) {
  if (!name.includes(only)) continue;
  for (const { name: axle } of buildOf(name).axles) {
    const { walk, parts, pairs } = cycled(name, axle);
    const search = new GapSearch(walk, parts, pairs);
    const found = pairs.map((_, p) => search.least(p));
    const gaps = proveAll(new ProofRun(walk, search, found), {});
    const open = gaps.filter(({ status }) => status === 'undecided').length;
    console.log(`${name}, ${axle} axle: ${gaps.length} pairs, ${open} not settled (seed ${SEED})`);
    const outcome = attack({ walk, search, gaps }, draws(SEED), {
      poses: POSES,
      pairsAtEach: 8,
      starts: STARTS,
    });
    console.log(`  ${inWords(`${name}, ${axle}`, outcome)}`);
    if (outcome.least < -ROUNDING_in) {
      isBroken = true;
      console.log(`  UNDER THE BOUND at ${JSON.stringify(outcome.pose)}`);
    }
  }
}
process.exitCode = isBroken ? 1 : 0;
