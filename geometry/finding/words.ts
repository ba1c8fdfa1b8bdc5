/** Poses, parts and amounts in the words of the shop; for text, screens and sheets alike. */
import type { Axle, Build, RodBody, Side } from '../build/build.ts';
import { formatLength } from '../build/format.ts';
import type { PoseName } from '../cycle/walkReport.ts';

/** What words depend on: which side the driver sits on, and what the tape is marked in. */
export type Shop = Pick<Build, 'driverSide' | 'unit'>;

/** How far the steering is turned, of what the stops allow at that pose. */
export type Lock = 'straight' | 'full left' | 'full right' | 'between';

/** 'driver' or 'passenger'. */
export const seat = ({ driverSide }: Shop, side: Side): string =>
  side === driverSide ? 'driver' : 'passenger';

/** Shortest length that a tape shows, in; under it thousandths are told. */
const TAPE_in = 1 / 32;

/** A length as a tape shows it: '5 3/16 in', '0.012 in', '131.8 mm'. */
export function lengthWords({ unit }: Shop, inches: number): string {
  const isSmall = unit === 'in' && Math.abs(inches) < TAPE_in && inches !== 0;
  return `${isSmall ? inches.toFixed(3) : formatLength(inches, { unit })} ${unit}`;
}

/** '5 3/16 up', '2 1/4 down', 'at ride height'. */
export function riseWords({ unit }: Shop, inches: number): string {
  const text = formatLength(Math.abs(inches), { unit });
  if (text === '0') return 'at ride height';
  return `${text} ${inches > 0 ? 'up' : 'down'}`;
}

/** 'both wheels 5 up', 'driver side 6 up, passenger side 5 3/16 down', 'ride height'. */
export function travelWords(shop: Shop, left: number, right: number): string {
  const [words, other] = [riseWords(shop, left), riseWords(shop, right)];
  if (words === other) return words === 'at ride height' ? 'ride height' : `both wheels ${words}`;
  const of = (side: Side): string =>
    `${seat(shop, side)} side ${riseWords(shop, side === 'left' ? left : right)}`;
  const passenger = shop.driverSide === 'left' ? 'right' : 'left';
  return `${of(shop.driverSide)}, ${of(passenger)}`;
}

/** 'full left', 'wheels straight', 'pitman arm 12.0° left', 'ram 1 1/2 in right'; '' where nothing steers. */
export function steerWords(shop: Shop, steer: PoseName['steer'], lock: Lock): string {
  if (!steer) return '';
  if (lock === 'full left' || lock === 'full right') return lock;
  if (lock === 'straight' || steer.value === 0) return 'wheels straight';
  const way = steer.value > 0 ? 'left' : 'right';
  const size = Math.abs(steer.value);
  return steer.unit === 'deg'
    ? `pitman arm ${size.toFixed(1)}° ${way}`
    : `ram ${lengthWords(shop, size)} ${way}`;
}

/** A pose: 'driver side 6 up, passenger side 5 3/16 down, full left'. */
export function poseWords(shop: Shop, pose: PoseName, lock: Lock): string {
  const steer = steerWords(shop, pose.steer, lock);
  const travel = travelWords(shop, pose.left_in, pose.right_in);
  return steer ? `${travel}, ${steer}` : travel;
}

/** An amount in shown units: '1.8°', '5/16 in', '12 %', '1,200 lbf', '0.31'. */
export function amountWords(shop: Shop, value: number, unit: string): string {
  switch (unit) {
    case 'in':
      return lengthWords(shop, value);
    case 'deg':
      return `${value.toFixed(1)}°`;
    case '%':
      return `${value.toFixed(0)} %`;
    case 'lbf':
    case 'in·lbf':
      return `${forceDigits(value)} ${unit}`;
    case 'ft':
      return `${value.toFixed(1)} ft`;
    case '1':
      return value.toFixed(2);
    default:
      return `${value.toFixed(3)} ${unit}`;
  }
}

/** Three digits are more than a rate is known to. */
function forceDigits(value: number): string {
  return Number(value.toPrecision(3)).toLocaleString('en-US');
}

const BODY_WORDS: Partial<Record<RodBody, string>> = { 'ram rod': 'ram' };

/**
 * A part or an end of one, without an article: 'driver lower link', 'axle end of the driver lower link',
 * 'passenger knuckle end of the drag link', 'U-joint at the pinion'.
 */
export function partWords(shop: Shop, axle: Axle, part: string): string {
  const dot = part.lastIndexOf('.');
  const whole = dot < 0 ? part : part.slice(0, dot);
  const end = dot < 0 ? '' : part.slice(dot + 1);
  const words = onSide(shop, whole);
  if (end === '') return words;
  if (end === 'pinion' || end === 'transfer case') return `U-joint at the ${end}`;
  if (end === 'from' || end === 'to') {
    const rods = [axle.steering?.dragLink, ...(axle.steering?.tieRods ?? [])];
    const on = rods.find(rod => rod?.name === whole)?.[end].on;
    if (on) return `${onSide(shop, BODY_WORDS[on] ?? on)} end of the ${words}`;
  }
  if (end === 'axle front' || end === 'axle rear') {
    return `${end.slice(5)} axle joint of the ${words}`;
  }
  return `${end} end of the ${words}`;
}

/** 'left lower link' → 'driver lower link'. */
function onSide(shop: Shop, name: string): string {
  for (const side of ['left', 'right'] as const) {
    if (name.startsWith(`${side} `)) return `${seat(shop, side)} ${name.slice(side.length + 1)}`;
  }
  return name;
}

/** 'the a', 'the a and the b'. */
export const theParts = (shop: Shop, axle: Axle, parts: readonly string[]): string =>
  listed(parts.map(part => `the ${partWords(shop, axle, part)}`));

/** 'a', 'a and b', 'a, b and c'. */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}

/** A sentence's first letter made a capital. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
