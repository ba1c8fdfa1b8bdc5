/** What the last change did, as far as it is known; null where there was none or it was put away. */
import { useMemo } from 'react';
import { type WhatItDid, whatItDid } from '../../edit/whatItDid.ts';
import type { Rig } from '../../state/rig.ts';
import { useShop } from '../../state/shop.ts';

export interface DidKnown extends WhatItDid {
  rig: Rig;
  steps: readonly string[];
  /** The last of them was undone or done again. */
  isStepBack: boolean;
  /** False while it is still being checked. */
  isFinal: boolean;
}

export function useDid(): DidKnown | null {
  const did = useShop(shop => (shop.did?.isPutAway === false ? shop.did : null));
  const rig = useShop(shop => shop.rig);
  const isFinal = useShop(shop => shop.results.isFinal && shop.trial === null);
  const findings = useShop(shop => shop.results.findings);
  const gaps = useShop(shop => shop.results.gaps);
  return useMemo(() => {
    if (!did || !rig) return null;
    const wholes = new Map(rig.parts.map(({ name, of }) => [name, of]));
    const found = whatItDid(did.before, { findings, gaps }, part => wholes.get(part) ?? part);
    return { ...found, rig, steps: did.steps, isStepBack: did.isStepBack, isFinal };
  }, [did, rig, isFinal, findings, gaps]);
}
