/** The travel map on a canvas: all of it that stands still while the handle moves. */
import type { Bands } from './bands.ts';
import { isWithin, type Point } from './boxes.ts';
import type { Ring } from './contour.ts';
import { drawPins } from './drawPins.ts';
import { type EdgeLabel, placeLabels } from './edgeLabels.ts';
import { lineOf, type Stretch } from './edgeStretches.ts';
import { hatch } from './hatch.ts';
import { type MapFrame, xOf, yOf } from './mapFrame.ts';
import { drawRules, type MapAxes } from './mapRules.ts';
import type { Palette } from './palette.ts';
import { type Pin, type PlacedPin, placePins } from './pins.ts';

/** A stretch of the edge with what it is called, longest wording first. */
export interface NamedStretch extends Stretch {
  words: readonly string[];
}

export interface MapPicture extends MapAxes {
  bands: Bands | null;
  stretches: readonly NamedStretch[];
  /** Findings, with their spots as travels. */
  pins: readonly (Omit<Pin, 'spot'> & { left: number; right: number })[];
}

/** Draws the still part; returns where the pins are, for pointers. */
export function drawTravelMap(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  picture: MapPicture,
): PlacedPin[] {
  const { frame, stretches, bands, note } = picture;
  const px = ({ left, right }: { left: number; right: number }): Point => ({
    x: xOf(frame, left),
    y: yOf(frame, right),
  });
  const lines = stretches.map(({ points }) => points.map(px));
  // each stretch ends where the next begins
  const edge = lines.flatMap(line => line.slice(0, -1));
  drawSheet(ctx, palette, frame);
  ctx.save();
  ctx.beginPath();
  ctx.rect(frame.x, frame.y, frame.size, frame.size);
  ctx.clip();
  if (edge.length > 2) {
    const shape = pathOf(edge);
    ctx.save();
    ctx.clip(shape);
    if (bands) drawBands(ctx, palette, frame, bands);
    else {
      ctx.fillStyle = palette.page;
      ctx.fillRect(frame.x, frame.y, frame.size, frame.size);
    }
    drawZero(ctx, palette, frame);
    if (bands) drawLines(ctx, palette, frame, bands);
    ctx.restore();
    drawEdge(ctx, palette, stretches, lines);
  }
  ctx.font = `500 ${note}px ${palette.font}`;
  const labels = placeLabels(
    edge,
    stretches.map(({ words }, i) => ({ line: lines[i] ?? [], words })),
    {
      x: frame.x,
      y: frame.y,
      size: frame.size,
      lineHeight: note + 3,
      measure: words => ctx.measureText(words).width,
    },
  );
  for (const label of labels) if (label) drawLabel(ctx, palette, label, note);
  ctx.restore();
  drawRules(ctx, palette, picture);
  const middle = {
    x: edge.reduce((sum, p) => sum + p.x, 0) / Math.max(1, edge.length),
    y: edge.reduce((sum, p) => sum + p.y, 0) / Math.max(1, edge.length),
  };
  const pins = placePins(
    picture.pins.map(pin => ({ ...pin, spot: px(pin) })),
    middle,
    (x, y) => isWithin(edge, x, y),
  );
  drawPins(ctx, palette, pins);
  return pins;
}

const pathOf = (points: readonly Point[]): Path2D => {
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
function drawSheet(ctx: CanvasRenderingContext2D, palette: Palette, frame: MapFrame): void {
  const { x, y, size } = frame;
  ctx.fillStyle = palette.sheet;
  ctx.fillRect(x, y, size, size);
  ctx.fillStyle = palette.line;
  for (let u = 5; u < size; u += 9) {
    for (let v = 5; v < size; v += 9) ctx.fillRect(x + u, y + v, 1.25, 1.25);
  }
}

function drawBands(
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
function drawZero(ctx: CanvasRenderingContext2D, palette: Palette, frame: MapFrame): void {
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
function drawLines(
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

function drawEdge(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  stretches: readonly NamedStretch[],
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

function drawLabel(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  { lines, box, align, leader }: EdgeLabel,
  note: number,
): void {
  ctx.save();
  if (leader) {
    ctx.strokeStyle = palette.ink3;
    ctx.lineWidth = 1.25;
    ctx.beginPath();
    ctx.moveTo(leader[0].x, leader[0].y);
    ctx.lineTo(leader[1].x, leader[1].y);
    ctx.stroke();
  }
  ctx.translate(box.x, box.y);
  ctx.rotate(box.angle);
  ctx.textAlign = align;
  ctx.textBaseline = 'alphabetic';
  ctx.lineJoin = 'round';
  const x = align === 'left' ? -box.width / 2 + 2 : align === 'right' ? box.width / 2 - 2 : 0;
  const lineHeight = note + 3;
  for (const [i, line] of lines.entries()) {
    const y = (i - (lines.length - 1) / 2) * lineHeight + 0.35 * note;
    ctx.strokeStyle = palette.sheet;
    ctx.lineWidth = 3;
    ctx.strokeText(line, x, y);
    ctx.fillStyle = palette.ink2;
    ctx.fillText(line, x, y);
  }
  ctx.restore();
}
