/** Lengths on a canvas as a tape shows them: the fraction small and set apart, since a canvas knows no such figures. */

const PARTS = /^(.*?)(?: ?)(\d+)\/(\d+)$/;

/** Width of a text whose fraction is drawn small, px. `size` is that of its other figures. */
export function tapeWidth(ctx: CanvasRenderingContext2D, text: string, font: Font): number {
  return layOut(ctx, text, font).width;
}

export interface Font {
  weight: number;
  size: number;
  family: string;
}

const fontOf = ({ weight, size, family }: Font, share = 1): string =>
  `${weight} ${size * share}px ${family}`;

/** Figures of a fraction, as a share of the others. */
const SMALL = 0.72;

function layOut(ctx: CanvasRenderingContext2D, text: string, font: Font) {
  const [, whole = text, over = '', under = ''] = PARTS.exec(text) ?? [];
  ctx.font = fontOf(font);
  const first = ctx.measureText(whole).width;
  if (over === '') return { whole, over, under, first, second: 0, third: 0, width: first };
  ctx.font = fontOf(font, SMALL);
  const second = ctx.measureText(over).width;
  const third = ctx.measureText(under).width;
  const slash = 0.3 * font.size;
  const width = first + 1.5 + second + slash + third;
  return { whole, over, under, first, second, third, width };
}

/** Draws it about the middle of (x, y), in the fill style that is set. */
export function drawTape(
  ctx: CanvasRenderingContext2D,
  text: string,
  x: number,
  y: number,
  font: Font,
): void {
  const { whole, over, under, first, second, width } = layOut(ctx, text, font);
  const { size } = font;
  let at = x - width / 2;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'alphabetic';
  const base = y + 0.36 * size;
  ctx.font = fontOf(font);
  ctx.fillText(whole, at, base);
  if (over === '') return;
  at += first + 1.5;
  ctx.font = fontOf(font, SMALL);
  ctx.fillText(over, at, base - 0.25 * size);
  at += second;
  const slash = 0.3 * size;
  ctx.save();
  ctx.strokeStyle = ctx.fillStyle;
  ctx.lineWidth = Math.max(1, size / 13);
  ctx.beginPath();
  ctx.moveTo(at + 0.1 * slash, base + 0.06 * size);
  ctx.lineTo(at + 0.9 * slash, base - 0.74 * size);
  ctx.stroke();
  ctx.restore();
  ctx.fillText(under, at + slash, base + 0.06 * size);
}
