/** Columns of the chosen measures along a walk of each axle, from the worker; the newest wish wins. */
import { useEffect, useState } from 'react';
import type { Measure } from '../../../geometry/measure/measure.ts';
import type { Against } from '../../charts/chartData.ts';
import type { Both } from '../../worker/compareProtocol.ts';
import { alongAxis, type Columns, WALKS } from '../answers/charts/useColumns.ts';
import type { Rig } from '../state/rig.ts';
import { useShop } from '../state/shop.ts';
import { theDesk } from './followComparison.ts';

/** @param at travels at which the steering goes from lock to lock */
export function useColumnsOfBoth(
  a: Rig,
  b: Rig,
  against: Against,
  measures: readonly Measure[],
  at: readonly [left: number, right: number],
): Both<Columns> | null {
  const stage = useShop(({ comparing }) => comparing?.compared.stage ?? null);
  const [columns, setColumns] = useState<Both<Columns> | null>(null);
  const [left, right] = against === 'steering' ? at : [0, 0];
  const isReady = stage !== null;
  useEffect(() => {
    if (!isReady) return;
    let isOld = false;
    const wanted = measures.flatMap(measure => {
      const inB = measure.targets(b.axle, b.build);
      return measure
        .targets(a.axle, a.build)
        .filter(({ part, side }) => inB.some(each => each.part === part && each.side === side))
        .map(target => ({ id: measure.id, target }));
    });
    const ask = async (): Promise<void> => {
      const told = await (await theDesk()).columns(WALKS[against], wanted, [left, right]);
      if (!told || isOld) return;
      setColumns({ a: alongAxis(a, against, told.a), b: alongAxis(b, against, told.b) });
    };
    void ask();
    return () => {
      isOld = true;
    };
  }, [a, b, isReady, against, measures, left, right]);
  const isOf = columns?.a.rig === a && columns.b.rig === b && columns.a.against === against;
  return isOf ? columns : null;
}
