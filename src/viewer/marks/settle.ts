/** Lays labels out: each beside its point, moved up or down so that none lies on another. */

/** A label's box about its own middle, px. `y` is where it wants to be; `at` where it goes. */
export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
  at: number;
  /** False where there is no room, or where its point is out of the picture. */
  isShown: boolean;
}

/** Tries, in heights of the label, nearest first. */
const TRIES = [0, -1, 1, -2, 2, -3, 3, -4];

/** Boxes in order of importance: the first ones stay where they are. Changes them in place. */
export function settle(boxes: readonly Box[]): void {
  for (let i = 0; i < boxes.length; i++) {
    const box = boxes[i] as Box;
    if (!box.isShown) continue;
    box.isShown = false;
    for (let t = 0; t < TRIES.length && !box.isShown; t++) {
      box.at = box.y + (TRIES[t] as number) * box.height;
      box.isShown = isFree(boxes, i);
    }
  }
}

function isFree(boxes: readonly Box[], i: number): boolean {
  const box = boxes[i] as Box;
  for (let k = 0; k < i; k++) {
    const other = boxes[k] as Box;
    if (!other.isShown) continue;
    const apartX = Math.abs(box.x - other.x) >= (box.width + other.width) / 2;
    const apartY = Math.abs(box.at - other.at) >= (box.height + other.height) / 2;
    if (!(apartX || apartY)) return false;
  }
  return true;
}
