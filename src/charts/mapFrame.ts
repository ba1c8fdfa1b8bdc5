/** Where travels stand on the travel map: a square of travel, the same scale both ways, up and right. */
import type { EdgePoint } from '../../geometry/cycle/edge.ts';

export interface MapFrame {
  /** The square, px. */
  x: number;
  y: number;
  size: number;
  /** Travels at its left and lower sides, in. */
  left: number;
  right: number;
  /** px an inch. */
  scale: number;
}

/** Room around the range for labels of its edge, as a share of the square. */
const AROUND = 0.085;
/** Travel that is shown where there is no range, in. */
const EMPTY_in = 10;

export function mapFrame(
  edge: readonly Pick<EdgePoint, 'left' | 'right'>[],
  x: number,
  y: number,
  size: number,
): MapFrame {
  const span = (values: number[]): [middle: number, width: number] => {
    const [least, most] = [Math.min(...values), Math.max(...values)];
    return values.length > 0 ? [(least + most) / 2, most - least] : [0, 2 * EMPTY_in];
  };
  const [left, wide] = span(edge.map(p => p.left));
  const [right, high] = span(edge.map(p => p.right));
  const shown = Math.max(wide, high, 1) / (1 - 2 * AROUND);
  return {
    x,
    y,
    size,
    left: left - shown / 2,
    right: right - shown / 2,
    scale: size / shown,
  };
}

export const xOf = (frame: MapFrame, left: number): number =>
  frame.x + (left - frame.left) * frame.scale;

export const yOf = (frame: MapFrame, right: number): number =>
  frame.y + frame.size - (right - frame.right) * frame.scale;

/** Travels at a point of the map, in. */
export const travelsAt = (frame: MapFrame, x: number, y: number): [left: number, right: number] => [
  frame.left + (x - frame.x) / frame.scale,
  frame.right + (frame.y + frame.size - y) / frame.scale,
];
