/** A map's values as areas of one color each, in travels: what is drawn under the edge of the range. */
import { extended, type Field, type Ring, rings } from './contour.ts';
import { DEEP_in, GAP_LEVELS, gapStep } from './gapScale.ts';
import { type MeasureScale, measureScale, type Round, stepAt } from './measureScale.ts';

/** A grid of travels, row by row of right travel, left travel running; `inside` is 1 at places of the range. */
export interface Places {
  left: Float64Array;
  right: Float64Array;
  inside: Uint8Array;
}

/** Gaps over it; NaN where there is none. Coarse ones are shown as squares. */
export interface GapValues extends Places {
  isCoarse: boolean;
  share: Float64Array;
  gap: Float64Array;
}

/** A measure over it. */
export interface MeasureValues extends Places {
  values: Float64Array;
}

/** An area: all within its rings (even-odd) has this color, where no later one lies over it. */
export interface Band {
  /** Index into the palette's `gaps`, `measures` or `differences`. */
  color: number;
  /** Null: everywhere. */
  rings: readonly Ring[] | null;
}

/** A coarse map's places as squares. */
export interface Square {
  color: number;
  left: number;
  right: number;
  width: number;
  height: number;
  isOverlap: boolean;
}

export interface Bands {
  of: 'gaps' | 'measures' | 'differences';
  /** Later ones lie over earlier ones. */
  areas: Band[];
  squares: Square[];
  /** Around what touches. */
  touch: Ring[];
  /** Around what is short of the wanted gap; of a measure, where it is zero. */
  line: Ring[];
  /** Of a measure. */
  scale: MeasureScale | null;
}

/** Places beyond the known ones to which values are carried on. */
const BEYOND = 3;
/** Shares and gaps over this are told as this: lines between colors don't hang on what is far. */
const MOST_share = 12;

export function gapBands(map: GapValues): Bands {
  const out: Bands = { of: 'gaps', areas: [], squares: [], touch: [], line: [], scale: null };
  const known = (values: Float64Array): Field =>
    extended(
      { x: map.left, y: map.right, values: values.map(v => Math.min(v, MOST_share)) },
      BEYOND,
    );
  const share = known(map.share);
  const gap = known(map.gap);
  if (map.isCoarse) {
    out.squares = squaresOf(share, k =>
      gapStep(share.values[k] as number, gap.values[k] as number),
    );
    return out;
  }
  out.areas.push({ color: GAP_LEVELS.length + 1, rings: null });
  for (let i = GAP_LEVELS.length - 1; i >= 0; i--) {
    const found = rings(share, GAP_LEVELS[i] as number);
    if (i === 0) out.touch = found;
    if (GAP_LEVELS[i] === 1) out.line = found;
    if (found.length > 0) out.areas.push({ color: i + 1, rings: found });
  }
  const deep = rings(gap, -DEEP_in);
  if (deep.length > 0) out.areas.push({ color: 0, rings: deep });
  return out;
}

/** A measure's values at places of the range. */
export const valuesInside = ({ values, inside }: MeasureValues): Float64Array =>
  values.filter((_, k) => inside[k] === 1);

/**
 * @param perValue what one of the values is in the unit that the legend is read in
 * @param scale of maps that are read side by side; unless given, the map's own
 */
export function measureBands(
  map: MeasureValues,
  perValue: number,
  round: Round,
  scale: MeasureScale = measureScale(valuesInside(map), perValue, round),
): Bands {
  const field = extended({ x: map.left, y: map.right, values: map.values }, BEYOND);
  const out: Bands = { of: 'measures', areas: [], squares: [], touch: [], line: [], scale };
  if (field.values.every(v => Number.isNaN(v))) return out;
  if (map.left.length < FINE) {
    out.squares = squaresOf(
      field,
      k => scale.colors[stepAt(scale, field.values[k] as number)] ?? -1,
    );
    return out;
  }
  out.areas.push({ color: scale.colors.at(-1) ?? 0, rings: null });
  for (let i = scale.levels.length - 1; i >= 0; i--) {
    const level = scale.levels[i] as number;
    const found = rings(field, level);
    if (level === 0) out.line = found;
    out.areas.push({ color: scale.colors[i] ?? 0, rings: found });
  }
  return out;
}

/** A grid with fewer places along a travel is shown as squares. */
const FINE = 20;

function squaresOf({ x, y, values }: Field, colorAt: (k: number) => number): Square[] {
  const out: Square[] = [];
  const [nx, ny] = [x.length, y.length];
  const width = ((x[nx - 1] as number) - (x[0] as number)) / (nx - 1);
  const height = ((y[ny - 1] as number) - (y[0] as number)) / (ny - 1);
  for (let k = 0; k < values.length; k++) {
    const color = colorAt(k);
    if (color < 0) continue;
    out.push({
      color,
      left: (x[k % nx] as number) - width / 2,
      right: (y[Math.floor(k / nx)] as number) - height / 2,
      width,
      height,
      isOverlap: color <= 1,
    });
  }
  return out;
}

/** What a map says of the place that is nearest to these travels; null outside of what it knows. */
export function nearestPlace(
  { left, right, inside }: Places,
  at: readonly [left: number, right: number],
): number | null {
  let best: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < right.length; j++) {
    for (let i = 0; i < left.length; i++) {
      const k = j * left.length + i;
      if (inside[k] !== 1) continue;
      const away = Math.hypot((left[i] as number) - at[0], (right[j] as number) - at[1]);
      if (away < least) {
        least = away;
        best = k;
      }
    }
  }
  return best;
}
