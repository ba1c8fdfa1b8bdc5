/**
 * Extremes against a dense grid: no pose of it, on the edge or inside, at any steering, has a value beyond the
 * extreme by more than 1e-6 of the measure's spread; and each extreme is the value at its own pose, in the range.
 */
import { describe, expect, test } from 'vitest';
import { inside } from '../../geometry/cycle/edge.ts';
import { type Extreme, type Extremes, Finder } from '../../geometry/cycle/extremes.ts';
import { coarseGrid } from '../../geometry/cycle/grid.ts';
import type { OpenedAxle } from '../../geometry/cycle/openAxle.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import { MeasureContext } from '../../geometry/measure/measure.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { example, offPolygon } from './made.ts';

function search({ build, axle, model }: OpenedAxle) {
  const { range, reach } = findRange(build, axle, model);
  const finder = new Finder(range, reach, coarseGrid(range, reach));
  const context = (pose: Pose): MeasureContext => new MeasureContext(build, axle, model, pose);
  return { range, reach, finder, context };
}

/** Rounding of values that should be nothing, in or rad: what solved poses leave. */
const NOTHING = 1e-9;

describe.each([
  ['long-arm-front', 17],
  ['double-ram-front', 17],
  ['wishbone-rear', 41],
  ['four-link-rear', 31],
] as const)('%s', (name, size) => {
  const axle = example(name);
  const { range, reach, finder, context } = search(axle);
  const all = finder.all();
  const dense = coarseGrid(range, reach, { left: size, right: size, steer: 9 }).places.flatMap(
    place => place.steered.map(({ pose }) => context(pose)),
  );
  for (const { left, right } of range.edge.filter((_, i) => i % 4 === 0)) {
    const straight = reach.travel(left, right).pose;
    const interval = straight && reach.steering(straight);
    if (!straight || !interval) continue;
    for (const share of axle.axle.steered ? [-1, -0.7, -0.3, 0, 0.3, 0.7, 1] : [0]) {
      const pose = reach.steered(straight, interval, share);
      if (pose) dense.push(context(pose));
    }
  }

  test('no pose of a dense grid goes beyond an extreme', () => {
    expect(dense.length).toBeGreaterThan(600);
    const beyond = all.flatMap(({ measure, target, least, greatest }) => {
      const values = dense
        .map(each => measure.value(each, target))
        .filter(value => typeof value === 'number');
      if (values.length === 0) return [];
      const [low, high] = [Math.min(...values), Math.max(...values)];
      const allowed = Math.max(NOTHING, 1e-6 * (high - low));
      const what = `${measure.id} ${target.part ?? target.side ?? ''}`;
      return [
        ...((least?.value ?? Number.POSITIVE_INFINITY) > low + allowed
          ? [`${what} under ${least?.value}: ${low}`]
          : []),
        ...((greatest?.value ?? Number.NEGATIVE_INFINITY) < high - allowed
          ? [`${what} over ${greatest?.value}: ${high}`]
          : []),
      ];
    });
    expect(beyond).toEqual([]);
  });

  test('each extreme is the value at its pose, and its pose is in the range', () => {
    const ends = (each: Extremes): Extreme[] =>
      [each.least, each.greatest].filter(end => end !== null);
    for (const each of all) {
      for (const { value, pose } of ends(each)) {
        expect(each.measure.value(context(pose), each.target)).toBe(value);
        const { left, right, steer } = pose.input;
        // the pose stands on the inner side of the edge, whose chords lie within 1e-3
        expect(inside(range.edge, left, right) || offPolygon(range.edge, left, right) < 1e-3).toBe(
          true,
        );
        expect(reach.travel(left, right).margin).toBeGreaterThanOrEqual(-NOTHING);
        const straight = axle.model.pose(left, right).pose as Pose;
        const interval = reach.steering(straight);
        expect(steer).toBeGreaterThanOrEqual((interval?.least.value ?? 0) - NOTHING);
        expect(steer).toBeLessThanOrEqual((interval?.greatest.value ?? 0) + NOTHING);
      }
    }
  });
});

test('extremes that stops set are the lengths of the stops', () => {
  const axle = example('long-arm-front');
  const all = search(axle).finder.all();
  const of = (id: string, part: string): Extremes => {
    const found = all.find(each => each.measure.id === id && each.target.part === part);
    if (!found) throw new Error(`no ${id} of ${part}`);
    return found;
  };
  for (const shock of axle.axle.shocks) {
    const { least, greatest } = of('shockLength', shock.name);
    // both ends of the stroke make part of the edge, which is found to 1e-9 in
    expect(least?.value).toBeCloseTo(shock.shortest, 7);
    expect(greatest?.value).toBeCloseTo(shock.longest, 7);
  }
  for (const stop of axle.axle.bumpStops) {
    expect(of('stopHeight', stop.name).least?.value).toBeCloseTo(stop.solidHeight, 7);
  }
});

test('what the steering does not touch is told straight ahead, and what nothing moves at ride height', () => {
  const axle = example('long-arm-front');
  const { finder } = search(axle);
  const all = finder.all();
  for (const id of [
    'pinionAngle',
    'axleSteer',
    'lateralShift',
    'shockLength',
    'rollCenterHeight',
  ]) {
    for (const { least, greatest } of all.filter(each => each.measure.id === id)) {
      expect([least?.pose.input.steer, greatest?.pose.input.steer]).toEqual([0, 0]);
    }
  }
  // bind of an exact layout is 0 everywhere
  for (const { least, greatest } of all.filter(each => each.measure.id === 'bind')) {
    expect([least?.value, greatest?.value]).toEqual([0, 0]);
    expect(greatest?.pose.input).toEqual({ left: 0, right: 0, steer: 0 });
  }
});

test('any value of a pose can be climbed, at one share of the steering too', () => {
  const axle = example('long-arm-front');
  const { finder, reach } = search(axle);
  // left travel alone: its greatest is the tip of the range, which the edge's points miss by up to 1e-3
  const far = finder.greatest(({ pose }) => pose.input.left);
  const tip = Math.max(...findRange(axle.build, axle.axle, axle.model).range.edge.map(p => p.left));
  expect(far?.value).toBeGreaterThanOrEqual(tip);
  expect(far?.value).toBeLessThan(tip + 1e-3);
  // the steering input at full left: the longest interval
  const lock = finder.greatest(({ pose }) => pose.input.steer, 1);
  const pose = lock?.pose as Pose;
  const straight = axle.model.pose(pose.input.left, pose.input.right).pose as Pose;
  expect(lock?.value).toBeCloseTo(reach.steering(straight)?.greatest.value ?? 0, 8);
  expect(finder.greatest(() => null)).toBeNull();
});
