/** The first touch past each stop, against closed forms of travel and of the pitman arm's turn. */
import { describe, expect, test } from 'vitest';
import type { Axle, Build, Solid as Drawn, Vec3 } from '../../geometry/build/build.ts';
import { coarseGrid } from '../../geometry/cycle/grid.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import type { Cycled } from '../../geometry/cycle/walkReport.ts';
import type { StopMargin } from '../../geometry/gap/beyondStops.ts';
import { type AxleGaps, gapReport, gapsOf } from '../../geometry/gap/gapReport.ts';
import { add, cross, reject, scale, sub, unit } from '../../geometry/vector.ts';
import { cycled, type Example } from './cycled.ts';

const noMesh = () => ({ problem: 'no meshes here' });

function between(
  example: Example,
  solids: Drawn[],
  travel: { up: number; down: number },
): AxleGaps {
  const { build: whole, walk } = cycled(example);
  const { axle, model } = walk;
  const build: Build = { ...whole, solids, wanted: { ...whole.wanted, gaps: [], muted: [] } };
  const { range, reach } = findRange(build, axle, model, travel);
  const cycle: Cycled = { build, axle, model, range, reach, grid: coarseGrid(range, reach) };
  return gapsOf(cycle, {
    readMesh: noMesh,
    only: ({ a, b }) => [a.name, b.name].sort().join() === 'mark,post',
  });
}

const drawn = (name: string, on: Drawn['on'], axle: Axle | null, shape: Drawn['shape']): Drawn => ({
  name,
  on,
  axle: axle ? axle.name : null,
  shape,
  isNew: false,
  mayBeCut: false,
  give: 0,
});

const by = ({ margins }: AxleGaps, id: string, part: string, side: string | null): StopMargin => {
  const found = margins.find(({ stop: s }) => s.by === id && s.part === part && s.side === side);
  if (!found) throw new Error(`no ${id} of the ${part} ends anything`);
  return found;
};

describe('past an end of travel', () => {
  // a ball about the left wheel center, and a plate over it that it meets UP + PAST in higher: the wheel center rises
  // by the left travel, by the definition of wheel travel, whatever the axle does otherwise
  const [UP, DOWN, PAST, RADIUS] = [3, 4, 1.25, 2];
  const { axle, model } = cycled('triangulated-rear').walk;
  const [x, , z] = model.mechanism.origin as [number, number, number];
  const center: Vec3 = [x, axle.wheelCenters / 2, z];
  const plate = drawn('post', 'chassis', null, {
    kind: 'box',
    center: [x, center[1], z + UP + PAST + RADIUS + 0.5],
    size: [60, 60, 1],
    axes: [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ],
  });
  const ball = drawn('mark', 'axle', axle, { kind: 'sphere', center, radius: RADIUS });
  const gaps = between('triangulated-rear', [ball, plate], { up: UP, down: DOWN });

  test('it is as far as the parts are apart at the stop, and none where they only come apart', () => {
    const { first, unit: of, searched } = by(gaps, 'assumedTravel', 'up', 'left');
    expect(of).toBe('in');
    // touches are found to a thousandth
    expect(first?.past).toBeGreaterThanOrEqual(PAST - 1e-9);
    expect(first?.past).toBeLessThan(PAST + 1.001e-3);
    // the edge itself is found to 1e-9
    expect(first?.pose.input.left).toBeCloseTo(UP + (first?.past ?? 0), 8);
    expect(searched).toBe(2);
    for (const [part, side] of [
      ['up', 'right'],
      ['down', 'left'],
      ['down', 'right'],
    ] as const) {
      expect(by(gaps, 'assumedTravel', part, side).first, `${side} ${part}`).toBeNull();
    }
  });

  test('it is no finding of the range, and the pair says which stop it belongs to', () => {
    const [pair] = gaps.gaps;
    expect(pair?.gap).toBeCloseTo(PAST, 6);
    expect(pair?.beyond.map(({ by: id, part, side }) => [id, part, side])).toEqual([
      ['assumedTravel', 'up', 'left'],
    ]);
    const report = gapReport(gaps);
    expect(report.pairs[0]?.beyond[0]).toMatchObject({ by: 'assumedTravel', unit: 'in' });
    for (const { past, a, b, pose, reason } of report.stops) {
      if (past === null) expect([a, b, pose, typeof reason]).toEqual([null, null, null, 'string']);
      else expect([a, b].sort()).toEqual(['mark', 'post']);
    }
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });

  test('a pair that touches in the range already is no margin of a stop', () => {
    const low: Drawn = {
      ...plate,
      shape: { ...plate.shape, center: [x, center[1], z] } as Drawn['shape'],
    };
    const hit = between('triangulated-rear', [ball, low], { up: UP, down: DOWN });
    expect(hit.gaps[0]?.gap).toBeLessThan(0);
    expect(hit.margins.every(({ first }) => first === null)).toBe(true);
  });
});

test('past a stop of the steering it is told in the input: a ball on the pitman arm goes round its shaft', () => {
  const { axle, model } = cycled('long-arm-front').walk;
  const pitman = model.mechanism.steering?.pitman;
  if (!pitman) throw new Error('the example has a pitman arm');
  // a ball 5 in from the shaft, well off the arm; it meets a post after a turn past the last end of the range
  const shaft = unit(pitman.axis);
  const { at } = pitman;
  const arm = scale(unit(reject(sub(pitman.ball, at), shaft)), 5);
  const sense = model.steering?.sense ?? 1;
  const turnedBy = (input: number): Vec3 => {
    const t = sense * input;
    const [c, s] = [Math.cos(t), Math.sin(t)];
    return add(at, add(scale(arm, c), scale(cross(shaft, arm), s)));
  };
  const ends = cycled('long-arm-front').walk.grid.places.flatMap(({ interval }) =>
    interval ? [interval.greatest] : [],
  );
  const last = Math.max(...ends.map(({ value }) => value));
  const PAST = 0.07;
  // two balls of radius r on one circle touch when the turn between them is 2 asin(r/5)
  const r = 0.4;
  const post = turnedBy(last + PAST + 2 * Math.asin(r / 5));
  const gaps = between(
    'long-arm-front',
    [
      drawn('mark', 'pitman arm', axle, { kind: 'sphere', center: turnedBy(0), radius: r }),
      drawn('post', 'chassis', null, { kind: 'sphere', center: post, radius: r }),
    ],
    { up: 3, down: 3 },
  );
  const greatest = Math.max(
    ...gaps.walk.grid.places.flatMap(({ interval }) => (interval ? [interval.greatest.value] : [])),
  );
  const [found, ...more] = gaps.margins.filter(({ first }) => first !== null);
  expect(more).toEqual([]);
  expect(found).toMatchObject({ unit: 'rad', stop: { by: 'steeringStop' } });
  const wanted = last + PAST - greatest;
  expect(found?.first?.past).toBeGreaterThanOrEqual(wanted - 1e-9);
  expect(found?.first?.past).toBeLessThan(wanted + 1.001e-4);
  expect(gapReport(gaps).stops.find(({ past }) => past !== null)?.unit).toBe('deg');
});
