/** Whether two Builds are the same vehicle. */
import type { Build } from './build.ts';
import { own } from './problem.ts';

/** Numbers nearer than this to each other are alike, in or rad: rounding on the way through turned frames. */
const SAME = 1e-9;

/** Whether two Builds hold the same vehicle, however it was written and in whatever order its parts stand. */
export function isSameBuild(a: Build, b: Build): boolean {
  return isAlike(vehicle(a), vehicle(b));
}

function vehicle({ entries: _, jointPaths: __, places, warnings, ...build }: Build): unknown {
  return {
    ...build,
    places: places.map(({ path: ___, ...place }) => place),
    warnings: [...warnings].sort(),
  };
}

function isAlike(a: unknown, b: unknown): boolean {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= SAME;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === b;
  if (Array.isArray(a) && Array.isArray(b)) {
    const [p, q] = [byName(a), byName(b)];
    return p.length === q.length && p.every((item, i) => isAlike(item, q[i]));
  }
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length && keys.every(key => isAlike(own(a, key), own(b, key)))
  );
}

function byName(list: readonly unknown[]): readonly unknown[] {
  const name = (item: unknown): string => String(own(item, 'name'));
  if (!list.every(item => typeof own(item, 'name') === 'string')) return list;
  return list.toSorted((p, q) => (name(p) < name(q) ? -1 : 1));
}
