/** Boxes of text at any angle on a drawing, and whether they run into each other or into something else. */

export interface Point {
  x: number;
  y: number;
}

/** A rectangle about its middle, turned clockwise (y down), px and rad. */
export interface TurnedBox {
  x: number;
  y: number;
  width: number;
  height: number;
  angle: number;
}

/** Its corners, in order. */
export function cornersOf({ x, y, width, height, angle }: TurnedBox): Point[] {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([u = 0, v = 0]) => {
    const [p, q] = [(u * width) / 2, (v * height) / 2];
    return { x: x + p * cos - q * sin, y: y + p * sin + q * cos };
  });
}

/** Whether two boxes overlap: no line along a side of either separates them. */
export function overlap(a: TurnedBox, b: TurnedBox): boolean {
  const [p, q] = [cornersOf(a), cornersOf(b)];
  for (const angle of [a.angle, a.angle + Math.PI / 2, b.angle, b.angle + Math.PI / 2]) {
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    const along = (points: readonly Point[]): number[] => points.map(c => c.x * cos + c.y * sin);
    const [s, t] = [along(p), along(q)];
    if (Math.max(...s) <= Math.min(...t) || Math.max(...t) <= Math.min(...s)) return false;
  }
  return true;
}

/** Whether a closed line has any of a box in it, or runs through it. */
export function meets(box: TurnedBox, line: readonly Point[]): boolean {
  const corners = cornersOf(box);
  if (corners.some(c => isWithin(line, c.x, c.y))) return true;
  return line.some((p, i) => {
    const q = line[(i + 1) % line.length] as Point;
    return corners.some((c, k) => cross(p, q, c, corners[(k + 1) % 4] as Point));
  });
}

/** True for a point inside a closed line (crossing number). */
export function isWithin(line: readonly Point[], x: number, y: number): boolean {
  let odd = false;
  for (const [i, a] of line.entries()) {
    const b = line[(i + 1) % line.length] as Point;
    if (a.y > y === b.y > y) continue;
    if (x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) odd = !odd;
  }
  return odd;
}

function cross(a: Point, b: Point, c: Point, d: Point): boolean {
  const side = (p: Point, q: Point, r: Point): number =>
    (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  return side(a, b, c) > 0 !== side(a, b, d) > 0 && side(c, d, a) > 0 !== side(c, d, b) > 0;
}

/** True where all of a box lies in an upright rectangle. */
export const fits = (
  box: TurnedBox,
  x: number,
  y: number,
  width: number,
  height: number,
): boolean =>
  cornersOf(box).every(c => c.x >= x && c.x <= x + width && c.y >= y && c.y <= y + height);
