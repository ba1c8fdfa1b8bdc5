/** Columns of measures along a walk as a chart draws them: over one axis, in the unit of the page. */
import { INCH_mm } from '../../geometry/build/units.ts';

/** What measures are drawn against. */
export const AGAINST = ['both', 'flexed', 'steering'] as const;
export type Against = (typeof AGAINST)[number];

/** What places a pose on an axis: travels in in, the inner tire's turn in deg, + left. */
export interface Spot {
  driver: number;
  passenger: number;
  inner: number;
}

/**
 * Where a pose stands on an axis, as the axis is told: both wheels' mean travel, the driver wheel's travel over the
 * mean of both (the passenger wheel is then as far the other way), or the inner tire's turn.
 */
export function onAxis(against: Against, { driver, passenger, inner }: Spot): number {
  if (against === 'both') return (driver + passenger) / 2;
  return against === 'flexed' ? (driver - passenger) / 2 : inner;
}

/** A value in the page's unit: lengths in mm where it shows mm. */
export const inPageUnit = (value: number, unit: string, page: 'in' | 'mm'): number =>
  unit === 'in' && page === 'mm' ? value * INCH_mm : value;

/** Between which two of ascending places a value lies, and how far: for a drag along the axis. */
export function between(x: ArrayLike<number>, value: number): { index: number; share: number } {
  const last = x.length - 1;
  if (last < 1 || value <= (x[0] as number)) return { index: 0, share: 0 };
  if (value >= (x[last] as number)) return { index: last - 1, share: 1 };
  let [low, high] = [0, last];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((x[middle] as number) <= value) low = middle;
    else high = middle;
  }
  const span = (x[high] as number) - (x[low] as number);
  return { index: low, share: span > 0 ? (value - (x[low] as number)) / span : 0 };
}

const QUARTERS: Record<string, string> = { '0.25': '¼', '0.5': '½', '0.75': '¾' };

/** A mark of a length on an axis: '1½' in inches where it is a quarter, else decimals; without its sign. */
export function tapeMark(value: number): string {
  const size = Math.abs(value);
  const whole = Math.floor(size + 1e-9);
  const rest = size - whole;
  if (rest < 1e-6) return String(whole);
  const quarter = QUARTERS[String(Math.round(rest * 1e4) / 1e4)];
  return quarter ? `${whole === 0 ? '' : whole}${quarter}` : String(Math.round(size * 1e3) / 1e3);
}

/** Steps that marks of an axis may take. */
export function stepsOf(unit: string, page: 'in' | 'mm'): number[] {
  if (unit === 'in' && page === 'in') {
    return [0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.25, 0.5, 1, 2, 4, 6, 12, 24, 60, 120];
  }
  if (unit === 'deg') return [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 45, 90];
  const steps: number[] = [];
  for (let power = -3; power <= 5; power++) {
    for (const digit of [1, 2, 5]) steps.push(digit * 10 ** power);
  }
  return steps;
}

/** Places for labels at the ends of lines: as near to where they end as they can stand apart, within a height. */
export function spread(
  wanted: readonly number[],
  apart: number,
  from: number,
  to: number,
): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0));
  const out = [...wanted];
  let least = from;
  for (const i of order) {
    out[i] = Math.max(least, out[i] ?? 0);
    least = (out[i] ?? 0) + apart;
  }
  let most = to;
  for (const i of [...order].reverse()) {
    out[i] = Math.min(most, out[i] ?? 0);
    most = (out[i] ?? 0) - apart;
  }
  return out;
}

/** All places of two ascending lists, ascending, each once. */
export function joined(a: ArrayLike<number>, b: ArrayLike<number>): Float64Array {
  return Float64Array.from(new Set([...Array.from(a), ...Array.from(b)])).sort();
}

/** Values over ascending places told at other places: straight between two of them, NaN beyond the ends. */
export function resampled(
  x: ArrayLike<number>,
  values: ArrayLike<number>,
  onto: ArrayLike<number>,
): Float64Array {
  const last = x.length - 1;
  return Float64Array.from(onto, at => {
    if (last < 0 || at < (x[0] as number) || at > (x[last] as number)) return Number.NaN;
    const { index, share } = between(x, at);
    const from = values[index] as number;
    return share === 0 ? from : from + share * ((values[index + 1] as number) - from);
  });
}

/** Names without the last words that all of them share: 'driver shock', 'passenger shock' → 'driver', 'passenger'. */
export function briefNames(names: readonly string[]): string[] {
  if (names.length < 2) return [...names];
  const words = names.map(name => name.split(' '));
  let shared = 0;
  const most = Math.min(...words.map(each => each.length)) - 1;
  while (shared < most && words.every(each => each.at(-1 - shared) === words[0]?.at(-1 - shared))) {
    shared++;
  }
  return words.map(each => each.slice(0, each.length - shared).join(' '));
}

/** One column of a table that is saved. */
export interface TableColumn {
  head: string;
  values: ArrayLike<number>;
}

/** Comma-separated values (RFC 4180, lines ended by \n); a value that is missing is an empty cell. */
export function tableText(columns: readonly TableColumn[]): string {
  const count = columns[0]?.values.length ?? 0;
  const rows = [columns.map(({ head }) => head)];
  for (let i = 0; i < count; i++) {
    rows.push(
      columns.map(({ values }) => {
        const value = values[i] as number;
        return Number.isFinite(value) ? String(value) : '';
      }),
    );
  }
  return rows.map(row => `${row.map(quoted).join(',')}\n`).join('');
}

const quoted = (text: string): string =>
  /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
