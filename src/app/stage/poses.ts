/** Poses as the page's state has them, heard outside React. */
import type { PoseSource } from '../../viewer/placed.ts';
import type { Rig } from '../state/rig.ts';
import { useShop } from '../state/shop.ts';

/** Poses of one axle: none once another stands on the page, until the view shows that one. */
export const posesOf = (rig: Rig): PoseSource => ({
  pose: () => {
    const { rig: now, shown } = useShop.getState();
    return now === rig ? shown.pose : null;
  },
  subscribe: hear => useShop.subscribe(shop => shop.shown.pose, hear),
});
