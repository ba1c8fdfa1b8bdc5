/** One axle of a build that has been read: assembled, and settled at ride height. */
import type { Axle, AxleName, Build } from '../build/build.ts';
import type { Problem } from '../build/problem.ts';
import { type AssembleOptions, assemble } from '../mechanism/assemble.ts';
import { type AxleModel, settle } from '../pose/model.ts';

/** One axle of a build, settled at ride height. */
export interface OpenedAxle {
  build: Build;
  axle: Axle;
  model: AxleModel;
}

/** Assembles and settles one axle of a build that has been read. */
export function openAxle(
  build: Build,
  axle: Axle,
  options?: AssembleOptions,
): { ok: true; axle: OpenedAxle } | { ok: false; problems: Problem[] } {
  const assembly = assemble(axle, options);
  if (!assembly.ok) return assembly;
  const settled = settle(assembly.mechanism);
  return settled.ok ? { ok: true, axle: { build, axle, model: settled.model } } : settled;
}

/** The axle of that name; without one the only axle, else the front one. Null where there is none of it. */
export function axleOf(
  { axles }: { axles: readonly OpenedAxle[] },
  name: AxleName | null,
): OpenedAxle | null {
  if (name !== null) return axles.find(({ axle }) => axle.name === name) ?? null;
  return axles.find(({ axle }) => axle.name === 'front') ?? axles[0] ?? null;
}
