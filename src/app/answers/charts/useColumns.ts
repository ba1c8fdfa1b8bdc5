/** Columns of the chosen measures along a walk, from the worker; the newest wish wins. */
import { useEffect, useState } from 'react';
import type { WalkName } from '../../../../geometry/cycle/walk.ts';
import type { Measure } from '../../../../geometry/measure/measure.ts';
import { type Against, onAxis } from '../../../charts/chartData.ts';
import type { MeasureColumn, Place } from '../../../worker/protocol.ts';
import type { Rig } from '../../state/rig.ts';
import { useShop } from '../../state/shop.ts';
import { theWorkshop } from '../../state/study.ts';
import { innerTire } from '../../words/shopWords.ts';

export interface Columns {
  rig: Rig;
  against: Against;
  /** Ascending places on the axis, in or deg. */
  x: Float64Array;
  places: Place[];
  columns: MeasureColumn[];
}

/** The walk whose places stand along each axis. */
export const WALKS: Record<Against, WalkName> = {
  both: 'both',
  flexed: 'crossed-left-up',
  steering: 'lock-to-lock',
};

/** @param at travels at which the steering goes from lock to lock */
export function useColumns(
  against: Against,
  measures: readonly Measure[],
  at: readonly [left: number, right: number],
): Columns | null {
  const rig = useShop(shop => shop.rig);
  const isReady = useShop(shop => shop.results.map !== null);
  const [columns, setColumns] = useState<Columns | null>(null);
  const [left, right] = against === 'steering' ? at : [0, 0];
  useEffect(() => {
    if (!rig || !isReady) return;
    let isOld = false;
    const { axle, build } = rig;
    const wanted = measures.flatMap(measure =>
      measure.targets(axle, build).map(target => ({ id: measure.id, target })),
    );
    void theWorkshop()
      .columns(WALKS[against], wanted, [left, right])
      .then(told => {
        if (!told || isOld) return;
        setColumns(alongAxis(rig, against, told));
      });
    return () => {
      isOld = true;
    };
  }, [rig, isReady, against, measures, left, right]);
  return columns?.rig === rig && columns.against === against ? columns : null;
}

/** Columns of a walk over an axis. */
export function alongAxis(
  rig: Rig,
  against: Against,
  { places, columns }: { places: readonly Place[]; columns: readonly MeasureColumn[] },
): Columns {
  const isLeft = rig.build.driverSide === 'left';
  const x = places.map(place =>
    onAxis(against, {
      driver: isLeft ? place.left : place.right,
      passenger: isLeft ? place.right : place.left,
      inner: against === 'steering' ? innerAt(rig, place) : 0,
    }),
  );
  return { rig, against, ...ascending(x, places, columns) };
}

/** The inner tire's turn at a place, deg; NaN where it can't be there. */
function innerAt({ model }: Rig, { left, right, steer }: Place): number {
  const { pose } = model.near(model.ride, left, right, steer);
  return (pose && innerTire(pose)) ?? Number.NaN;
}

/** In ascending order of x, places without one left out. */
function ascending(
  x: readonly number[],
  places: readonly Place[],
  columns: readonly MeasureColumn[],
): Pick<Columns, 'x' | 'places' | 'columns'> {
  const order = x
    .map((_, i) => i)
    .filter(i => Number.isFinite(x[i]))
    .sort((a, b) => (x[a] as number) - (x[b] as number));
  return {
    x: Float64Array.from(order, i => x[i] as number),
    places: order.map(i => places[i] as Place),
    columns: columns.map(column => ({
      ...column,
      values: Float64Array.from(order, i => column.values[i] as number),
    })),
  };
}
