/** A coordinate of a point taped from another place: the file says it so, and the other two stay as they are typed. */
import { pathSteps, valueAt } from './address.ts';
import { appliedFile, type Edit, type Edited, withField } from './edit.ts';
import { negated } from './negated.ts';
import { own } from './problem.ts';
import type { WrittenEntry } from './tape.ts';
import { ORIGIN, startsIn } from './tapeStarts.ts';

export interface TapedOffset {
  axis: 0 | 1 | 2;
  /** The place, as the part calls it. */
  from: string;
  /** As typed, without its way. */
  typed: string;
  /** −1: rearward, to the right (of a mirrored part inward), down. */
  way: 1 | -1;
}

/**
 * @param path of the point
 * @example withOffset(edited, 'solids["tab"].box.center', { axis: 2, from: 'left rail bottom', typed: '5 1/2', way: -1 })
 *   // [-30, 13, 20] → { from: ['ground', 'centerline', 'left rail bottom'], by: [-30, 13, '-5 1/2'] }
 */
export function withOffset(
  edited: Edited,
  path: string,
  { axis, from, typed, way }: TapedOffset,
): Edit {
  const file = appliedFile(edited);
  const steps = pathSteps(file, path);
  const written = steps && valueAt(file, steps);
  const starts = startsIn(written);
  if (!steps || !starts) return { ok: false, message: `${path} is no point of this build` };
  const by = (Array.isArray(written) ? written : own(written, 'by')) as WrittenEntry[];
  const entry = by[axis] ?? 0;
  const value = signed(typed, way);
  const next = by.with(axis, typeof entry === 'object' ? { ...entry, value } : value);
  const names = starts.map((name, i) => (i === axis ? from : name));
  if (names.every((name, i) => name === ORIGIN[i])) return withField(edited, steps, next);
  const rest = Array.isArray(written) ? {} : (written as object);
  const start = names.every(name => name === names[0]) ? names[0] : names;
  return withField(edited, steps, { ...rest, from: start, by: next });
}

/** With its sign; what can't be read stays as it is, and the reader says why. */
function signed(typed: string, way: 1 | -1): string | number {
  try {
    return way === 1 ? typed : (negated(typed) as string | number);
  } catch {
    return typed;
  }
}
