/** The drawings of the guide, made from what the program itself knows: proposals, measurements, walked examples. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Vec3 } from '../../geometry/build/build.ts';
import { axleChoice, type StartLayout } from '../../geometry/build/start/layouts.ts';
import type { Measurement, View } from '../../geometry/build/start/measurement.ts';
import { measurementsFor } from '../../geometry/build/start/measurements.ts';
import { propose } from '../../geometry/build/start/propose.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { type OpenedAxle, openAxle } from '../../geometry/cycle/openAxle.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import type { Mark, Tone } from '../../src/charts/marks.ts';
import { tapeDrawing } from '../../src/charts/tapeDrawing.ts';

const EXAMPLES = join(import.meta.dirname, '../../examples');

/** Colors on a light page, each at 4.5 to 1 or more where it is text. */
const INK = '#14191b';
const SOFT = '#5b6669';
const LINE = '#cdd3d1';
const DYE = '#1a4e9e';
const TOUCH = '#b01219';

const FONT = 'font-family="system-ui, sans-serif"';

type Point = readonly [number, number];

/** A drawing of so many units, with a title that screen readers tell. */
function svg(width: number, height: number, title: string, body: readonly string[]): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-label="${title}" ${FONT}>`,
    `<title>${title}</title>`,
    `<rect width="${width}" height="${height}" fill="#f8f9f8"/>`,
    ...body,
    '</svg>',
    '',
  ].join('\n');
}

const n = (value: number): string => String(Math.round(value * 10) / 10 + 0);
const line = (a: Point, b: Point, color: string, width: number, more = ''): string =>
  `<line x1="${n(a[0])}" y1="${n(a[1])}" x2="${n(b[0])}" y2="${n(b[1])}" stroke="${color}" stroke-width="${width}" ${more}/>`;
const path = (points: readonly Point[], color: string, width: number, more = ''): string =>
  `<polyline points="${points.map(([x, y]) => `${n(x)},${n(y)}`).join(' ')}" fill="none" stroke="${color}" stroke-width="${width}" ${more}/>`;
const circle = ([x, y]: Point, radius: number, fill: string, stroke: string): string =>
  `<circle cx="${n(x)}" cy="${n(y)}" r="${n(radius)}" fill="${fill}" stroke="${stroke}" stroke-width="1.5"/>`;
const words = ([x, y]: Point, text: string, size: number, color = INK, anchor = 'start'): string =>
  `<text x="${n(x)}" y="${n(y)}" font-size="${size}" fill="${color}" text-anchor="${anchor}">${text}</text>`;

/** Colors of the marks on light paper: stroke and fill. */
const TONES: Readonly<Record<Tone, readonly [stroke: string, fill: string]>> = {
  ground: ['none', '#f8f9f8'],
  floor: [INK, 'none'],
  tire: [SOFT, '#eef0ee'],
  frame: ['#b3bbb9', '#e3e7e5'],
  part: [SOFT, '#d5dad8'],
  link: ['#a07c50', 'none'],
  bar: ['#6f5b86', 'none'],
  rod: ['#3f8a81', 'none'],
  drag: ['#255a54', 'none'],
  joint: [INK, '#fff'],
  tape: [DYE, DYE],
};

function painted(mark: Mark): string[] {
  switch (mark.kind) {
    case 'tag':
      return [
        circle(mark.at, 11, '#fff', DYE),
        words([mark.at[0], mark.at[1] + 4.5], mark.text, 13, DYE, 'middle'),
      ];
    case 'line': {
      const more = mark.isDashed ? 'stroke-dasharray="5 3"' : 'stroke-linecap="round"';
      return [path(mark.points, TONES[mark.tone][0], mark.width, more)];
    }
    case 'circle':
      return [circle(mark.at, mark.radius, TONES[mark.tone][1], TONES[mark.tone][0])];
    case 'box': {
      const { at, size, round, tone } = mark;
      const [stroke, fill] = TONES[tone];
      return [
        `<rect x="${n(at[0])}" y="${n(at[1])}" width="${n(size[0])}" height="${n(size[1])}" rx="${round}" fill="${fill}" stroke="${stroke}" stroke-width="1.5"/>`,
      ];
    }
  }
}

/** Where to tape, in one view: every measurement of that view as a numbered arrow over the proposed layout. */
export function measuringDrawing(layout: StartLayout, view: View): string {
  const { file, anchors } = propose({ name: 'drawn', unit: 'in', layout, answers: {} });
  const opened = openBuild(JSON.stringify(file));
  if (!opened.ok) throw new Error('the proposal opens');
  const { axles, solids } = opened.build;
  const asked = measurementsFor(layout);
  const shown = asked.filter(each => each.view === view);
  const numberOf = (each: Measurement): string => String(asked.indexOf(each) + 1);
  const { floor, marks } = tapeDrawing(
    { axles, solids, anchors },
    view,
    shown.map(measurement => ({ measurement, text: numberOf(measurement) })),
  );
  const legend = shown.map((each, i) =>
    words(
      [40 + 340 * (i % 2), floor + 46 + 20 * Math.floor(i / 2)],
      `${numberOf(each)}  ${each.label}`,
      14,
    ),
  );
  const title = `Where to tape, seen from ${view === 'side' ? 'the side' : 'ahead'}`;
  return svg(720, Math.ceil(floor + 52 + 20 * Math.ceil(shown.length / 2)), title, [
    ...marks.flatMap(painted),
    words([20, floor + 18], 'floor', 13, SOFT),
    ...legend,
  ]);
}

function example(name: string): OpenedAxle {
  const opened = openBuild(readFileSync(join(EXAMPLES, `${name}.axlewalk.json`)));
  if (!opened.ok) throw new Error(`${name} opens`);
  const { build } = opened;
  const axle = build.axles[0];
  const made = axle && openAxle(build, axle);
  if (!made?.ok) throw new Error(`${name} has an axle`);
  return made.axle;
}

/** The travel map of the long arms, with what to read off it. */
export function mapDrawing(): string {
  const { build, axle, model } = example('long-arm-front');
  const { range } = findRange(build, axle, model);
  const scale = 20;
  const at = (left: number, right: number): Point => [290 + left * scale, 250 - right * scale];
  const body: string[] = [];
  for (let mark = -10; mark <= 10; mark += 5) {
    body.push(
      line(at(mark, -11), at(mark, 11), LINE, 1),
      line(at(-11, mark), at(11, mark), LINE, 1),
    );
    if (mark !== 0) {
      body.push(
        words(
          [at(mark, 0)[0], 484],
          `${mark > 0 ? '+' : '−'}${Math.abs(mark)}`,
          13,
          SOFT,
          'middle',
        ),
      );
      body.push(
        words(
          [58, at(0, mark)[1] + 4],
          `${mark > 0 ? '+' : '−'}${Math.abs(mark)}`,
          13,
          SOFT,
          'end',
        ),
      );
    }
  }
  const edge = [...range.edge, ...range.edge.slice(0, 1)].map(each => at(each.left, each.right));
  body.push(
    `<polygon points="${edge.map(([x, y]) => `${n(x)},${n(y)}`).join(' ')}" fill="#dbe6e6" stroke="${INK}" stroke-width="2.5"/>`,
    line(at(-5.1, -5.1), at(5, 5), SOFT, 1, 'stroke-dasharray="3 4"'),
    line(at(-8, 8), at(8, -8), SOFT, 1, 'stroke-dasharray="3 4"'),
    circle(at(0, 0), 6, '#fff', DYE),
  );
  const notes: [Point, string][] = [
    [at(0.5, -0.6), 'ride height'],
    [at(5.3, 5.3), 'both up: bump stops'],
    [at(-10.9, -6.1), 'both down: shocks'],
    [at(1.6, -9.9), 'crossed up: driver wheel'],
    [at(1.6, -10.7), 'stuffed, the other hanging'],
  ];
  body.push(...notes.map(([point, text]) => words(point, text, 14)));
  body.push(words([290, 506], 'driver wheel, inches up or down', 14, INK, 'middle'));
  body.push(
    `<text x="14" y="250" font-size="14" fill="${INK}" text-anchor="middle" transform="rotate(-90 14 250)">passenger wheel, inches up or down</text>`,
  );
  return svg(600, 520, 'The travel map of the long-arm example', body);
}

/** Side view of the lower links of both examples, and the path of each wheel center as both wheels go up and down. */
export function armsDrawing(): string {
  const scale = 9;
  const at = ([x, , z]: Vec3): Point => [480 + x * scale, 380 - z * scale];
  const body = [line([20, 380], [700, 380], INK, 2), words([24, 398], 'floor', 13, SOFT)];
  const pairs = [
    ['long-arm-front', DYE, 'long arms'],
    ['short-arm-front', TOUCH, 'short arms'],
  ] as const;
  body.push(circle(at([0, 0, 20]), 20.7 * scale, '#eef0ee', SOFT));
  for (const [name, color, called] of pairs) {
    const { axle, model } = example(name);
    const lower = axle.links.find(link => link.name === 'left lower link');
    if (!lower) throw new Error('a lower link');
    body.push(
      line(
        at(lower.axle.at),
        at(lower.chassis.at),
        color,
        5,
        'stroke-linecap="round" stroke-opacity="0.8"',
      ),
      circle(at(lower.chassis.at), 5, '#fff', color),
      words([at(lower.chassis.at)[0], at(lower.chassis.at)[1] - 12], called, 14, color, 'middle'),
    );
    const travel = Array.from({ length: 21 }, (_, i) => -5 + i / 2);
    // fore-aft shift ten times as large, so that it can be seen
    const points = travel.flatMap((rise): Point[] => {
      const { pose } = model.pose(rise, rise);
      if (!pose) return [];
      const forward = pose.point('axle', axle.origin)[0] - axle.origin[0];
      return [at([10 * forward, 0, 20 + rise])];
    });
    body.push(path(points, color, 2.5));
  }
  body.push(
    words([24, 40], 'The curves: path of the wheel center,', 14),
    words([24, 60], '5 up to 5 down, fore and aft ten times as large.', 14),
  );
  return svg(720, 410, 'Long and short lower links, and the paths of the wheel center', body);
}

const frontLayout: StartLayout = { axles: [axleChoice('front')], driverSide: 'left' };
const rearLayout: StartLayout = { axles: [axleChoice('rear')], driverSide: 'left' };

/** Every drawing of the guide by its file name. */
export const drawings: Readonly<Record<string, () => string>> = {
  'measure-front-axle-side.svg': () => measuringDrawing(frontLayout, 'side'),
  'measure-front-axle-front.svg': () => measuringDrawing(frontLayout, 'front'),
  'measure-rear-axle-side.svg': () => measuringDrawing(rearLayout, 'side'),
  'travel-map.svg': mapDrawing,
  'long-and-short.svg': armsDrawing,
};
