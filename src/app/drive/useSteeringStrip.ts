/** What is left over the steering where the handle stands: the newest is asked for, and the last shown until then. */
import { useEffect, useRef } from 'react';
import type { GapStrip } from '../../worker/protocol.ts';
import { useShop } from '../state/shop.ts';
import { theWorkshop } from '../state/study.ts';

/** A strip that is kept outside of React's state: `changed` is called with each new one. */
export function useSteeringStrip(changed: () => void): { readonly current: GapStrip | null } {
  const strip = useRef<GapStrip | null>(null);
  const told = useRef(changed);
  told.current = changed;
  useEffect(() => {
    let isBusy = false;
    let isStale = false;
    let isGone = false;
    const ask = async (): Promise<void> => {
      isStale = true;
      if (isBusy) return;
      isBusy = true;
      while (isStale && !isGone) {
        isStale = false;
        const { shown, rig, results } = useShop.getState();
        if (!rig?.axle.steered || !results.map) break;
        const { left, right } = shown.handle;
        const answer = await theWorkshop().steeringStrip(left, right);
        if (isGone || !answer) break;
        strip.current = answer;
        told.current();
      }
      isBusy = false;
    };
    const ends = [
      useShop.subscribe(({ shown, results }, before) => {
        const [now, then] = [shown.handle, before.shown.handle];
        if (results.generation !== before.results.generation) strip.current = null;
        if (
          now.left !== then.left ||
          now.right !== then.right ||
          results.map !== before.results.map
        )
          void ask();
      }),
    ];
    void ask();
    return () => {
      isGone = true;
      for (const end of ends) end();
    };
  }, []);
  return strip;
}
