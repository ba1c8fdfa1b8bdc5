/** A Build with some of its numbers moved, all else shared. */
import type { Build } from '../build/build.ts';
import type { Leaf } from '../build/entrySlopes.ts';

/** @param by how far the entry moves that these leaves follow, internal unit */
export function movedBuild(build: Build, leaves: readonly Leaf[], by: number): Build {
  return leaves.reduce((moved, { at, slope }) => withMoved(moved, at, slope * by) as Build, build);
}

function withMoved(value: unknown, [step, ...rest]: Leaf['at'], by: number): unknown {
  if (step === undefined) return typeof value === 'number' ? value + by : value;
  if (Array.isArray(value)) {
    return value.with(Number(step), withMoved(value[Number(step)], rest, by));
  }
  const object = value as Record<string, unknown>;
  return { ...object, [step]: withMoved(object[step], rest, by) };
}
