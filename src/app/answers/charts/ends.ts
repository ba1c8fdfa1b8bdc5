/** What ends the walks that charts follow, and how their axes are marked. */
import { furthest } from '../../../../geometry/cycle/edge.ts';
import type { EndId } from '../../../../geometry/limit/limit.ts';
import { limits } from '../../../../geometry/limit/list.ts';
import { type Against, tapeMark } from '../../../charts/chartData.ts';
import type { Rig } from '../../state/rig.ts';

function endWords(by: EndId): string {
  if (by === 'noPose') return 'out of reach';
  if (by === 'assumedTravel') return 'assumed end';
  return limits.find(({ id }) => id === by)?.label ?? '';
}

/** In words, what ends a walk at the low and at the high end of its axis. */
export function endsOf(rig: Rig, against: Against): [low: string, high: string] {
  const { reach, model, build } = rig;
  if (against === 'steering') {
    const interval = reach.steering(model.ride);
    return interval ? [endWords(interval.least.by), endWords(interval.greatest.by)] : ['', ''];
  }
  const driver = build.driverSide === 'left' ? 1 : -1;
  const up: [number, number] = against === 'both' ? [1, 1] : [driver, -driver];
  const end = (way: 1 | -1): string =>
    endWords(furthest(reach, [0, 0], [way * up[0], way * up[1]]).by);
  return [end(-1), end(1)];
}

/** A mark of the axis: travels with their sign, turns without one, and the middle by its name. */
export function axisText(against: Against, value: number): string {
  if (Math.abs(value) < 1e-9) return against === 'steering' ? 'straight' : 'ride';
  if (against === 'steering') return `${Math.abs(Math.round(value))}°`;
  return `${value < 0 ? '−' : '+'}${tapeMark(value)}`;
}
