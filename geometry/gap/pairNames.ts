/** The names by which pairs of parts are called for, and what is wrong with those in a build. */
import type { AxleName, Build } from '../build/build.ts';
import { nearest } from '../build/nearest.ts';
import type { Problem } from '../build/problem.ts';
import { sphere } from '../solid/sphere.ts';
import type { Part } from './part.ts';
import { partsOf } from './parts.ts';

/**
 * Whether a part goes by a name: its own, that of the whole which it is a piece of (`left shock`), or either
 * with its axle before it (`front left tire`).
 */
export const isCalled = (part: Part, axle: AxleName, name: string): boolean =>
  name === part.name ||
  name === part.of ||
  name === `${axle} ${part.name}` ||
  name === `${axle} ${part.of}`;

/** Every name that parts of a build go by. */
export function namesOfParts(build: Build): string[] {
  const names = new Set<string>();
  // what a mesh looks like does not matter here
  const readMesh = () => sphere({ center: [0, 0, 0], radius: 1 });
  for (const axle of build.axles) {
    for (const { name, of } of partsOf(build, axle, readMesh).parts) {
      for (const each of [name, of]) names.add(each).add(`${axle.name} ${each}`);
    }
  }
  return [...names];
}

/** Names in `wanted.gaps` and `wanted.muted` that no part of the build has. */
export function problemsOfPairs(build: Build): Problem[] {
  const { gaps, muted } = build.wanted;
  if (gaps.length + muted.length === 0) return [];
  const names = namesOfParts(build);
  const known = new Set(names);
  const problems: Problem[] = [];
  for (const [list, pairs] of [
    ['gaps', gaps],
    ['muted', muted],
  ] as const) {
    for (const [i, { pair }] of pairs.entries()) {
      for (const [k, name] of pair.entries()) {
        if (known.has(name)) continue;
        problems.push({
          path: `wanted.${list}[${i}].pair[${k}]`,
          found: JSON.stringify(name),
          message: 'no part is called that',
          wanted: nameWanted(name, names),
        });
      }
    }
  }
  return problems;
}

/** What would be right in place of a name that no part has. */
export function nameWanted(name: string, names: readonly string[]): string {
  const near = nearest(name, names);
  return near ? `a part's name, such as ${JSON.stringify(near)}` : "a part's name";
}
