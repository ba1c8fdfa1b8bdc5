/** The things that a build file describes, with their entered numbers and the parts that they make. */
import type { AxleName, Build, Entry } from '../../../../geometry/build/build.ts';
import type { Part } from '../../../../geometry/gap/part.ts';
import { PART_GROUPS, pathWords } from '../../words/pathWords.ts';
import { seated } from '../../words/shopWords.ts';

export interface Thing {
  /** Its address in the file. */
  address: string;
  group: string;
  name: string;
  entries: { entry: Entry; field: string }[];
  /** Parts of the axle that is shown; none for what has no body of its own. */
  parts: Part[];
}

/** Everything that somebody entered of an axle and of the vehicle about it, by groups in their order. */
export function thingsOf(build: Build, axle: AxleName, parts: readonly Part[]): Thing[] {
  const things = new Map<string, Thing>();
  const other = build.axles
    .filter(({ name }) => name !== axle)
    .map(({ name }) => `axles["${name}"]`);
  for (const entry of build.entries) {
    if (other.some(each => entry.path.startsWith(each))) continue;
    const { thing: address, group, name, field } = pathWords(entry.path);
    let thing = things.get(address);
    if (!thing) {
      thing = { address, group, name: seated(build, name), entries: [], parts: [] };
      things.set(address, thing);
    }
    thing.entries.push({ entry, field: field === '' ? 'value' : seated(build, field) });
  }
  for (const part of parts) {
    const address = addressOf(part, axle, address => things.has(address));
    if (address !== null) things.get(address)?.parts.push(part);
  }
  const order = PART_GROUPS.flatMap(([, keys]) => keys);
  const place = ({ address }: Thing): number =>
    order.indexOf(/^(?:axles\["\w+"\]\.)?(\w+)/.exec(address)?.[1] ?? '');
  return [...things.values()].sort((a, b) => place(a) - place(b));
}

const LISTS = ['links', 'radiusArms', 'shocks', 'coils', 'bumpStops', 'straps', 'lines'];

/** Where a part is described; null where nothing in the file describes it. */
function addressOf(part: Part, axle: AxleName, has: (address: string) => boolean): string | null {
  const at = `axles[${JSON.stringify(axle)}]`;
  const first = (...addresses: string[]): string | null => addresses.find(has) ?? null;
  // a mirrored part stands in the file once, without its side
  const names = [part.of, part.of.replace(/^(left|right) /, '')].map(name => JSON.stringify(name));
  switch (part.kind) {
    case 'housing':
    case 'differential':
      return first(`${at}.housing`, `${at}.wheelCenters`);
    case 'tire':
    case 'wheel':
      return first(`${at}.tire`);
    case 'knuckle':
      return first(`${at}.knuckles`);
    case 'dragLink':
      return first(`${at}.steering.dragLink`);
    case 'tieRod':
      return first(`${at}.steering.tieRod`);
    case 'pitmanArm':
      return first(`${at}.steering.pitmanArm`, `${at}.steering.box`);
    case 'swayBar':
      return first(`${at}.swayBar`);
    case 'driveshaft':
      return first(`${at}.driveline`);
    case 'ram':
    case 'ramBracket':
      return first(...names.map(name => `${at}.steering.rams[${name}]`));
    case 'drawn':
      return first(
        ...[part.name, part.name.replace(/^(left|right) /, '')].map(
          name => `solids[${JSON.stringify(name)}]`,
        ),
      );
    default:
      return first(
        ...names.flatMap(name => LISTS.map(list => `${at}.${list}[${name}]`)),
        // the end links of a sway bar
        ...(part.name.includes('sway bar') ? [`${at}.swayBar`] : []),
      );
  }
}

/**
 * The thing at an address; where its sides were taken apart or made alike since, what took its place. Null for none.
 */
export function thingAt(things: readonly Thing[], address: string | null): Thing | null {
  if (address === null) return null;
  const named = /^(.*\[")(?:(?:left|right) )?(.*"\])$/.exec(address);
  const others = named ? ['left ', ''].map(side => `${named[1]}${side}${named[2]}`) : [];
  const found = [address, ...others].map(each => things.find(thing => thing.address === each));
  return found.find(thing => thing !== undefined) ?? null;
}

/** The side that a part's name tells; null for one in the middle. */
export const sideOf = ({ name }: Part): 'left' | 'right' | null =>
  name.startsWith('left ') ? 'left' : name.startsWith('right ') ? 'right' : null;
