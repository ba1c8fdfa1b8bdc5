/** Poses as the page's state has them, heard outside React. */
import type { PoseSource } from '../../viewer/placed.ts';
import { useShop } from '../state/shop.ts';

export const poses: PoseSource = {
  pose: () => useShop.getState().shown.pose,
  subscribe: hear => useShop.subscribe(shop => shop.shown.pose, hear),
};
