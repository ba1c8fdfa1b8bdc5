/** What the camera stands by: while a build is changed by hand it stays, whatever the hand does to the axle. */
import { useRef } from 'react';
import type { RangeTold } from '../../worker/protocol.ts';
import type { Rig } from '../state/rig.ts';
import { useShop } from '../state/shop.ts';
import { floorOf, topOf } from './floor.ts';

interface Steady {
  rig: Rig;
  floor: number;
  /** Of the highest tire, in. */
  top: number;
}

/** The axle and its floor as the camera last came to them: when they were opened, or when it was asked to go somewhere. */
export function useSteady(rig: Rig, range: RangeTold | null): Steady {
  const isChanged = useShop(shop => shop.trial !== null || shop.did !== null);
  const asked = useShop(shop => `${shop.look.view} ${shop.look.framing.count}`);
  const kept = useRef<(Steady & { of: string; range: RangeTold | null }) | null>(null);
  const of = `${rig.build.name} ${rig.build.variant} ${rig.axle.name} ${asked}`;
  const now = kept.current;
  const isKept = now?.of === of && (isChanged || (now.rig === rig && now.range === range));
  if (!isKept)
    kept.current = { of, rig, range, floor: floorOf(rig, range), top: topOf(rig, range) };
  return kept.current as Steady;
}
