/**
 * The parts of one axle, and of the chassis about it: each with its solid from its own dimensions. Straps and lines have
 * none: how they hang is assumed, and gaps to that would be noise.
 */
import { keepAlike } from '../alike.ts';
import type { Axle, Build } from '../build/build.ts';
import { drawnParts, type MeshReader } from './drawnParts.ts';
import { housingParts, wheelParts } from './housingParts.ts';
import { driveshaftPart, linkParts, swayBarPart } from './linkParts.ts';
import type { Part } from './part.ts';
import { PartList, type PartsProblem } from './partList.ts';
import { rollOf } from './roll.ts';
import { springParts } from './springParts.ts';
import { steeringParts } from './steeringParts.ts';

export type { MeshReader } from './drawnParts.ts';
export type { PartsProblem } from './partList.ts';

/**
 * All parts of an axle with those of the chassis, and what could not be made: the rest goes on without it.
 *
 * @param before those of the same axle before a change: parts that it left as they were are the same objects again
 */
export function partsOf(
  build: Build,
  axle: Axle,
  readMesh: MeshReader,
  before: readonly Part[] = [],
): { parts: Part[]; problems: PartsProblem[] } {
  const list = new PartList();
  linkParts(axle, list);
  housingParts(axle, list);
  steeringParts(axle, list);
  wheelParts(axle, list);
  springParts(axle, list);
  driveshaftPart(axle, list);
  swayBarPart(axle, list);
  drawnParts(build, axle, readMesh, list);
  for (const part of list.parts) part.roll = rollOf(axle, part);
  const isSameList =
    list.parts.length === before.length &&
    list.parts.every(({ name }, i) => name === before[i]?.name);
  // parts may share what they roll with: either all of them keep it or none does
  const parts = isSameList ? list.parts.map((part, i) => keepAlike(before[i], part)) : list.parts;
  return { parts, problems: list.problems };
}
