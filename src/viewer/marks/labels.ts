/** Which parts get a name in the picture, what it is, and where it hangs. */
import type { Axle } from '../../../geometry/build/build.ts';
import { partWords, type Shop } from '../../../geometry/finding/words.ts';
import type { Part, PartKind } from '../../../geometry/gap/part.ts';
import type { V3 } from '../../../geometry/vector.ts';
import { centerOf } from '../shapes/solids.ts';

export interface Label {
  /** Name of the part that it hangs on. */
  part: string;
  text: string;
  /** Drawn point of the part, vehicle axes, in. */
  at: V3;
  isChosen: boolean;
}

/** Kinds that are named, the most asked for first. */
const NAMED: readonly PartKind[] = [
  'link',
  'radiusArm',
  'trackBar',
  'dragLink',
  'tieRod',
  'ram',
  'differential',
  'shock',
  'coil',
  'driveshaft',
  'pitmanArm',
  'swayBar',
  'tire',
  'bumpStop',
];

/** One label a thing: a shock's body stands for all of it. The chosen part's comes first, whatever it is. */
export function labelsOf(
  shop: Shop,
  axle: Axle,
  parts: readonly Part[],
  isAll: boolean,
  chosen: string | null,
): Label[] {
  const seen = new Set<string>();
  const out: Label[] = [];
  const put = (part: Part, isChosen: boolean): void => {
    const thing = isChosen ? part.name : part.of;
    if (seen.has(thing)) return;
    seen.add(thing);
    seen.add(part.of);
    const words = partWords(shop, axle, thing);
    const text = words.charAt(0).toUpperCase() + words.slice(1);
    out.push({ part: part.name, text, at: centerOf(part), isChosen });
  };
  const picked = parts.find(part => part.name === chosen);
  if (picked) put(picked, true);
  if (!isAll) return out;
  for (const kind of NAMED) for (const part of parts) if (part.kind === kind) put(part, false);
  return out;
}
