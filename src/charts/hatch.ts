/** Hatching at 45°, which says overlap without color. */

/** Between two lines, px. */
const PITCH = 6;
const WIDTH = 1.5;

/** Hatches an upright rectangle; clip to what is meant first. */
export function hatch(
  ctx: CanvasRenderingContext2D,
  color: string,
  x: number,
  y: number,
  width: number,
  height: number,
): void {
  ctx.save();
  ctx.beginPath();
  ctx.rect(x, y, width, height);
  ctx.clip();
  ctx.strokeStyle = color;
  ctx.lineWidth = WIDTH;
  ctx.globalAlpha = 0.62;
  ctx.beginPath();
  // lines through whole multiples of the pitch, so that neighbors meet
  const pitch = PITCH * Math.SQRT2;
  const first = Math.floor((x + y) / pitch) * pitch;
  for (let sum = first; sum < x + y + width + height + pitch; sum += pitch) {
    ctx.moveTo(sum - y + 1, y - 1);
    ctx.lineTo(sum - y - height - 1, y + height + 1);
  }
  ctx.stroke();
  ctx.restore();
}
