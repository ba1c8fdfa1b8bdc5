/** What ends the steering: a box or ram before the knuckle's steering stop, or no steering stop at all. */
import type { SteerEnd, SteerInterval } from '../cycle/reach.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import { steeringStop } from '../limit/steering.ts';
import { type MeasureContext, SHOWN } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';
import type { FieldsOf } from './fields.ts';
import type { Draft, Rule } from './finding.ts';
import { amountWords, lengthWords, seat } from './words.ts';

type Way = 1 | -1;
const WAYS: readonly Way[] = [1, -1];
const wayWords = (way: Way): string => (way > 0 ? 'left' : 'right');

/** Turn left before the stop under which it counts as reached, rad; ends of intervals are found to 1e-10. */
const REACHED = 1e-6;

export const steeringEnd: Rule = {
  kinds: ['noSteeringStop', 'steeringEndsEarly'],
  find: walk =>
    walk.finder && walk.model.mechanism.steering
      ? [...missingStops(walk), ...WAYS.flatMap(way => endsEarly(walk, way))]
      : [],
};

/** The steering stops that end a turn this way: one wheel's inward, the other's outward one. */
const stopsOf = ({ axle, build }: Pick<AxleWalk, 'axle' | 'build'>, way: Way) =>
  steeringStop.targets(axle, build).filter(({ end }) => end === way);

/** The stop that is nearest in this direction, and the turn that is left to it, rad. */
function nextStop(context: MeasureContext, way: Way): { part: string; left: number } | null {
  const [first] = stopsOf(context, way)
    .map(target => ({ part: target.part, left: steeringStop.margin(context, target) ?? 0 }))
    .sort((a, b) => a.left - b.left);
  return first ?? null;
}

const endOf = (interval: SteerInterval | null, way: Way): SteerEnd | null =>
  interval && (way > 0 ? interval.greatest : interval.least);

function intervalAt({ model, reach }: AxleWalk, { input }: Pose): SteerInterval | null {
  const { pose } = model.pose(input.left, input.right);
  return pose && reach.steering(pose);
}

const knuckleStops: FieldsOf[] = ['left knuckle', 'right knuckle'].map(part => ({
  part,
  only: /^\.(steeringStop|kingpin)/,
}));

function missingStops(walk: AxleWalk): Draft[] {
  const { model } = walk;
  const interval = intervalAt(walk, model.ride);
  const ends = WAYS.filter(way => stopsOf(walk, way).length === 0).flatMap(way => {
    const end = endOf(interval, way);
    return end ? [{ way, end }] : [];
  });
  const [first] = ends;
  if (!first) return [];
  const which = ends.length === 2 ? 'either way' : `to the ${wayWords(first.way)}`;
  const told = ends.map(({ way, end }) => `to the ${wayWords(way)} ${endWords(walk, end)}`);
  return [
    {
      kind: 'noSteeringStop',
      severity: 'mustFix',
      parts: ['left knuckle', 'right knuckle'],
      pose: model.atSteer(model.ride, first.end.value).pose ?? model.ride,
      amount: { value: shown(walk, first.end.value), unit: unitOf(walk) },
      fields: knuckleStops,
      assumed: ends.some(({ end }) => end.by === 'assumedTravel'),
      text: () =>
        `No steering stop ends a turn ${which}: ${told.join(', ')}. ` +
        'Steering stops are set so that neither box nor ram is the stop.',
    },
  ];
}

const unitOf = ({ model }: AxleWalk): 'deg' | 'in' =>
  model.mechanism.steering?.unit === 'in' ? 'in' : 'deg';
const shown = (walk: AxleWalk, steer: number): number => Math.abs(steer) * SHOWN[unitOf(walk)];

function endWords(walk: AxleWalk, { by, part, value }: SteerEnd): string {
  const size = shown(walk, value);
  const far =
    unitOf(walk) === 'in'
      ? `${lengthWords(walk.build, size)} of ram`
      : `${amountWords(walk.build, size, 'deg')} of pitman arm`;
  if (by === 'assumedTravel') return `nothing does, and ${far} is assumed`;
  if (by === 'noPose') return `the ${part ?? 'linkage'} runs out of reach at ${far}`;
  return `the ${part ?? 'steering box'} is the stop, at ${far}`;
}

function endsEarly(walk: AxleWalk, way: Way): Draft[] {
  const { build, axle } = walk;
  const worst = walk.finder?.greatest(context => nextStop(context, way)?.left ?? null, way);
  if (!worst || worst.value < REACHED) return [];
  const { pose, value } = worst;
  const end = endOf(intervalAt(walk, pose), way);
  if (!end || (end.by !== 'boxSweep' && end.by !== 'ramEnd')) return [];
  const part = end.part ?? 'steering box';
  const isRam = axle.steering?.rams.some(ram => ram.name === part) ?? false;
  const size = amountWords(build, value * SHOWN.deg, 'deg');
  const { left, right } = pose.input;
  const holdsAtRide = endOf(intervalAt(walk, walk.model.ride), way)?.by === 'steeringStop';
  const atRide =
    left === 0 && right === 0
      ? ''
      : ` At ride height ${holdsAtRide ? 'the stop holds' : 'it does so too'}.`;
  const inner = seat(build, way > 0 ? 'left' : 'right');
  return [
    {
      kind: 'steeringEndsEarly',
      severity: 'mustFix',
      parts: [part],
      pose,
      limit: end.by,
      amount: { value: value * SHOWN.deg, unit: 'deg' },
      fields: [
        ...knuckleStops,
        isRam
          ? { part, only: /^\.(body\.(at|by)|rod\.(at|by)|closed|stroke)/ }
          : { part, only: /^\.(sweep|axis)/ },
      ],
      text: where =>
        `The ${part} ends the turn to the ${wayWords(way)} with ${size} left to the steering stop of the ${inner} knuckle: ${where}.${atRide} ` +
        'Steering stops are set so that neither box nor ram is the stop.',
    },
  ];
}
