/** Directions that nothing stops: the part that is missing, and what it would have to be. */
import type { Side } from '../build/build.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import { axleToChassis, spanLength } from '../measure/span.ts';
import type { Pose } from '../pose/pose.ts';
import type { FieldsOf } from './fields.ts';
import type { Draft, Rule } from './finding.ts';
import { lengthWords, listed, riseWords, seat } from './words.ts';

export const unstopped: Rule = {
  kinds: ['unstopped'],
  find: walk => (['up', 'down'] as const).flatMap(direction => draftOf(walk, direction)),
};

function draftOf(walk: AxleWalk, direction: 'up' | 'down'): Draft[] {
  const { build, model, range } = walk;
  const sides = range.unstopped
    .filter(each => each.direction === direction)
    .map(({ side }) => side);
  if (sides.length === 0) return [];
  const travel = range.assumedTravel[direction] * (direction === 'up' ? 1 : -1);
  const pose = model.pose(travel, travel).pose ?? model.ride;
  const found = sides.flatMap(side => spanOf(walk, side, pose));
  const who = listed(sides.map(side => `the ${seat(build, side)} side`));
  const missing = direction === 'up' ? 'a bump stop' : 'a limit strap, or a shock that tops out,';
  const cures = found.map(({ side, between, length }) =>
    direction === 'up'
      ? `on the ${seat(build, side)} side a bump stop that holds where ${between} are ${lengthWords(build, length)} apart`
      : `on the ${seat(build, side)} side a strap of ${lengthWords(build, length)} between ${between}`,
  );
  const would = cures.length === 0 ? '' : ` At that travel would hold: ${listed(cures)}.`;
  return [
    {
      kind: 'unstopped',
      severity: 'mustFix',
      parts: found.map(({ part }) => part),
      pose,
      amount: { value: Math.abs(travel), unit: 'in' },
      others: Object.fromEntries(
        found.map(({ side, length }) => [`${side} length`, { value: length, unit: 'in' }]),
      ),
      fields: found.map(({ part, only }) => ({ part, only })),
      paths: ['wanted.assumedTravel'],
      assumed: true,
      text: () =>
        `Nothing stops ${who} going ${direction}: ${missing} is missing. The walk goes to an assumed ${riseWords(build, travel)}.${would}`,
    },
  ];
}

interface Span extends FieldsOf {
  side: Side;
  between: string;
  length: number;
}

/** Two points of a side between which a strap or stop may be measured: shock ends, else coil seats, else a stop's. */
function spanOf({ axle }: AxleWalk, side: Side, pose: Pose): Span[] {
  const shock = axle.shocks.find(each => each.side === side);
  const coil = axle.coils.find(each => each.side === side);
  const part = shock ?? coil;
  if (part) {
    const between = shock ? 'the ends of the shock' : 'the seats of the coil';
    const length = spanLength(pose, axleToChassis(part));
    return [{ side, between, length, part: part.name, only: /^\.(axle|chassis)/ }];
  }
  const stop = axle.bumpStops.find(each => each.side === side);
  if (!stop) return [];
  const length = spanLength(pose, { from: stop.pad, to: stop.strike });
  const between = 'pad and strike plane of the bump stop';
  return [{ side, between, length, part: stop.name, only: /^\.(pad|strike)/ }];
}
