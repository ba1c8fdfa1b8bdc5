/** One thing that is wrong with the input, told so that it can be mended without looking anything up. */
export interface Problem {
  /** The field's place in the file as `fieldPath` writes it; '' is the file itself. */
  path: string;
  /** What stands there, as `shown` writes it; '' where there is nothing to show. */
  found: string;
  /** What would be right: 'a length such as 23 5/8 or 600 mm'. */
  wanted: string;
  /** Why what stands there is not right, as one clause: '3 kg is a mass'; may be ''. */
  message: string;
}

/**
 * A problem on one line: path, what stands there, why it is wrong, what would be right.
 *
 * @example 'axles["front"].wheelCenters: found "3 kg": 3 kg is a mass; wanted: a length such as 23 5/8'
 */
export function problemLine(problem: Problem): string {
  const { place, what } = problemParts(problem);
  return `${place}: ${what}`;
}

/** The two halves of the line: the field, and what is wrong with it and would be right. */
export function problemParts(problem: Problem): { place: string; what: string } {
  const found = problem.found && `found ${problem.found}`;
  const why = [found, problem.message].filter(Boolean).join(': ');
  const wanted = problem.wanted && `wanted: ${problem.wanted}`;
  const { path } = problem;
  const isLong = path.length > LONGEST_PATH;
  const place = isLong
    ? `${path.slice(0, LONGEST_PATH / 2)}…${path.slice(-LONGEST_PATH / 2)}`
    : path;
  return {
    place: clean(place || 'the file'),
    what: clean([why, wanted].filter(Boolean).join('; ')),
  };
}

const LONGEST_SHOWN = 60;
const LONGEST_PATH = 200;

/**
 * A value as a message may show it: text in quotes, numbers as written by JSON, lists and objects only
 * by their kind; on one line, at most 60 characters, without control characters.
 */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : 'a list';
  if (typeof value === 'object' && value !== null) return 'an object { … }';
  const text = typeof value === 'string' ? JSON.stringify(shortened(value)) : String(value);
  return clean(text);
}

/** Text as a message may quote it in the middle of a sentence: cut at 60 characters, on one line. */
export function quoted(text: string): string {
  return clean(shortened(text));
}

function shortened(text: string): string {
  if (text.length <= LONGEST_SHOWN) return text;
  return `${text.slice(0, LONGEST_SHOWN - 1).replace(/[\uD800-\uDBFF]$/, '')}…`;
}

/** Control, direction and line characters would let a file write over the terminal: each is spelled out. */
function clean(text: string): string {
  return text.replace(/[\p{C}\p{Zl}\p{Zp}]|(?! )\p{Zs}/gu, character => {
    const hex = (character.codePointAt(0) ?? 0).toString(16);
    return hex.length > 4 ? `\\u{${hex}}` : `\\u${hex.padStart(4, '0')}`;
  });
}

/**
 * The place of a value in a file, as messages write it: keys with dots, elements of a list by their name
 * if they have one that no other element of the list has, else by index (from 0).
 *
 * @param root the whole file's value, in which the names are looked up
 * @param steps keys and indexes from the root, as a schema's issue lists them
 * @example fieldPath(file, ['axles', 0, 'links', 2, 'axle', 'at', 1]) // axles["front"].links["lower link"].axle.at[1]
 */
export function fieldPath(root: unknown, steps: readonly PropertyKey[]): string {
  let path = '';
  let at = root;
  for (const step of steps) {
    if (typeof step === 'number') {
      const list: readonly unknown[] = Array.isArray(at) ? at : [];
      path += `[${elementName(list, step) ?? step}]`;
      at = list[step];
    } else {
      const key = String(step);
      if (!/^[A-Za-z_$][\w$]*$/.test(key)) path += `[${JSON.stringify(key)}]`;
      else path += path === '' ? key : `.${key}`;
      at = own(at, key);
    }
  }
  return path;
}

/** The name, in quotes, that tells this element of a list from all others, or null. */
function elementName(list: readonly unknown[], index: number): string | null {
  const name = own(list[index], 'name');
  if (typeof name !== 'string' || name === '') return null;
  const isTaken = list.some((other, i) => i !== index && own(other, 'name') === name);
  return isTaken ? null : JSON.stringify(name);
}

/** A value's own property; undefined where there is none. Never one that is inherited. */
export function own(value: unknown, key: string): unknown {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
  return (value as Record<string, unknown>)[key];
}
