/** Measures on screens: their groups, their names with side or part, and values with direction words. */

import type { Axle } from '../../../geometry/build/build.ts';
import { formatLength } from '../../../geometry/build/format.ts';
import {
  amountWords,
  partWords,
  type Shop,
  seat,
  sentence,
} from '../../../geometry/finding/words.ts';
import { measures } from '../../../geometry/measure/list.ts';
import type { Measure, Target } from '../../../geometry/measure/measure.ts';
import { splitFraction } from './Amount.tsx';

/** Heads of the groups, each with the measure that it begins with in the list's order. */
const GROUPS: readonly (readonly [title: string, first: string])[] = [
  ['Where the axle has gone', 'lateralShift'],
  ['Where the wheels point', 'meanSteer'],
  ['Steering linkage', 'dragLinkToTrackBarFront'],
  ['How the wheels stand', 'camber'],
  ['How the axle reacts', 'rollCenterHeight'],
  ['Driveline', 'pinionAngle'],
  ['Springs, stops and lines', 'shockLength'],
  ['Joints and bind', 'bind'],
];

/** The list of measures by groups; a new measure falls into the group that it stands in. */
export function measureGroups(): { title: string; measures: Measure[] }[] {
  const groups: { title: string; measures: Measure[] }[] = [];
  for (const measure of measures) {
    const head = GROUPS.find(([, first]) => first === measure.id);
    if (head || groups.length === 0) groups.push({ title: head?.[0] ?? 'Measures', measures: [] });
    groups.at(-1)?.measures.push(measure);
  }
  return groups;
}

/** 'driver', 'left lower link' as 'driver lower link'; '' for the axle. */
export function targetWords(shop: Shop, axle: Axle, { part, side }: Target): string {
  if (part !== null) return partWords(shop, axle, part);
  return side === null ? '' : `${seat(shop, side)} side`;
}

/** 'Axle steer', 'Toe, driver side', 'Shock length, passenger shock'. */
export function measureName(shop: Shop, axle: Axle, measure: Measure, target: Target): string {
  const of = targetWords(shop, axle, target);
  return of === '' ? sentence(measure.label) : `${sentence(measure.label)}, ${of}`;
}

/** What + and − of a measure say, where they have a word. Left and right of the vehicle become seats for shifts. */
const DIRECTIONS: Record<string, readonly [plus: string, minus: string]> = {
  meanSteer: ['left', 'right'],
  axleSteer: ['left', 'right'],
  knuckleSteer: ['left', 'right'],
  bumpSteer: ['left', 'right'],
  steer: ['left', 'right'],
  steeringWheelToStraight: ['left', 'right'],
  toe: ['in', 'out'],
  totalToeChange: ['in', 'out'],
  camber: ['top out', 'top in'],
  pinionAngle: ['up', 'down'],
  pinionChange: ['up', 'down'],
  lateralShift: ['toward left', 'toward right'],
  lateralShiftArc: ['toward left', 'toward right'],
  lateralShiftRoll: ['toward left', 'toward right'],
  lateralShiftGround: ['toward left', 'toward right'],
  foreAftShift: ['forward', 'back'],
  driveshaftSlip: ['longer', 'shorter'],
};

/** + and − of a measure in words of the shop; null where a sign says it. */
export function directionsOf(shop: Shop, id: string): readonly [string, string] | null {
  const words = DIRECTIONS[id];
  if (!words) return null;
  const seated = (text: string): string =>
    text
      .replace('toward left', `toward ${seat(shop, 'left')}`)
      .replace('toward right', `toward ${seat(shop, 'right')}`);
  return [seated(words[0]), seated(words[1])];
}

/** A value in pieces, so that a screen may write them apart: '1', '9/16', 'in toward driver'. */
export interface ValueWords {
  whole: string;
  fraction: string;
  /** Unit and direction behind the number. */
  after: string;
}

/** Digits of what is no length. A value that they show as 0 has no direction. */
const DIGITS: Record<string, number> = { deg: 1, '%': 0, ft: 1, '1': 2, 'in/in': 2, 'deg/deg': 2 };

/**
 * A measure's value in words.
 *
 * @param value as shown: deg, in, …
 * @example valueWords(shop, 'axleSteer', -2, 'deg') // 2.0° right
 */
export function valueWords(shop: Shop, id: string, value: number, unit: string): ValueWords {
  const directions = directionsOf(shop, id);
  const size = Math.abs(value);
  const number =
    unit === 'in' ? formatLength(size, { unit: shop.unit }) : size.toFixed(DIGITS[unit] ?? 0);
  const isZero = Number(number) === 0;
  const sign = value < 0 && !isZero && !directions ? '−' : '';
  const [whole, fraction] =
    unit === 'in'
      ? splitFraction(number)
      : [
          unit === 'lbf' || unit === 'in·lbf'
            ? (amountWords(shop, size, unit).split(' ')[0] ?? number)
            : number,
          '',
        ];
  const direction = directions && !isZero ? ` ${directions[value > 0 ? 0 : 1]}` : '';
  // a degree stands at its number
  const degree = unit.startsWith('deg') ? '°' : '';
  const behind = UNIT_WORDS[unit] ?? (unit === 'in' ? shop.unit : unit);
  return {
    whole: `${sign}${whole}${degree}`,
    fraction,
    after: `${behind}${direction}`.trim(),
  };
}

const UNIT_WORDS: Record<string, string> = {
  '1': '',
  '%': '%',
  deg: '',
  'in/in': 'in per in',
  'deg/deg': 'per °',
};

/** The same on one line, for speech and tooltips. */
export function valueText(shop: Shop, id: string, value: number, unit: string): string {
  const { whole, fraction, after } = valueWords(shop, id, value, unit);
  const number = [whole, fraction].filter(each => each !== '').join(' ');
  return after === '' ? number : `${number} ${after}`;
}
