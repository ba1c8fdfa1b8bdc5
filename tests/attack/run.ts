/**
 * `npm run attack`: poses on the proved bounds of examples, and descents. Prints counts; exit 1 on a find.
 *
 *   npm run attack -- [NAME ...] [--poses N] [--starts N] [--seed N]
 *
 * NAME is a part of an example's name; all of them unless given. A million poses an axle, with the gaps of eight pairs at
 * each; 500 starts a pair go down (`--starts`).
 */
import { parseArgs } from 'node:util';
import { GapSearch } from '../../geometry/gap/leastGaps.ts';
import { ProofRun, proveAll } from '../../geometry/gap/proofRun.ts';
import { buildOf, cycled, draws, EXAMPLES } from '../gap/cycled.ts';
import { attack, inWords, ROUNDING_in } from './attack.ts';

const PAIRS_AT_EACH = 8;

const { values, positionals: names } = parseArgs({
  allowPositionals: true,
  options: {
    poses: { type: 'string', default: '1000000' },
    starts: { type: 'string', default: '500' },
    seed: { type: 'string', default: '20301' },
  },
});
const count = (name: keyof typeof values): number => {
  const number = Number(values[name]);
  if (Number.isInteger(number) && number >= 0) return number;
  console.error(`--${name}: a whole number is wanted, not '${values[name]}'`);
  process.exit(2);
};
const [poses, startsAPair, seed] = [count('poses'), count('starts'), count('seed')];

const chosen = EXAMPLES.filter(each => names.length === 0 || names.some(n => each.includes(n)));
if (chosen.length === 0) {
  console.error(`no example is called that; there are ${EXAMPLES.join(', ')}`);
  process.exit(2);
}
let isBroken = false;
for (const name of chosen) {
  for (const { name: axle } of buildOf(name).axles) {
    const { walk, parts, pairs } = cycled(name, axle);
    const search = new GapSearch(walk, parts, pairs);
    const found = pairs.map((_, p) => search.least(p));
    const gaps = proveAll(new ProofRun(walk, search, found), {});
    const open = gaps.filter(({ status }) => status === 'undecided').length;
    console.log(`${name}, ${axle} axle: ${gaps.length} pairs, ${open} not settled (seed ${seed})`);
    const moving = pairs.filter(({ still }) => !still).length;
    const outcome = attack({ walk, search, gaps }, draws(seed), {
      poses,
      pairsAtEach: PAIRS_AT_EACH,
      starts: startsAPair * moving,
    });
    console.log(`  ${inWords(`${name}, ${axle}`, outcome)}`);
    if (outcome.least < -ROUNDING_in) {
      isBroken = true;
      console.log(`  UNDER THE BOUND at ${JSON.stringify(outcome.pose)}`);
    }
  }
}
process.exitCode = isBroken ? 1 : 0;
