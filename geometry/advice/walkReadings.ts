/**
 * Lengths of links that the walk around took, as readings of their own: the proposal dissolves each into coordinates
 * that are assumed to an inch, while the tape was off by an eighth.
 */

import type { Vec3 } from '../build/build.ts';
import type { BuildFile } from '../build/schema/file.ts';
import { readAnswers } from '../build/start/answers.ts';
import type { AxleChoice } from '../build/start/layouts.ts';
import { measurementsFor } from '../build/start/measurements.ts';
import { rearName } from '../build/start/rearNames.ts';
import { startIn } from '../build/start/startIn.ts';
import { TAPE_in } from '../build/start/value.ts';
import { distance } from '../vector.ts';
import type { Places, TapeReading } from './tapeCheck.ts';

/** The link that a length is asked of, as the proposal calls it. */
const LINK: Readonly<Record<'lower' | 'upper', (links: AxleChoice['links']) => string>> = {
  lower: links => (links === 'radiusArms' ? 'radius arm' : 'lower link'),
  upper: links => (links === 'wishbone' ? 'upper wishbone leg' : 'upper link'),
};

/**
 * Readings of the answers of a file; empty where it was not started from any. One answer for both sides is one reading,
 * of the left link.
 */
export function walkReadings(file: BuildFile): TapeReading[] {
  const start = startIn(file);
  if (!start) return [];
  const { read } = readAnswers(start);
  const { axles, driverSide } = start.layout;
  return measurementsFor(start.layout).flatMap(({ id, label, axle: name }): TapeReading[] => {
    const [, what] = /\.(lower|upper)Length$/.exec(id) ?? [];
    const answer = read.get(id);
    const axle = axles.find(each => each.name === name);
    if (!answer || !axle || (what !== 'lower' && what !== 'upper')) return [];
    const asked = LINK[what](axle.links);
    const link = axle.name === 'rear' && axles.length > 1 ? rearName(asked) : asked;
    const called = axles.length > 1 ? `${axle.name} ${label}` : label;
    const sides = answer.typed === null ? (['left', 'right'] as const) : (['left'] as const);
    return sides.map(side => {
      const words = side === driverSide ? 'driver' : 'passenger';
      return {
        name: `${answer.typed === null ? `${words} ${called}` : called}, in the walk around`,
        value: answer[side],
        tolerance: TAPE_in,
        unit: 'in',
        of: places => lengthOf(places, `${side} ${link}`) ?? lengthOf(places, link),
      };
    });
  });
}

/** Bolt to bolt; from the middle of the two axle bolts of a radius arm. */
function lengthOf(places: Places, link: string): number | null {
  const ends = ['axle', 'axle front', 'axle rear'].flatMap(end => {
    const at = places.point(`${link}.${end}`);
    return at ? [at] : [];
  });
  const frame = places.point(`${link}.chassis`);
  if (!frame || ends.length === 0) return null;
  const sum = ends.reduce(([x, y, z], at): Vec3 => [x + at[0], y + at[1], z + at[2]], [0, 0, 0]);
  const count = ends.length;
  return distance([sum[0] / count, sum[1] / count, sum[2] / count], frame);
}
