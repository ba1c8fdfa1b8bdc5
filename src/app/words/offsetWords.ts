/** Offsets from a place, and places to tape from, in words of the shop. */
import { pathSteps, valueAt } from '../../../geometry/build/address.ts';
import type { Build, Place } from '../../../geometry/build/build.ts';
import { seat } from '../../../geometry/finding/words.ts';
import type { Rig } from '../state/rig.ts';
import { placeWords } from '../tape/placeWords.ts';
import { seated } from './shopWords.ts';

/** 'rearward of', 'outboard of', 'below': which way something is from a place; sideways of a mirrored part is out and in. */
export function offsetWay(
  build: Pick<Build, 'driverSide'>,
  axis: 0 | 1 | 2,
  way: 1 | -1,
  isMirrored: boolean,
): string {
  if (axis === 0) return way === 1 ? 'forward of' : 'rearward of';
  if (axis === 2) return way === 1 ? 'above' : 'below';
  if (isMirrored) return way === 1 ? 'outboard of' : 'inboard of';
  return `${seat({ ...build, unit: 'in' }, way === 1 ? 'left' : 'right')} side of`;
}

/** A place that a tape starts from: 'ground below the front axle', 'driver rail bottom', 'frame end of the track bar'. */
export function startWords(rig: Rig, { name, path }: Pick<Place, 'name' | 'path'>): string {
  if (name === 'ground' || name === 'centerline') return 'ground below the front axle';
  if (path?.startsWith('datums')) return seated(rig.build, name);
  return placeWords(rig, name);
}

/** A point as it is written in a file. */
export function pointWritten(file: unknown, path: string): unknown {
  const steps = pathSteps(file, path);
  return steps && valueAt(file, steps);
}
