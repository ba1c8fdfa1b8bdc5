/** Steel rules: where the marks of a tape stand along an axis, and how they are drawn. */
import { INCH_mm } from '../../geometry/build/units.ts';
import type { Palette } from './palette.ts';

export interface Tick {
  /** In the axis' own unit, in. */
  value: number;
  /** 0 carries a number, 1 is long, 2 short, 3 the finest. */
  rank: 0 | 1 | 2 | 3;
  /** The number in the unit of the rule; only of rank 0. */
  label: string | null;
}

/** Divisions of a rule, finest first, in its own unit; each is drawn where its marks keep far enough apart. */
interface Marks {
  fine: number;
  short: number;
  long: number;
  numbered: number;
}

const IN_MARKS: readonly Marks[] = [
  { fine: 0.25, short: 0.5, long: 1, numbered: 2 },
  { fine: 0.5, short: 1, long: 2, numbered: 4 },
  { fine: 1, short: 2, long: 4, numbered: 8 },
  { fine: 2, short: 4, long: 8, numbered: 16 },
];
const MM_MARKS: readonly Marks[] = [
  { fine: 5, short: 10, long: 25, numbered: 50 },
  { fine: 10, short: 20, long: 50, numbered: 100 },
  { fine: 25, short: 50, long: 100, numbered: 200 },
  { fine: 50, short: 100, long: 200, numbered: 400 },
];

/** Least distance between two of the finest marks, and between two numbers, px. */
const FINEST_px = 3.5;
const NUMBER_px = 32;

/**
 * Marks from one value to another.
 *
 * @param from in
 * @param to in
 * @param length between the two, px
 */
export function ruleTicks(from: number, to: number, length: number, unit: 'in' | 'mm'): Tick[] {
  const scale = unit === 'mm' ? INCH_mm : 1;
  const perUnit = length / ((to - from) * scale);
  const all = unit === 'mm' ? MM_MARKS : IN_MARKS;
  const marks =
    all.find(m => m.numbered * perUnit >= NUMBER_px && m.fine * perUnit >= FINEST_px) ??
    (all.at(-1) as Marks);
  const isOn = (n: number, step: number): boolean =>
    Math.abs(n * marks.fine - Math.round((n * marks.fine) / step) * step) < 1e-6;
  const ticks: Tick[] = [];
  const first = Math.ceil((from * scale) / marks.fine - 1e-9);
  const last = Math.floor((to * scale) / marks.fine + 1e-9);
  for (let n = first; n <= last; n++) {
    const shown = n * marks.fine;
    const rank = isOn(n, marks.numbered)
      ? 0
      : isOn(n, marks.long)
        ? 1
        : isOn(n, marks.short)
          ? 2
          : 3;
    ticks.push({ value: shown / scale, rank, label: rank === 0 ? signed(shown) : null });
  }
  return ticks;
}

/** '+2', '0', '−2': rules carry signs. */
export const signed = (value: number): string =>
  value === 0 ? '0' : `${value > 0 ? '+' : '−'}${Math.abs(value)}`;

/** Lengths of marks by rank, px. */
const LENGTHS = [12, 12, 8, 5] as const;
/** Beside a number the mark is shorter, px. */
const BESIDE_NUMBER = 7;

export interface RuleBox {
  x: number;
  y: number;
  width: number;
  height: number;
}

/**
 * Draws a rule in its box: marks from the edge that faces what is measured, numbers behind them.
 *
 * @param side the edge at which the marks stand
 * @param at px along the rule's axis of a value
 */
export function drawRule(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  { x, y, width, height }: RuleBox,
  side: 'top' | 'right',
  ticks: readonly Tick[],
  at: (value: number) => number,
): void {
  ctx.fillStyle = palette.raise;
  ctx.fillRect(x, y, width, height);
  ctx.strokeStyle = palette.edge;
  ctx.lineWidth = 1;
  ctx.globalAlpha = 0.6;
  ctx.strokeRect(x + 0.5, y + 0.5, width - 1, height - 1);
  ctx.globalAlpha = 1;
  ctx.fillStyle = palette.ink;
  ctx.font = `600 13px ${palette.font}`;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  for (const { value, rank, label } of ticks) {
    const p = Math.round(at(value));
    const thick = rank <= 1 ? 1.5 : 1;
    const beside = label === null ? 0 : width - ctx.measureText(label).width - 5;
    const length =
      side === 'right' && rank === 0 ? Math.max(0, Math.min(BESIDE_NUMBER, beside)) : LENGTHS[rank];
    if (side === 'top') ctx.fillRect(p - thick / 2, y, thick, length);
    else ctx.fillRect(x + width - length, p - thick / 2, length, thick);
    if (label === null) continue;
    if (side === 'top') {
      const half = ctx.measureText(label).width / 2;
      if (p - half > x + 2 && p + half < x + width - 2) ctx.fillText(label, p, y + height - 9);
    } else if (p - 7 > y + 1 && p + 7 < y + height - 1) {
      ctx.save();
      ctx.textAlign = 'left';
      ctx.fillText(label, x + 3, p + 0.5);
      ctx.restore();
    }
  }
}
