/** The section of a pair of parts at the pose where the search found them nearest. */
import type { PairReport } from '../../../geometry/gap/gapReport.ts';
import { type FoundPairs, pairsOf } from '../../../geometry/gap/pairs.ts';
import type { Part } from '../../../geometry/gap/part.ts';
import { placePart, placeRolled } from '../../../geometry/gap/place.ts';
import { SHOWN } from '../../../geometry/measure/measure.ts';
import type { Pose } from '../../../geometry/pose/pose.ts';
import { type Placement, unmoved } from '../../../geometry/solid/placement.ts';
import type { Solid } from '../../../geometry/solid/solid.ts';
import { type Section, sectionOf } from '../../charts/section.ts';
import type { Rig } from '../state/rig.ts';
import { poseOf } from '../words/shopWords.ts';

/** Pictures are up to this much wider than high. */
const COVER = 2;

const made = new WeakMap<PairReport, { rig: Rig; section: Section | null }>();

/** Cuts through a pair where the search found it nearest; null where its parts or its pose are gone. */
export function pairSection(rig: Rig, pair: PairReport): Section | null {
  const known = made.get(pair);
  if (known?.rig === rig) return known.section;
  const section = cut(rig, pair);
  made.set(pair, { rig, section });
  return section;
}

function cut(rig: Rig, pair: PairReport): Section | null {
  const pose = poseOf(rig, pair.pose);
  const own = ownPair(rig, pair.a, pair.b);
  if (!pose || !own) return null;
  const roll = (part: Part): number | undefined =>
    pair.pose.linkRoll_deg?.[part.roll?.of.name ?? part.name];
  const placeA = placedAt(own.a, pose, roll(own.a));
  const placeB = placedAt(own.b, pose, roll(own.b));
  if (!placeA || !placeB) return null;
  return sectionOf(
    { solid: own.solidA, place: placeA },
    { solid: own.solidB, place: placeB },
    { cover: COVER, cells: 128 },
  );
}

export interface OwnPair {
  a: Part;
  b: Part;
  /** What of each is compared. */
  solidA: Solid;
  solidB: Solid;
}

/** How two parts were compared last: it holds for parts that are the same as long as the same is wanted. */
const compared = new WeakMap<Part, WeakMap<Part, FoundPairs>>();

/** Two parts of a rig as the search compares them; null where one of them is not there. */
export function ownPair(rig: Rig, first: string, second: string): OwnPair | null {
  const a = rig.parts.find(({ name }) => name === first);
  const b = rig.parts.find(({ name }) => name === second);
  if (!a || !b) return null;
  const ofA = compared.get(a) ?? new WeakMap();
  compared.set(a, ofA);
  const found = pairsOf(rig.build, rig.axle.name, [a, b], { before: ofA.get(b) ?? null });
  ofA.set(b, found);
  return found.pairs[0] ?? { a, b, solidA: a.solid, solidB: b.solid };
}

function placedAt(part: Part, pose: Pose, roll_deg: number | undefined): Placement | null {
  const place = unmoved();
  if (roll_deg === undefined) placePart(part, pose, place);
  else if (!placeRolled(part, pose, roll_deg / SHOWN.deg, place)) return null;
  return place;
}
