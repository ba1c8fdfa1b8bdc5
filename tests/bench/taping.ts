/**
 * How many measurements it takes beyond the start until a proposal's findings are those of the vehicle, in the proposed
 * order and at random. `npx tsx tests/bench/taping.ts [example] [seeds] [random]`; with `random` the
 * proposed order is taken as it is recorded. Writes nothing.
 */
import { atRandom, inProposedOrder, seeded } from '../advice/orders.ts';
import { vehicles } from '../advice/vehicles.ts';

const MOST = 40;
const [, , only = '', seeds = '5', recorded = ''] = process.argv;

for (const vehicle of vehicles.filter(({ example }) => example.includes(only))) {
  const taped = recorded === '' ? inProposedOrder(vehicle, MOST) : null;
  if (recorded === '')
    console.log(
      taped
        ? `${vehicle.example}: ${taped.spots.length} more in the proposed order (${taped.readings} readings), ${(100 * taped.share).toFixed(0)} % settled`
        : `${vehicle.example}: not within ${MOST} in the proposed order`,
    );
  for (const spot of taped?.spots ?? []) console.log(`  ${spot}`);
  const counts = Array.from({ length: Number(seeds) }, (_, seed) =>
    atRandom(vehicle, seeded(seed + 1)),
  );
  console.log(`${vehicle.example}: at random ${counts.join(', ')} (seeds 1 to ${seeds})`);
}
