/** What a mesh may ride on, in words. */
import type { AxleName } from '../../../geometry/build/build.ts';
import { partWords, seat, sentence } from '../../../geometry/finding/words.ts';
import type { Rig } from '../state/rig.ts';
import { pageShop } from '../words/shopWords.ts';

export interface MeshBody {
  on: string;
  /** Null for the chassis. */
  axle: AxleName | null;
  words: string;
}

/** The frame first, then the axle, what turns with its wheels, and its rods and links. */
export function meshBodies({ build, axle }: Rig): MeshBody[] {
  const shop = pageShop(build, build.unit);
  const { name, knuckles, steering, links, radiusArms } = axle;
  const on = (body: string, words: string): MeshBody => ({ on: body, axle: name, words });
  const rods = [...(steering?.tieRods ?? []), ...(steering?.dragLink ? [steering.dragLink] : [])];
  return [
    { on: 'chassis', axle: null, words: 'Frame' },
    on('axle', 'Axle'),
    ...(knuckles
      ? (['left', 'right'] as const).map(side =>
          on(`${side} knuckle`, `${sentence(seat(shop, side))} knuckle`),
        )
      : []),
    ...(steering?.box ? [on('pitman arm', 'Pitman arm')] : []),
    ...[...rods, ...links, ...radiusArms].map(each =>
      on(each.name, sentence(partWords(shop, axle, each.name))),
    ),
  ];
}
