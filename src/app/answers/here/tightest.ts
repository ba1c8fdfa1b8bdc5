/**
 * The tightest gap at the handle, by what of it is left of the wanted gap. Only pairs are looked at that the travel
 * map or a finding has as their tightest somewhere: a few dozen of thousands.
 */

import { placePart } from '../../../../geometry/gap/place.ts';
import type { Pose } from '../../../../geometry/pose/pose.ts';
import { DistanceSolver } from '../../../../geometry/solid/distance.ts';
import { unmoved } from '../../../../geometry/solid/placement.ts';
import { shareOf } from '../../../charts/gapScale.ts';
import type { Rig } from '../../state/rig.ts';
import type { Results } from '../../state/shop.ts';
import { type OwnPair, ownPair } from '../pairSection.ts';

export interface Tightest {
  a: string;
  b: string;
  gap: number;
}

interface Watched extends OwnPair {
  required: number;
}

export class TightestHere {
  readonly #watched: Watched[];
  readonly #solver = new DistanceSolver();
  readonly #a = unmoved();
  readonly #b = unmoved();

  constructor(rig: Rig, { map, findings }: Pick<Results, 'map' | 'findings'>) {
    const names = new Map<string, { a: string; b: string; required: number }>();
    for (const index of new Set(map?.pair ?? [])) {
      const pair = map?.pairs[index];
      if (pair) names.set(`${pair.a}|${pair.b}`, pair);
    }
    for (const { kind, parts, others } of findings) {
      const [a, b] = parts;
      if ((kind !== 'partsTouch' && kind !== 'gapShort') || !a || !b) continue;
      if (!names.has(`${a}|${b}`) && !names.has(`${b}|${a}`)) {
        names.set(`${a}|${b}`, { a, b, required: others?.asked?.value ?? 0 });
      }
    }
    this.#watched = [...names.values()].flatMap(({ a, b, required }) => {
      const pair = ownPair(rig, a, b);
      return pair ? [{ ...pair, required }] : [];
    });
  }

  at(pose: Pose): Tightest | null {
    let best: Tightest | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const { a, b, solidA, solidB, required } of this.#watched) {
      placePart(a, pose, this.#a);
      placePart(b, pose, this.#b);
      this.#solver.run(solidA, this.#a, solidB, this.#b);
      const { gap } = this.#solver;
      const share = shareOf(gap, required);
      if (share < least) {
        least = share;
        best = { a: a.name, b: b.name, gap };
      }
    }
    return best;
  }
}
