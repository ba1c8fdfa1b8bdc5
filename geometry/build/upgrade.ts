/**
 * Older versions of the build file, brought up to the current one step at a time.
 *
 * Version 0 differs from 1 in these names: `trackWidth` of an axle (now `wheelCenters`), `trackBar` as kind
 * of a link (now `track bar`), `units` (now `unit`), and datums as an object from name to point (now a list).
 */
import { own, type Problem, shown } from './problem.ts';
import { currentVersion } from './schema/file.ts';

type Json = Record<string, unknown>;

/** From the version of its index to the next. Each leaves alone what it does not know. */
const steps: readonly ((file: Json) => Json)[] = [upgradeFrom0];

/**
 * The file in the current version.
 *
 * A version from the future, or none, is a problem: nothing is guessed about what it may hold.
 */
export function upgrade(
  file: Json,
): { ok: true; file: Json; from: number } | { ok: false; problems: Problem[] } {
  const version = own(file, 'axlewalk');
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 0) {
    const message = version === undefined ? 'missing' : '';
    return refused(version, message, `${currentVersion}, the version of this format`);
  }
  if (version > currentVersion) {
    const message = 'this file is of a later version than this tool';
    return refused(version, message, `at most ${currentVersion}, or a newer Axlewalk`);
  }
  const current = steps.slice(version).reduce((older, step) => step(older), file);
  return { ok: true, file: current, from: version };
}

function refused(
  version: unknown,
  message: string,
  wanted: string,
): { ok: false; problems: Problem[] } {
  const found = version === undefined ? '' : shown(version);
  return { ok: false, problems: [{ path: 'axlewalk', found, message, wanted }] };
}

function upgradeFrom0(file: Json): Json {
  const rest = renamed(file, 'units', 'unit');
  const datums = own(rest, 'datums');
  const axles = own(rest, 'axles');
  return {
    ...rest,
    axlewalk: 1,
    ...(isObject(datums)
      ? { datums: Object.entries(datums).map(([name, point]) => ({ name, point })) }
      : {}),
    ...(Array.isArray(axles) ? { axles: axles.map(axleFrom0) } : {}),
  };
}

function axleFrom0(axle: unknown): unknown {
  if (!isObject(axle)) return axle;
  const links = own(axle, 'links');
  const current = renamed(axle, 'trackWidth', 'wheelCenters');
  if (!Array.isArray(links)) return current;
  return {
    ...current,
    links: links.map(link =>
      isObject(link) && link.kind === 'trackBar' ? { ...link, kind: 'track bar' } : link,
    ),
  };
}

/** The object with one key called otherwise, in its place; unchanged where it has none of that name. */
function renamed(object: Json, from: string, to: string): Json {
  return Object.fromEntries(
    Object.entries(object).map(([key, value]) => [key === from ? to : key, value]),
  );
}

function isObject(value: unknown): value is Json {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
