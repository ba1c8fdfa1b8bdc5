/** Where the names of both parts stand on the picture of a section: each in its own area, or beside what is thin. */
import type { Outline, P2 } from './contours.ts';

export interface NameSpot {
  at: P2;
  text: string;
}

/** About half a letter's width, half a line's height, and the widest that a name is shown, px. */
const LETTER = 3.5;
const LINE = 9;
export const WIDEST_NAME = 112;

/** A picture's size, and the box on it that is taken by the dimension, px. */
export interface Room {
  width: number;
  height: number;
  taken: { left: number; right: number; top: number; bottom: number };
}

/** Where a name stands in its own area; where that is too narrow, its last word, or either beside it. */
export function nameSpot(
  own: readonly Outline[],
  other: readonly Outline[],
  room: Room,
  name: string,
): NameSpot | null {
  const whole = spotOf(own, other, room, name);
  const last = name.slice(name.lastIndexOf(' ') + 1);
  if (whole?.out === 0) return { at: whole.at, text: name };
  const short = last === name ? whole : spotOf(own, other, room, last);
  if (short?.out === 0) return { at: short.at, text: last };
  for (const text of [name, last]) {
    const at = besideSpot(own, other, room, text);
    if (at) return { at, text };
  }
  // nowhere free of lines: at least most of it in its own area
  const isMost = short !== null && (last === name || short.out <= CORNERS.length / 2);
  return isMost ? { at: short.at, text: last } : null;
}

/** Where a name of what is too thin for any word stands: in neither area, near its own. */
function besideSpot(
  own: readonly Outline[],
  other: readonly Outline[],
  room: Room,
  name: string,
): P2 | null {
  let best: P2 | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const at of places(room, name)) {
    const isFree = [[0, 0] as const, ...CORNERS].every(([u, v]) => {
      const [x, y] = [at[0] + u * wideOf(name), at[1] + v * LINE];
      return !isIn(own, x, y) && !isIn(other, x, y);
    });
    const away = awayFrom(own, at[0], at[1]);
    if (isFree && away > LINE && away < least) {
      least = away;
      best = at;
    }
  }
  return best;
}

/** Half the width of a name, px. */
const wideOf = (name: string): number => Math.min(WIDEST_NAME / 2, LETTER * name.length) + 3;

/** Middles at which a name lies wholly on the picture and clear of the dimension. */
function places({ width, height, taken }: Room, name: string): P2[] {
  const wide = wideOf(name);
  const all: P2[] = [];
  for (let i = 0; i <= 16; i++) {
    for (let j = 0; j <= 10; j++) {
      const x = wide + 4 + (i / 16) * (width - 2 * wide - 8);
      const y = LINE + 3 + (j / 10) * (height - 2 * LINE - 8);
      const isTaken =
        x + wide > taken.left &&
        x - wide < taken.right &&
        y + LINE > taken.top &&
        y - LINE < taken.bottom;
      if (!isTaken) all.push([x, y]);
    }
  }
  return all;
}

/** The place where a name is most in its own area and clear of the other, as far from lines and rim as can be. */
function spotOf(
  own: readonly Outline[],
  other: readonly Outline[],
  room: Room,
  name: string,
): { at: P2; out: number } | null {
  const wide = wideOf(name);
  let best: { at: P2; out: number } | null = null;
  let most = Number.NEGATIVE_INFINITY;
  for (const [x, y] of places(room, name)) {
    if (!isIn(own, x, y) || isIn(other, x, y)) continue;
    const out = CORNERS.filter(([u, v]) => {
      const [cx, cy] = [x + u * wide, y + v * LINE];
      return !isIn(own, cx, cy) || isIn(other, cx, cy);
    }).length;
    const away = Math.min(awayFrom(own, x, y), awayFrom(other, x, y), 30);
    // low rather than high, where the dimension stands
    const worth = away + (2.4 * y) / room.height - 40 * out;
    if (worth > most) {
      most = worth;
      best = { at: [x, y], out };
    }
  }
  return best;
}

/** Places around a name's box. */
const CORNERS: readonly P2[] = [
  [-1, -1],
  [1, -1],
  [-1, 1],
  [1, 1],
  [-1, 0],
  [1, 0],
  [0, -1],
  [0, 1],
];

function awayFrom(outlines: readonly Outline[], x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const outline of outlines) {
    // names are wider than high: ways across count less
    for (const [u, v] of outline) least = Math.min(least, Math.hypot((u - x) / 2.2, v - y));
  }
  return least;
}

/** Even–odd, so that holes count as outside. */
export function isIn(outlines: readonly Outline[], x: number, y: number): boolean {
  let inside = false;
  for (const outline of outlines) {
    for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
      const [xi, yi] = outline[i] ?? [0, 0];
      const [xj, yj] = outline[j] ?? [0, 0];
      if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
    }
  }
  return inside;
}
