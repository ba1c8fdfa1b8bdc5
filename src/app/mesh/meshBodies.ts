/** What a mesh may ride on, in words. */
import type { RideBody } from '../../../geometry/build/partChoices.ts';
import { partWords, seat, sentence } from '../../../geometry/finding/words.ts';
import type { Rig } from '../state/rig.ts';
import { pageShop } from '../words/shopWords.ts';

/** The frame first, then the axle, what turns with its wheels, and its rods and links. */
export function meshBodies({ build, axle }: Rig): RideBody[] {
  const shop = pageShop(build, build.unit);
  const { name, knuckles, steering, links, radiusArms } = axle;
  const on = (body: string, words: string): RideBody => ({ on: body, axle: name, words });
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
