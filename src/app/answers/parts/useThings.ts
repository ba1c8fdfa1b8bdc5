/** The things of the build on the page. */
import { useMemo } from 'react';
import { useShop } from '../../state/shop.ts';
import { type Thing, thingsOf } from './things.ts';

export function useThings(): readonly Thing[] {
  const rig = useShop(shop => shop.rig);
  return useMemo(() => (rig ? thingsOf(rig.build, rig.axle.name, rig.parts) : []), [rig]);
}
