/** The rows of a comparison: what each axle measures, the difference, what it is worth, and whether it is wanted. */
import type { AxleName } from '../build/build.ts';
import { type Bounds, boundsOf } from '../finding/wanted.ts';
import { type Measure, SHOWN, type Target, type Unit } from '../measure/measure.ts';
import { type At, atOf, type Measured, type Of } from './places.ts';
import type { Shown, Table } from './table.ts';

export interface Row {
  axle: AxleName;
  id: string;
  part: string | null;
  side: 'left' | 'right' | null;
  at: At;
  /** In `unit`; null where there is none. */
  a: number | null;
  b: number | null;
  /** b − a; null where one of them is. */
  difference: number | null;
  /** What the difference is worth by the tolerances of what was taped; null where that is not known. */
  tolerance: number | null;
  unit: Unit;
  /** Which of the two is nearer to what the builds ask for; null where both keep it, or nothing is asked. */
  toward: Of | null;
  /** True where the difference is no more than its tolerance and is called none. */
  isNone: boolean;
  /** Why a value is missing. */
  reason?: string;
}

/** Differences of this part of the values are the solver's last digits. */
const ROUNDING = 1e-7;

/** @param tolerances of each value of the table; without them a difference counts as soon as it is there */
export function rowsOf(
  a: Measured,
  b: Measured,
  table: Table,
  tolerances: readonly (number | null)[] | null = null,
): Row[] {
  const bounds = table.columns.map(({ measure, target }) => [
    ...boundsOf(a.build, a.axle, measure, target),
    ...boundsOf(b.build, b.axle, measure, target),
  ]);
  return table.places.flatMap((place, p) => {
    const at = atOf(place, a, b);
    return table.columns.flatMap(({ measure, target }, c): Row[] => {
      const i = p * table.columns.length + c;
      const [ofA, ofB] = [table.values.a[i] as Shown, table.values.b[i] as Shown];
      if (typeof ofA !== 'number' && typeof ofB !== 'number' && place.short) return [];
      return [rowOf(a, measure, target, at, ofA, ofB, tolerances?.[i] ?? null, bounds[c] ?? [])];
    });
  });
}

function rowOf(
  { axle }: Measured,
  measure: Measure,
  target: Target,
  at: At,
  ofA: Shown,
  ofB: Shown,
  worth: number | null,
  bounds: readonly Bounds[],
): Row {
  const [a, b] = [numberOf(ofA), numberOf(ofB)];
  const difference = a === null || b === null ? null : plain(b - a);
  const least = ROUNDING * Math.max(1, Math.abs(a ?? 0), Math.abs(b ?? 0));
  const isNone = difference !== null && Math.abs(difference) <= Math.max(worth ?? 0, least);
  const why = [
    ...(typeof ofA === 'number' ? [] : [`a: ${ofA.missing}`]),
    ...(typeof ofB === 'number' ? [] : [`b: ${ofB.missing}`]),
  ];
  return {
    axle: axle.name,
    id: measure.id,
    part: target.part,
    side: target.side,
    at,
    a,
    b,
    difference,
    tolerance: difference === null ? null : worth,
    unit: measure.unit,
    toward: a === null || b === null || isNone ? null : nearer(a, b, measure.unit, bounds),
    isNone,
    ...(why.length > 0 ? { reason: why.join('; ') } : {}),
  };
}

const numberOf = (shown: Shown): number | null => (typeof shown === 'number' ? plain(shown) : null);

/** −0 would print as 0 in one place and as −0 in another. */
const plain = (value: number): number => (value === 0 ? 0 : value);

/** Which of two values is less far out of all bands; null where they are out alike. */
function nearer(a: number, b: number, unit: Unit, bounds: readonly Bounds[]): Of | null {
  const out = (value: number): number =>
    Math.max(
      0,
      ...bounds.flatMap(({ least, greatest }) => [
        least === null ? 0 : least * SHOWN[unit] - value,
        greatest === null ? 0 : value - greatest * SHOWN[unit],
      ]),
    );
  const more = out(b) - out(a);
  return more < 0 ? 'b' : more > 0 ? 'a' : null;
}
