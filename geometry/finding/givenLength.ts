/** Given lengths of links and rods: where they put the axle and the wheels at ride height. */
import { rideShift } from '../cycle/checkReport.ts';
import { rodsOf } from '../measure/rolling.ts';
import { distance, norm } from '../vector.ts';
import type { Draft, Rule } from './finding.ts';
import { amountWords, lengthWords, listed, partWords, seat } from './words.ts';

/** Shifts and turns that are told, in and deg. */
const TOLD_in = 0.005;
const TOLD_deg = 0.01;

export const givenLength: Rule = {
  kinds: ['givenLength'],
  find: (walk): Draft[] => {
    const { build, axle, model } = walk;
    const given = [
      ...axle.links.map(link => ({
        name: link.name,
        length: link.length,
        drawn: distance(link.axle.at, link.chassis.at),
      })),
      ...rodsOf(axle).map(rod => ({
        name: rod.name,
        length: rod.length,
        drawn: distance(rod.from.at, rod.to.at),
      })),
    ].flatMap(({ name, length, drawn }) =>
      length === null || length === drawn ? [] : [{ name, by: length - drawn }],
    );
    if (given.length === 0) return [];
    const shift = rideShift(walk);
    const [x, y] = shift.shift_in;
    const length = (value: number, plus: string, minus: string): string[] =>
      Math.abs(value) < TOLD_in
        ? []
        : [`${lengthWords(build, Math.abs(value))} ${value > 0 ? plus : minus}`];
    const angle = (value: number, plus: string, minus: string): string[] =>
      Math.abs(value) < TOLD_deg
        ? []
        : [`${Math.abs(value).toFixed(2)}° ${value > 0 ? plus : minus}`];
    const stands = [
      ...length(x, 'forward', 'rearward'),
      ...length(y, 'to the left', 'to the right'),
      ...angle(shift.yaw_deg, 'turned left', 'turned right'),
      ...angle(shift.pitch_deg, 'pitched front end down', 'pitched front end up'),
    ];
    const turns = (['left', 'right'] as const).flatMap(side =>
      angle(shift.knuckles?.[side].turn_deg ?? 0, 'left', 'right').map(
        turn => `the ${seat(build, side)} knuckle is turned ${turn}`,
      ),
    );
    const told = [...(stands.length > 0 ? [`the axle stands ${listed(stands)}`] : []), ...turns];
    const lengths = given.map(
      ({ name, by }) =>
        `${partWords(build, axle, name)} ${lengthWords(build, Math.abs(by))} ${by > 0 ? 'longer' : 'shorter'} than drawn`,
    );
    const force = Math.abs(shift.force_lbf);
    const bind = force < 1 ? '' : ` It binds by ${amountWords(build, force, 'lbf')} there.`;
    return [
      {
        kind: 'givenLength',
        severity: 'note',
        parts: given.map(({ name }) => name),
        pose: model.ride,
        amount: { value: norm(shift.shift_in), unit: 'in' },
        others: {
          forward: { value: x, unit: 'in' },
          left: { value: y, unit: 'in' },
          yaw: { value: shift.yaw_deg, unit: 'deg' },
          pitch: { value: shift.pitch_deg, unit: 'deg' },
          force: { value: force, unit: 'lbf' },
        },
        fields: given.flatMap(({ name }) => [
          { part: name, only: /^\.(length|(axle|chassis|from|to)\.(at|by|from|length|angle))/ },
        ]),
        text: () =>
          `With the ${listed(lengths)}, ride height is not as drawn: ${told.length > 0 ? listed(told) : 'but by less than can be told'}.${bind} Every measure counts from there.`,
      },
    ];
  },
};
