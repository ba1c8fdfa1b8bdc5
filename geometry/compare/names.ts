/** What the two builds of a comparison are called beside each other, and the shop that reads it. */
import type { Build } from '../build/build.ts';
import type { Shop } from '../finding/words.ts';
import type { Of } from './places.ts';

type Named = Pick<Build, 'name' | 'variant'>;

/**
 * Short names: what two long ones have in common before a comma is left out ('fence-line truck, long arms' and
 * '…, short arms' are 'long arms' and 'short arms'); variants of one name go by their own.
 */
export function namesOf(a: Named, b: Named): Record<Of, string> {
  if (a.name === b.name) {
    const [one, two] = [a.variant ?? a.name, b.variant ?? b.name];
    return one === two ? { a: 'the first', b: 'the second' } : { a: one, b: two };
  }
  let cut = 0;
  for (let comma = a.name.indexOf(', '); comma >= 0; comma = a.name.indexOf(', ', comma + 1)) {
    if (b.name.startsWith(a.name.slice(0, comma + 2))) cut = comma + 2;
  }
  return { a: a.name.slice(cut), b: b.name.slice(cut) };
}

/** Words for both: the tape of both where it is one, else inches; the seat where both drive on one side. */
export const shopOf = (a: Shop, b: Shop): Shop => ({
  unit: a.unit === b.unit ? a.unit : 'in',
  driverSide: a.driverSide === b.driverSide ? a.driverSide : 'left',
});
