/** Places that a tape can go to, and readings between them, in words. */
import { numbered } from '../../../geometry/advice/numbered.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import { partWords, seat } from '../../../geometry/finding/words.ts';
import type { Rig } from '../state/rig.ts';

export type Reading = NonNullable<BuildFile['taped']>[number];

/** Names of places as readings use them: ends of parts, wheels, the axle's middle, the ground. */
export function placesOf({ axle, model }: Rig): string[] {
  const { name } = axle;
  return [
    // wheels are named with their axle below
    ...model.mechanism.named
      .map(each => each.name)
      .filter(each => each.includes('.') && !each.endsWith(' wheel.center')),
    `${name} axle`,
    `left ${name} wheel`,
    `right ${name} wheel`,
    'ground',
  ];
}

/** 'frame end of the driver lower link', 'strike plane of the driver bump stop', 'center of the driver front wheel'. */
export function placeWords({ build, axle }: Rig, place: string): string {
  if (place.includes('.')) {
    return partWords(build, axle, place)
      .replace(ENDS, (_, end: string) => END_WORDS[end] ?? end)
      .replace(/(?<=^(?:upper|lower) ball joint of the .*)kingpin$/, 'knuckle');
  }
  const [, side, wheel] = /^(left|right) (\w+ wheel)$/.exec(place) ?? [];
  if (side === 'left' || side === 'right')
    return `center of the ${seat({ ...build, unit: 'in' }, side)} ${wheel}`;
  return place.endsWith(' axle') ? `middle of the ${place}` : place;
}

/** Ends of parts as the shop says them, where 'the … end' would not do. */
const END_WORDS: Readonly<Record<string, string>> = {
  chassis: 'frame end',
  from: 'first end',
  to: 'second end',
  strike: 'strike plane',
  pad: 'pad',
  center: 'center',
  tip: 'tip',
  axis: 'axis',
  upper: 'upper ball joint',
  lower: 'lower ball joint',
  'shaft joint': 'axle shaft joint',
};
const ENDS = new RegExp(`^(${Object.keys(END_WORDS).join('|')}) end(?= of )`);

const ALONG: Record<string, string> = {
  forward: ', fore and aft',
  left: ', sideways',
  up: ', in height',
};

/** 'driver lower link, axle end to frame end', 'axle end of the track bar to ground'. */
function endsWords(rig: Rig, from: string, to: string): string {
  const [part, end] = partAndEnd(from);
  const [otherPart, otherEnd] = partAndEnd(to);
  if (part === '' || part !== otherPart)
    return `${placeWords(rig, from)} to ${placeWords(rig, to)}`;
  return `${partWords(rig.build, rig.axle, part)}, ${endWords(end)} to ${endWords(otherEnd)}`;
}

const endWords = (end: string): string => END_WORDS[end] ?? `${end} end`;

function partAndEnd(place: string): [part: string, end: string] {
  const dot = Math.max(0, place.lastIndexOf('.'));
  return [place.slice(0, dot), place.slice(dot + 1)];
}

/** Readings as they are told, and as the check of the tape names them. */
export function readingsWords(
  rig: Rig,
  readings: readonly Reading[],
): { name: string; words: string }[] {
  const all = readings.map(reading => readingWords(rig, reading));
  const names = numbered(all.map(({ name }) => name));
  const words = numbered(all.map(each => each.words));
  return all.map((_, i) => ({ name: names[i] ?? '', words: words[i] ?? '' }));
}

/** One reading, as if it were the only one of its kind. */
export function readingWords(rig: Rig, reading: Reading): { name: string; words: string } {
  if ('of' in reading) {
    const { of } = reading;
    return { name: `${of} from two heights`, words: `${of} from two heights` };
  }
  const { from, to } = reading;
  const name = `${from} to ${to}`;
  const both = endsWords(rig, from, to);
  if ('angle' in reading) {
    const slant = `, slant from the ${reading.plane}`;
    return { name: name + slant, words: both + slant };
  }
  const { along } = reading;
  if (!along || along === 'straight') return { name, words: both };
  return { name: `${name}, ${along}`, words: both + (ALONG[along] ?? '') };
}
