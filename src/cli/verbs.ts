/**
 * The command line as one table: which verbs there are, which files and options each takes, how an
 * option's values are read, and what the help says of each. The parser (arguments.ts) and the help
 * (help.ts) both come out of this table, so a new option is one entry here.
 */
import type { AxleName } from '../../geometry/build/build.ts';
import { nearest } from '../../geometry/build/nearest.ts';

/** What a reader makes of an option's values: the value, or what would have been right. */
export type Read<T> = { value: T } | { wanted: string };

export interface Option<T> {
  /** What stands behind the option in the help, one name for each value that it takes. */
  readonly values: readonly string[];
  readonly text: string;
  readonly read: (values: readonly string[]) => Read<T>;
}

export type WalkName = (typeof walkNames)[number];

/** The walks by name; `--path` takes one. */
export const walkNames = [
  'both',
  'crossed-left-up',
  'crossed-right-up',
  'left',
  'right',
  'lock-to-lock',
  'edge',
] as const;

/** Points of a grid along left travel, right travel and steering. */
export interface GridSize {
  left: number;
  right: number;
  steer: number;
}

/** A grid has both ends of a travel at least; the most keeps it near a million poses. */
const gridLeast = { left: 2, right: 2, steer: 1 };
const gridMost = 101;

/** A length or an angle stays as typed: geometry/build reads tape entries and knows the unit. */
function entry(values: readonly string[]): Read<string> {
  return { value: values[0] ?? '' };
}

function oneOf<T extends string>(choices: readonly T[]): (values: readonly string[]) => Read<T> {
  return ([value = '']) => {
    const choice = choices.find(each => each === value);
    if (choice !== undefined) return { value: choice };
    const meant = nearest(value, choices);
    return { wanted: `one of ${choices.join(', ')}${meant ? `; did you mean ${meant}?` : ''}` };
  };
}

function readTravel([value = '']: readonly string[]): Read<{ up: string; down: string }> {
  const [up = '', down = '', ...more] = value.split(',').map(part => part.trim());
  if (up === '' || down === '' || more.length > 0) {
    return { wanted: "two lengths with a comma between, up-travel first, such as '5,4 1/2'" };
  }
  return { value: { up, down } };
}

function readGrid([value = '']: readonly string[]): Read<GridSize> {
  const counts = /^(\d{1,4})x(\d{1,4})x(\d{1,4})$/i.exec(value.replaceAll('×', 'x'));
  const [left, right, steer] = (counts ?? []).slice(1).map(Number);
  if (
    left === undefined ||
    right === undefined ||
    steer === undefined ||
    left < gridLeast.left ||
    right < gridLeast.right ||
    steer < gridLeast.steer ||
    Math.max(left, right, steer) > gridMost
  ) {
    return {
      wanted:
        `three counts such as 21x21x9: ${gridLeast.left} to ${gridMost} for left and right ` +
        `travel, ${gridLeast.steer} to ${gridMost} for steering`,
    };
  }
  return { value: { left, right, steer } };
}

function readPair([a = '', b = '']: readonly string[]): Read<{ a: string; b: string }> {
  return a === b ? { wanted: 'a pair of two different parts' } : { value: { a, b } };
}

function option<T>(values: readonly string[], text: string, read: Option<T>['read']): Option<T> {
  return { values, text, read };
}

export const options = {
  axle: option(['front|rear'], 'the axle to look at', oneOf<AxleName>(['front', 'rear'])),
  left: option(['LENGTH'], 'left wheel travel from ride height, + up (default 0)', entry),
  right: option(['LENGTH'], 'right wheel travel from ride height, + up (default 0)', entry),
  steer: option(
    ['AMOUNT'],
    'pitman arm angle from where it was drawn, + turns the wheels left; inches of rod for a ram without drag link (default 0)',
    entry,
  ),
  path: option([walkNames.join('|')], 'this walk alone (default all)', oneOf(walkNames)),
  travel: option(
    ['UP,DOWN'],
    'go no further than this much up-travel and droop, both without a sign',
    readTravel,
  ),
  grid: option(
    ['LEFTxRIGHTxSTEER'],
    'how many poses along left travel, right travel and steering',
    readGrid,
  ),
  resolution: option(
    ['LENGTH'],
    'follow the edge of the range to within this much, where that is finer than 0.001 in',
    entry,
  ),
  answers: option(['FILE'], 'take the answers from this file and ask nothing', entry),
  replace: option([], 'write over a file that is there', () => ({ value: true })),
  pair: option(['PART', 'PART'], 'these two parts alone (default all pairs)', readPair),
  alternative: option(
    ['NAME'],
    'the candidates that the build holds for one part: where each clears, where not, what else it changes',
    entry,
  ),
};

export type OptionName = keyof typeof options;
export type OptionValue<K extends OptionName> =
  (typeof options)[K] extends Option<infer T> ? T : never;

/** Ways to print a result other than as text. A verb prints one at a time. */
export const formats = {
  json: 'print JSON and nothing else on stdout',
  csv: 'print a table of comma-separated values',
  html: 'print a page to keep or to send',
};

export type Format = keyof typeof formats;

interface VerbSpec {
  readonly files: readonly string[];
  readonly options: readonly OptionName[];
  readonly formats: readonly Format[];
  readonly text: string;
  /** Said below the options. */
  readonly more: string;
  readonly examples: readonly (readonly [line: string, text: string])[];
}

export const verbs = {
  check: {
    files: ['FILE'],
    options: [],
    formats: ['json'],
    text: 'read a build and say what is wrong with it, or what it describes',
    more: 'Every problem of one kind is named at once: the field, what stands there, what would be right.',
    examples: [
      ['check truck.axlewalk.json', 'read the whole build'],
      ["check 'truck.axlewalk.json#long arms'", 'read one variant of it'],
    ],
  },
  pose: {
    files: ['FILE'],
    options: ['axle', 'left', 'right', 'steer'],
    formats: ['json'],
    text: 'put the axle in one position and measure everything there',
    more: 'Without --axle: the only axle, else the front one. A pose outside the range is still solved, with the limits that it breaks.',
    examples: [
      ["pose truck.axlewalk.json --left 4 --right '-2 1/4'", 'left wheel up, right wheel down'],
      ["pose truck.axlewalk.json --left=-5 --right '120 mm' --steer 20", 'with the wheels turned'],
    ],
  },
  walk: {
    files: ['FILE'],
    options: ['axle', 'path', 'travel', 'grid', 'resolution'],
    formats: ['json', 'csv'],
    text: 'cycle the axle through all that its stops allow and say what happens on the way',
    more: 'Without --axle: all axles. With --csv and without --path all walks stand below each other; the last two columns name the axle and the walk.',
    examples: [
      ['walk truck.axlewalk.json', 'every walk, the range, the extremes and the findings'],
      ['walk truck.axlewalk.json --path crossed-left-up --csv', 'one walk as a table'],
      ["walk truck.axlewalk.json --travel '5,4 1/2' --grid 21x21x9", 'less travel, a finer grid'],
    ],
  },
  gaps: {
    files: ['FILE'],
    options: ['axle', 'pair', 'alternative', 'travel', 'resolution'],
    formats: ['json', 'csv'],
    text: 'find the smallest gap of each pair of parts over the whole range',
    more: 'Without --axle: all axles. Parts go by the names in the build; a mirrored part has its side in front.',
    examples: [
      ['gaps truck.axlewalk.json', 'all pairs'],
      ["gaps truck.axlewalk.json --pair 'drag link' 'track bar'", 'one pair'],
      [
        "gaps truck.axlewalk.json --alternative 'track bar'",
        'every track bar that the build holds',
      ],
    ],
  },
  compare: {
    files: ['FILE', 'FILE'],
    options: ['axle', 'travel', 'resolution'],
    formats: ['json', 'html'],
    text: 'set two builds, or two variants of one, side by side',
    more: 'Without --axle: all axles. A difference is the second less the first, at equal travel from each ride height and at equal steering; one that is no more than what the tolerances of the taped values make of it counts as none.',
    examples: [
      ["compare truck.axlewalk.json 'truck.axlewalk.json#long arms'", 'a build and its variant'],
      ['compare before.axlewalk.json after.axlewalk.json --html', 'a page to print'],
    ],
  },
  new: {
    files: ['FILE'],
    options: ['answers', 'replace'],
    formats: [],
    text: 'start a build from a dozen measurements and say what to tape next',
    more: 'Asks in the terminal, in the order of one walk around the vehicle; a question can be skipped or gone back to, and what was answered is kept beside FILE until it is written. With --answers it asks nothing. What is not answered is proposed by rules and marked assumed. A file that is already there is left alone.',
    examples: [
      ['new truck.axlewalk.json', 'ask, then write the build'],
      ['new truck.axlewalk.json --answers truck.json --replace', 'take the answers from a file'],
    ],
  },
} as const satisfies Record<string, VerbSpec>;

export type Verb = keyof typeof verbs;

/** The table as the parser and the help see it, all verbs alike. */
export const verbTable: Readonly<Record<Verb, VerbSpec>> = verbs;
export const verbNames = Object.keys(verbs) as Verb[];
export const optionNames = Object.keys(options) as OptionName[];
export const formatNames = Object.keys(formats) as Format[];
