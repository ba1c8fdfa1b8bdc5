/**
 * Least gaps against a dense brute force by other code: parts are placed from the points that a pose reports, bent
 * ones by a turn of their own making, and distances are found by thirds.
 */
import { describe, expect, test } from 'vitest';
import type { Link, Rod } from '../../geometry/build/build.ts';
import { coarseGrid } from '../../geometry/cycle/grid.ts';
import { posePoints } from '../../geometry/cycle/poseLengths.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import { GapSearch } from '../../geometry/gap/leastGaps.ts';
import { statusOf } from '../../geometry/gap/pairGap.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { type CycledExample, cycled, draws, type Example, pairOf } from './cycled.ts';

type Point = readonly number[];
/** Balls and thick lines: two ends and a radius. */
type Line = readonly [from: Point, to: Point, radius: number];

const minus = (a: Point, b: Point): number[] => a.map((c, i) => c - (b[i] as number));
const plus = (a: Point, b: Point, by = 1): number[] => a.map((c, i) => c + by * (b[i] as number));
const dot = (a: Point, b: Point): number => a.reduce((sum, c, i) => sum + c * (b[i] as number), 0);
const size = (a: Point): number => Math.sqrt(dot(a, a));
const cross = ([a = 0, b = 0, c = 0]: Point, [d = 0, e = 0, f = 0]: Point): number[] => [
  b * f - c * e,
  c * d - a * f,
  a * e - b * d,
];

/** Distance of two lines: from a point of one the foot on the other, and the best point by thirds. */
function between(p: Line, q: Line): number {
  const line = minus(p[1], p[0]);
  const square = dot(line, line);
  const way = minus(q[1], q[0]);
  const fromSecond = (t: number): number => {
    const from = minus(plus(q[0], way, t), p[0]);
    const foot = square === 0 ? 0 : Math.max(0, Math.min(1, dot(from, line) / square));
    return size(plus(from, line, -foot));
  };
  return least(fromSecond) - p[2] - q[2];
}

/** Least value of a convex function on [0, 1] by thirds. */
function least(of: (t: number) => number): number {
  let [low, high] = [0, 1];
  for (let k = 0; k < 48; k++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (of(a) < of(b)) high = b;
    else low = a;
  }
  return of((low + high) / 2);
}

/** What turns one direction onto another by the smallest turn (Rodrigues' formula). */
function turnBetween(from: Point, to: Point): (v: Point) => number[] {
  const [u, w] = [from.map(c => c / size(from)), to.map(c => c / size(to))];
  const axis = cross(u, w);
  const cos = dot(u, w);
  return v => {
    const once = cross(axis, v);
    return plus(plus(v, once), cross(axis, once), 1 / (1 + cos));
  };
}

/** What turns directions about an axis by an angle (Rodrigues' formula). */
function aboutBy(axis: Point, angle: number): (v: Point) => number[] {
  const u = axis.map(c => c / size(axis));
  return v => {
    const once = cross(u, v);
    return plus(plus(v, once, Math.sin(angle)), cross(u, once), 1 - Math.cos(angle));
  };
}

/** Turn about a line from one direction to another as seen along it. */
function turnAbout(line: Point, from: Point, to: Point): number {
  const u = line.map(c => c / size(line));
  const flat = (v: Point): number[] => plus(v, u, -dot(v, u));
  return Math.atan2(dot(u, cross(flat(from), flat(to))), dot(flat(from), flat(to)));
}

/** A bent or straight rod between two points now, as it was drawn between its own. */
function rodNow(
  drawn: readonly Point[],
  now: readonly [Point, Point],
  radius: number,
  housings: readonly [number, number],
  frame: (v: Point) => Point = v => v,
  intoFrame: (v: Point) => Point = v => v,
  roll: (carried: (v: Point) => Point, line: Point) => number = () => 0,
): Line[] {
  const [first, last] = [drawn[0] as Point, drawn.at(-1) as Point];
  const line = minus(last, first);
  const turn = turnBetween(line, intoFrame(minus(now[1], now[0])));
  const along = minus(now[1], now[0]);
  const rolled = aboutBy(
    along,
    roll(v => frame(turn(v)), along),
  );
  const points = drawn.map((point, i) => {
    if (i === 0) return now[0];
    if (i === drawn.length - 1) return now[1];
    const from = minus(point, first);
    const share = dot(from, line) / dot(line, line);
    const off = plus(from, line, -share);
    return plus(plus(now[0], minus(now[1], now[0]), share), rolled(frame(turn(off))));
  });
  const lines = points.slice(1).map((point, i): Line => [points[i] as Point, point, radius]);
  for (const [end, housing] of [
    [now[0], housings[0]],
    [now[1], housings[1]],
  ] as const) {
    if (housing > radius) lines.push([end, end, housing]);
  }
  return lines;
}

/** The parts of one pose, from what the pose reports. */
class Seen {
  readonly points: Record<string, Point>;
  readonly #pose: Pose;
  readonly #example: CycledExample;

  constructor(example: CycledExample, pose: Pose) {
    this.#example = example;
    this.#pose = pose;
    this.points = posePoints(pose);
  }

  lines(name: string): Line[] {
    const { axle } = this.#example;
    const link = axle.links.find(each => each.name === name);
    if (link) return this.#link(link);
    const rods = [axle.steering?.dragLink, ...(axle.steering?.tieRods ?? [])];
    const rod = rods.find(each => each?.name === name);
    if (rod) return this.#rod(rod);
    const { differential } = axle.housing;
    const ball = name === 'differential' ? differential : differential?.cover;
    if (!ball) throw new Error(`${name} is not known here`);
    // ballInChassis = chassisFromAxle · ballInAxle + origin
    const { R, o } = this.#pose.axle;
    const inAxle = minus(ball.center, axle.origin);
    const at = [0, 1, 2].map(
      r => dot([R[3 * r], R[3 * r + 1], R[3 * r + 2]] as number[], inAxle) + (o[r] as number),
    );
    return [[at, at, ball.radius]];
  }

  #link(link: Link): Line[] {
    const od = link.tube?.od ?? 2;
    const now = [this.#point(link.axle.name), this.#point(link.chassis.name)] as const;
    const housings = [link.axle, link.chassis].map(end => (end.housing ?? 1.25 * od) / 2);
    const drawn = [link.axle.at, ...link.through, link.chassis.at];
    const same = (v: Point): Point => v;
    return rodNow(drawn, now, od / 2, housings as [number, number], same, same, (carried, line) => {
      // a bore that is held follows its bolt, both as seen along the link; two share the twist
      const turns = (['axle', 'chassis'] as const).flatMap(end => {
        const { bolt, holdsRoll } = link[end];
        if (!bolt || !holdsRoll) return [];
        return [turnAbout(line, carried(bolt), end === 'axle' ? this.#turned(bolt) : bolt)];
      });
      return turns.length === 0 ? 0 : turns.reduce((sum, t) => sum + t, 0) / turns.length;
    });
  }

  /** A direction of the axle now. */
  #turned(v: Point): number[] {
    const { R } = this.#pose.axle;
    return [0, 1, 2].map(r => dot([R[3 * r], R[3 * r + 1], R[3 * r + 2]] as number[], v));
  }

  /** A steering rod: the smallest turn is taken as the axle sees it. */
  #rod(rod: Rod): Line[] {
    const od = rod.tube?.od ?? 1.5;
    const now = [this.#point(`${rod.name}.from`), this.#point(`${rod.name}.to`)] as const;
    const { R } = this.#pose.axle;
    const row = (r: number): number[] => [R[3 * r], R[3 * r + 1], R[3 * r + 2]] as number[];
    const column = (c: number): number[] => [R[c], R[3 + c], R[6 + c]] as number[];
    const drawn = [rod.from.at, ...rod.through, rod.to.at];
    return rodNow(
      drawn,
      now,
      od / 2,
      [0.625 * od, 0.625 * od],
      v => [0, 1, 2].map(r => dot(row(r), v)),
      v => [0, 1, 2].map(c => dot(column(c), v)),
    );
  }

  #point(name: string): Point {
    const point = this.points[name];
    if (!point) throw new Error(`no point is called ${name}`);
    return point;
  }

  gap(a: string, b: string): number {
    let found = Number.POSITIVE_INFINITY;
    for (const p of this.lines(a)) {
      for (const q of this.lines(b)) found = Math.min(found, between(p, q));
    }
    return found;
  }
}

/** Thirds end at (2/3)⁴⁸ = 4e-9 of a length of 60 in; near the least the distance is flat. */
const BY_THIRDS_in = 1e-7;

const CASES: [Example, [string, string][]][] = [
  [
    'long-arm-front',
    [
      ['drag link', 'differential'],
      ['differential cover', 'drag link'],
      ['track bar', 'drag link'],
      ['track bar', 'differential'],
      ['tie rod', 'differential'],
      ['upper link', 'drag link'],
    ],
  ],
  [
    'short-arm-front',
    [
      ['drag link', 'differential'],
      ['track bar', 'drag link'],
      ['right upper link', 'track bar'],
      ['tie rod', 'differential'],
    ],
  ],
  [
    'triangulated-rear',
    [
      ['left upper link', 'differential'],
      ['left lower link', 'left upper link'],
    ],
  ],
];

/** Poses all over the range and along its edge, at full lock and between: a dense cycle. */
function densePoses({ walk }: CycledExample, along: number, steer: number): Pose[] {
  const { range, reach, model } = walk;
  const poses: Pose[] = [];
  const ends = (pick: 'left' | 'right') => {
    const values = range.edge.map(p => p[pick]);
    return [Math.min(...values), Math.max(...values)] as const;
  };
  const [l, r] = [ends('left'), ends('right')];
  const places: [number, number][] = range.edge
    .filter((_, i) => i % 3 === 0)
    .map(p => [p.left, p.right]);
  for (let i = 0; i < along; i++) {
    for (let k = 0; k < along; k++) {
      places.push([
        l[0] + ((l[1] - l[0]) * i) / (along - 1),
        r[0] + ((r[1] - r[0]) * k) / (along - 1),
      ]);
    }
  }
  for (const [left, right] of places) {
    const { pose, margin } = reach.travel(left, right);
    if (!pose || margin < 0) continue;
    if (!model.mechanism.steering) {
      poses.push(pose);
      continue;
    }
    const interval = reach.steering(pose);
    for (let k = 0; interval && k < steer; k++) {
      const at = reach.steered(pose, interval, -1 + (2 * k) / (steer - 1));
      if (at) poses.push(at);
    }
  }
  return poses;
}

describe.each(CASES)('%s', (name, names) => {
  const example = cycled(name);
  const chosen = names.map(([a, b]) => pairOf(example, a, b));
  const search = new GapSearch(example.walk, example.parts, chosen);
  const found = chosen.map((_, p) => search.least(p));
  const seen = densePoses(example, 21, 7).map(pose => new Seen(example, pose));

  test.each(names.map((pair, p) => [...pair, p] as const))(
    '%s against %s: nothing that other code finds over a dense cycle is less',
    (a, b, p) => {
      const { gap, pose, pair, isRefined } = found[p] as (typeof found)[number];
      // other code, same pose, same gap
      expect(Math.abs(new Seen(example, pose).gap(a, b) - gap)).toBeLessThan(BY_THIRDS_in);
      const brute = Math.min(...seen.map(each => each.gap(a, b)));
      const promised = isRefined ? 1e-4 : 0.5;
      expect(gap).toBeLessThan(brute + promised);
      // a dense cycle comes near to the least: half a step of 1 in, at most as steep as 1 in 1
      expect(brute - gap).toBeLessThan(0.5);
      expect(pair.required).toBeGreaterThanOrEqual(0);
    },
  );
});

describe.each(['long-arm-front', 'radius-arm-front', 'wishbone-rear'] as const)('%s', name => {
  const example = cycled(name);
  const { pairs, parts, walk } = example;
  const search = new GapSearch(walk, parts, pairs);
  const near = pairs
    .map((_, p) => search.least(p))
    .filter(found => found.isRefined && !found.pair.still);

  test('each least gap lies inside the range, and its points span it', () => {
    expect(near.length).toBeGreaterThan(30);
    for (const { gap, pose, pair, pointA, pointB, alongA, alongB, status, lower } of near) {
      const { left, right, steer } = pose.input;
      const label = `${pair.a.name} / ${pair.b.name}`;
      const { pose: straight, margin } = walk.reach.travel(left, right);
      expect(margin, label).toBeGreaterThanOrEqual(0);
      const interval = straight && walk.reach.steering(straight);
      // crossings are found to 1e-10
      expect(steer).toBeLessThan((interval?.greatest.value ?? 0) + 1e-9);
      expect(steer).toBeGreaterThan((interval?.least.value ?? 0) - 1e-9);
      const apart = Math.hypot(...pointA.map((c, i) => c - (pointB[i] as number)));
      expect(Math.abs(apart - Math.abs(gap)), label).toBeLessThan(1e-6);
      for (const along of [alongA, alongB]) {
        if (along === null) continue;
        expect(along).toBeGreaterThanOrEqual(0);
        expect(along).toBeLessThanOrEqual(1);
      }
      expect(lower).toBeNull();
      expect(status).toBe(gap < 0 ? 'touches' : 'undecided');
    }
  });

  test('no pose of a dense cycle has less by more than 1e-4 in', () => {
    // along the edge more closely than elsewhere: most least gaps lie there
    for (const pose of densePoses(example, 17, 7)) {
      for (const { gap, pair } of near) {
        const less = gap - search.gapAt(pair, pose);
        if (less > 1e-4) expect.fail(`${pair.a.name} / ${pair.b.name}: ${gap} and ${less} less`);
      }
    }
  });

  test('no pose close by, inside the range, has less by more than 1e-4 in (seed 3)', () => {
    const random = draws(3);
    const { reach, model, range } = walk;
    let looked = 0;
    for (const { gap, pose, pair } of near) {
      const { left, right, steer } = pose.input;
      const places: [number, number][] = [0.3, 0.03, 3e-3, 3e-4].flatMap(scale =>
        Array.from({ length: 4 }, (): [number, number] => [
          left + scale * (2 * random() - 1),
          right + scale * (2 * random() - 1),
        ]),
      );
      // and along the edge, which random steps miss
      const edge = range.edge.filter(p => Math.hypot(p.left - left, p.right - right) < 0.6);
      for (const p of edge) places.push([p.left, p.right]);
      for (const [l, r] of places) {
        const { pose: straight, margin } = reach.travel(l, r);
        if (!straight || margin < 0) continue;
        let there: Pose | null = straight;
        if (model.mechanism.steering && steer !== 0) {
          const interval = reach.steering(straight);
          if (!interval) continue;
          // at full lock it stays at full lock
          const { least: low, greatest: high } = interval;
          const input = Math.max(low.value, Math.min(high.value, steer + 0.02 * random()));
          there = model.atSteer(straight, input).pose;
        }
        if (!there) continue;
        const less = gap - search.gapAt(pair, there);
        expect(less, `${pair.a.name} / ${pair.b.name}`).toBeLessThan(1e-4);
        looked++;
      }
    }
    expect(looked).toBeGreaterThan(300);
  });
});

test('what a gap and a bound say together', () => {
  const cases: [gap: number, lower: number | null, required: number, status: string][] = [
    [-0.1, null, 0.5, 'touches'],
    [-0.1, -0.12, 0.5, 'touches'],
    [0.2, null, 0.5, 'undecided'],
    [0.6, null, 0.5, 'undecided'],
    [0.6, 0.58, 0.5, 'clear'],
    [0.6, 0.4, 0.5, 'undecided'],
    [0.2, 0.18, 0.5, 'close'],
    [0.01, -0.01, 0.5, 'undecided'],
    [0, 0, 0, 'clear'],
  ];
  for (const [gap, lower, required, status] of cases) {
    expect(statusOf(gap, lower, required), `${gap} ${lower} ${required}`).toBe(status);
  }
});

test('a search on an edge that is cut straight ends: steps that only creep along it are none', () => {
  // the bounds of a given travel are such an edge, and the search once went on along one for hours
  const { build, axle, walk, parts, pairs } = cycled('long-arm-front');
  const { range, reach } = findRange(build, axle, walk.model, { up: 2, down: 2 });
  const cut = { ...walk, range, reach, grid: coarseGrid(range, reach) };
  const search = new GapSearch(cut, parts, pairs);
  const p = pairs.findIndex(
    ({ a, b }) => [a.name, b.name].sort().join() === 'left lower link,left tire',
  );
  expect(search.least(p).gap).toBeGreaterThan(0);
});
