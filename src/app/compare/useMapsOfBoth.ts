/** Both axles' maps of what the travel map shows, on one grid, with what differs between them. */
import { useEffect, useMemo, useState } from 'react';
import { INCH_mm } from '../../../geometry/build/units.ts';
import { type Bands, gapBands, measureBands, valuesInside } from '../../charts/bands.ts';
import {
  type DifferenceBands,
  measureDifference,
  roomDifference,
} from '../../charts/differenceBands.ts';
import { measureScale } from '../../charts/measureScale.ts';
import type { Both } from '../../worker/compareProtocol.ts';
import type { GapMap, MeasureMap } from '../../worker/protocol.ts';
import { type MapOf, useShop } from '../state/shop.ts';
import { theDesk } from './followComparison.ts';

export interface MapsOfBoth {
  bands: Both<Bands>;
  difference: DifferenceBands;
  /** Unit of a measure's values, lengths in in; '' for parts of the wanted gap. */
  unit: string;
  of: MapOf;
}

type Asked = { key: string; gaps: Both<GapMap> | null; measures: Both<MeasureMap> | null };

/** Null until the worker has them. */
export function useMapsOfBoth(): MapsOfBoth | null {
  const of = useShop(shop => shop.look.mapOf);
  const maps = useShop(({ comparing }) => comparing?.compared.maps ?? null);
  const unit = useShop(shop => shop.look.unit);
  const asked = useAsked(of, maps);
  const gaps = of.kind === 'gap' ? maps : (asked?.gaps ?? null);
  const measures = asked?.measures ?? null;
  return useMemo(() => {
    if (gaps) {
      const { a, b } = gaps;
      return {
        bands: { a: gapBands(a), b: gapBands(b) },
        difference: roomDifference(a, b),
        unit: '',
        of,
      };
    }
    if (!measures) return null;
    const { a, b } = measures;
    const isLength = a.unit === 'in';
    const isTape = isLength && unit === 'in';
    const perValue = isLength && !isTape ? INCH_mm : 1;
    const round = isTape ? 'tape' : 'decimal';
    const scale = measureScale([...valuesInside(a), ...valuesInside(b)], perValue, round);
    return {
      bands: {
        a: measureBands(a, perValue, round, scale),
        b: measureBands(b, perValue, round, scale),
      },
      difference: measureDifference(a, b, perValue, round),
      unit: a.unit,
      of,
    };
  }, [gaps, measures, unit, of]);
}

function useAsked(of: MapOf, maps: Both<GapMap> | null): Asked | null {
  const [answer, setAnswer] = useState<Asked | null>(null);
  const key = of.kind === 'gap' ? '' : JSON.stringify(of);
  useEffect(() => {
    if (of.kind === 'gap' || !maps) return;
    let isGone = false;
    const ask = async (): Promise<void> => {
      const desk = await theDesk();
      const gaps = of.kind === 'pair' ? await desk.pairMaps(of.a, of.b) : null;
      const measures = of.kind === 'measure' ? await desk.measureMaps(of.id, of.target) : null;
      if (!isGone) setAnswer({ key, gaps, measures });
    };
    void ask();
    return () => {
      isGone = true;
    };
  }, [of, maps, key]);
  return answer?.key === key ? answer : null;
}
