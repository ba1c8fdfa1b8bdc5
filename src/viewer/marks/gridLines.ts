/** Which lines and numbers a dimension grid has in a picture. */

export interface GridAsked {
  /** Where its zero is, px. */
  x: number;
  y: number;
  /** Px an inch. */
  perInch: number;
  unit: 'in' | 'mm';
  isFine: boolean;
  width: number;
  height: number;
}

export interface GridLine {
  /** `up`: a line from bottom to top. */
  way: 'up' | 'across';
  /** Px. */
  at: number;
  weight: 'zero' | 'coarse' | 'fine';
}

export interface Grid {
  lines: GridLine[];
  numbers: { way: 'up' | 'across'; at: number; text: string }[];
}

/** Room that a number takes along the grid, px. */
const NUMBER_px = 34;

/** Lines each 12 in (200 mm), fine ones each 3 in (50 mm); numbers count away from zero on both sides. */
export function gridOf({ x, y, perInch, unit, isFine, width, height }: GridAsked): Grid {
  const out: Grid = { lines: [], numbers: [] };
  const inUnit = unit === 'in' ? 1 : 25.4;
  const coarse = (unit === 'in' ? 12 : 200) / inUnit;
  const step = isFine ? coarse / 4 : coarse;
  // numbers at each line, or at each second, third … where they would not fit
  const every = Math.max(1, Math.ceil(NUMBER_px / (coarse * perInch)));
  for (const [way, zero, length] of [
    ['up', x, width],
    ['across', y, height],
  ] as const) {
    const first = Math.ceil(-zero / (step * perInch));
    const last = Math.floor((length - zero) / (step * perInch));
    for (let k = first; k <= last; k++) {
      const at = zero + k * step * perInch;
      const isCoarse = !isFine || k % 4 === 0;
      out.lines.push({ way, at, weight: k === 0 ? 'zero' : isCoarse ? 'coarse' : 'fine' });
      const number = isFine ? k / 4 : k;
      if (!isCoarse || number % every !== 0 || at < 14 || at > length - 14) continue;
      const text = String(Math.round(Math.abs(number) * coarse * inUnit));
      out.numbers.push({ way, at, text });
    }
  }
  return out;
}
