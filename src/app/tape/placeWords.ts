/** Places that a tape can go to, and readings between them, in words. */
import { numbered } from '../../../geometry/advice/numbered.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import { partWords } from '../../../geometry/finding/words.ts';
import type { Rig } from '../state/rig.ts';

export type Reading = NonNullable<BuildFile['taped']>[number];

/** Names of places as readings use them: ends of parts, wheels, the axle's middle, the ground. */
export function placesOf({ axle, model }: Rig): string[] {
  const { name } = axle;
  return [
    ...model.mechanism.named.map(each => each.name).filter(each => each.includes('.')),
    `${name} axle`,
    `left ${name} wheel`,
    `right ${name} wheel`,
    'ground',
  ];
}

/** 'frame end of the driver lower link', 'ground'. */
export function placeWords({ build, axle }: Rig, place: string): string {
  if (!place.includes('.')) return place.endsWith(' axle') ? `middle of the ${place}` : place;
  return partWords(build, axle, place).replace(/^chassis end/, 'frame end');
}

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
  return `${partWords(rig.build, rig.axle, part)}, ${end} end to ${otherEnd} end`;
}

function partAndEnd(place: string): [part: string, end: string] {
  const dot = Math.max(0, place.lastIndexOf('.'));
  return [place.slice(0, dot), place.slice(dot + 1).replace('chassis', 'frame')];
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
