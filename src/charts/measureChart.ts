/** One measure along a walk as a chart: lines named at their ends, what is not wanted and what ends the walk hatched. */
import uPlot from 'uplot';
import { spread } from './chartData.ts';
import type { Palette } from './palette.ts';

export interface ChartLine {
  name: string;
  /** As shown, in the unit of the page; NaN where missing. */
  values: ArrayLike<number>;
  /** Of the axle that is compared: in dye, dashed. */
  isOther?: boolean;
}

/** A bound of the values, hatched beyond it. */
export interface ChartBound {
  value: number;
  way: 'least' | 'greatest';
  text: string;
}

export interface ChartSpec {
  /** Ascending. */
  x: ArrayLike<number>;
  lines: readonly ChartLine[];
  bounds: readonly ChartBound[];
  /** What ends the walk at its first and its last place; empty: nothing is hatched there. */
  ends: readonly [low: string, high: string];
  /** Left turns stand on the left: that axis runs down. */
  isTurned: boolean;
  steps: { x: number[]; y: number[] };
  mark: { x(value: number): string; y(value: number): string };
  /** Words for + and − of the values, beside the zero line; null where signs say it. */
  directions: readonly [plus: string, minus: string] | null;
  /** Pairs of lines between which the difference is shaded, by their places in `lines`. */
  between?: readonly (readonly [number, number])[];
}

/** Dashes of the lines, in their order. */
export const DASHES: readonly (readonly number[])[] = [[], [7, 4], [2, 3], [11, 3, 2, 3], [4, 2]];

/** Room at the right for names, and the share of the walk that is hatched at its ends. */
const NAMES_px = 92;
const BEYOND = 0.055;
const NAME_px = 15;

export function makeChart(
  host: HTMLElement,
  spec: ChartSpec,
  palette: Palette,
  size: { width: number; height: number },
): uPlot {
  const { x, lines } = spec;
  const first = x[0] ?? 0;
  const last = x[x.length - 1] ?? 1;
  const beyond = (last - first) * BEYOND;
  const font = `500 13px ${palette.font}`;
  const isNamed = lines.length > 1;
  const axis: uPlot.Axis = {
    font,
    stroke: palette.ink2,
    grid: { stroke: palette.line, width: 1 },
    ticks: { stroke: palette.edge, width: 1, size: 5 },
    gap: 4,
  };
  const data = [
    Array.from(x),
    ...lines.map(({ values }) =>
      Array.from(values, value => (Number.isFinite(value) ? value : null)),
    ),
  ] as uPlot.AlignedData;
  return new uPlot(
    {
      ...size,
      padding: [10, isNamed ? NAMES_px : 14, 0, 0],
      legend: { show: false },
      cursor: { show: false },
      scales: {
        x: { time: false, dir: spec.isTurned ? -1 : 1, range: [first - beyond, last + beyond] },
        y: { range: (_, least, greatest) => heightOf(least, greatest, spec) },
      },
      axes: [
        {
          ...axis,
          incrs: spec.steps.x,
          space: 44,
          size: 30,
          values: (_, splits) => splits.map(spec.mark.x),
        },
        {
          ...axis,
          incrs: spec.steps.y,
          space: 30,
          size: 52,
          values: (_, splits) => splits.map(spec.mark.y),
        },
      ],
      series: [
        {},
        ...lines.map((line, i) => ({
          label: line.name,
          stroke: line.isOther ? palette.dye : i === 0 ? palette.ink : palette.ink2,
          width: 2,
          // a slow curve would go in steps
          pxAlign: 0,
          dash: line.isOther ? [7, 4] : [...(DASHES[i % DASHES.length] ?? [])],
          points: { show: false },
        })),
      ],
      hooks: {
        drawClear: [
          chart => {
            drawGround(chart, spec, palette);
            for (const pair of spec.between ?? []) shadeBetween(chart, spec, pair, palette);
          },
        ],
        draw: [chart => drawWords(chart, spec, palette, isNamed)],
      },
    },
    data,
    host,
  );
}

/** Bounds of the y axis: all values with some room, zero where values have directions, bounds that are near. */
function heightOf(
  least: number | null,
  greatest: number | null,
  spec: ChartSpec,
): [number, number] {
  let [low, high] = [least ?? 0, greatest ?? 1];
  if (spec.directions) [low, high] = [Math.min(low, 0), Math.max(high, 0)];
  const span = Math.max(high - low, 1e-6);
  for (const { value } of spec.bounds) {
    if (value > high && value < high + span) high = value;
    if (value < low && value > low - span) low = value;
  }
  // a value that never changes stands in the middle of some room
  const room = high - low > 1e-9 ? 0.1 * (high - low) : 0.5;
  return [low - room, high + room];
}

function hatchBox(
  context: CanvasRenderingContext2D,
  [x, y, width, height]: readonly [number, number, number, number],
  ink: string,
  ratio: number,
): void {
  if (width <= 0 || height <= 0) return;
  context.save();
  context.beginPath();
  context.rect(x, y, width, height);
  context.clip();
  context.strokeStyle = ink;
  context.lineWidth = ratio;
  context.beginPath();
  for (let u = x - height; u < x + width; u += 6 * ratio) {
    context.moveTo(u, y + height);
    context.lineTo(u + height, y);
  }
  context.stroke();
  context.restore();
}

/** What lies under the lines: what is not wanted, and what is beyond the ends of the walk. */
function drawGround(chart: uPlot, spec: ChartSpec, palette: Palette): void {
  const { ctx: context, bbox } = chart;
  const ratio = uPlot.pxRatio;
  const held = (value: number, from: number, to: number): number =>
    Math.min(to, Math.max(from, value));
  for (const { value, way } of spec.bounds) {
    const y = held(chart.valToPos(value, 'y', true), bbox.top, bbox.top + bbox.height);
    const box =
      way === 'greatest'
        ? ([bbox.left, bbox.top, bbox.width, y - bbox.top] as const)
        : ([bbox.left, y, bbox.width, bbox.top + bbox.height - y] as const);
    hatchBox(context, box, palette.line, ratio);
  }
  for (const [i, at] of [spec.x[0], spec.x[spec.x.length - 1]].entries()) {
    if (at === undefined || spec.ends[i] === '') continue;
    const x = chart.valToPos(at, 'x', true);
    const isLow = (i === 0) !== spec.isTurned;
    const box = isLow
      ? ([bbox.left, bbox.top, x - bbox.left, bbox.height] as const)
      : ([x, bbox.top, bbox.left + bbox.width - x, bbox.height] as const);
    hatchBox(context, box, palette.edge, ratio);
  }
}

/** Shades what lies between two lines, wherever both have values. */
function shadeBetween(
  chart: uPlot,
  { x, lines }: ChartSpec,
  [from, to]: readonly [number, number],
  palette: Palette,
): void {
  const { ctx: context } = chart;
  const [one, other] = [lines[from]?.values ?? [], lines[to]?.values ?? []];
  context.save();
  context.fillStyle = palette.shade;
  context.beginPath();
  for (let i = 1; i < x.length; i++) {
    const corners = [one[i - 1], one[i], other[i], other[i - 1]] as number[];
    if (!corners.every(Number.isFinite)) continue;
    const [left, right] = [i - 1, i].map(k => chart.valToPos(x[k] as number, 'x', true));
    for (const [k, value] of corners.entries()) {
      const at = (k === 0 || k === 3 ? left : right) as number;
      const y = chart.valToPos(value, 'y', true);
      if (k === 0) context.moveTo(at, y);
      else context.lineTo(at, y);
    }
    context.closePath();
  }
  context.fill();
  context.restore();
}

function drawWords(chart: uPlot, spec: ChartSpec, palette: Palette, isNamed: boolean): void {
  const { ctx: context, bbox } = chart;
  const ratio = uPlot.pxRatio;
  context.save();
  context.font = `600 ${13 * ratio}px ${palette.font}`;
  context.textBaseline = 'middle';
  const halo = (text: string, x: number, y: number, ink: string): void => {
    context.lineJoin = 'round';
    context.lineWidth = 4 * ratio;
    context.strokeStyle = palette.page;
    context.strokeText(text, x, y);
    context.fillStyle = ink;
    context.fillText(text, x, y);
  };
  // zero, and what is on either side of it
  const zero = chart.valToPos(0, 'y', true);
  if (zero > bbox.top && zero < bbox.top + bbox.height) {
    context.strokeStyle = palette.ink3;
    context.lineWidth = ratio;
    context.beginPath();
    context.moveTo(bbox.left, zero);
    context.lineTo(bbox.left + bbox.width, zero);
    context.stroke();
    if (spec.directions) {
      context.textAlign = 'left';
      context.font = `500 ${13 * ratio}px ${palette.font}`;
      const [plus, minus] = spec.directions;
      const at = bbox.left + 6 * ratio + (endWidth(chart, spec, 0) || 0);
      if (zero - bbox.top > 24 * ratio) halo(plus, at, bbox.top + 9 * ratio, palette.ink3);
      if (bbox.top + bbox.height - zero > 24 * ratio) {
        halo(minus, at, bbox.top + bbox.height - 10 * ratio, palette.ink3);
      }
    }
  }
  context.font = `500 ${13 * ratio}px ${palette.font}`;
  context.textAlign = 'right';
  for (const { value, way, text } of spec.bounds) {
    const y = chart.valToPos(value, 'y', true);
    if (y < bbox.top || y > bbox.top + bbox.height) continue;
    context.strokeStyle = palette.ink2;
    context.lineWidth = 1.2 * ratio;
    context.setLineDash([5 * ratio, 3 * ratio]);
    context.beginPath();
    context.moveTo(bbox.left, y);
    context.lineTo(bbox.left + bbox.width, y);
    context.stroke();
    context.setLineDash([]);
    const off = (way === 'greatest' ? -9 : 10) * ratio;
    const at = Math.max(
      bbox.top + 8 * ratio,
      Math.min(bbox.top + bbox.height - 8 * ratio, y + off),
    );
    halo(text, bbox.left + bbox.width - 6 * ratio - endWidth(chart, spec, 1), at, palette.ink2);
  }
  if (isNamed) drawNames(chart, spec, palette, ratio);
  drawEnds(chart, spec, palette, ratio);
  context.restore();
}

/** Width of the hatched strip at the left (0) or right (1) of the plot, in canvas pixels. */
function endWidth(chart: uPlot, spec: ChartSpec, side: 0 | 1): number {
  const low = spec.x[0] ?? 0;
  const high = spec.x[spec.x.length - 1] ?? 0;
  const { bbox } = chart;
  const at = chart.valToPos((side === 0) !== spec.isTurned ? low : high, 'x', true);
  return side === 0 ? at - bbox.left : bbox.left + bbox.width - at;
}

function drawNames(chart: uPlot, spec: ChartSpec, palette: Palette, ratio: number): void {
  const { ctx: context, bbox } = chart;
  const ends = spec.lines.map(({ values }) => {
    const order = Array.from(values);
    const seen = spec.isTurned ? order : order.reverse();
    const last = seen.find(value => Number.isFinite(value));
    return last === undefined ? bbox.top : chart.valToPos(last, 'y', true);
  });
  const places = spread(
    ends,
    NAME_px * ratio,
    bbox.top + 7 * ratio,
    bbox.top + bbox.height - 7 * ratio,
  );
  context.textAlign = 'left';
  context.font = `600 ${13 * ratio}px ${palette.font}`;
  for (const [i, { name }] of spec.lines.entries()) {
    const { isOther } = spec.lines[i] as ChartLine;
    context.fillStyle = isOther ? palette.dye : i === 0 ? palette.ink : palette.ink2;
    context.fillText(
      fitted(context, name, (NAMES_px - 10) * ratio),
      bbox.left + bbox.width + 8 * ratio,
      places[i] ?? 0,
    );
  }
}

/** A name cut to a width. */
function fitted(context: CanvasRenderingContext2D, text: string, width: number): string {
  if (context.measureText(text).width <= width) return text;
  let cut = text;
  while (cut.length > 1 && context.measureText(`${cut}…`).width > width) cut = cut.slice(0, -1);
  return `${cut.trimEnd()}…`;
}

/** What ends the walk, written upward along its hatched strip. */
function drawEnds(chart: uPlot, spec: ChartSpec, palette: Palette, ratio: number): void {
  const { ctx: context, bbox } = chart;
  for (const [i, text] of spec.ends.entries()) {
    const at = spec.x[i === 0 ? 0 : spec.x.length - 1];
    if (text === '' || at === undefined) continue;
    const isLeft = (i === 0) !== spec.isTurned;
    const width = endWidth(chart, spec, isLeft ? 0 : 1);
    const x = isLeft ? bbox.left + width / 2 : bbox.left + bbox.width - width / 2;
    context.save();
    context.translate(x, bbox.top + bbox.height / 2);
    context.rotate(-Math.PI / 2);
    context.textAlign = 'center';
    context.font = `500 ${13 * ratio}px ${palette.font}`;
    const shown = fitted(context, text, bbox.height - 8 * ratio);
    context.lineWidth = 4 * ratio;
    context.lineJoin = 'round';
    context.strokeStyle = palette.page;
    context.strokeText(shown, 0, 0);
    context.fillStyle = palette.ink2;
    context.fillText(shown, 0, 0);
    context.restore();
  }
}
