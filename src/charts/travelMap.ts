/** The travel map on a canvas: all of it that stands still while the handle moves. */
import type { Bands } from './bands.ts';
import { isWithin, type Point } from './boxes.ts';
import { drawPins } from './drawPins.ts';
import { type EdgeLabel, placeLabels } from './edgeLabels.ts';
import type { Stretch } from './edgeStretches.ts';
import { xOf, yOf } from './mapFrame.ts';
import { drawBands, drawEdge, drawLines, drawSheet, drawZero, pathOf } from './mapGround.ts';
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
