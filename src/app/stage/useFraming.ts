/** Where the camera is to stand, from the view, from what was asked to be framed, and from the room on the stage. */
import { useEffect, useMemo, useRef } from 'react';
import type { Axle, Build } from '../../../geometry/build/build.ts';
import { add, scale, sub, unit, type V3 } from '../../../geometry/vector.ts';
import {
  CORNER_FOV,
  corners,
  directionOf,
  type Framing,
  type Free,
  fit as frameBox,
  type Size,
  STRAIGHT_FOV,
  type ViewName,
} from '../../viewer/framing.ts';
import { carry, Placed } from '../../viewer/placed.ts';
import { extentOf } from '../../viewer/shapes/solids.ts';
import { isFrame } from '../../viewer/showing.ts';
import { clearestDirection } from '../../viewer/sight.ts';
import { pairOf } from '../answers/facts.ts';
import type { Rig } from '../state/rig.ts';
import { type Shop, useShop } from '../state/shop.ts';
import { freeOf } from './free.ts';
import { useTaken } from './taken.ts';

export function useFraming(
  rig: Rig,
  size: Size | null,
  floor: number,
  top: number,
): { framing: Framing | null; count: number } {
  const view = useShop(shop => shop.look.view);
  const asked = useShop(shop => shop.look.framing);
  const isAlone = useShop(shop => shop.look.isAxleAlone);
  const hasSection = useShop(shop => sectionPair(shop) !== null);
  const setTaken = useTaken(state => state.setTaken);
  const count = useRef({ of: '', n: 0 });
  const of = `${view} ${asked.count}`;
  if (count.current.of !== of) count.current = { of, n: count.current.n + 1 };
  // biome-ignore lint/correctness/useExhaustiveDependencies: each wish gives the camera back to the view
  useEffect(() => setTaken(false), [of, setTaken]);

  const framing = useMemo(() => {
    if (!size) return null;
    const free = freeOf(size, isAlone, hasSection);
    const whole = wholeAxle(rig, view, size, free, floor, top);
    const shop = useShop.getState();
    const spot = asked.spot ?? spotOf(shop);
    if (spot) return aboutSpot(rig, shop, view, spot, size, free, floor, top);
    if (asked.part !== null) return aboutPart(rig, shop, asked.part, whole, size, free) ?? whole;
    return whole;
  }, [rig, view, size, floor, top, isAlone, hasSection, asked]);
  return { framing, count: count.current.n };
}

function wholeAxle(
  { axle, build }: { axle: Axle; build: Build },
  view: ViewName,
  size: Size,
  free: Free,
  floor: number,
  top: number,
  direction = directionOf(view, axle.name, build.driverSide),
): Framing {
  const [x, , z] = axle.origin;
  const reach = axle.tire.diameter / 2;
  const aside = (axle.wheelCenters + axle.tire.width) / 2;
  const isCorner = view === 'corner';
  const low = isCorner ? floor + 8 : floor;
  // flexed, tires reach out beyond where they stand
  const box = corners([x - 0.8 * reach, -aside - 2, low], [x + 0.8 * reach, aside + 2, top]);
  const fov = isCorner ? CORNER_FOV : STRAIGHT_FOV;
  return frameBox(box, [x, 0, z - 5], direction, fov, size, free);
}

/** The pair whose section is set into the stage. */
function sectionPair({ look, results }: Pick<Shop, 'look' | 'results'>) {
  const finding = look.finding === null ? undefined : results.findings[look.finding];
  return finding ? pairOf(results.gaps, finding) : null;
}

/** The tightest spot of the chosen finding; null where it is not about two parts. */
function spotOf({ look, results }: Shop): V3 | null {
  const finding = look.finding === null ? undefined : results.findings[look.finding];
  // a part that was asked for is not a finding's spot
  if (!finding || look.framing.part !== (finding.parts[0] ?? null)) return null;
  const pair = sectionPair({ look, results });
  return pair ? scale(add(pair.pointA, pair.pointB), 0.5) : null;
}

/** How far a spot draws the camera to itself, and how much of the whole axle is then still seen. */
const TO_SPOT = 0.3;
const NEARER = 0.88;
const ROOMY_px = 880;

function aboutSpot(
  { axle, build, parts }: Rig,
  shop: Shop,
  view: ViewName,
  spot: V3,
  size: Size,
  free: Free,
  floor: number,
  top: number,
): Framing {
  let direction = directionOf(view, axle.name, build.driverSide);
  if (view === 'corner') {
    const [x, y, z] = direction;
    const finding = shop.results.findings[shop.look.finding ?? -1];
    const placed = new Placed(parts);
    placed.stand(shop.shown.pose);
    const isInTheWay = ({ name, of, kind, ...part }: (typeof parts)[number]): boolean =>
      !finding?.parts.includes(name) && !isFrame({ name, of, kind, ...part });
    direction = clearestDirection(
      spot,
      parts,
      placed.places,
      isInTheWay,
      [
        direction,
        [x, -y, z],
        [0.8 * x, 2.2 * y, z],
        [0.8 * x, -2.2 * y, z],
        [x, y, -0.15],
        [-x, y, z],
        [-x, -y, z],
      ].map(each => unit(each as unknown as V3)),
    );
  }
  const around = wholeAxle({ axle, build }, view, size, free, floor, top, direction);
  // where there is little room, all of the axle stays beside the sentence
  if (size.width < ROOMY_px) return around;
  const target = add(around.target, scale(sub(spot, around.target), TO_SPOT));
  return { ...around, target, height: around.height * NEARER };
}

/** Least half size of what is framed, in. */
const LEAST_in = 7;

function aboutPart(
  { parts }: Rig,
  shop: Shop,
  name: string,
  whole: Framing,
  size: Size,
  free: Free,
): Framing | null {
  const own = parts.filter(part => part.name === name || part.of === name);
  if (own.length === 0) return null;
  const placed = new Placed(parts);
  placed.stand(shop.shown.pose);
  const points: V3[] = [];
  const at = { x: 0, y: 0, z: 0 };
  for (const part of own) {
    const { low, high } = extentOf(part);
    const middle = scale(add(low, high), 0.5);
    const half = sub(high, middle).map(each => Math.max(LEAST_in, 1.1 * each)) as unknown as V3;
    for (const corner of corners(sub(middle, half), add(middle, half))) {
      carry(placed.places[placed.indexOf(part.name)] as Float64Array, corner, at);
      points.push([at.x, at.y, at.z]);
    }
  }
  const sum = points.reduce((total, point) => add(total, point), [0, 0, 0] as V3);
  const target = scale(sum, 1 / points.length);
  return frameBox(points, target, whole.direction, whole.fov, size, free);
}
