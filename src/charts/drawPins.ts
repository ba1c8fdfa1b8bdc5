/** Pins as they are drawn: a dot at the spot, a leader, and the pin with its number. */
import type { Point } from './boxes.ts';
import type { Palette } from './palette.ts';
import { PIN_px, type PlacedPin } from './pins.ts';

export function drawPins(
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
  for (const { at, kind, step, label, isGuess } of pins) {
    const { x, y } = at;
    const shape = new Path2D();
    if (kind === 'stop') shape.roundRect(x - PIN_px, y - PIN_px, 2 * PIN_px, 2 * PIN_px, 4);
    else shape.arc(x, y, PIN_px, 0, 2 * Math.PI);
    ctx.strokeStyle = palette.page;
    ctx.lineWidth = 4;
    ctx.stroke(shape);
    const isOpen = kind === 'close' || (kind === 'touch' && isGuess);
    ctx.fillStyle = isOpen ? palette.sheet : kind === 'touch' ? palette.touch : palette.ink;
    ctx.fill(shape);
    if (isOpen) {
      ctx.save();
      ctx.clip(shape);
      ctx.strokeStyle = kind === 'touch' ? palette.touch : (palette.gaps[step] ?? palette.ink);
      ctx.lineWidth = kind === 'touch' ? 4 : 6;
      if (isGuess) ctx.setLineDash([4, 3]);
      ctx.stroke(shape);
      ctx.restore();
    }
    ctx.fillStyle =
      kind === 'touch'
        ? isOpen
          ? palette.touch
          : palette.onTouch
        : kind === 'stop'
          ? palette.page
          : palette.ink;
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
