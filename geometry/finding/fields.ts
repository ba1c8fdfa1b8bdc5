/** Which fields of the build file a finding hangs on. */
import type { Axle, AxleName, Build, Entry } from '../build/build.ts';

/** A part's own fields, and which of them count. */
export interface FieldsOf {
  /** Name of a part or `part.end`. */
  part: string;
  /** Matches the rest of a field's path behind the part's: `.axle.at[0]`. */
  only: RegExp;
}

/** Fields that a misalignment or a length hangs on; the rest of a part is for its looks and its rates. */
export const JOINT = /^\.(at|by|from|length|angle|bolt|bore\[|limit|clocking|stud)/;
export const SPAN = /^\.(axle|chassis|from|to|joint)/;
/** Every point and length of a part, and none of what is for its looks. */
export const LENGTHS =
  /^\.(?!tube|through|housing|diameter|body\.(od|length|diameter)|shaft|reservoir|wire|turns|bore$|rodDiameter|leastBendRadius|curve|rates)/;

/** What holds an axle in its place: the ends of its links and arms, with given lengths. */
export const locating = (axle: Axle): FieldsOf[] =>
  [...axle.links, ...axle.radiusArms].map(({ name }) => ({
    part: name,
    only: /^\.((axle|chassis)(\[[01]\])?\.at|length)/,
  }));

/**
 * Paths of the entries of these parts and of all that those use, in the file's order.
 *
 * @param paths fields that are named by their own path, `wanted.assumedTravel`, with all below them
 */
export function fieldsOf(
  build: Build,
  axle: AxleName,
  parts: readonly FieldsOf[],
  paths: readonly string[] = [],
): Entry[] {
  const byPath = new Map(build.entries.map(entry => [entry.path, entry]));
  const found = new Set<Entry>();
  const take = (entry: Entry): void => {
    if (found.has(entry)) return;
    found.add(entry);
    for (const use of entry.uses) {
      const used = byPath.get(use);
      if (used) take(used);
    }
  };
  for (const { part, only } of parts) {
    const places = placesOf(build, axle, part);
    for (const entry of build.entries) {
      const place = places.find(each => isBelow(entry.path, each));
      if (place !== undefined && only.test(entry.path.slice(place.length))) take(entry);
    }
  }
  for (const entry of build.entries) {
    if (paths.some(path => isBelow(entry.path, path))) take(entry);
  }
  return build.entries.filter(entry => found.has(entry));
}

const isBelow = (path: string, above: string): boolean =>
  path === above || path.startsWith(`${above}.`) || path.startsWith(`${above}[`);

const LISTS = ['links', 'shocks', 'coils', 'bumpStops', 'straps', 'lines', 'joints'] as const;

/** Paths at which a part, or an end of one with the joint that it names, may stand in the file. */
function placesOf(build: Build, axle: AxleName, part: string): string[] {
  const at = `axles["${axle}"]`;
  const joint = build.jointPaths[part];
  const dot = part.lastIndexOf('.');
  if (dot < 0) return wholePlaces(at, part);
  const end = part.slice(dot + 1);
  const key = { 'transfer case': 'transferCase', 'axle front': 'axle[0]', 'axle rear': 'axle[1]' };
  const step = key[end as keyof typeof key] ?? end;
  const ends = wholePlaces(at, part.slice(0, dot)).map(place => `${place}.${step}`);
  return joint === undefined ? ends : [...ends, joint];
}

function wholePlaces(at: string, name: string): string[] {
  switch (name) {
    case 'drag link':
      return [`${at}.steering.dragLink`];
    case 'tie rod':
      return [`${at}.steering.tieRod`];
    case 'steering box':
      return [`${at}.steering.box`];
    case 'driveshaft':
      return [`${at}.driveline`];
    case 'axle':
      return [`${at}.wheelCenters`, `${at}.tire.loadedRadius`];
  }
  const side = /^(left|right) (.*)$/.exec(name);
  if (side?.[2]?.startsWith('sway bar ')) return [`${at}.swayBar`];
  if (side && side[2] === 'knuckle') {
    return [`${at}.knuckles.${side[1]}`, `${at}.knuckles`];
  }
  if (side && side[2] === 'tie rod') {
    return [`${at}.steering.tieRod.${side[1]}`, `${at}.steering.tieRod`];
  }
  // a mirrored part stands in the file once, without its side
  const names = side?.[2] === undefined ? [name] : [name, side[2]];
  return names.flatMap(each => [
    ...LISTS.map(list => `${at}.${list}[${JSON.stringify(each)}]`),
    `${at}.steering.rams[${JSON.stringify(each)}]`,
  ]);
}
