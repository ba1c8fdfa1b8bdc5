/** The range itself: empty, in pieces, or ended by a pose that does not exist. */

import type { EdgePoint } from '../cycle/edge.ts';
import { BROKEN } from '../cycle/poseReport.ts';
import type { End, SteerEnd } from '../cycle/reach.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import { limits } from '../limit/list.ts';
import { steeringStop } from '../limit/steering.ts';
import { MeasureContext, SHOWN } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';
import { LENGTHS } from './fields.ts';
import type { Draft, Rule } from './finding.ts';
import { amountWords, lengthWords, partWords } from './words.ts';

export const range: Rule = {
  kinds: ['rideOutsideRange', 'noPose', 'rangeInPieces'],
  find: walk => [
    ...rideOutside(walk),
    ...straightOutside(walk),
    ...travelWithoutPose(walk),
    ...steeringWithoutPose(walk),
    ...inPieces(walk),
  ],
};

const labelOf = (by: End['by']): string => limits.find(({ id }) => id === by)?.label ?? by;

const whose = ({ build, axle }: AxleWalk, part: string | null): string =>
  part === null ? '' : ` (${partWords(build, axle, part)})`;

function rideOutside(walk: AxleWalk): Draft[] {
  const { build, model, reach } = walk;
  if (walk.range.holdsRide) return [];
  const { margin, nearest } = reach.travel(0, 0);
  const by = Number.isFinite(margin) ? -margin : 0;
  const part = nearest.part === null ? [] : [nearest.part];
  return [
    {
      kind: 'rideOutsideRange',
      severity: 'mustFix',
      parts: part,
      pose: model.ride,
      amount: { value: by, unit: 'in' },
      ...(nearest.by === 'noPose' || nearest.by === 'assumedTravel' ? {} : { limit: nearest.by }),
      fields: part.map(each => ({ part: each, only: LENGTHS })),
      text: () =>
        `The stops do not allow ride height: ${labelOf(nearest.by)}${whose(walk, nearest.part)}, ${lengthWords(build, by)} past it. There is nothing to walk.`,
    },
  ];
}

/** Steering that can't stand straight ahead at ride height, since a stop does not allow it. */
function straightOutside(walk: AxleWalk): Draft[] {
  const { build, axle, model } = walk;
  const context = new MeasureContext(build, axle, model, model.ride);
  const [worst] = limits
    .filter(({ role }) => role === 'steering')
    .flatMap(limit => limit.targets(axle, build).map(target => ({ limit, target })))
    .flatMap(({ limit, target }) => {
      const margin = limit.margin(context, target);
      return margin !== null && margin < BROKEN ? [{ limit, target, margin }] : [];
    })
    .sort((a, b) => a.margin - b.margin);
  if (!worst) return [];
  const { limit, target, margin } = worst;
  const size = -margin * SHOWN[limit.unit];
  return [
    {
      kind: 'rideOutsideRange',
      severity: 'mustFix',
      parts: [target.part],
      pose: model.ride,
      limit: limit.id,
      amount: { value: size, unit: limit.unit },
      fields: [{ part: target.part, only: LENGTHS }],
      text: () =>
        `With the steering as drawn the wheels are past a stop at ride height: ${limit.label} (${partWords(build, axle, target.part)}), ${amountWords(build, size, limit.unit)} past it.`,
    },
  ];
}

const far = ({ left, right }: EdgePoint): number => Math.max(Math.abs(left), Math.abs(right));

/** Stretches of the edge where no pose lies beyond, one finding for each part that runs out. */
function travelWithoutPose(walk: AxleWalk): Draft[] {
  const { build, axle, reach } = walk;
  const ended = walk.range.edge.filter(({ by }) => by === 'noPose');
  const parts = [...new Set(ended.map(({ part }) => part))];
  return parts.flatMap((part): Draft[] => {
    const [nearest] = ended.filter(each => each.part === part).sort((a, b) => far(a) - far(b));
    const { pose } = nearest ? reach.travel(nearest.left, nearest.right) : { pose: null };
    if (!nearest || !pose) return [];
    const what = part === null ? 'the links reach' : `the ${partWords(build, axle, part)} reaches`;
    return [
      {
        kind: 'noPose',
        severity: 'mustFix',
        parts: part === null ? [] : [part],
        pose,
        limit: 'noPose',
        amount: { value: far(nearest), unit: 'in' },
        fields:
          part === null
            ? []
            : [part, `${part}.axle`, `${part}.chassis`].map(each => ({
                part: each,
                only: LENGTHS,
              })),
        text: where =>
          `Travel ends because ${what} no further, before any stop holds: ${where}. The links must not be the stop.`,
      },
    ];
  });
}

interface OutOfReach {
  straight: Pose;
  end: SteerEnd;
}

/**
 * Where the steering ends because a rod runs out of reach, in directions that have a steering stop; where there
 * is none, that is the trouble.
 */
export function rodsOutOfReach({ axle, build, grid }: AxleWalk): OutOfReach[] {
  const stops = steeringStop.targets(axle, build);
  const hasStop = (way: 1 | -1): boolean => stops.some(({ end }) => end === way);
  return grid.places.flatMap(({ straight, interval }) =>
    straight && interval
      ? [
          ...(hasStop(-1) ? [interval.least] : []),
          ...(hasStop(1) ? [interval.greatest] : []),
        ].flatMap(end => (end.by === 'noPose' ? [{ straight, end }] : []))
      : [],
  );
}

function steeringWithoutPose(walk: AxleWalk): Draft[] {
  const { build, axle, reach, model } = walk;
  const ends = rodsOutOfReach(walk);
  const parts = [...new Set(ends.map(({ end }) => end.part))];
  const unit = model.mechanism.steering?.unit === 'in' ? 'in' : 'deg';
  return parts.flatMap((part): Draft[] => {
    const [nearest] = ends
      .filter(({ end }) => end.part === part)
      .sort((a, b) => Math.abs(a.end.value) - Math.abs(b.end.value));
    if (!nearest) return [];
    const { straight, end } = nearest;
    const interval = reach.steering(straight);
    const pose = interval && reach.steered(straight, interval, Math.sign(end.value));
    if (!pose) return [];
    const size = Math.abs(end.value) * SHOWN[unit];
    const name = part === null ? 'linkage' : partWords(build, axle, part);
    return [
      {
        kind: 'noPose',
        severity: 'mustFix',
        parts: part === null ? [] : [part],
        pose,
        limit: 'noPose',
        amount: { value: size, unit },
        fields: part === null ? [] : [{ part, only: LENGTHS }],
        text: where =>
          `The steering goes over center before a stop holds: the ${name} reaches no further than ${amountWords(build, size, unit)}: ${where}.`,
      },
    ];
  });
}

function inPieces(walk: AxleWalk): Draft[] {
  const { pieces } = walk.range;
  if (pieces <= 1) return [];
  return [
    {
      kind: 'rangeInPieces',
      severity: 'watch',
      parts: [],
      pose: walk.model.ride,
      amount: { value: pieces, unit: '1' },
      fields: [],
      text: () =>
        `What the stops allow falls into ${pieces} pieces. Only the one with ride height in it is walked: the axle can't get to the others without passing a stop.`,
    },
  ];
}
