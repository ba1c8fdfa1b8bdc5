/** What is asked in one walk around the vehicle: how it stands, the measurements, what is near. */
import type { Start } from '../../../geometry/build/start/answers.ts';
import type { Measurement } from '../../../geometry/build/start/measurement.ts';
import { measurementsFor } from '../../../geometry/build/start/measurements.ts';

export interface MeasuredItem {
  id: string;
  label: string;
  measurement: Measurement;
}

export type Item = { id: 'stands'; label: string } | { id: 'near'; label: string } | MeasuredItem;

export function itemsOf({ layout }: Start): Item[] {
  const isTwo = layout.axles.length > 1;
  const measured = measurementsFor(layout).map((measurement): Item => {
    const { id, axle, label } = measurement;
    return { id, label: isTwo && axle ? `${axle} ${label}` : label, measurement };
  });
  return [
    { id: 'stands', label: 'how it stands' },
    ...measured,
    { id: 'near', label: 'what stands near' },
  ];
}

/** Whether something is told of it. */
export function isTold({ answers, stands = {}, near }: Start, { id }: Item): boolean {
  if (id === 'near') return near !== undefined;
  if (id === 'stands') return Object.values(stands).some(typed => typed.trim() !== '');
  return answers[id] !== undefined;
}

/** The first measurement that nothing is told of, else the last thing that is asked. */
export function firstOpen(start: Start): string {
  const items = itemsOf(start);
  const open = items.find(each => 'measurement' in each && !isTold(start, each));
  return open?.id ?? 'near';
}
