/**
 * Where to put the tape: an axle of a proposal seen from the side or from ahead, and over it what is taped, from where to
 * where. Plain marks with a tone each; the page and the guide's script paint them in their own colors.
 */
import type { Axle, Build, Vec3 } from '../../geometry/build/build.ts';
import type { HeightDatum, Measurement, View } from '../../geometry/build/start/measurement.ts';
import { line, type Mark, type Spot } from './marks.ts';

export interface TapeDrawing {
  width: number;
  height: number;
  /** Height of the floor in the drawing. */
  floor: number;
  marks: Mark[];
}

/** What is drawn: a build and where the points of its measurements lie, both as the vehicle stands today, in. */
export interface Drawn {
  axles: readonly Axle[];
  solids: Build['solids'];
  anchors: Readonly<Record<string, readonly [number, number, number]>>;
}

/** One measurement to be drawn. */
export interface Shown {
  measurement: Pick<Measurement, 'from' | 'to' | 'dimension'>;
  /** A number, or what it reads. */
  text: string;
  /** Where the tape starts for a height: the floor unless given. */
  datum?: HeightDatum;
}

const WIDTH = 720;
const MARGIN = { x: 40, top: 40, floor: 34 };
/** Apart enough for two numbers beside each other. */
const COLUMN = 28;

const AXES: Readonly<Record<View, readonly [0 | 1 | 2, 0 | 1 | 2]>> = {
  side: [0, 2],
  // as one stands ahead of the vehicle and looks back, its left is on the right
  front: [1, 2],
  top: [0, 1],
};

type At = (point: Vec3) => Spot;

/** The drawing of one view, with every measurement that is given. */
export function tapeDrawing(drawn: Drawn, view: View, shown: readonly Shown[]): TapeDrawing {
  const { axles, anchors } = drawn;
  const [across, up] = AXES[view];
  const isSide = view === 'side';
  const extents = axles.flatMap(({ origin, wheelCenters, tire }) =>
    isSide
      ? [origin[0] - tire.diameter / 2, origin[0] + tire.diameter / 2]
      : [-wheelCenters / 2 - tire.width / 2, wheelCenters / 2 + tire.width / 2],
  );
  const ends = axles.flatMap(axle => partsOf(axle, isSide).flatMap(({ points }) => points));
  const xs = [...extents, ...ends.map(point => point[across])];
  const [least, most] = [Math.min(...xs) - 4, Math.max(...xs) + 4];
  const scale = (WIDTH - 2 * MARGIN.x) / (most - least);
  const tallest = Math.max(...axles.map(({ origin, tire }) => origin[2] + tire.diameter / 2));
  const floor = MARGIN.top + tallest * scale;
  const at: At = p => [MARGIN.x + (p[across] - least) * scale, floor - p[up] * scale];

  const marks: Mark[] = [
    ...axles.flatMap(axle => wheels(axle, isSide, at, scale)),
    { kind: 'box', tone: 'ground', at: [0, floor], size: [WIDTH, MARGIN.floor], round: 0 },
    line('floor', 2, [16, floor], [WIDTH - 16, floor]),
    ...rails(drawn, isSide ? [least, most] : null, at),
    ...axles.flatMap(axle => held(axle, isSide, at, scale)),
    ...stops(anchors, isSide, at, scale),
    ...taped(drawn, shown, isSide, at),
  ];
  return { width: WIDTH, height: Math.ceil(floor + MARGIN.floor), floor, marks };
}

interface Line {
  points: Vec3[];
  isBar: boolean;
}

/** Lines from joint to joint of what holds an axle; from the side, those of the near side and the middle. */
function partsOf({ links, radiusArms }: Axle, isSide: boolean): Line[] {
  const isShown = ({ name, kind }: { name: string; kind: string }): boolean =>
    !isSide || !(name.startsWith('right') || kind === 'track bar');
  return [
    ...links.filter(isShown).map(({ kind, axle, chassis }) => ({
      points: [axle.at, chassis.at],
      isBar: kind === 'track bar',
    })),
    ...radiusArms.filter(isShown).map(({ axle, chassis }) => ({
      points: [axle[0].at, axle[1].at, chassis.at, axle[0].at],
      isBar: false,
    })),
  ];
}

function wheels({ origin, wheelCenters, tire }: Axle, isSide: boolean, at: At, scale: number) {
  const [x, , z] = origin;
  const radius = (tire.diameter / 2) * scale;
  return (isSide ? [1] : [1, -1]).flatMap((side): Mark[] => {
    const center = at([x, (side * wheelCenters) / 2, z]);
    if (isSide) {
      return [
        { kind: 'circle', tone: 'tire', at: center, radius },
        { kind: 'circle', tone: 'frame', at: center, radius: radius * 0.42 },
      ];
    }
    const width = tire.width * scale;
    const corner: Spot = [center[0] - width / 2, center[1] - radius];
    return [{ kind: 'box', tone: 'tire', at: corner, size: [width, 2 * radius], round: 12 }];
  });
}

/**
 * The frame rails, faint: what else stands near is not taped here.
 *
 * @param run from the side: as far as the drawing goes, in; null from ahead
 */
function rails({ solids }: Drawn, run: readonly [number, number] | null, at: At): Mark[] {
  return solids.flatMap(({ name, shape }): Mark[] => {
    if (shape.kind !== 'box' || !/^(left|right) (rear )?rail$/.test(name)) return [];
    if (run && name.startsWith('right')) return [];
    const [x, y, z] = shape.center;
    const [long, wide, tall] = shape.size;
    const from = run ? Math.max(x - long / 2, run[0]) : x;
    const to = run ? Math.min(x + long / 2, run[1]) : x;
    const low = at([from, y - wide / 2, z - tall / 2]);
    const high = at([to, y + wide / 2, z + tall / 2]);
    const size: Spot = [high[0] - low[0], low[1] - high[1]];
    if (size[0] <= 0) return [];
    return [{ kind: 'box', tone: 'frame', at: [low[0], high[1]], size, round: 2 }];
  });
}

/** Housing, differential, links and arms. */
function held(axle: Axle, isSide: boolean, at: At, scale: number): Mark[] {
  const { origin, wheelCenters, tire, housing, driveline } = axle;
  const [x, , z] = origin;
  const marks: Mark[] = [];
  if (!isSide) {
    const end = wheelCenters / 2 - tire.width / 2;
    marks.push(line('part', 8, at([x, -end, z]), at([x, end, z])));
  }
  const { differential } = housing;
  if (isSide && driveline)
    marks.push(line('part', 9, at(differential?.center ?? origin), at(driveline.pinion.joint)));
  if (differential) {
    const { center, radius } = differential;
    marks.push({ kind: 'circle', tone: 'part', at: at(center), radius: radius * scale });
  }
  for (const { points, isBar } of partsOf(axle, isSide)) {
    const spots = points.map(at);
    marks.push(line(isBar ? 'bar' : 'link', 6, ...spots));
    marks.push(
      ...spots.map((spot): Mark => ({ kind: 'circle', tone: 'joint', at: spot, radius: 5 })),
    );
  }
  if (isSide) marks.push({ kind: 'circle', tone: 'joint', at: at(origin), radius: 4 });
  return marks;
}

/** Bump stops and what they strike, from ahead. */
function stops(anchors: Drawn['anchors'], isSide: boolean, at: At, scale: number): Mark[] {
  if (isSide) return [];
  return Object.entries(anchors).flatMap(([name, point]): Mark[] => {
    const isPad = /bump stop$/.test(name);
    if (!isPad && !/strike plate$/.test(name)) return [];
    const [x, y] = at(point);
    const half = (isPad ? 1.1 : 2) * scale;
    const tall = (isPad ? 1.6 : 0.5) * scale;
    // one hangs from the frame and the other stands on the axle, whichever is the higher
    const twin = anchors[
      isPad ? name.replace('bump stop', 'strike plate') : name.replace('strike plate', 'bump stop')
    ] ?? [0, 0, 0];
    const isUpper = point[2] >= twin[2];
    const corner: Spot = [x - half, isUpper ? y - tall : y];
    return [{ kind: 'box', tone: 'part', at: corner, size: [2 * half, tall], round: 2 }];
  });
}

interface Upright {
  text: string;
  from: Spot;
  to: Spot;
  /** Where it is drawn, beside the point that it belongs to. */
  column: number;
}

/** What is taped: upright lines moved apart, others along what they measure. */
function taped({ anchors }: Drawn, shown: readonly Shown[], isSide: boolean, at: At): Mark[] {
  const marks: Mark[] = [];
  const uprights: Upright[] = [];
  for (const { measurement, text, datum } of shown) {
    const b = anchors[measurement.to];
    const a = startOf(measurement, datum ?? 'floor', anchors);
    if (!a || !b) continue;
    // a height is taped straight up from the level below its point
    const isHeight = measurement.from === 'floor';
    const [p, q] = [at(isHeight ? [b[0], b[1], a[2]] : a), at(b)];
    if (isHeight && datum && datum !== 'floor')
      marks.push({ ...line('tape', 1, at(a), p), isDashed: true } as Mark);
    if (measurement.dimension === 'angle') marks.push(...angle(p, q, text));
    else if (Math.abs(p[0] - q[0]) < 1) uprights.push({ text, from: p, to: q, column: q[0] });
    else marks.push(...along(inside(p), inside(q), text, isSide));
  }
  for (const [i, each] of spread(uprights).entries()) marks.push(...upright(each, i));
  return marks;
}

function startOf(
  { from }: Shown['measurement'],
  datum: HeightDatum,
  anchors: Drawn['anchors'],
): Vec3 | undefined {
  if (from !== 'floor' || datum === 'floor') return anchors[from];
  const suffix = datum === 'wheelCenter' ? /^(front|rear) wheel center$/ : /rail bottom$/;
  const name = Object.keys(anchors).find(each => suffix.test(each));
  return name === undefined ? undefined : anchors[name];
}

/** The other axle lies beyond the drawing. */
const inside = ([x, y]: Spot): Spot => [Math.min(WIDTH - 16, Math.max(16, x)), y];

/** A tape from point to point, with its text where it is free. */
function along(from: Spot, to: Spot, text: string, isSide: boolean): Mark[] {
  // on a link its text stands in the middle; a long line has it where it is free
  const share = Math.abs(to[0] - from[0]) > 500 && isSide ? 0.75 : 0.5;
  const tag: Spot = [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
  return [...tape(from, to), { kind: 'tag', at: tag, text }];
}

const tape = (from: Spot, to: Spot): Mark[] => [
  { kind: 'line', tone: 'tape', points: [from, to], width: 2, isDashed: true },
  { kind: 'circle', tone: 'tape', at: from, radius: 2.5 },
  { kind: 'circle', tone: 'tape', at: to, radius: 2.5 },
];

/** A line's slope against the level. */
function angle(from: Spot, to: Spot, text: string): Mark[] {
  const toward = Math.sign(to[0] - from[0]) || 1;
  const long = 1.6 * Math.hypot(to[0] - from[0], to[1] - from[1]);
  const slope = (to[1] - from[1]) / Math.abs(to[0] - from[0]);
  const end: Spot = [from[0] + toward * long, from[1] + slope * long];
  const level: Spot = [from[0] + toward * long, from[1]];
  return [
    ...tape(from, end),
    line('tape', 1, from, level),
    { kind: 'tag', at: [end[0], Math.min(end[1], level[1]) - 20], text },
  ];
}

function upright({ text, from, to, column }: Upright, i: number): Mark[] {
  const [low, high]: [Spot, Spot] = [
    [column, from[1]],
    [column, to[1]],
  ];
  const room = from[1] - to[1];
  // near its foot, every other one higher; a short one has it beside
  const tag: Spot =
    Math.abs(room) > 60
      ? [column, from[1] - Math.sign(room) * (i % 2 === 0 ? 22 : 48)]
      : [column + 30, (from[1] + to[1]) / 2];
  return [
    line('tape', 1, high, to),
    ...tape(low, high),
    { kind: 'circle', tone: 'tape', at: to, radius: 3 },
    { kind: 'tag', at: tag, text },
  ];
}

/** Upright tapes moved apart, each as near to its own point as the others leave. */
function spread(uprights: Upright[]): Upright[] {
  const sorted = [...uprights].sort((a, b) => a.column - b.column);
  for (let round = 0; round < 200; round++) {
    for (const [i, each] of sorted.entries()) {
      const next = sorted[i + 1];
      if (!next || next.column - each.column >= COLUMN) continue;
      const push = (COLUMN - (next.column - each.column)) / 2;
      each.column -= push;
      next.column += push;
    }
  }
  return sorted;
}
