/** The report of an axle's gaps: what stands in it, meshes, what never moves, and ground clearance. */
import { describe, expect, test } from 'vitest';
import type { Build, Solid as Drawn, Vec3 } from '../../geometry/build/build.ts';
import { furthest } from '../../geometry/cycle/edge.ts';
import { type GapsOptions, gapReport, gapsOf } from '../../geometry/gap/gapReport.ts';
import { clearancesOf, groundClearance } from '../../geometry/gap/groundClearance.ts';
import type { MeshReader } from '../../geometry/gap/parts.ts';
import { groundPoint } from '../../geometry/measure/ground.ts';
import { mesh } from '../../geometry/solid/mesh.ts';
import { cycled, partOf } from './cycled.ts';

/** Gaps of the long arms with other solids in place of the drawn ones. */
function gapsWith(solids: Drawn[], options: Partial<GapsOptions> = {}) {
  const { build, walk } = cycled('long-arm-front');
  const wanted = { ...build.wanted, gaps: [], muted: [] };
  const changed: Build = { ...build, solids, wanted };
  return gapsOf({ ...walk, build: changed }, { readMesh: noMesh, ...options });
}

const noMesh: MeshReader = () => ({ problem: 'no meshes here' });

const axes: [Vec3, Vec3, Vec3] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

const drawn = (name: string, shape: Drawn['shape'], more: Partial<Drawn> = {}): Drawn => ({
  name,
  on: 'chassis',
  axle: null,
  shape,
  isNew: false,
  mayBeCut: false,
  give: 0,
  ...more,
});

const scan = drawn('scan', {
  kind: 'mesh',
  file: 'scan.stl',
  scale: 1,
  at: [0, 0, 0],
  axes,
  sha256: null,
  size: null,
});

/** A box of twelve triangles, or of ten where it is open on top. */
function boxReader(low: Vec3, high: Vec3, isOpen: boolean): MeshReader {
  const positions = new Float64Array(24);
  for (let k = 0; k < 8; k++) {
    for (let c = 0; c < 3; c++) {
      positions[3 * k + c] = (k & (1 << c) ? high : low)[c] as number;
    }
  }
  const faces = [
    [0, 2, 3, 1],
    [0, 1, 5, 4],
    [1, 3, 7, 5],
    [3, 2, 6, 7],
    [2, 0, 4, 6],
    ...(isOpen ? [] : [[4, 5, 7, 6]]),
  ];
  const triangles = faces.flatMap(([a = 0, b = 0, c = 0, d = 0]) => [a, b, c, a, c, d]);
  return () => mesh({ positions, triangles: Uint32Array.from(triangles) });
}

describe('meshes', () => {
  // all around the upper link's chassis end, nowhere near its surface
  const low: Vec3 = [-60, -40, 10];
  const high: Vec3 = [-10, 20, 50];
  const only: GapsOptions['only'] = ({ a, b }) =>
    [a.name, b.name].includes('scan') && [a.name, b.name].includes('transfer case body');

  test('a convex body wholly inside a closed mesh touches; inside an open one it does not', () => {
    const body = drawn('transfer case body', {
      kind: 'box',
      center: [-33, -10, 30],
      size: [4, 4, 4],
      axes,
    });
    const within = { ...body, on: 'axle', axle: 'front' as const };
    for (const isOpen of [false, true]) {
      const gaps = gapsWith([scan, within], { readMesh: boxReader(low, high, isOpen), only });
      const [found] = gaps.gaps;
      if (isOpen) {
        expect(found?.gap).toBeGreaterThan(5);
        expect(found?.status).toBe('undecided');
        expect(
          gapReport(gaps)
            .notes.map(({ text }) => text)
            .join(),
        ).toMatch(/not closed/);
      } else {
        expect(found?.status).toBe('touches');
        // no less than from its middle to its own surface
        expect(found?.gap).toBeLessThanOrEqual(-2);
        expect(gapReport(gaps).notes).toEqual([]);
      }
    }
  });

  test('a mesh that can not be made is left out and told; the rest goes on', () => {
    const gaps = gapsWith([scan, drawn('ball', { kind: 'sphere', center: [0, 0, 60], radius: 2 })]);
    expect(gaps.problems).toEqual([{ part: 'scan', problem: 'solids["scan"]: no meshes here' }]);
    expect(gaps.parts.some(part => part.name === 'scan')).toBe(false);
    expect(gaps.gaps.some(({ pair }) => pair.b.name === 'ball')).toBe(true);
  });
});

test('numbers are finite, pairs and groups of those left out add up, and JSON keeps all', () => {
  for (const name of ['long-arm-front', 'wishbone-rear'] as const) {
    const { walk, parts } = cycled(name);
    const report = gapReport(gapsOf(walk, { readMesh: noMesh }));
    const n = parts.length;
    expect(report.parts).toBe(n);
    const left = report.excluded.reduce((sum, { count }) => sum + count, 0);
    expect(report.pairs.length + left).toBe((n * (n - 1)) / 2);
    for (const pair of report.pairs) {
      for (const value of [pair.gap_in, pair.required_in, ...pair.pointA, ...pair.pointB]) {
        expect(Number.isFinite(value), `${pair.a} / ${pair.b}`).toBe(true);
      }
      expect(pair.lower_in).toBeNull();
      expect(pair.reason).toBe('searched from samples, not proved');
      if (!walk.axle.steered) expect(pair.pose.steer).toBeNull();
    }
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
    const own = report.excluded.filter(({ why }) => why === 'ride on the same body');
    for (const { a, b } of own) expect(a).toBe(b);
  }
});

test('pairs that never move are looked at once, as drawn', () => {
  const gusset = (center: Vec3, isNew: boolean, name: string): Drawn =>
    drawn(name, { kind: 'sphere', center, radius: 1 }, { isNew });
  const gaps = gapsWith(
    [gusset([0, 0, 60], true, 'new one'), gusset([0, 3, 60], false, 'old one')],
    {
      only: pair => pair.still,
    },
  );
  const found = gaps.gaps.find(({ pair }) => [pair.a.name, pair.b.name].includes('old one'));
  expect(found?.gap).toBeCloseTo(1, 12);
});

describe('ground clearance', () => {
  const example = cycled('long-arm-front');
  const { axle, walk } = example;

  test('at ride height: the lowest point of each shape over the ground', () => {
    const ride = (name: string): number => groundClearance(partOf(example, name), walk.model.ride);
    const { differential } = axle.housing;
    if (!differential) throw new Error('the example has a differential');
    // a ball: its center's height less its radius; the ground is at 0 there
    expect(ride('differential')).toBeCloseTo(differential.center[2] - differential.radius, 10);
    // a capsule: the lower end's
    expect(ride('tool canister')).toBeCloseTo(31 - 4, 10);
    // a box: its underside
    expect(ride('transfer case skid')).toBeCloseTo(21 - 1 / 8, 10);
    const link = axle.links.find(({ name }) => name === 'left lower link');
    expect(ride('left lower link')).toBeCloseTo(16.5 - (link?.axle.housing ?? 0) / 2, 10);
  });

  test('stuffed: what rides on the chassis comes down by the travel, what rides on the axle stays', () => {
    const up = furthest(walk.reach, [0, 0], [1, 1]);
    const clearances = clearancesOf(walk, example.parts);
    const of = (name: string) => clearances.find(({ part }) => part.name === name);
    const skid = of('transfer case skid');
    const stuffed = walk.reach.travel(up.left, up.right).pose;
    if (!stuffed) throw new Error('the axle can be stuffed');
    // the ground comes up by the travel, but for the pitch of the housing that it hangs on: 20 in (1 − cos 2°)
    expect(skid?.stuffed).toBeCloseTo(20.875 - groundPoint(stuffed)[2], 9);
    expect(Math.abs((skid?.stuffed ?? 0) - (20.875 - up.left))).toBeLessThan(0.02);
    expect(skid?.ride).toBeCloseTo(20.875, 10);
    // crossing up leans the ground plane: somewhere in the range the skid's edge is lower than when stuffed
    expect(skid?.least.value).toBeLessThanOrEqual((skid?.stuffed ?? 0) + 1e-9);
    const differential = of('differential');
    // a ball turns in pitch and stays as high over the tires' line but for the pitch of its center about it
    expect(Math.abs((differential?.stuffed ?? 0) - (differential?.ride ?? 0))).toBeLessThan(0.1);
    expect(clearances.some(({ part }) => part.kind === 'tire')).toBe(false);
    expect(clearances.map(({ ride }) => ride)).toEqual(
      clearances.map(({ ride }) => ride).sort((a, b) => a - b),
    );
  });

  test('of a mesh: its lowest corner, at any pose', () => {
    const low: Vec3 = [-20, -6, 18];
    const high: Vec3 = [-8, 9, 22];
    const { parts } = gapsWith([scan], {
      readMesh: boxReader(low, high, false),
      only: () => false,
    });
    const { parts: boxes } = gapsWith(
      [
        drawn('box', {
          kind: 'box',
          center: [-14, 1.5, 20],
          size: [12, 15, 4],
          axes,
        }),
      ],
      { only: () => false },
    );
    const [one, other] = [parts.at(-1), boxes.at(-1)];
    if (!one || !other) throw new Error('both are parts');
    for (const place of walk.grid.places.filter(each => each.straight)) {
      const { straight } = place;
      if (!straight) continue;
      expect(groundClearance(one, straight)).toBeCloseTo(groundClearance(other, straight), 9);
      // and by hand: the lowest corner over the plane through both contact points that contains chassis X
      const lean = Math.atan2(straight.axle.R[7] as number, straight.axle.R[4] as number);
      const [, y0, z0] = groundPoint(straight);
      const corners = [low[1], high[1]].map(
        y => (18 - z0) * Math.cos(lean) - (y - y0) * Math.sin(lean),
      );
      expect(groundClearance(one, straight)).toBeCloseTo(Math.min(...corners), 9);
    }
  });
});
