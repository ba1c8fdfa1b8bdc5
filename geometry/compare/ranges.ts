/** How far two axles go each way, what ends it, and how large the range is. */
import { furthest } from '../cycle/edge.ts';
import type { End } from '../cycle/reach.ts';
import { SHOWN } from '../measure/measure.ts';
import { type Ranged, reachOf, WAYS } from './places.ts';

/** How far one axle goes one way, and what ends it there. */
export interface Reached extends End {
  value: number;
}

export interface WayRow {
  way: keyof typeof WAYS | 'fullLeft' | 'fullRight';
  unit: 'in' | 'deg';
  /** Without a sign: travel of either wheel, pitman angle or ram rod. Null where it does not go this way. */
  a: Reached | null;
  b: Reached | null;
  /** b − a; null where they cannot be compared. */
  difference: number | null;
}

export interface RangeComparison {
  ways: WayRow[];
  /** Area of the range in left × right travel, square inches. */
  area_in2: { a: number; b: number; difference: number };
  /** Whether the stops allow ride height. */
  holdsRide: { a: boolean; b: boolean };
}

export function rangesOf(a: Ranged, b: Ranged): RangeComparison {
  const travel = (Object.keys(WAYS) as (keyof typeof WAYS)[]).map((way): WayRow => {
    const [endA, endB] = [reached(a, way), reached(b, way)];
    return { way, unit: 'in', a: endA, b: endB, difference: less(endB, endA) };
  });
  const [areaA, areaB] = [area(a), area(b)];
  return {
    ways: [...travel, ...locks(a, b)],
    area_in2: { a: areaA, b: areaB, difference: areaB - areaA },
    holdsRide: { a: a.range.holdsRide, b: b.range.holdsRide },
  };
}

function reached(own: Ranged, way: keyof typeof WAYS): Reached | null {
  if (!own.range.holdsRide) return null;
  const { left, by, part, side } = furthest(reachOf(own), [0, 0], WAYS[way]);
  return { value: Math.abs(left), by, part, side };
}

function locks(a: Ranged, b: Ranged): WayRow[] {
  const units = [a, b].map(({ model }) => model.mechanism.steering?.unit ?? null);
  const unit = units[0] ?? units[1];
  if (!unit) return [];
  const isAlike = units[0] === units[1];
  return (['fullLeft', 'fullRight'] as const).map((way): WayRow => {
    const ends = [a, b].map((own): Reached | null => {
      const steering = own.model.mechanism.steering;
      const interval = steering ? reachOf(own).steering(own.model.ride) : null;
      if (!steering || !interval) return null;
      const { value, by, part, side } = way === 'fullLeft' ? interval.greatest : interval.least;
      const factor = steering.unit === 'rad' ? SHOWN.deg : 1;
      return { value: Math.abs(value) * factor, by, part, side };
    });
    const [endA, endB] = [ends[0] ?? null, ends[1] ?? null];
    return {
      way,
      unit: unit === 'rad' ? 'deg' : 'in',
      a: isAlike || units[0] !== null ? endA : null,
      b: isAlike ? endB : null,
      difference: isAlike ? less(endB, endA) : null,
    };
  });
}

/** Ends are found to 1e-9: what differs by less than this is the same. */
const SAME = 1e-7;

const less = (b: Reached | null, a: Reached | null): number | null => {
  if (a === null || b === null) return null;
  const difference = b.value - a.value;
  return Math.abs(difference) < SAME ? 0 : difference;
};

/** Area inside the edge, by Green's theorem. */
const area = ({ range: { edge } }: Ranged): number =>
  edge.reduce((sum, p, i) => {
    const q = edge[(i + 1) % edge.length];
    return q ? sum + (p.left * q.right - q.left * p.right) / 2 : sum;
  }, 0);
