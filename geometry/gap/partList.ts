/** Collects the parts of an axle as they are made. */
import type { Made, Solid } from '../solid/solid.ts';
import type { V3 } from '../vector.ts';
import type { Anchor, Motion, Part, PartKind } from './part.ts';

export interface PartsProblem {
  part: string;
  /** One line that begins with the field of the build file. */
  problem: string;
}

export class PartList {
  readonly parts: Part[] = [];
  readonly problems: PartsProblem[] = [];
  readonly #names = new Set<string>();

  /** Adds a part, or tells what is wrong with its solid. */
  put(
    name: string,
    kind: PartKind,
    motion: Motion,
    made: Made | Solid,
    more: Partial<Part> = {},
  ): void {
    if ('problem' in made) {
      const line = made.problem.startsWith('solids[');
      this.problems.push({
        part: name,
        problem: line ? made.problem : fieldLine(name, '', made.problem),
      });
      return;
    }
    if (this.#names.has(name)) {
      const problem = 'a part of the mechanism is called that too: give the drawn one another name';
      this.problems.push({ part: name, problem: fieldLine(name, '.name', problem) });
      return;
    }
    this.#names.add(name);
    this.parts.push({
      name,
      of: name,
      kind,
      motion,
      body: motion.kind === 'rigid' ? motion.body : name,
      roll: null,
      solid: 'solid' in made ? made.solid : made,
      open: null,
      hollow: null,
      joints: [],
      isNew: false,
      mayBeCut: false,
      assumed: false,
      give: 0,
      ...more,
    });
  }
}

const fieldLine = (name: string, field: string, problem: string): string =>
  `solids[${JSON.stringify(name)}]${field}: ${problem}`;

export const anchor = (on: string, at: V3): Anchor => ({ on, at });
