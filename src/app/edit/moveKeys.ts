/** Keys that move the chosen point: arrows as the axle is seen, Page Up and Page Down along the sight. */
import type { Build } from '../../../geometry/build/build.ts';
import type { V3 } from '../../../geometry/vector.ts';
import { axesOf, directionOf, type ViewName } from '../../viewer/framing.ts';

export interface KeyMove {
  axis: 0 | 1 | 2;
  /** Marks along it. */
  marks: number;
}

type Press = Pick<KeyboardEvent, 'key' | 'shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey'>;

/** Marks of a press with Shift. */
export const MANY = 8;

/** The axis that a direction runs along most, and its sense on it. */
function along(v: V3): KeyMove {
  const axis = ([0, 1, 2] as const).reduce((a, b) => (Math.abs(v[b]) > Math.abs(v[a]) ? b : a));
  return { axis, marks: v[axis] < 0 ? -1 : 1 };
}

/** What left to right, down to up and away are in a view. */
export function axesOfView(
  view: ViewName,
  axle: 'front' | 'rear',
  driver: Build['driverSide'],
): { right: KeyMove; up: KeyMove; deep: KeyMove } {
  const direction = directionOf(view, axle, driver);
  const seen = axesOf(direction);
  const right = along(seen.right);
  const up = along(seen.up);
  const deep = ([0, 1, 2] as const).find(axis => axis !== right.axis && axis !== up.axis) ?? 0;
  return { right, up, deep: { axis: deep, marks: direction[deep] < 0 ? 1 : -1 } };
}

/**
 * What a key does to the chosen point, or null.
 *
 * @param across −1 where the point is the right one of a mirrored pair: its coordinates are typed for the left one
 */
export function moveOf(
  { key, shiftKey, ctrlKey, metaKey, altKey }: Press,
  axes: ReturnType<typeof axesOfView>,
  across: 1 | -1,
): KeyMove | null {
  if (ctrlKey || metaKey || altKey) return null;
  const { right, up, deep } = axes;
  const moves: Record<string, [KeyMove, 1 | -1]> = {
    ArrowRight: [right, 1],
    ArrowLeft: [right, -1],
    ArrowUp: [up, 1],
    ArrowDown: [up, -1],
    PageUp: [deep, 1],
    PageDown: [deep, -1],
  };
  const found = moves[key];
  if (!found) return null;
  const [{ axis, marks }, sense] = found;
  const side = axis === 1 ? across : 1;
  return { axis, marks: marks * sense * side * (shiftKey ? MANY : 1) };
}
