/** The chosen part's points that a hand can take in the view, and what the hand does with them. */
import { useMemo } from 'react';
import { formatLength } from '../../../geometry/build/format.ts';
import { acrossOf, type Grip, type GripSpot, gripsOf } from '../../../geometry/build/grips.ts';
import type { V3 } from '../../../geometry/vector.ts';
import type { GripHand } from '../../viewer/grips/Grips.tsx';
import type { GripMark } from '../../viewer/grips/grip.ts';
import { isBare, isSpotOf } from '../edit/chosenSpot.ts';
import {
  gripWords,
  keepNudged,
  letGo,
  moveHeld,
  nudge,
  putBack,
  readyToMove,
  takeHold,
} from '../edit/drag.ts';
import { axesOfView, moveOf } from '../edit/moveKeys.ts';
import { choosePoint, useMover } from '../edit/mover.ts';
import type { Rig } from '../state/rig.ts';
import { useShop } from '../state/shop.ts';

interface Spotted {
  grip: Grip;
  spot: GripSpot;
  /** Of a part that is drawn by many points: they go together. */
  whole: readonly Grip[];
}

const STILL: V3 = [0, 0, 0];
const idOf = ({ grip, spot }: Spotted): string => `${grip.path} ${spot.image ?? ''}`;

/** Sideways is turned round on the right of a mirrored part. */
function sided([x, y, z]: V3, spot: GripSpot): V3 {
  return [x, y === 0 ? 0 : y * acrossOf(spot), z];
}

export function useGrips(rig: Rig): { grips: GripMark[]; hand: GripHand } {
  const part = useShop(shop => shop.look.part);
  const by = useShop(shop => shop.trial?.by ?? STILL);
  const isComparing = useShop(shop => shop.comparing !== null);
  const { point, together } = useMover();
  const spotted = useMemo(
    () => (isComparing ? [] : spottedOf(rig, part, point, together)),
    [rig, part, point, together, isComparing],
  );
  const grips = useMemo(
    () =>
      spotted.map((each): GripMark => {
        const { grip, spot, whole } = each;
        const isHeld = grip.path === point && isHand(rig, grip, spot, part);
        const isAlong = grip.path === point || together.has(grip.path);
        return {
          id: idOf(each),
          label: gripWords(grip),
          on: spot.on,
          part: spot.part,
          at: whole.length > 1 ? middleOf(whole, spot) : spot.at,
          state: isHeld ? 'held' : isAlong ? 'along' : 'free',
          by: isHeld || isAlong ? sided(by, spot) : STILL,
        };
      }),
    [spotted, rig, part, point, together, by],
  );
  const hand = useMemo((): GripHand => handOf(rig, spotted), [rig, spotted]);
  return { grips, hand };
}

/** Whether the hand is on this one of a point's places: on the chosen part, or the first of a datum. */
const isHand = (rig: Rig, { spots }: Grip, spot: GripSpot, part: string | null): boolean =>
  part === null ? spot === spots[0] : isSpotOf(rig, spot, part);

/** Points of the chosen part, and once one is held those that go with it, on both sides. */
function spottedOf(
  rig: Rig,
  part: string | null,
  point: string | null,
  together: ReadonlySet<string>,
): Spotted[] {
  const all = gripsOf(rig.build, rig.axle);
  const isDrawn = (grip: Grip): boolean => grip.path.startsWith('solids');
  const out: Spotted[] = [];
  for (const grip of all) {
    const thing = /^solids\["(?:[^"\\]|\\.)*"\]/.exec(grip.path)?.[0];
    const whole = thing ? all.filter(({ path }) => path.startsWith(`${thing}.`)) : [grip];
    // of many points the first stands for the part
    if (isDrawn(grip) && whole[0] !== grip) continue;
    const isAlong = grip.path === point || together.has(grip.path);
    // with no part chosen a datum can be held, which is none
    if (part === null && !(isAlong && grip.spots.every(spot => isBare(rig, spot)))) continue;
    const isOwn = grip.spots.some(spot => isSpotOf(rig, spot, part));
    for (const spot of grip.spots) {
      if (isSpotOf(rig, spot, part) || (isAlong && (isOwn || point !== null))) {
        out.push({ grip, spot, whole });
      }
    }
  }
  // ends lie over the bends that are near to them, what is held over all
  const over = ({ grip, spot }: Spotted): number =>
    (spot.on === null ? 0 : 1) + (grip.path === point ? 2 : 0);
  return out.sort((a, b) => over(a) - over(b));
}

function middleOf(whole: readonly Grip[], spot: GripSpot): V3 {
  const points = whole.flatMap(({ spots }) => spots.filter(({ part }) => part === spot.part));
  const sum = (axis: 0 | 1 | 2): number => points.reduce((all, { at }) => all + at[axis], 0);
  return [sum(0) / points.length, sum(1) / points.length, sum(2) / points.length];
}

function handOf(rig: Rig, spotted: readonly Spotted[]): GripHand {
  const find = (id: string): Spotted | undefined => spotted.find(each => idOf(each) === id);
  const choose = (id: string): void => {
    const found = find(id);
    void readyToMove();
    keepNudged();
    if (!found || found.grip.path === useMover.getState().point) return;
    choosePoint(found.grip.path, found.whole.length > 1 ? found.whole.map(({ path }) => path) : []);
  };
  return {
    choose,
    take: takeHold,
    move: (id, by) => {
      const spot = find(id)?.spot;
      moveHeld(spot ? sided(by, spot) : by);
    },
    letGo,
    putBack,
    key(id, event) {
      const found = find(id);
      if (!found) return false;
      if (event.key === 'Enter' || event.key === ' ') {
        if (useShop.getState().trial) keepNudged();
        else choose(id);
        return true;
      }
      const { view } = useShop.getState().look;
      const axes = axesOfView(view, rig.axle.name, rig.build.driverSide);
      const move = moveOf(event.nativeEvent, axes, acrossOf(found.spot));
      if (!move) return false;
      choose(id);
      void nudge(move.axis, move.marks);
      return true;
    },
  };
}

/** A moved amount on its tag: '+3/4'. */
export function useMovedWords(): (inches: number) => string {
  const unit = useShop(shop => shop.look.unit);
  return useMemo(
    () => inches =>
      `${inches < 0 ? '−' : '+'}${formatLength(Math.abs(inches), { unit, denominator: 64 })}`,
    [unit],
  );
}
