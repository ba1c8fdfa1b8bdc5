/** The axle that is compared with the one on the page, for the 3D view. */
import { useMemo } from 'react';
import type { Beside } from '../../viewer/OtherAxle.tsx';
import type { PoseSource } from '../../viewer/placed.ts';
import { type Shop, useShop } from '../state/shop.ts';

const poseBeside = ({ comparing }: Shop) =>
  comparing && !comparing.isBeyond ? comparing.shown.pose : null;

const POSES: PoseSource = {
  pose: () => poseBeside(useShop.getState()),
  subscribe: hear => useShop.subscribe(poseBeside, hear),
};

export function useBeside(): Beside | null {
  const other = useShop(({ comparing }) => comparing?.other ?? null);
  const isThere = useShop(({ comparing }) => comparing !== null && !comparing.isBeyond);
  return useMemo(() => {
    if (!other) return null;
    const { build, axle, parts } = other.rig;
    return { build, axle, parts, poses: POSES, isThere };
  }, [other, isThere]);
}
