/** A part that is entered once for both sides, entered for each; and both sides made alike again. One step each. */

import { addressOf } from '../../../geometry/build/address.ts';
import type { Side } from '../../../geometry/build/build.ts';
import { change, type Refused } from './edit.ts';

/** What takes pairs apart reads builds, so that it is fetched with the file reader. */
const pairs = () => import('../../../geometry/build/pairs.ts');

/** @param path of the part, as its entries have it */
export async function takeSidesApart(path: string, name: string): Promise<Refused> {
  const { withSidesApart } = await pairs();
  const words = `${name}: each side by itself`;
  return change(words, edited => withSidesApart(edited, [addressOf(path)]), path);
}

/**
 * @param path of the part or of one of its halves
 * @param after the side that stays as it is
 * @param seat that side in words
 */
export async function makeSidesAlike(
  path: string,
  name: string,
  after: Side,
  seat: string,
): Promise<Refused> {
  const { withSidesAlike } = await pairs();
  const words = `${name}: both sides as the ${seat} one`;
  return change(words, edited => withSidesAlike(edited, [addressOf(path)], after), path);
}
