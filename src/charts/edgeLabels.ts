/**
 * Labels of the travel edge: along each stretch, outside the range; where a stretch is too short for its words, in
 * lines beside it with a leader; where there is no room either, none.
 */
import { fits, meets, overlap, type Point, type TurnedBox } from './boxes.ts';

export interface EdgeLabel {
  /** One line along the edge, or several beside it. */
  lines: string[];
  box: TurnedBox;
  align: 'center' | 'left' | 'right';
  /** From the edge to the label, px; null for one along the edge. */
  leader: [Point, Point] | null;
}

export interface LabelRoom {
  /** The map's square, px. */
  x: number;
  y: number;
  size: number;
  /** Height of a line of text, px. */
  lineHeight: number;
  /** Width of words, px. */
  measure(words: string): number;
}

/** Between the edge and the middle of the text along it, px. */
const OFF = 12;

/**
 * Places the labels, longest stretch first.
 *
 * @param edge all of the edge, closed, px
 * @param stretches points along each (px) and its words, longest wording first
 */
export function placeLabels(
  edge: readonly Point[],
  stretches: readonly { line: readonly Point[]; words: readonly string[] }[],
  room: LabelRoom,
): (EdgeLabel | null)[] {
  const out: (EdgeLabel | null)[] = stretches.map(() => null);
  const taken: TurnedBox[] = [];
  const isFree = (box: TurnedBox): boolean =>
    fits(box, room.x, room.y, room.size, room.size) &&
    !taken.some(other => overlap(box, other)) &&
    !meets(box, edge);
  const turning = turnOf(edge);
  const order = [...stretches.keys()].sort((a, b) => lengthAt(b) - lengthAt(a));
  function lengthAt(i: number): number {
    return lengthOf(stretches[i]?.line ?? []);
  }
  const place = (i: number, label: EdgeLabel | null): void => {
    if (!label) return;
    out[i] = label;
    taken.push(label.box);
  };
  // labels along the edge have first choice
  for (const i of order) {
    const stretch = stretches[i];
    if (stretch) place(i, along(stretch.line, stretch.words, turning, room, isFree));
  }
  for (const i of order) {
    const stretch = stretches[i];
    if (stretch && !out[i]) place(i, beside(stretch.line, stretch.words, turning, room, isFree));
  }
  return out;
}

function along(
  line: readonly Point[],
  words: readonly string[],
  turning: 1 | -1,
  room: LabelRoom,
  isFree: (box: TurnedBox) => boolean,
): EdgeLabel | null {
  const length = lengthOf(line);
  for (const each of words) {
    const width = room.measure(each);
    if (width + 6 > length) continue;
    const free = length - width;
    for (const share of [0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92]) {
      const start = free * share;
      const [p, q] = [pointAt(line, start), pointAt(line, start + width)];
      const [dx, dy] = [q.x - p.x, q.y - p.y];
      const chord = Math.hypot(dx, dy);
      // a line around a corner is no base for a word
      if (chord < 0.97 * width) continue;
      const away = { x: (turning * dy) / chord, y: (-turning * dx) / chord };
      // how far the edge bulges towards the text
      const middle = pointAt(line, start + width / 2);
      const bulge = Math.max(
        0,
        (middle.x - (p.x + q.x) / 2) * away.x + (middle.y - (p.y + q.y) / 2) * away.y,
      );
      let angle = Math.atan2(dy, dx);
      if (angle > Math.PI / 2) angle -= Math.PI;
      if (angle <= -Math.PI / 2) angle += Math.PI;
      const box: TurnedBox = {
        x: (p.x + q.x) / 2 + away.x * (OFF + bulge),
        y: (p.y + q.y) / 2 + away.y * (OFF + bulge),
        width: width + 4,
        height: room.lineHeight - 2,
        angle,
      };
      if (isFree(box)) return { lines: [each], box, align: 'center', leader: null };
    }
  }
  return null;
}

function beside(
  line: readonly Point[],
  words: readonly string[],
  turning: 1 | -1,
  room: LabelRoom,
  isFree: (box: TurnedBox) => boolean,
): EdgeLabel | null {
  const length = lengthOf(line);
  if (length < SHORTEST) return null;
  const from = pointAt(line, length / 2);
  const [p, q] = [pointAt(line, length / 2 - 1), pointAt(line, length / 2 + 1)];
  const outward = Math.atan2(-turning * (q.x - p.x), turning * (q.y - p.y));
  for (const each of words) {
    const lines = wrapped(each);
    const width = Math.max(...lines.map(room.measure));
    const height = lines.length * room.lineHeight;
    for (const far of [10, 22, 36, 52]) {
      for (const turn of [0, 0.35, -0.35, 0.7, -0.7, 1.05, -1.05]) {
        const [cos, sin] = [Math.cos(outward + turn), Math.sin(outward + turn)];
        const end = { x: from.x + far * cos, y: from.y + far * sin };
        // the box stands beyond the leader's end, its nearest side towards it
        const x = end.x + (cos * (width + 8)) / 2;
        const y = end.y + (sin * (height + 4)) / 2;
        const box: TurnedBox = { x, y, width: width + 4, height, angle: 0 };
        if (!isFree(box)) continue;
        const align = cos > 0.5 ? 'left' : cos < -0.5 ? 'right' : 'center';
        const start = { x: from.x + 5 * cos, y: from.y + 5 * sin };
        return { lines, box, align, leader: [start, end] };
      }
    }
  }
  return null;
}

/** A stretch under this is not labeled, px. */
const SHORTEST = 7;

/** Words in lines of about equal length: the first word alone, the last alone, what is between together. */
export function wrapped(words: string): string[] {
  const list = words.split(' ');
  if (list.length <= 2) return [words];
  const most = Math.max(10, Math.ceil(words.length / 3));
  const out: string[] = [];
  for (const word of list) {
    const last = out.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= most) {
      out[out.length - 1] = `${last} ${word}`;
    } else out.push(word);
  }
  return out;
}

/** +1 where the inside of a closed line lies on its right (y down: counterclockwise on screen), else −1. */
function turnOf(line: readonly Point[]): 1 | -1 {
  let sum = 0;
  for (const [i, p] of line.entries()) {
    const q = line[(i + 1) % line.length] as Point;
    sum += p.x * q.y - q.x * p.y;
  }
  return sum < 0 ? -1 : 1;
}

export function lengthOf(line: readonly Point[]): number {
  let sum = 0;
  for (let i = 1; i < line.length; i++) {
    const [p, q] = [line[i - 1] as Point, line[i] as Point];
    sum += Math.hypot(q.x - p.x, q.y - p.y);
  }
  return sum;
}

/** The point at a length along a line. */
export function pointAt(line: readonly Point[], length: number): Point {
  let left = length;
  for (let i = 1; i < line.length; i++) {
    const [p, q] = [line[i - 1] as Point, line[i] as Point];
    const size = Math.hypot(q.x - p.x, q.y - p.y);
    if (left <= size && size > 0) {
      const t = Math.max(0, left / size);
      return { x: p.x + t * (q.x - p.x), y: p.y + t * (q.y - p.y) };
    }
    left -= size;
  }
  return line.at(-1) ?? { x: 0, y: 0 };
}
