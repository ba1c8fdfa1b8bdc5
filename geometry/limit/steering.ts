/** What ends the steering: knuckle stops, the box's own sweep, a ram's ends. */
import type { Axle, Ram } from '../build/build.ts';

import { slopeOf } from '../measure/derivative.ts';
import { spanJet, spanLength } from '../measure/span.ts';
import { ramEnds } from '../measure/springLength.ts';
import type { Limit, LimitTarget } from './limit.ts';

/**
 * Steering stop: the allowed turn of a knuckle about its kingpin axis less its turn. `end` +1: turned left,
 * which is inward for the left wheel.
 */
export const steeringStop: Limit = {
  id: 'steeringStop',
  role: 'steering',
  unit: 'deg',
  label: 'steering stop',
  targets: axle =>
    knuckleStops(axle).map(
      ({ side, end }): LimitTarget => ({ part: `${side} knuckle`, side, end }),
    ),
  margin: ({ pose, axle }, { side, end }) => {
    const turn = side ? pose.knuckleTurn(side) : null;
    const most = side && end !== 0 ? allowed(axle, side, end) : null;
    return turn === null || most === null ? null : most - end * turn;
  },
  slope: ({ pose }, { side, end }) => {
    const jets = pose.steeringJets();
    return jets && side ? slopeOf(jets.tau[side], -end) : null;
  },
};

/** A stop of a knuckle: its turn times `end` is `most` at the most, rad. */
export interface KnuckleStop {
  side: 'left' | 'right';
  end: 1 | -1;
  most: number;
}

export function knuckleStops(axle: Axle): KnuckleStop[] {
  if (!axle.knuckles) return [];
  return (['left', 'right'] as const).flatMap(side =>
    ([1, -1] as const).flatMap(end => {
      const most = allowed(axle, side, end);
      return most === null ? [] : [{ side, end, most }];
    }),
  );
}

function allowed(axle: Axle, side: 'left' | 'right', end: -1 | 1): number | null {
  const stop = axle.knuckles?.[side].steeringStop;
  const inward = (side === 'left') === (end === 1);
  return (inward ? stop?.inward : stop?.outward) ?? null;
}

/** The steering box's own end: its sweep less the pitman angle. */
export const boxSweep: Limit = {
  id: 'boxSweep',
  role: 'steering',
  unit: 'deg',
  label: 'end of the steering box',
  targets: axle =>
    axle.steering?.box?.sweep
      ? ([1, -1] as const).map((end): LimitTarget => ({ part: 'steering box', side: null, end }))
      : [],
  margin: ({ pose, axle }, { end }) => {
    const sweep = axle.steering?.box?.sweep;
    if (!sweep) return null;
    return end === 1 ? sweep[1] - pose.input.steer : pose.input.steer - sweep[0];
  },
  slope: (_, { end }) => [0, 0, -end],
};

const ramOf = (axle: Axle, name: string): Ram =>
  axle.steering?.rams.find(ram => ram.name === name) as Ram;

/** A ram's end. Single: length against closed and open. Double: half the stroke less the rod's shift. */
export const ramEnd: Limit = {
  id: 'ramEnd',
  role: 'steering',
  unit: 'in',
  label: "end of the ram's stroke",
  targets: axle =>
    (axle.steering?.rams ?? [])
      .filter(ram => ram.stroke !== null && (ram.kind === 'double' || ram.closed !== null))
      .flatMap(ram =>
        ([1, -1] as const).map((end): LimitTarget => ({ part: ram.name, side: null, end })),
      ),
  margin: ({ pose, axle }, { part, end }) => {
    const ram = ramOf(axle, part);
    const ends = ramEnds(ram);
    const stroke = ram.stroke as number;
    if (!ends) return stroke / 2 - end * pose.input.steer;
    const length = spanLength(pose, ends);
    const closed = ram.closed as number;
    return end === 1 ? closed + stroke - length : length - closed;
  },
  slope: ({ pose, axle }, { part, end }) => {
    const ends = ramEnds(ramOf(axle, part));
    return ends ? slopeOf(spanJet(pose, ends), -end) : [0, 0, -end];
  },
};
