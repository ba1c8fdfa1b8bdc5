/**
 * The range of axles against a brute force: poses on a grid of 1/4 in over all travel, and on grids of 0.05 in
 * and 0.01 in where the edge passes, each judged by the points of its parts. A point of the grid may lie on the
 * wrong side of the traced edge only within the edge's own 1e-3 in of it.
 */
import { describe, expect, test } from 'vitest';
import { furthest, inside } from '../../geometry/cycle/edge.ts';
import type { OpenedAxle } from '../../geometry/cycle/openAxle.ts';
import { DEFAULT_ASSUMED_in, findRange } from '../../geometry/cycle/range.ts';
import { walkAxle, walkReport } from '../../geometry/cycle/walkReport.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { distance } from '../../geometry/vector.ts';
import { adjusted } from '../pose/families.ts';
import { front, link, longArms } from '../pose/layouts.ts';
import { allows, bumpStops, example, offPolygon, opened, shocks } from './made.ts';

/** Furthest travel of the brute force, in: beyond what any of these axles does. */
const FAR = 14;
const COARSE = 0.25;
const EDGE = 1e-3;

/** Judges poses, each solved from its neighbor. */
function judge({ axle, model }: OpenedAxle): (left: number, right: number) => boolean {
  let near: Pose = model.ride;
  return (left, right) => {
    const { pose } = model.near(near, left, right, 0);
    if (!pose) return false;
    near = pose;
    return allows(axle, pose);
  };
}

/** Points of the grids with whether they belong to the piece around ride height. */
function bruteForce(
  axle: OpenedAxle,
): { left: number; right: number; within: boolean; grid: number }[] {
  const allowed = judge(axle);
  const n = (2 * FAR) / COARSE + 1;
  const at = (i: number): number => -FAR + i * COARSE;
  const grid = new Uint8Array(n * n);
  for (let r = 0; r < n; r++) {
    for (let k = 0; k < n; k++) {
      const c = r % 2 === 0 ? k : n - 1 - k;
      grid[r * n + c] = allowed(at(c), at(r)) ? 1 : 0;
    }
  }
  // the piece that holds ride height, by flooding
  const middle = (n - 1) / 2;
  const open = [middle * n + middle];
  while (open.length > 0) {
    const cell = open.pop() as number;
    if (grid[cell] !== 1) continue;
    grid[cell] = 2;
    const c = cell % n;
    open.push(cell - n, cell + n);
    if (c > 0) open.push(cell - 1);
    if (c < n - 1) open.push(cell + 1);
  }
  const out: ReturnType<typeof bruteForce> = [];
  const finer = (left: number, right: number, size: number, corners: boolean[]): void => {
    // a cell that has its edge in it; corners of other pieces are not looked at
    if (corners.every(Boolean) || !corners.some(Boolean)) return;
    const step = size / 5;
    const fine = Array.from({ length: 36 }, (_, i) => {
      const r = Math.floor(i / 6);
      const c = r % 2 === 0 ? i % 6 : 5 - (i % 6);
      return { c, r, within: allowed(left + c * step, right + r * step) };
    });
    const found = (c: number, r: number): boolean =>
      fine.find(each => each.c === c && each.r === r)?.within ?? false;
    for (const { c, r, within } of fine) {
      out.push({ left: left + c * step, right: right + r * step, within, grid: step });
    }
    if (step < 0.02) return;
    for (let r = 0; r < 5; r++) {
      for (let c = 0; c < 5; c++) {
        finer(left + c * step, right + r * step, step, [
          found(c, r),
          found(c + 1, r),
          found(c, r + 1),
          found(c + 1, r + 1),
        ]);
      }
    }
  };
  for (let r = 0; r < n; r++) {
    for (let c = 0; c < n; c++) {
      const cell = r * n + c;
      out.push({ left: at(c), right: at(r), within: grid[cell] === 2, grid: COARSE });
      if (r === n - 1 || c === n - 1) continue;
      const four = [cell, cell + 1, cell + n, cell + n + 1].map(i => grid[i]);
      if (!four.includes(1))
        finer(
          at(c),
          at(r),
          COARSE,
          four.map(v => v === 2),
        );
    }
  }
  return out;
}

/** Short links and a pad that slides off its plane as the axle swings back. */
const sliding = (): OpenedAxle =>
  opened(
    front(
      [
        link('left lower link', [-1.5, 17.5, 16.5], [-24, 15.5, 21.25]),
        link('right lower link', [-1.5, -17.5, 16.5], [-24, -15.5, 21.25]),
        link('upper link', [-1, -8, 27], [-17.5, -9, 30]),
        link('track bar', [3.5, -20.5, 25], [4, 18, 27.75]),
      ],
      {
        shocks: shocks({ shortest: 16.5, longest: 30.5 }),
        bumpStops: bumpStops(0.55, { solidHeight: 1.5 }),
      },
    ),
  );

describe.each<[string, () => OpenedAxle]>([
  ['three links on an exact layout', () => example('long-arm-front')],
  ['four links on bushings', () => example('four-link-rear')],
  ['a bump stop whose pad slides off', sliding],
])('%s', (_, make) => {
  const axle = make();
  const { range } = findRange(axle.build, axle.axle, axle.model);
  const points = bruteForce(axle);

  test('the edge agrees with a brute force at 0.01 in', () => {
    const fine = points.filter(point => point.grid < 0.02);
    expect(fine.length).toBeGreaterThan(20_000);
    const wrong = points
      .filter(({ left, right, within }) => inside(range.edge, left, right) !== within)
      .map(point => ({ ...point, off: offPolygon(range.edge, point.left, point.right) }));
    expect(wrong.filter(({ off }) => off > EDGE)).toEqual([]);
    // and the brute force comes near enough to the edge to tell
    expect(
      Math.min(...fine.slice(0, 2000).map(p => offPolygon(range.edge, p.left, p.right))),
    ).toBeLessThan(0.01);
  });

  test('each point of the edge is allowed, and a little further out is not', () => {
    const allowed = judge(axle);
    for (const [i, p] of range.edge.entries()) {
      const q = range.edge[(i + 1) % range.edge.length] as typeof p;
      const chord = Math.hypot(q.left - p.left, q.right - p.right);
      expect(allowed(p.left, p.right)).toBe(true);
      if (chord < 0.02) continue;
      // square to the chord, twice the edge's own tolerance
      const [dl, dr] = [(q.right - p.right) / chord, -(q.left - p.left) / chord];
      const [l, r] = [(p.left + q.left) / 2, (p.right + q.right) / 2];
      expect(allowed(l + 2 * EDGE * dl, r + 2 * EDGE * dr)).toBe(false);
      expect(allowed(l - 2 * EDGE * dl, r - 2 * EDGE * dr)).toBe(true);
    }
  });

  test('what ends the travel is the part that is at its end there', () => {
    for (const { by, part, left, right } of range.edge) {
      const { pose } = axle.model.pose(left, right);
      const shock = axle.axle.shocks.find(each => each.name === part);
      if (!pose || !shock) continue;
      const length = Math.hypot(
        ...pose.point('axle', shock.axle).map((v, c) => v - (shock.chassis[c] as number)),
      );
      // edges are found to 1e-9 in of travel
      expect(length).toBeCloseTo(by === 'shockShort' ? shock.shortest : shock.longest, 8);
    }
  });
});

test('a pad that has slid off ends nothing: up-travel goes on beside it', () => {
  const axle = sliding();
  const up = (radius: number | null): number => {
    const stops = bumpStops(radius, { solidHeight: 1.5 });
    const { reach } = findRange(axle.build, { ...axle.axle, bumpStops: stops }, axle.model);
    return furthest(reach, [0, 0], [1, 1]).left;
  };
  // the pad holds at 3 1/2 up where it stays on its plane, and the shocks further up where it does not
  expect(up(null)).toBeGreaterThan(3.4);
  expect(up(null)).toBeLessThan(3.6);
  expect(up(0.1)).toBeGreaterThan(up(null) + 1);
});

test('without any stop each direction goes to the assumed travel, and says so', () => {
  const axle = opened(longArms());
  const { range } = findRange(axle.build, axle.axle, axle.model);
  const { up, down } = DEFAULT_ASSUMED_in;
  expect(range.unstopped).toEqual([
    { side: 'left', direction: 'up' },
    { side: 'left', direction: 'down' },
    { side: 'right', direction: 'up' },
    { side: 'right', direction: 'down' },
  ]);
  expect(range.assumedTravel).toEqual({ up, down });
  expect(new Set(range.ends.map(({ by }) => by))).toEqual(new Set(['assumedTravel']));
  for (const [left, right] of [
    [up, up],
    [-down, up],
    [up, -down],
    [-down, -down],
  ] as const) {
    expect(offPolygon(range.edge, left, right)).toBeLessThan(EDGE);
  }
  // a rectangle: nothing lies outside it
  for (const p of range.edge) {
    expect(Math.max(p.left - up, p.right - up, -down - p.left, -down - p.right)).toBeLessThan(1e-8);
  }
});

test('the build says how far to go where nothing stops', () => {
  const wanted = { bands: [], gaps: [], muted: [], assumedTravel: { up: 3, down: 7 } };
  const axle = opened(longArms(), { wanted });
  const { range } = findRange(axle.build, axle.axle, axle.model);
  expect(Math.max(...range.edge.map(p => p.left))).toBeCloseTo(3, 8);
  expect(Math.min(...range.edge.map(p => p.right))).toBeCloseTo(-7, 8);
});

test('one side without stops is unstopped, the other is not', () => {
  const axle = opened({ ...longArms(), shocks: shocks().slice(0, 1) });
  const { range } = findRange(axle.build, axle.axle, axle.model);
  expect(range.unstopped.map(({ side, direction }) => `${side} ${direction}`)).toEqual([
    'right up',
    'right down',
  ]);
  expect(range.ends.map(({ by }) => by)).toContain('shockLong');
});

test('a limit of travel that the caller gives cuts the range, and nothing is assumed', () => {
  const { build, axle, model } = example('long-arm-front');
  const { range } = findRange(build, axle, model, { up: 2, down: 3 });
  expect(Math.max(...range.edge.map(p => p.left))).toBeCloseTo(2, 8);
  expect(Math.min(...range.edge.map(p => p.right))).toBeCloseTo(-3, 8);
  expect(range.unstopped).toEqual([]);
});

test('a range that does not hold ride height is empty, and tells the stop', () => {
  const axle = opened({ ...longArms(), shocks: shocks({ longest: 24 }) });
  const { range } = findRange(axle.build, axle.axle, axle.model);
  expect(range.holdsRide).toBe(false);
  expect(range.edge).toEqual([]);
  expect(range.ends.map(({ by }) => by)).toEqual(['shockLong']);
});

test('what pads let pass far beyond their stops is in pieces apart', () => {
  // the pad is over its plane at ride height and off it some 5 in further up, where travel is allowed again
  const axle = opened({
    ...longArms(),
    shocks: shocks({ shortest: 13, longest: 29.75 }),
    bumpStops: bumpStops(0.32, { solidHeight: 1.5 }),
  });
  const { range } = findRange(axle.build, axle.axle, axle.model);
  expect(range.holdsRide).toBe(true);
  const allowed = judge(axle);
  const onTheWay = Array.from({ length: 48 }, (_, i) => allowed(i / 4, i / 4));
  const changes = onTheWay.filter((now, i) => i > 0 && now !== onTheWay[i - 1]).length;
  expect(changes).toBe(2);
  // each of the two pads stands before its band of travel or beyond it
  expect(range.pieces).toBe(4);
});

test('a pose that does not exist bounds the range', () => {
  // a track bar of 13 in: its axle end swings no further than its length
  const short = front(
    [
      link('left lower link', [-1.5, 17.5, 16.5], [-38, 15.5, 22]),
      link('right lower link', [-1.5, -17.5, 16.5], [-38, -15.5, 22]),
      link('upper link', [-1, -8, 27], [-33.5, -11, 30.25]),
      link('track bar', [3.5, -6.5, 25], [3.5, 6.5, 27]),
    ],
    {},
  );
  const wanted = { bands: [], gaps: [], muted: [], assumedTravel: { up: 25, down: 25 } };
  const axle = opened(short, { wanted });
  const { range } = findRange(axle.build, axle.axle, axle.model);
  expect(range.ends[0]).toEqual({ by: 'noPose', part: 'track bar', side: null });
  for (const p of range.edge.filter(each => each.by === 'noPose').slice(0, 40)) {
    // beyond, from ride height, no pose exists; before it one does
    const at = (share: number) => axle.model.pose(p.left * share, p.right * share).pose;
    expect(at(1 + 1e-3)).toBeNull();
    expect(at(1 - 1e-3)).not.toBeNull();
  }
});

test('links that run out beyond the assumed travel are no stop', () => {
  const { range } = (() => {
    const axle = opened(
      front([
        link('left lower link', [-1.5, 17.5, 16.5], [-14, 15.5, 18]),
        link('right lower link', [-1.5, -17.5, 16.5], [-14, -15.5, 18]),
        link('upper link', [-1, -8, 27], [-12, -9, 28]),
        link('track bar', [3.5, -20.5, 25], [4, 18, 27.75]),
      ]),
    );
    return findRange(axle.build, axle.axle, axle.model);
  })();
  expect(range.unstopped).toHaveLength(4);
  expect(range.ends.map(({ by }) => by)).not.toContain('noPose');
});

test('the same axle gives the same edge, and a given length moves it', () => {
  const axle = example('long-arm-front');
  const edge = () => findRange(axle.build, axle.axle, axle.model).range.edge;
  expect(edge()).toEqual(edge());
  const longer = opened(adjusted({ ...longArms(), shocks: shocks() }, 'upper link', 0.5));
  const plain = opened({ ...longArms(), shocks: shocks() });
  const of = ({ build, axle: each, model }: OpenedAxle) => findRange(build, each, model).range.edge;
  expect(of(longer)).not.toEqual(of(plain));
});

test('a range that is ride height alone is walked, and told', () => {
  // shocks without stroke hold both wheels where they are
  const axle = longArms();
  const stiff = shocks();
  const rigid = opened({
    ...axle,
    shocks: stiff.map(shock => {
      const length = distance(shock.axle, shock.chassis);
      return { ...shock, shortest: length, longest: length };
    }),
  });
  const walk = walkAxle(rigid.build, rigid.axle, rigid.model, { path: 'both' });
  expect(walk.range.holdsRide).toBe(true);
  for (const { left, right } of walk.range.edge) expect(Math.hypot(left, right)).toBeLessThan(1e-6);
  expect(JSON.stringify(walkReport(walk))).not.toMatch(/NaN|Infinity/);
});
