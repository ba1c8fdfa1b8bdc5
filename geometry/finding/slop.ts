/** Rods that can roll about their own line before they steer, or before a ram beside them pushes. */
import type { Rod } from '../build/build.ts';
import type { Extremes } from '../cycle/extremes.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import { type Measure, SHOWN } from '../measure/measure.ts';
import { ramSlop, rodSlop } from '../measure/rodSlop.ts';
import { rodsOf } from '../measure/rolling.ts';
import { type FieldsOf, JOINT } from './fields.ts';
import type { Draft, Rule } from './finding.ts';
import { amountWords, lengthWords, partWords } from './words.ts';

/** Slop above which it is told, and above which it is to be watched. Common practice, no source. */
const TOLD = new Map<Measure, { from: number; watched: number }>([
  [rodSlop, { from: 0.05 / SHOWN.deg, watched: 0.5 / SHOWN.deg }],
  [ramSlop, { from: 1 / 64, watched: 1 / 16 }],
]);

export const slop: Rule = {
  kinds: ['slop'],
  find: walk =>
    [...TOLD.keys()].flatMap(measure =>
      (walk.finder?.extremesOf(measure) ?? []).flatMap(each => draftOf(walk, each)),
    ),
};

function draftOf(walk: AxleWalk, { measure, target, greatest, missing }: Extremes): Draft[] {
  const { build, axle, model } = walk;
  const told = TOLD.get(measure);
  const part = target.part;
  if (!told || part === null) return [];
  const ram = axle.steering?.rams.find(each => each.name === part);
  const rod = rodsOf(axle).find(each => each.name === (ram?.rod?.on ?? part));
  const name = partWords(build, axle, part);
  const common = { kind: 'slop', parts: [part], fields: fieldsOf(rod, ram ? part : null) };
  if (!greatest) {
    return [
      {
        ...common,
        severity: 'watch',
        pose: model.ride,
        amount: { value: 0, unit: measure.unit },
        text: () =>
          `How far the ${rod?.name ?? name} can roll before ${ram ? `the ${name} pushes` : 'it steers'} is not known: ${missing ?? 'nothing limits it'}.`,
      },
    ];
  }
  const { value, pose } = greatest;
  if (value < told.from) return [];
  const shown = value * SHOWN[measure.unit];
  return [
    {
      ...common,
      severity: value > told.watched ? 'watch' : 'note',
      pose,
      amount: { value: shown, unit: measure.unit },
      text: where =>
        ram
          ? `The ${rod?.name ?? 'rod'} can roll over its studs where the ${name} holds it beside its line: the ram moves ${lengthWords(build, value)} before it pushes: ${where}.`
          : `The ${name} can roll over its studs before it steers: ${amountWords(build, shown, 'deg')} of steer is slop: ${where}.`,
    },
  ];
}

/** The rod's studs and their limits, and where a ram takes hold of it. */
function fieldsOf(rod: Rod | undefined, ram: string | null): FieldsOf[] {
  const ofRod = rod
    ? [
        { part: rod.name, only: /^\.roll/ },
        { part: `${rod.name}.from`, only: JOINT },
        { part: `${rod.name}.to`, only: JOINT },
      ]
    : [];
  return ram === null ? ofRod : [...ofRod, { part: ram, only: /^\.(body|rod)\.(at|by)/ }];
}
