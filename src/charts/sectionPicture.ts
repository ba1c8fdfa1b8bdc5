/** How a section lies on its picture: turned upright by quarters, scaled, with room for names and dimension. */
import type { Outline, P2 } from './contours.ts';
import type { Section } from './section.ts';
import { type NameSpot, nameSpot } from './sectionNames.ts';

export interface SectionPicture {
  a: Outline[];
  b: Outline[];
  pointA: P2;
  pointB: P2;
  /** Direction from the first part to the second on the picture, a unit along x or y. */
  across: P2;
  /** Pixels an inch. */
  scale: number;
  /** The names as they have room, and where they stand, px. */
  nameA: NameSpot | null;
  nameB: NameSpot | null;
}

/**
 * A section on a picture of this size, px, y down. The picture is turned by quarters so that up in the vehicle is
 * most nearly up, and the touch stays level or upright.
 */
export function pictureOf(
  section: Section,
  width: number,
  height: number,
  names: readonly [string, string],
): SectionPicture {
  const scale = Math.min(width, height) / (2 * section.half);
  const turn = quarterTurn(section.up);
  const put = (p: P2): P2 => {
    const [x, y] = turn(p);
    return [width / 2 + scale * x, height / 2 - scale * y];
  };
  const all = (outlines: readonly Outline[]): Outline[] => outlines.map(line => line.map(put));
  const [a, b] = [all(section.a), all(section.b)];
  const [x, y] = turn([1, 0]);
  const [pointA, pointB] = [put(section.pointA), put(section.pointB)];
  const isLevel = Math.abs(x) > 0.5;
  const at = dimensionAt(isLevel, width);
  const taken = isLevel
    ? { left: 0, right: width, top: 0, bottom: at + 14 }
    : {
        left: at - 12,
        right: width,
        top: Math.min(pointA[1], pointB[1]) - 30,
        bottom: Math.max(pointA[1], pointB[1]) + 30,
      };
  const room = { width, height, taken };
  return {
    a,
    b,
    pointA,
    pointB,
    across: [x, -y],
    scale,
    nameA: nameSpot(a, b, room, names[0]),
    nameB: nameSpot(b, a, room, names[1]),
  };
}

/** Room that the dimension's number takes, px. */
const NUMBER = 44;

/** Where the dimension stands, px: near the top where the touch is level, right of the middle where it is upright. */
const dimensionAt = (isLevel: boolean, width: number): number =>
  isLevel ? 24 : Math.min(width - NUMBER - 24, width / 2 + 40);

/** The turn by quarters that brings `up` nearest to +y; none where there is no up. */
function quarterTurn([x, y]: P2): (p: P2) => P2 {
  if (Math.abs(x) <= Math.abs(y) + 1e-9) return y < 0 ? ([u, v]) => [-u, -v] : p => p;
  // +x becomes up, or −x does
  return x > 0 ? ([u, v]) => [-v, u] : ([u, v]) => [v, -u];
}

export interface SectionInks {
  a: string;
  b: string;
  ink: string;
  page: string;
  /** Overlap: its ground and the lines over it. */
  overlap: string;
  hatch: string;
}

/** Where the dimension's number stands, px, and which side of that point it reads from. */
export interface DimensionSpot {
  at: P2;
  align: 'start' | 'middle' | 'end';
}

/** Draws a section, and says where its dimension's number goes. */
export function drawSection(
  context: CanvasRenderingContext2D,
  picture: SectionPicture,
  size: { width: number; height: number },
  inks: SectionInks,
): DimensionSpot {
  const { width, height } = size;
  context.clearRect(0, 0, width, height);
  const [pathA, pathB] = [pathOf(picture.a), pathOf(picture.b)];
  context.fillStyle = inks.a;
  context.fill(pathA, 'evenodd');
  context.fillStyle = inks.b;
  context.fill(pathB, 'evenodd');
  context.save();
  context.clip(pathA, 'evenodd');
  context.clip(pathB, 'evenodd');
  context.fillStyle = inks.overlap;
  context.fillRect(0, 0, width, height);
  hatch(context, width, height, inks.hatch);
  context.restore();
  context.lineJoin = 'round';
  context.strokeStyle = inks.ink;
  context.lineWidth = 1.6;
  context.stroke(pathA);
  context.stroke(pathB);
  return dimension(context, picture, width, inks);
}

function pathOf(outlines: readonly Outline[]): Path2D {
  const path = new Path2D();
  for (const outline of outlines) {
    for (const [i, [x, y]] of outline.entries()) {
      if (i === 0) path.moveTo(x, y);
      else path.lineTo(x, y);
    }
    path.closePath();
  }
  return path;
}

function hatch(
  context: CanvasRenderingContext2D,
  width: number,
  height: number,
  ink: string,
): void {
  context.strokeStyle = ink;
  context.lineWidth = 1.4;
  context.beginPath();
  for (let x = -height; x < width; x += 5) {
    context.moveTo(x, height);
    context.lineTo(x + height, 0);
  }
  context.stroke();
}

/** Extension lines from both points, with arrows between them or, where there is no room, from outside. */
function dimension(
  context: CanvasRenderingContext2D,
  { pointA, pointB, across }: SectionPicture,
  width: number,
  inks: SectionInks,
): DimensionSpot {
  const isLevel = Math.abs(across[0]) > 0.5;
  const along = isLevel ? 0 : 1;
  const [p, q] = [pointA[along], pointB[along]].sort((u, v) => u - v) as [number, number];
  // across the picture where the dimension stands
  const at = dimensionAt(isLevel, width);
  const from = isLevel ? pointA[1] : pointA[0];
  const xy = (u: number, v: number): P2 => (isLevel ? [u, v] : [v, u]);
  const wide = q - p > 46;
  const tail = width < 180 ? 12 : 22;
  const segments: [P2, P2][] = [
    [xy(p, from), xy(p, at + (isLevel ? -7 : 7))],
    [xy(q, from), xy(q, at + (isLevel ? -7 : 7))],
    ...(wide
      ? ([[xy(p, at), xy(q, at)]] as [P2, P2][])
      : ([
          [xy(p - tail, at), xy(p, at)],
          [xy(q + tail, at), xy(q, at)],
        ] as [P2, P2][])),
  ];
  const heads: [P2, number][] = [
    [xy(p, at), wide ? 1 : -1],
    [xy(q, at), wide ? -1 : 1],
  ];
  for (const [color, lineWidth] of [
    [inks.page, 4],
    [inks.ink, 1.4],
  ] as const) {
    context.strokeStyle = color;
    context.fillStyle = color;
    context.lineWidth = lineWidth;
    context.lineCap = 'butt';
    context.beginPath();
    for (const [[x0, y0], [x1, y1]] of segments) {
      context.moveTo(x0, y0);
      context.lineTo(x1, y1);
    }
    context.stroke();
    for (const [tip, way] of heads) arrow(context, tip, isLevel, way);
  }
  if (isLevel) {
    const right = q + (wide ? 8 : tail + 5);
    if (right < width - NUMBER) return { at: [right, at], align: 'start' };
    const left = p - (wide ? 8 : tail + 5);
    if (left > NUMBER) return { at: [left, at], align: 'end' };
    return { at: [(p + q) / 2, at + 18], align: 'middle' };
  }
  return { at: [at + 14, (p + q) / 2], align: 'start' };
}

/** An arrowhead at a tip, opening to `way` along the dimension's line. */
function arrow(context: CanvasRenderingContext2D, [x, y]: P2, isLevel: boolean, way: number): void {
  context.beginPath();
  context.moveTo(x, y);
  if (isLevel) {
    context.lineTo(x + 8 * way, y - 3.2);
    context.lineTo(x + 8 * way, y + 3.2);
  } else {
    context.lineTo(x - 3.2, y + 8 * way);
    context.lineTo(x + 3.2, y + 8 * way);
  }
  context.closePath();
  context.fill();
}
