/**
 * The range as a picture in the terminal: left-wheel travel across, right-wheel travel up, each spot in the
 * color of a measure's value with the wheels straight. Two spots stand above each other in one character.
 */
import { inside } from '../../geometry/cycle/edge.ts';
import type { AxleWalk } from '../../geometry/cycle/walkReport.ts';
import { seat } from '../../geometry/finding/words.ts';
import { measures } from '../../geometry/measure/list.ts';
import { type Measure, MeasureContext, SHOWN } from '../../geometry/measure/measure.ts';
import type { Screen } from './io.ts';
import { fixed, quantity } from './words.ts';

/** Spots across; as many stand above each other. */
const SPOTS = 56;
/** Room that the picture takes with its scale. */
const LEAST_COLUMNS = 72;
const MARGIN = 8;
/** Measures that tell most of a walk, the first that the axle has is shown. */
const SHOWN_FIRST = ['bumpSteer', 'axleSteer', 'lateralShift'];

type Color = readonly [red: number, green: number, blue: number];

/** From − over 0 to +: told apart with any color vision. */
const LOW: Color = [33, 102, 172];
const MIDDLE: Color = [240, 240, 240];
const HIGH: Color = [210, 95, 0];
const INK: Color = [0, 0, 0];

/** The picture's lines; none where stdout can't show one, or there is nothing to show. */
export function walkPicture(walk: AxleWalk, screen: Screen): string[] {
  const { range, axle, build } = walk;
  if (screen.colors === 0 || (screen.columns ?? 0) < LEAST_COLUMNS || !range.holdsRide) return [];
  const measure = SHOWN_FIRST.map(id => measures.find(each => each.id === id)).find(
    each => each && each.targets(axle, build).length > 0,
  );
  if (!measure) return [];

  const lefts = axis(range.edge.map(point => point.left));
  const rights = axis(range.edge.map(point => point.right));
  const values = rights.map(right => lefts.map(left => valueAt(walk, measure, left, right)));
  const most = Math.max(...values.flat().map(value => Math.abs(value ?? 0)));
  const colors = values.map(row =>
    row.map(value => (value === null ? null : ramp(most > 0 ? value / most : 0))),
  );
  const at = (row: number, column: number): Color | null => colors[row]?.[column] ?? null;

  const ride = nearestTo(0, lefts);
  const lines = [`  ${measure.label}, wheels straight, over the range (+ is ride height)`];
  for (let row = SPOTS - 1; row > 0; row -= 2) {
    const isRide = (rights[row] ?? 0) >= 0 && (rights[row - 2] ?? Number.NEGATIVE_INFINITY) < 0;
    const label =
      row === SPOTS - 1 || row < 2 ? signed(rights[row < 2 ? 0 : row] ?? 0) : isRide ? '0' : '';
    let line = `${label.padStart(MARGIN - 2)}${label === '' ? '  ' : ' ┤'}`;
    for (let column = 0; column < SPOTS; column++) {
      const isHere = isRide && column === ride;
      line += isHere
        ? mark(at(row, column), screen)
        : spot(at(row, column), at(row - 1, column), screen);
    }
    lines.push(line.trimEnd());
  }
  const least = signed(lefts[0] ?? 0);
  const greatest = signed(lefts.at(-1) ?? 0);
  lines.push(`${' '.repeat(MARGIN)}${least.padEnd(SPOTS - greatest.length)}${greatest}`);
  lines.push(
    `${' '.repeat(MARGIN)}across: ${seat(build, 'left')} (left) wheel, up: ${seat(build, 'right')} ` +
      '(right) wheel, inches',
  );
  lines.push(`${' '.repeat(MARGIN)}${scale(measure, most, build.unit, screen)}`);
  return lines;
}

function nearestTo(value: number, list: readonly number[]): number {
  const off = list.map(each => Math.abs(each - value));
  return off.indexOf(Math.min(...off));
}

/** Ride height, on its color. */
function mark(color: Color | null, { colors }: Screen): string {
  if (!color) return '+';
  return `\u001b[48;${code(color, colors)}m\u001b[38;${code(INK, colors)}m+\u001b[0m`;
}

function axis(values: readonly number[]): number[] {
  const least = Math.min(...values);
  const step = (Math.max(...values) - least) / (SPOTS - 1);
  return Array.from({ length: SPOTS }, (_, i) => least + i * step);
}

function valueAt(walk: AxleWalk, measure: Measure, left: number, right: number): number | null {
  const { range, reach, build, axle, model } = walk;
  if (!inside(range.edge, left, right)) return null;
  const { pose } = reach.travel(left, right);
  const target = measure.targets(axle, build)[0];
  if (!pose || !target) return null;
  const value = measure.value(new MeasureContext(build, axle, model, pose), target);
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

/** A share of the largest value, −1 to 1, as a color. */
function ramp(share: number): Color {
  const end = share < 0 ? LOW : HIGH;
  const by = Math.min(1, Math.abs(share));
  return [0, 1, 2].map(i => mix(MIDDLE[i] ?? 0, end[i] ?? 0, by)) as unknown as Color;
}

const mix = (from: number, to: number, by: number): number => Math.round(from + by * (to - from));

/** Upper and lower spot in one character: its color above, its background below. */
function spot(upper: Color | null, lower: Color | null, { colors }: Screen): string {
  if (!upper && !lower) return ' ';
  const paint = (color: Color, ground: 38 | 48): string =>
    `\u001b[${ground};${code(color, colors)}m`;
  if (upper && lower) return `${paint(upper, 38)}${paint(lower, 48)}▀\u001b[0m`;
  return upper ? `${paint(upper, 38)}▀\u001b[0m` : `${paint(lower as Color, 38)}▄\u001b[0m`;
}

function code(color: Color, colors: Screen['colors']): string {
  if (colors !== 256) return `2;${color.join(';')}`;
  // the cube of six levels a color in the palette of 256 that terminals share
  const [red, green, blue] = color.map(level => Math.round((level / 255) * 5)) as [
    number,
    number,
    number,
  ];
  return `5;${16 + 36 * red + 6 * green + blue}`;
}

function scale(measure: Measure, most: number, unit: 'in' | 'mm', screen: Screen): string {
  const cells = Array.from({ length: 21 }, (_, i) => {
    const color = ramp((i - 10) / 10);
    return spot(color, color, screen);
  }).join('');
  const end = most * SHOWN[measure.unit];
  return `${quantity(-end, measure.unit, unit)} ${cells} ${quantity(end, measure.unit, unit)}`;
}

function signed(inches: number): string {
  const text = fixed(inches, 1);
  return Number(text) > 0 ? `+${text}` : text;
}
