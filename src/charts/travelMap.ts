/** The travel map on a canvas: all of it that stands still while the handle moves. */
import type { Bands } from './bands.ts';
import { isWithin, type Point } from './boxes.ts';
import type { Ring } from './contour.ts';
import { type EdgeLabel, placeLabels } from './edgeLabels.ts';
import { lineOf, type Stretch } from './edgeStretches.ts';
import { hatch } from './hatch.ts';
import { type MapFrame, xOf, yOf } from './mapFrame.ts';
import type { Palette } from './palette.ts';
import { PIN_px, type Pin, type PlacedPin, placePins } from './pins.ts';
import { drawRule, ruleTicks } from './rule.ts';

/** A stretch of the edge with what it is called, longest wording first. */
export interface NamedStretch extends Stretch {
  words: readonly string[];
}

export interface MapPicture {
  frame: MapFrame;
  unit: 'in' | 'mm';
  bands: Bands | null;
  stretches: readonly NamedStretch[];
  /** Findings, with their spots as travels. */
  pins: readonly (Omit<Pin, 'spot'> & { left: number; right: number })[];
  /** What stands along the axes: 'Driver wheel', 'Passenger wheel'. */
  across: string;
  up: string;
  /** Size of notes, px. */
  note: number;
}

/** Widths about the map's square, px: caption and rule at its left, rule and caption under it. */
export const mapMargins = (
  unit: 'in' | 'mm',
): { left: number; bottom: number; right: number; top: number } => ({
  // '−200' is wider than '−10'
  left: BESIDE + (unit === 'mm' ? 37 : RULE),
  bottom: 58,
  right: 8,
  top: 2,
});
const RULE = 30;
/** Left of the map beside its rule: a gap and a caption, px. */
const BESIDE = 26;

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

function drawRules(ctx: CanvasRenderingContext2D, palette: Palette, picture: MapPicture): void {
  const { frame, unit, across, up, note } = picture;
  const { x, y, size, scale } = frame;
  const shown = size / scale;
  const gap = 6;
  const vertical = ruleTicks(frame.right, frame.right + shown, size, unit);
  drawRule(
    ctx,
    palette,
    { x: BESIDE - gap, y, width: x - BESIDE, height: size },
    'right',
    vertical,
    value => yOf(frame, value),
  );
  const horizontal = ruleTicks(frame.left, frame.left + shown, size, unit);
  drawRule(
    ctx,
    palette,
    { x, y: y + size + gap, width: size, height: RULE },
    'top',
    horizontal,
    value => xOf(frame, value),
  );
  ctx.save();
  ctx.textBaseline = 'alphabetic';
  const low = y + size + gap + RULE + note + 2;
  const name = (words: string, px: number, py: number): void => {
    ctx.font = `600 ${note}px ${palette.font}`;
    ctx.fillStyle = palette.ink2;
    ctx.textAlign = 'left';
    ctx.fillText(words, px, py);
  };
  const ways = (px: number, py: number): void => {
    ctx.font = `500 ${note}px ${palette.font}`;
    ctx.fillStyle = palette.ink3;
    ctx.textAlign = 'right';
    ctx.fillText('up', px, py);
    const wide = ctx.measureText('up').width;
    triangle(ctx, px - wide - 9, py - 0.34 * note, 1);
    triangle(ctx, px - wide - 22, py - 0.34 * note, -1);
    ctx.fillText('down', px - wide - 32, py);
  };
  /** Words of an axis along it, with its two ways where there is room. */
  const caption = (words: string, px: number, py: number): void => {
    name(words, px, py);
    const taken = ctx.measureText(words).width;
    ctx.font = `500 ${note}px ${palette.font}`;
    if (taken + ctx.measureText('down up').width + 44 < size) ways(px + size, py);
  };
  caption(across, x, low);
  ctx.translate(BESIDE - gap - 7, y + size);
  ctx.rotate(-Math.PI / 2);
  caption(up, 0, 0);
  ctx.restore();
}

/** A small triangle that points to the right (1) or to the left (−1). */
export function triangle(ctx: CanvasRenderingContext2D, x: number, y: number, way: 1 | -1): void {
  ctx.beginPath();
  ctx.moveTo(x + 4 * way, y);
  ctx.lineTo(x - 3.5 * way, y - 3.5);
  ctx.lineTo(x - 3.5 * way, y + 3.5);
  ctx.closePath();
  ctx.fill();
}

function drawPins(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  pins: readonly PlacedPin[],
): void {
  ctx.save();
  for (const { spot, at } of pins) {
    for (const [color, width] of [
      [palette.page, 3.5],
      [palette.ink, 1.25],
    ] as const) {
      ctx.strokeStyle = color;
      ctx.lineWidth = width;
      ctx.beginPath();
      ctx.moveTo(spot.x, spot.y);
      ctx.lineTo(at.x, at.y);
      ctx.stroke();
    }
    dot(ctx, palette, spot);
  }
  ctx.textAlign = 'center';
  ctx.textBaseline = 'alphabetic';
  for (const { at, kind, step, label } of pins) {
    const { x, y } = at;
    const shape = new Path2D();
    if (kind === 'stop') shape.roundRect(x - PIN_px, y - PIN_px, 2 * PIN_px, 2 * PIN_px, 4);
    else shape.arc(x, y, PIN_px, 0, 2 * Math.PI);
    ctx.strokeStyle = palette.page;
    ctx.lineWidth = 4;
    ctx.stroke(shape);
    ctx.fillStyle =
      kind === 'touch' ? palette.touch : kind === 'stop' ? palette.ink : palette.sheet;
    ctx.fill(shape);
    if (kind === 'close') {
      ctx.save();
      ctx.clip(shape);
      ctx.strokeStyle = palette.gaps[step] ?? palette.ink;
      ctx.lineWidth = 6;
      ctx.stroke(shape);
      ctx.restore();
    }
    ctx.fillStyle =
      kind === 'touch' ? palette.onTouch : kind === 'stop' ? palette.page : palette.ink;
    ctx.font = `680 13px ${palette.font}`;
    ctx.fillText(label, x, y + 4.7);
  }
  ctx.restore();
}

function dot(ctx: CanvasRenderingContext2D, palette: Palette, { x, y }: Point): void {
  ctx.beginPath();
  ctx.arc(x, y, 4, 0, 2 * Math.PI);
  ctx.fillStyle = palette.page;
  ctx.fill();
  ctx.beginPath();
  ctx.arc(x, y, 2.75, 0, 2 * Math.PI);
  ctx.fillStyle = palette.ink;
  ctx.fill();
}
