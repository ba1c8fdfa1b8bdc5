/**
 * Addresses of parts and fields in a build file: names in place of positions, so that an address still
 * holds when parts are added or taken out before it.
 *
 * A part: `axles.front.links.lower link`, `axles.front.tire`, `solids.left rail`, `build` for the whole
 * file. A field within it: `chassis.at[2]`, `tube.od`; brackets count the coordinates of a point or the
 * items of a list without names, from 0.
 */
import { nearest } from './nearest.ts';
import { own } from './problem.ts';

export type Json = Readonly<Record<string, unknown>>;

export type Steps = readonly PropertyKey[];

/** Why an address leads nowhere, and what was near. */
export interface Lost {
  message: string;
  wanted: string;
}

/** `axles["front"].links["lower link"]`, as entries and messages write it → `axles.front.links.lower link`. */
export const addressOf = (path: string): string =>
  path.replace(/\[("(?:[^"\\]|\\.)*")\]/g, (_, name: string) => `.${JSON.parse(name)}`);

/** What the part at an address is called: `axles.front.steering.tieRod` is the tie rod. */
export function partName(address: string): string {
  const word = address.split('.').at(-1) ?? '';
  return word.replace(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`);
}

/** Steps from the file to the object or list at this address; `Lost` where it leads nowhere. */
export function findPart(file: Json, address: string): Steps | Lost {
  if (address === 'build') return [];
  const steps: PropertyKey[] = [];
  let at: unknown = file;
  for (const word of address.split('.')) {
    const step = Array.isArray(at) ? indexOf(at, word) : word;
    const next = stepInto(at, step);
    if (next === undefined || next === null) return lost(at, word, address);
    steps.push(step);
    at = next;
  }
  return steps;
}

export const isLost = (found: Steps | Lost): found is Lost => 'message' in found;

/** Steps within a part, or null where it is no address of a field. */
export function fieldSteps(field: string): Steps | null {
  const steps: PropertyKey[] = [];
  for (const word of field.split('.')) {
    const [, key, indexes] = /^([A-Za-z][A-Za-z0-9]*)((?:\[\d{1,4}\])*)$/.exec(word) ?? [];
    if (key === undefined) return null;
    steps.push(key, ...[...(indexes ?? '').matchAll(/\d+/g)].map(([index]) => Number(index)));
  }
  return steps;
}

/**
 * Steps of a field's path as messages and entries write it: keys, elements by name or by index; null where it leads
 * nowhere.
 *
 * @example pathSteps(file, 'axles["front"].links["lower link"].axle.at[1]') // ['axles', 0, 'links', 2, 'axle', 'at', 1]
 */
export function pathSteps(file: unknown, path: string): Steps | null {
  const steps: PropertyKey[] = [];
  let at = file;
  for (const [, key, index, name] of path.matchAll(PATH_STEP)) {
    const step =
      key ??
      (name === undefined
        ? Number(index)
        : Array.isArray(at)
          ? indexOf(at, JSON.parse(name))
          : JSON.parse(name));
    at = stepInto(at, step);
    if (at === undefined) return null;
    steps.push(step);
  }
  return steps;
}

const PATH_STEP = /\.?([A-Za-z_$][\w$]*)|\[(\d+)\]|\[("(?:[^"\\]|\\.)*")\]/g;

/**
 * The address of the part that a field belongs to, and the field within it, as a change names them; null where an
 * element on the way has no name that an address can hold.
 *
 * @example partAndField(file, ['axles', 0, 'tire', 'give']) // { part: 'axles.front', field: 'tire.give' }
 */
export function partAndField(file: unknown, steps: Steps): { part: string; field: string } | null {
  const words: string[] = [];
  let field = '';
  let at = file;
  let onWay: string[] = [];
  for (const step of steps) {
    const next = stepInto(at, step);
    if (Array.isArray(at)) {
      const name = own(next, 'name');
      if (typeof name === 'string') {
        if (name.includes('.')) return null;
        words.push(...onWay, name);
        onWay = [];
        field = '';
      } else field += `[${Number(step)}]`;
    } else {
      onWay.push(String(step));
      field += field === '' ? String(step) : `.${String(step)}`;
    }
    at = next;
  }
  return field === '' ? null : { part: words.length > 0 ? words.join('.') : 'build', field };
}

/** The value at these steps; undefined where there is none. */
export function valueAt(file: unknown, steps: Steps): unknown {
  return steps.reduce(stepInto, file);
}

/**
 * The file with another value at these steps; all that is not on the way stays the same object. Objects
 * that are missing on the way are made. Undefined where a list is too short or a text is in the way.
 */
export function withValue(file: unknown, steps: Steps, value: unknown): unknown {
  const [step, ...rest] = steps;
  if (step === undefined) return value;
  if (Array.isArray(file)) {
    const index = Number(step);
    if (!(index < file.length)) return undefined;
    const item = withValue(file[index], rest, value);
    return item === undefined ? undefined : file.with(index, item);
  }
  const object = file ?? {};
  if (typeof object !== 'object' || typeof step === 'number') return undefined;
  const inner = withValue(own(object, String(step)), rest, value);
  return inner === undefined ? undefined : { ...object, [step]: inner };
}

function stepInto(value: unknown, step: PropertyKey): unknown {
  return Array.isArray(value) ? value[Number(step)] : own(value, String(step));
}

const indexOf = (list: readonly unknown[], name: string): number =>
  list.findIndex(item => own(item, 'name') === name);

function lost(at: unknown, word: string, address: string): Lost {
  const message = `"${word}" of ${address} is not there`;
  const names = Array.isArray(at)
    ? at.map(item => own(item, 'name')).filter(name => typeof name === 'string')
    : Object.keys(at ?? {});
  const mirrored = /^(?:left|right) (.*)$/.exec(word)?.[1];
  if (mirrored !== undefined && names.includes(mirrored)) {
    return { message, wanted: `"${mirrored}", which is written once for both sides` };
  }
  const near = nearest(word, names);
  if (near !== null) return { message, wanted: `"${near}"` };
  const listed = names.slice(0, 12).join(', ') + (names.length > 12 ? ' …' : '');
  return { message, wanted: names.length > 0 ? `one of ${listed}` : 'an address that is there' };
}
