/** What the marked parts sweep over the range: asked of the worker one after the other, kept for this study. */
import { useEffect, useState } from 'react';
import type { Sweep } from '../../viewer/Sweeps.tsx';
import { useShop } from '../state/shop.ts';
import { theWorkshop } from '../state/study.ts';

const NONE: ReadonlyMap<string, Sweep> = new Map();

export function useSwept(): Sweep[] {
  const swept = useShop(shop => shop.look.swept);
  const generation = useShop(shop => shop.results.generation);
  const hasRange = useShop(shop => shop.results.map !== null);
  const [known, setKnown] = useState({ generation, sweeps: NONE });
  const sweeps = known.generation === generation ? known.sweeps : NONE;
  const missing = hasRange ? [...swept].find(name => !sweeps.has(name)) : undefined;

  useEffect(() => {
    if (missing === undefined) return;
    let isGone = false;
    void theWorkshop()
      .swept(missing)
      .then(mesh => {
        if (isGone) return;
        // a part that sweeps nothing is not asked for again
        const sweep = { part: missing, mesh };
        setKnown(({ generation: of, sweeps: before }) => ({
          generation,
          sweeps: new Map(of === generation ? before : NONE).set(missing, sweep),
        }));
      });
    return () => {
      isGone = true;
    };
  }, [missing, generation]);

  return [...swept].flatMap(name => sweeps.get(name) ?? []);
}
