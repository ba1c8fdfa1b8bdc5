/** What a given length does at ride height, in words of the shop. */
import type { Axle } from '../../../geometry/build/build.ts';
import type { LengthEffect } from '../../../geometry/cycle/lengthEffect.ts';
import {
  amountWords,
  lengthWords,
  partWords,
  type Shop,
  seat,
} from '../../../geometry/finding/words.ts';

/** Less than this is told as none: far under a mark of the tape, and under what a level shows. */
const STILL_in = 0.005;
const STILL_deg = 0.05;

/** Rows of what it does and by how much: ['Axle', '3/8 in forward, 1/16 in toward the driver side']. */
export function effectWords(
  shop: Shop,
  axle: Axle,
  { shift_in, yaw_deg, pinion_deg, wheels_deg, bind }: LengthEffect,
): [what: string, words: string][] {
  const [x, y] = shift_in;
  const shifts = [
    Math.abs(x) < STILL_in
      ? ''
      : `${lengthWords(shop, Math.abs(x))} ${x > 0 ? 'forward' : 'rearward'}`,
    Math.abs(y) < STILL_in
      ? ''
      : `${lengthWords(shop, Math.abs(y))} toward the ${seat(shop, y > 0 ? 'left' : 'right')} side`,
  ].filter(each => each !== '');
  const turn = (degrees: number, more: string, less: string): string =>
    Math.abs(degrees) < STILL_deg
      ? ''
      : `${Math.abs(degrees).toFixed(1)}° ${degrees > 0 ? more : less}`;
  const rows: [string, string][] = [
    ['Axle', shifts.join(', ') || 'stays where it is'],
    ['Seen from above', turn(yaw_deg, 'to the left', 'to the right') || 'not turned'],
  ];
  if (pinion_deg !== null)
    rows.push(['Pinion', turn(pinion_deg, 'further up', 'further down') || 'as before']);
  if (wheels_deg) {
    const sides = (['left', 'right'] as const).flatMap(side => {
      const words = turn(wheels_deg[side], 'to the left', 'to the right');
      return words === '' ? [] : [`${seat(shop, side)} ${words}`];
    });
    if (sides.length > 0) rows.push(['Wheels', sides.join(', ')]);
  }
  const { stretch_in, stretchOf, force_lbf, forceOf } = bind.after;
  const isBound = Math.abs(stretch_in) >= BIND_in && stretchOf !== null;
  const force =
    forceOf !== null && Math.abs(force_lbf) >= 1
      ? `, ${amountWords(shop, Math.abs(force_lbf), 'lbf')} at the ${partWords(shop, axle, forceOf)}`
      : '';
  rows.push([
    'Bind',
    isBound
      ? `${lengthWords(shop, Math.abs(stretch_in))} at the ${partWords(shop, axle, stretchOf)}${force}`
      : 'none',
  ]);
  return rows;
}

/** A thousandth: less is rounding or no matter, in. */
const BIND_in = 0.001;
