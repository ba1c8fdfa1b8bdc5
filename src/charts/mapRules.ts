/** The rules along the travel map, what stands along them, and the room that both take. */
import { type MapFrame, xOf, yOf } from './mapFrame.ts';
import type { Palette } from './palette.ts';
import { drawRule, ruleTicks } from './rule.ts';

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

export interface MapAxes {
  frame: MapFrame;
  unit: 'in' | 'mm';
  /** What stands along the axes: 'Driver wheel', 'Passenger wheel'. */
  across: string;
  up: string;
  /** Size of notes, px. */
  note: number;
}

export function drawRules(ctx: CanvasRenderingContext2D, palette: Palette, axes: MapAxes): void {
  const { frame, unit, across, up, note } = axes;
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
