/** Values, differences and poses of a comparison in the words of the shop. */
import { amountWords, type Shop, seat, travelWords } from '../finding/words.ts';
import type { At } from './places.ts';
import type { WayRow } from './ranges.ts';
import type { Subject } from './subjects.ts';

/** A value of a subject: '1.6° nose down', '3/4 in to the driver side', '47 %', 'nothing'. */
export function valueWords(
  shop: Shop,
  value: number,
  unit: string,
  signs: Subject['signs'],
): string {
  if (signs === null) return sizeWords(shop, value, unit);
  if (value === 0) return 'nothing';
  const [plus, minus] =
    signs === 'sides'
      ? [`to the ${seat(shop, 'left')} side`, `to the ${seat(shop, 'right')} side`]
      : signs;
  return `${sizeWords(shop, Math.abs(value), unit)} ${value < 0 ? minus : plus}`;
}

/** A difference without its sign; of shares in points, since it is no share of them. */
export const differenceWords = (shop: Shop, value: number, unit: string): string =>
  unit === '%' ? `${value.toFixed(0)} points` : sizeWords(shop, value, unit);

function sizeWords(shop: Shop, value: number, unit: string): string {
  if (value === 0) return 'nothing';
  return unit === 'deg/deg' ? `${value.toFixed(3)}°` : amountWords(shop, value, unit);
}

/** 'both wheels 5 up', 'flexed, driver side 8 3/4 up, …', 'at full left lock'. */
export function whereWords(shop: Shop, { pose, left_in, right_in }: At): string {
  switch (pose) {
    case 'ride':
      return 'at ride height';
    case 'fullLeft':
      return 'at full left lock';
    case 'fullRight':
      return 'at full right lock';
    default: {
      const travel = travelWords(shop, left_in, right_in);
      return left_in === right_in ? travel : `flexed, ${travel}`;
    }
  }
}

/** What goes which way: 'both wheels drop', 'the driver side flexes up'. */
export function wayWords(shop: Shop, way: WayRow['way']): string {
  switch (way) {
    case 'fullBump':
      return 'both wheels go up';
    case 'fullDroop':
      return 'both wheels drop';
    case 'crossedLeftUp':
      return `the ${seat(shop, 'left')} side flexes up`;
    case 'crossedRightUp':
      return `the ${seat(shop, 'right')} side flexes up`;
    case 'fullLeft':
      return 'the steering input goes left';
    case 'fullRight':
      return 'the steering input goes right';
  }
}
