/** What of a part is chosen from a few words and not typed: the joint of a link's end, what a solid rides on, a kind. */
import { fieldSteps, pathSteps, valueAt } from './address.ts';
import type { AxleName } from './build.ts';
import { appliedFile, type Edit, type Edited, withField, withoutField } from './edit.ts';
import { own } from './problem.ts';

/** A word of the file; null leaves the field out. */
export type Chosen = string | boolean | null;

export interface PartChoice {
  /** Within the part: `axle[0].joint`. */
  field: string;
  label: string;
  now: Chosen;
  options: readonly (readonly [value: Chosen, words: string])[];
}

/** A body that something may ride on. */
export interface RideBody {
  on: string;
  /** Null for the chassis. */
  axle: AxleName | null;
  words: string;
}

const KINDS: readonly (readonly [list: RegExp, options: PartChoice['options']])[] = [
  [
    /\.joints\[/,
    [
      ['rodEnd', 'Rod end'],
      ['ball', 'Ball'],
      ['bushing', 'Bushing'],
    ],
  ],
  [
    /\.bumpStops\[/,
    [
      ['rubber', 'Rubber'],
      ['air', 'Air bump'],
    ],
  ],
  [
    /\.links\[/,
    [
      ['link', 'Link'],
      ['track bar', 'Track bar'],
    ],
  ],
];

const NO_YES: PartChoice['options'] = [
  [null, 'No'],
  [true, 'Yes'],
];

/**
 * @param path of a part of a list, as entries write it
 * @param bodies of its axle and the chassis
 */
export function choicesOf(edited: Edited, path: string, bodies: readonly RideBody[]): PartChoice[] {
  const file = appliedFile(edited);
  const steps = pathSteps(file, path);
  const part = steps && valueAt(file, steps);
  if (!steps || typeof part !== 'object' || part === null) return [];
  const at = (field: string): unknown => valueAt(part, fieldSteps(field) ?? []);
  const choice = (field: string, label: string, options: PartChoice['options']): PartChoice => {
    const now = at(field);
    return { field, label, now: typeof now === 'string' || now === true ? now : null, options };
  };
  const kinds = KINDS.filter(([list]) => list.test(path) && at('kind') !== 'radius arm').map(
    ([, options]) => {
      const kind = choice('kind', 'Kind', options);
      return { ...kind, now: kind.now ?? options[0]?.[0] ?? null };
    },
  );
  const rides = bodies.map(({ on, words }) => [on === 'chassis' ? null : on, words] as const);
  if (/^solids\[/.test(path)) {
    return [
      choice('on', 'Rides on', rides),
      choice('new', 'New part', NO_YES),
      choice('mayBeCut', 'May be cut', NO_YES),
    ];
  }
  if (/\.lines\[/.test(path)) {
    const ends = bodies.map(({ on, words }) => [on, words] as const);
    return [choice('from.on', 'First end on', ends), choice('to.on', 'Second end on', ends)];
  }
  if (!/\.links\[/.test(path)) return kinds;
  const joints = valueAt(file, [...steps.slice(0, 2), 'joints']);
  const names = (Array.isArray(joints) ? joints : [])
    .filter(joint => own(joint, 'at') === undefined || own(joint, 'at') === null)
    .map(joint => String(own(joint, 'name')));
  const isArm = Array.isArray(at('axle'));
  const ends = isArm
    ? ([
        ['axle[0]', 'Joint, front axle end'],
        ['axle[1]', 'Joint, rear axle end'],
        ['chassis', 'Joint, frame end'],
      ] as const)
    : ([
        ['axle', 'Joint, axle end'],
        ['chassis', 'Joint, frame end'],
      ] as const);
  // an end without a point of its own shares a joint's, and would be nowhere without it
  const own_ = ends.filter(([end]) => at(`${end}.at`) !== undefined && at(`${end}.at`) !== null);
  const options = [[null, 'Plain rod end'], ...names.map(name => [name, name])] as const;
  return [
    ...kinds,
    ...own_.map(([end, label]) => choice(`${end}.joint`, label, options as PartChoice['options'])),
  ];
}

/** The file with a choice made; a solid takes the axle of its body along. */
export function withChoice(
  edited: Edited,
  path: string,
  { field }: Pick<PartChoice, 'field'>,
  to: Chosen,
  bodies: readonly RideBody[],
): Edit {
  const within = fieldSteps(field);
  const steps = pathSteps(appliedFile(edited), path);
  if (!steps || !within) return { ok: false, message: `${path} is no part of this build` };
  const edit = written(edited, [...steps, ...within], to);
  if (!edit.ok || !/^solids\[/.test(path) || field !== 'on') return edit;
  const axle = bodies.find(({ on }) => on === to)?.axle ?? null;
  return written({ ...edited, file: edit.file }, [...steps, 'axle'], axle);
}

const written = (edited: Edited, steps: readonly PropertyKey[], to: Chosen): Edit =>
  to === null ? withoutField(edited, steps) : withField(edited, steps, to);
