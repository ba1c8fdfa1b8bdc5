/** What the travel map shows, and the worker asked for it where the study does not tell it by itself. */
import { useEffect, useMemo, useState } from 'react';
import { INCH_mm } from '../../../geometry/build/units.ts';
import { type Bands, gapBands, measureBands } from '../../charts/bands.ts';
import type { GapMap, MeasureMap } from '../../worker/protocol.ts';
import { type MapOf, useShop } from '../state/shop.ts';
import { theWorkshop } from '../state/study.ts';

export interface MapShown {
  of: MapOf;
  bands: Bands | null;
  /** Of gaps: the map that is read for the spoken value. */
  gaps: GapMap | null;
  measure: MeasureMap | null;
}

type Asked = { key: string; gaps: GapMap | null; measure: MeasureMap | null };

export function useMapShown(): MapShown {
  const of = useShop(shop => shop.look.mapOf);
  const map = useShop(shop => shop.results.map);
  const unit = useShop(shop => shop.look.unit);
  const asked = useAsked(of, map);
  const gaps = of.kind === 'gap' ? map : of.kind === 'pair' ? (asked?.gaps ?? null) : null;
  const measure = of.kind === 'measure' ? (asked?.measure ?? null) : null;
  const bands = useMemo(() => {
    if (gaps) return gapBands(gaps);
    if (!measure) return null;
    const isLength = measure.unit === 'in';
    const isTape = isLength && unit === 'in';
    return measureBands(measure, isLength && !isTape ? INCH_mm : 1, isTape ? 'tape' : 'decimal');
  }, [gaps, measure, unit]);
  return useMemo(() => ({ of, bands, gaps, measure }), [of, bands, gaps, measure]);
}

/** The worker's answer for a pair or a measure; asked again whenever the study has a better map. */
function useAsked(of: MapOf, map: GapMap | null): Asked | null {
  const [answer, setAnswer] = useState<Asked | null>(null);
  const key = of.kind === 'gap' ? '' : JSON.stringify(of);
  useEffect(() => {
    if (of.kind === 'gap' || !map) return;
    let isGone = false;
    const ask = async (): Promise<void> => {
      const workshop = theWorkshop();
      const gaps = of.kind === 'pair' ? await workshop.pairMap(of.a, of.b) : null;
      const measure = of.kind === 'measure' ? await workshop.measureMap(of.id, of.target) : null;
      if (!isGone && (gaps || measure)) setAnswer({ key, gaps, measure });
    };
    void ask();
    return () => {
      isGone = true;
    };
  }, [of, map, key]);
  return answer?.key === key ? answer : null;
}
