/** The two axles with their report, for the sheets of a comparison. */
import { useMemo } from 'react';
import type { Comparison } from '../../../geometry/compare/compare.ts';
import type { Shop as Words } from '../../../geometry/finding/words.ts';
import type { Stage } from '../../worker/compareProtocol.ts';
import type { Rig } from '../state/rig.ts';
import { useShop } from '../state/shop.ts';
import { pageShop } from '../words/shopWords.ts';
import { type Names, namesOf } from './compareWords.ts';

export interface BothKnown {
  a: Rig;
  b: Rig;
  report: Comparison;
  stage: Stage;
  names: Names;
  shop: Words;
}

/** Null until the worker has told something of both. */
export function useBoth(): BothKnown | null {
  const a = useShop(shop => shop.rig);
  const b = useShop(({ comparing }) => comparing?.other?.rig ?? null);
  const report = useShop(({ comparing }) => comparing?.compared.report ?? null);
  const stage = useShop(({ comparing }) => comparing?.compared.stage ?? null);
  const unit = useShop(shop => shop.look.unit);
  return useMemo(() => {
    if (!a || !b || !report || !stage) return null;
    return { a, b, report, stage, names: namesOf(report), shop: pageShop(a.build, unit) };
  }, [a, b, report, stage, unit]);
}
