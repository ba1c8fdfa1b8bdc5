/** What goes with a part that is taken out, in words. */
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import type { Hanging } from '../../../geometry/build/takeOut.ts';
import { pathWords } from '../words/pathWords.ts';

/** 'The wanted gap of tie rod and oil pan'. @param file as it is before */
export function hangingWords({ what, path }: Hanging, file: BuildFile): string {
  const [first, second] = quotedIn(path);
  switch (what) {
    case 'part':
      return pathWords(path).name;
    case 'joint':
      return `${pathWords(path).name} keeps its ${path.includes('.chassis') ? 'frame' : 'axle'} end, with a plain rod end`;
    case 'steering':
      return 'All of the steering with its knuckles: the axle then does not steer';
    case 'reading':
      return 'A reading of the tape that checks it';
    case 'change':
      return `What the variant ${first} changes of it`;
    case 'option':
      return second === undefined
        ? `The alternatives for the ${first}`
        : `${second}, an alternative for the ${first}`;
    case 'wish':
      return wishWords(path, file);
  }
}

const quotedIn = (path: string): string[] =>
  [...path.matchAll(/\["((?:[^"\\]|\\.)*)"\]/g)].map(([, name]) => name ?? '');

function wishWords(path: string, { wanted }: BuildFile): string {
  const [, list, index] = /^wanted\.(gaps|muted|bands)\[(\d+)\]/.exec(path) ?? [];
  const at = Number(index);
  if (list === 'bands') return 'A band that is wanted of it';
  const pair = (list === 'gaps' ? wanted?.gaps : wanted?.muted)?.[at]?.pair;
  const names = pair ? pair.join(' and ') : 'a pair';
  return list === 'gaps' ? `The wanted gap of ${names}` : `That ${names} are left out`;
}
