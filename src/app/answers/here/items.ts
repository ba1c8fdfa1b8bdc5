/** The numbers that can be read at the handle: measures, what is left to the stops, the tightest gap. */

import { partWords, type Shop, seat, sentence } from '../../../../geometry/finding/words.ts';
import { bumpStop } from '../../../../geometry/limit/bumpStop.ts';
import type { Limit } from '../../../../geometry/limit/limit.ts';
import { shockLong, shockShort } from '../../../../geometry/limit/shock.ts';
import { strap } from '../../../../geometry/limit/strap.ts';
import { type MeasureContext, SHOWN } from '../../../../geometry/measure/measure.ts';
import type { Rig } from '../../state/rig.ts';
import { measureGroups, measureName } from '../../words/measureWords.ts';

export interface HereItem {
  key: string;
  group: string;
  label: string;
  /** What exactly it is, and the standard or book that defines it. */
  definition: string;
  source: string;
  /** Of a measure its id, so that its direction has a word. */
  id: string;
  unit: string;
  /** As shown; null where there is none at this pose. */
  read(context: MeasureContext): number | null;
}

const TO_STOPS: readonly (readonly [limit: Limit, what: string])[] = [
  [shockShort, 'shaft left'],
  [shockLong, 'left to full length'],
  [bumpStop, 'left'],
  [strap, 'slack left'],
];

/** All that can be read of an axle, in the order in which it is told. */
export function hereItems(rig: Rig, shop: Shop): HereItem[] {
  const { axle, build } = rig;
  const [plus, minus] = [seat(shop, 'left'), seat(shop, 'right')];
  const items: HereItem[] = [
    {
      key: 'articulation',
      group: 'Where the axle has gone',
      label: 'Articulation',
      definition: `How far the axle is rolled in the frame: + with the ${plus} wheel up, − with the ${minus} wheel up.`,
      source: 'roll of the axle about X, axes of ISO 8855',
      id: 'articulation',
      unit: 'deg',
      read: ({ pose }) => pose.roll * SHOWN.deg,
    },
  ];
  for (const [limit, what] of TO_STOPS) {
    for (const target of limit.targets(axle, build)) {
      items.push({
        key: `limit:${limit.id}:${target.part}`,
        group: 'Left to the stops',
        label: `${sentence(partWords(shop, axle, target.part))}, ${what}`,
        definition: `What is left until: ${limit.label}.`,
        source: 'lengths as entered',
        id: '',
        unit: limit.unit,
        read: context => limit.margin(context, target),
      });
    }
  }
  for (const { title, measures } of measureGroups()) {
    for (const measure of measures) {
      for (const target of measure.targets(axle, build)) {
        items.push({
          key: `measure:${measure.id}:${target.part ?? target.side ?? ''}`,
          group: title,
          label: measureName(shop, axle, measure, target),
          definition: measure.definition,
          source: measure.source,
          id: measure.id,
          unit: measure.unit,
          read(context) {
            const reading = measure.value(context, target);
            return typeof reading === 'number' ? reading * SHOWN[measure.unit] : null;
          },
        });
      }
    }
  }
  return items;
}

/** What is shown until somebody picks: each is there where the axle has it. */
const FIRST: readonly RegExp[] = [
  /^articulation$/,
  /^measure:bumpSteer:/,
  /^measure:axleSteer:/,
  /^measure:lateralShift:/,
  /^measure:pinionAngle:/,
  /^limit:shockShort:/,
  /^limit:bumpStop:/,
  /^measure:caster:/,
  /^measure:pinionJointAngle:/,
  /^measure:transferJointAngle:/,
];

export const firstKeys = (items: readonly HereItem[]): string[] =>
  FIRST.flatMap(each => items.filter(({ key }) => each.test(key)).map(({ key }) => key));
