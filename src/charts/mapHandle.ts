/** What moves on the travel map: the handle, its hairlines, and a tag on each rule. */
import { formatLength } from '../../geometry/build/format.ts';
import { INCH_mm } from '../../geometry/build/units.ts';
import { type MapFrame, xOf, yOf } from './mapFrame.ts';
import type { Palette } from './palette.ts';
import { drawTape, type Font, tapeWidth } from './tapeText.ts';

/** The handle's ring, and what is taken for it, px across. */
export const HANDLE_px = 34;
export const HIT_px = 48;
const TAG_HEIGHT = 26;

export interface Handled {
  left: number;
  right: number;
  /** Where the pointer is, if the handle cannot follow it there; travels. */
  wished: readonly [left: number, right: number] | null;
}

/** What of the handle is at a point: the ring, a tag that moves one wheel, or nothing. */
export type Grip = 'both' | 'left' | 'right';

export function gripAt(
  frame: MapFrame,
  { left, right }: Handled,
  x: number,
  y: number,
): Grip | null {
  const [hx, hy] = [xOf(frame, left), yOf(frame, right)];
  const half = HIT_px / 2;
  if (Math.hypot(x - hx, y - hy) <= half) return 'both';
  const below = y > frame.y + frame.size && y < frame.y + frame.size + 44;
  if (below && x > frame.x - 20) return 'left';
  const beside = x < frame.x && x > frame.x - 64;
  if (beside && y < frame.y + frame.size + 20) return 'right';
  const isIn =
    x >= frame.x && x <= frame.x + frame.size && y >= frame.y && y <= frame.y + frame.size;
  return isIn ? 'both' : null;
}

/** '+8 7/8', '−9 5/16', '0'; whole millimeters. */
export function tagWords(inches: number, unit: 'in' | 'mm'): string {
  const text =
    unit === 'mm'
      ? String(Math.round(Math.abs(inches) * INCH_mm))
      : formatLength(Math.abs(inches), { unit });
  return text === '0' ? '0' : `${inches < 0 ? '−' : '+'}${text}`;
}

export function drawHandle(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: MapFrame,
  handled: Handled,
  unit: 'in' | 'mm',
): void {
  const { left, right, wished } = handled;
  const [x, y] = [xOf(frame, left), yOf(frame, right)];
  const bottom = frame.y + frame.size;
  const ring = HANDLE_px / 2 - 2;
  ctx.save();
  // hairlines to the rules
  for (const [color, width] of [
    [palette.page, 3],
    [palette.dye, 1.5],
  ] as const) {
    ctx.strokeStyle = color;
    ctx.lineWidth = width;
    ctx.beginPath();
    if (x - ring > frame.x - 6) {
      ctx.moveTo(frame.x - 6, y);
      ctx.lineTo(x - ring, y);
    }
    if (y + ring < bottom + 8) {
      ctx.moveTo(x, y + ring);
      ctx.lineTo(x, bottom + 8);
    }
    ctx.stroke();
  }
  if (wished) {
    ctx.setLineDash([4, 3.5]);
    ctx.strokeStyle = palette.ink;
    ctx.lineWidth = 1.75;
    ctx.beginPath();
    ctx.arc(xOf(frame, wished[0]), yOf(frame, wished[1]), ring, 0, 2 * Math.PI);
    ctx.stroke();
    ctx.setLineDash([]);
  }
  for (const [color, width] of [
    [palette.page, 8],
    [palette.dye, 4],
  ] as const) {
    ctx.strokeStyle = color;
    ctx.lineWidth = width;
    ctx.beginPath();
    ctx.arc(x, y, ring, 0, 2 * Math.PI);
    ctx.stroke();
  }
  const font: Font = { weight: 680, size: 15, family: palette.font };
  const across = tagWords(left, unit);
  const wide = Math.max(46, tapeWidth(ctx, across, font) + 20);
  // the tag stays on the rule
  const tagX = Math.min(frame.x + frame.size + 6 - wide / 2, Math.max(frame.x - 4 + wide / 2, x));
  tag(ctx, palette, across, tagX, bottom + 8 + TAG_HEIGHT / 2, wide, font);
  const up = tagWords(right, unit);
  const high = Math.max(46, tapeWidth(ctx, up, font) + 16);
  const tagY = Math.min(bottom + 4 - TAG_HEIGHT / 2, Math.max(frame.y + TAG_HEIGHT / 2 - 2, y));
  // it covers its own rule, and reaches over the map where its number is long
  const tagLeft = 20;
  tag(ctx, palette, up, tagLeft + high / 2, tagY, high, font);
  ctx.restore();
}

function tag(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  words: string,
  x: number,
  y: number,
  width: number,
  font: Font,
): void {
  ctx.beginPath();
  ctx.roundRect(x - width / 2, y - TAG_HEIGHT / 2, width, TAG_HEIGHT, 4);
  ctx.fillStyle = palette.dye;
  ctx.fill();
  ctx.fillStyle = palette.onDye;
  drawTape(ctx, words, x, y, font);
}
