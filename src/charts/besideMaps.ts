/** Travel maps side by side, small, without rules: each axle's own, and what differs between the two. */
import type { Bands } from './bands.ts';
import type { Point } from './boxes.ts';
import type { Spot } from './differenceBands.ts';
import type { Stretch } from './edgeStretches.ts';
import { hatch } from './hatch.ts';
import { type MapFrame, xOf, yOf } from './mapFrame.ts';
import { drawBands, drawEdge, drawLines, drawSheet, drawZero, pathOf } from './mapGround.ts';
import type { Palette } from './palette.ts';

type Edge = readonly { left: number; right: number }[];

const pointsOf = (frame: MapFrame, edge: Edge): Point[] =>
  edge.map(({ left, right }) => ({ x: xOf(frame, left), y: yOf(frame, right) }));

/** One axle's map. */
export function drawPlainMap(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: MapFrame,
  { bands, stretches }: { bands: Bands | null; stretches: readonly Stretch[] },
): void {
  drawSheet(ctx, palette, frame);
  const lines = stretches.map(({ points }) => pointsOf(frame, points));
  const edge = lines.flatMap(line => line.slice(0, -1));
  if (edge.length < 3) return;
  ctx.save();
  ctx.clip(pathOf(edge));
  ctx.fillStyle = palette.page;
  ctx.fillRect(frame.x, frame.y, frame.size, frame.size);
  if (bands) drawBands(ctx, palette, frame, bands);
  drawZero(ctx, palette, frame);
  if (bands) drawLines(ctx, palette, frame, bands);
  ctx.restore();
  drawEdge(ctx, palette, stretches, lines);
}

export interface DifferencePicture {
  bands: Bands | null;
  edges: { a: Edge; b: Edge };
  most: Spot | null;
  least: Spot | null;
  /** An amount as the map's legend has it, without its sign. */
  words(value: number): string;
  note: number;
}

/** What differs, where both go; where one goes alone it is hatched. A's edge is ink and solid, B's dye and dashed. */
export function drawDifferenceMap(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: MapFrame,
  picture: DifferencePicture,
): void {
  const { bands, edges, most, least, note } = picture;
  drawSheet(ctx, palette, frame);
  const a = pathOf(pointsOf(frame, edges.a));
  const b = pathOf(pointsOf(frame, edges.b));
  for (const [path, color] of [
    [a, palette.ink3],
    [b, palette.dye],
  ] as const) {
    ctx.save();
    ctx.clip(path);
    ctx.fillStyle = palette.page;
    ctx.fillRect(frame.x, frame.y, frame.size, frame.size);
    hatch(ctx, color, frame.x, frame.y, frame.size, frame.size);
    ctx.restore();
  }
  ctx.save();
  ctx.clip(a);
  ctx.clip(b);
  ctx.fillStyle = palette.differences[(palette.differences.length - 1) / 2] ?? palette.page;
  ctx.fillRect(frame.x, frame.y, frame.size, frame.size);
  if (bands) drawBands(ctx, palette, frame, bands);
  drawZero(ctx, palette, frame);
  ctx.restore();
  ctx.save();
  ctx.lineJoin = 'round';
  ctx.lineWidth = 2;
  ctx.strokeStyle = palette.ink;
  ctx.stroke(a);
  ctx.strokeStyle = palette.dye;
  ctx.setLineDash([6, 4]);
  ctx.stroke(b);
  ctx.restore();
  for (const [spot, mark] of [
    [most, '▲'],
    [least, '▼'],
  ] as const) {
    if (spot) drawSpot(ctx, palette, frame, spot, `${mark} ${picture.words(spot.value)}`, note);
  }
}

/** The amount at its place, kept on the sheet. */
function drawSpot(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: MapFrame,
  spot: Spot,
  text: string,
  note: number,
): void {
  ctx.save();
  ctx.font = `680 ${note}px ${palette.font}`;
  const width = ctx.measureText(text).width + 10;
  const half = note / 2 + 5;
  const held = (at: number, from: number, room: number): number =>
    Math.min(from + frame.size - room - 2, Math.max(from + room + 2, at));
  const x = held(xOf(frame, spot.left), frame.x, width / 2);
  const y = held(yOf(frame, spot.right), frame.y, half);
  ctx.fillStyle = palette.raise;
  ctx.strokeStyle = palette.edge;
  ctx.lineWidth = 1;
  ctx.beginPath();
  ctx.roundRect(x - width / 2, y - half, width, 2 * half, 4);
  ctx.fill();
  ctx.stroke();
  ctx.fillStyle = palette.ink;
  ctx.textBaseline = 'middle';
  ctx.textAlign = 'center';
  ctx.fillText(text, x, y + 0.5);
  ctx.restore();
}

/** Where the axle stands; dashed where this one does not reach. */
export function drawRing(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: MapFrame,
  at: { left: number; right: number },
  isBeyond: boolean,
): void {
  const [x, y] = [xOf(frame, at.left), yOf(frame, at.right)];
  ctx.save();
  for (const [color, width] of [
    [palette.page, 7],
    [palette.dye, 3],
  ] as const) {
    ctx.strokeStyle = color;
    ctx.lineWidth = width;
    if (isBeyond && color === palette.dye) ctx.setLineDash([3, 3]);
    ctx.beginPath();
    ctx.arc(x, y, 10, 0, 2 * Math.PI);
    ctx.stroke();
  }
  ctx.restore();
}
