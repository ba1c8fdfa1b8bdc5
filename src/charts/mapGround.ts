/** What every travel map is drawn of: the sheet, its areas of one color each, ride height, contours and the edge. */
import type { Bands } from './bands.ts';
import type { Point } from './boxes.ts';
import type { Ring } from './contour.ts';
import { lineOf, type Stretch } from './edgeStretches.ts';
import { hatch } from './hatch.ts';
import { type MapFrame, xOf, yOf } from './mapFrame.ts';
import type { Palette } from './palette.ts';

/** A closed line through points, px. */
export const pathOf = (points: readonly Point[]): Path2D => {
  const path = new Path2D();
  for (const [i, { x, y }] of points.entries()) {
    if (i === 0) path.moveTo(x, y);
    else path.lineTo(x, y);
  }
  path.closePath();
  return path;
};

/** Rings of travels as a path, px. */
function ringPath(frame: MapFrame, all: readonly Ring[]): Path2D {
  const path = new Path2D();
  for (const ring of all) {
    for (let i = 0; i < ring.length; i += 2) {
      const x = xOf(frame, ring[i] as number);
      const y = yOf(frame, ring[i + 1] as number);
      if (i === 0) path.moveTo(x, y);
      else path.lineTo(x, y);
    }
    path.closePath();
  }
  return path;
}

/** Outside of the range: a dotted sheet. */
export function drawSheet(ctx: CanvasRenderingContext2D, palette: Palette, frame: MapFrame): void {
  const { x, y, size } = frame;
  ctx.fillStyle = palette.sheet;
  ctx.fillRect(x, y, size, size);
  ctx.fillStyle = palette.line;
  for (let u = 5; u < size; u += 9) {
    for (let v = 5; v < size; v += 9) ctx.fillRect(x + u, y + v, 1.25, 1.25);
  }
}

/** Areas, coarse squares, and hatching over what touches. */
export function drawBands(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: MapFrame,
  bands: Bands,
): void {
  const colors = palette[bands.of];
  const { x, y, size } = frame;
  for (const { color, rings } of bands.areas) {
    ctx.fillStyle = colors[color] ?? palette.page;
    if (rings) ctx.fill(ringPath(frame, rings), 'evenodd');
    else ctx.fillRect(x, y, size, size);
  }
  for (const square of bands.squares) {
    ctx.fillStyle = colors[square.color] ?? palette.page;
    const [u, v] = [xOf(frame, square.left), yOf(frame, square.right + square.height)];
    const [w, h] = [square.width * frame.scale, square.height * frame.scale];
    // to whole pixels, so that no seams show
    const [l, t] = [Math.floor(u), Math.floor(v)];
    const box = [l, t, Math.ceil(u + w) - l, Math.ceil(v + h) - t] as const;
    ctx.fillRect(...box);
    if (square.isOverlap && bands.of === 'gaps') hatch(ctx, palette.page, ...box);
  }
  if (bands.touch.length === 0) return;
  ctx.save();
  ctx.clip(ringPath(frame, bands.touch), 'evenodd');
  hatch(ctx, palette.page, x, y, size, size);
  ctx.restore();
}

/** Ride height of either wheel. */
export function drawZero(ctx: CanvasRenderingContext2D, palette: Palette, frame: MapFrame): void {
  const [x, y] = [Math.round(xOf(frame, 0)) + 0.5, Math.round(yOf(frame, 0)) + 0.5];
  ctx.save();
  ctx.strokeStyle = palette.ink;
  ctx.globalAlpha = 0.4;
  ctx.lineWidth = 1;
  ctx.setLineDash([1.5, 3.5]);
  ctx.beginPath();
  ctx.moveTo(frame.x, y);
  ctx.lineTo(frame.x + frame.size, y);
  ctx.moveTo(x, frame.y);
  ctx.lineTo(x, frame.y + frame.size);
  ctx.stroke();
  ctx.restore();
}

/** What is short is within a thin line; what touches within a thick one with a halo. */
export function drawLines(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: MapFrame,
  bands: Bands,
): void {
  ctx.save();
  ctx.lineJoin = 'round';
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 1.5;
  ctx.stroke(ringPath(frame, bands.line));
  const touch = ringPath(frame, bands.touch);
  ctx.strokeStyle = palette.page;
  ctx.lineWidth = 5.5;
  ctx.stroke(touch);
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 2.5;
  ctx.stroke(touch);
  ctx.restore();
}

/** Each stretch of the edge in the line of what ends the travel there. */
export function drawEdge(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  stretches: readonly Stretch[],
  lines: readonly (readonly Point[])[],
): void {
  ctx.save();
  ctx.lineJoin = 'round';
  const trace = (line: readonly Point[]): void => {
    ctx.beginPath();
    for (const [i, { x, y }] of line.entries()) {
      if (i === 0) ctx.moveTo(x, y);
      else ctx.lineTo(x, y);
    }
    ctx.stroke();
  };
  for (const [i, line] of lines.entries()) {
    const stretch = stretches[i];
    if (!stretch) continue;
    ctx.setLineDash([]);
    ctx.strokeStyle = palette.sheet;
    ctx.lineWidth = lineOf(stretch).width + 1.5;
    trace(line);
  }
  for (const [i, line] of lines.entries()) {
    const stretch = stretches[i];
    if (!stretch) continue;
    const { width, dashes } = lineOf(stretch);
    ctx.setLineDash([...dashes]);
    ctx.strokeStyle = palette.ink;
    ctx.lineWidth = width;
    trace(line);
  }
  ctx.restore();
}
