/** The worker's maps and strips against gaps searched pose by pose. */
import { dirname } from 'node:path';
import { describe, expect, test } from 'vitest';
import { inside } from '../../geometry/cycle/edge.ts';
import { placed } from '../../geometry/gap/place.ts';
import { measures } from '../../geometry/measure/list.ts';
import { MeasureContext, SHOWN } from '../../geometry/measure/measure.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { DistanceSolver } from '../../geometry/solid/distance.ts';
import { meshReader } from '../../src/cli/meshes.ts';
import { measureColumns, measureMap } from '../../src/worker/columns.ts';
import { GapStudy } from '../../src/worker/gapStudy.ts';
import { cycled, pathOf } from '../gap/cycled.ts';

/** The search for a distance ends at bounds 1e-9 in apart; 1/4 in is the least that is wanted. */
const SEARCHED_share = 1e-8;

function finish<Answer>(steps: Generator<unknown, Answer>): Answer {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value as Answer;
  }
}

const example = 'long-arm-front';
const { walk } = cycled(example);
const study = finish(GapStudy.begin(walk, meshReader(pathOf(example), dirname(pathOf(example)))));
const solver = new DistanceSolver();

/** The least share of all pairs at a pose, each asked without a bound; 1/2 in stands for what wants nothing. */
function leastShare(pose: Pose): number {
  const at = new Map(study.parts.map(part => [part, placed(part, pose)]));
  let least = Number.POSITIVE_INFINITY;
  for (const { a, b, solidA, solidB, required, still } of study.pairs) {
    const [placeA, placeB] = [at.get(a), at.get(b)];
    // what is free to roll is asked for at several rolls by the map; this example's are held or alike
    if (still || !placeA || !placeB) continue;
    solver.run(solidA, placeA, solidB, placeB);
    if (required > 0) least = Math.min(least, solver.gap / required);
    else if (solver.gap < 0) least = Math.min(least, solver.gap / 0.5);
  }
  return least;
}

describe('the strip of the shop', () => {
  const strip = finish(study.strip('shop'));

  test('tells the least share of what is wanted at its poses, and of which pair it is', () => {
    for (let i = 0; i < strip.places.length; i += 37) {
      const { left, right, steer } = strip.places[i] ?? { left: 0, right: 0, steer: 0 };
      const pose = walk.model.near(walk.model.ride, left, right, steer).pose as Pose;
      // rolls that the map tries can only bring it nearer
      expect(strip.share[i] as number).toBeLessThan(leastShare(pose) + SEARCHED_share);
      const pair = strip.pairs[strip.pair[i] ?? -1];
      expect(strip.share[i]).toBeCloseTo((strip.gap[i] as number) / (pair?.required || 0.5), 9);
    }
  });

  test('names the pairs that occur, and no others', () => {
    const used = new Set(strip.pair);
    expect([...used].sort((a, b) => a - b)).toEqual(strip.pairs.map((_, i) => i));
  });

  test('has marks in order', () => {
    expect(strip.marks.length).toBe(15);
    expect(strip.marks.every((mark, i) => i === 0 || mark.at > (strip.marks[i - 1]?.at ?? 0))).toBe(
      true,
    );
  });
});

describe('the refined map', () => {
  const map = finish(study.fineMap());
  const n = map.left.length;

  test('knows its places inside the range, and values one place beyond its edge', () => {
    let beyond = 0;
    for (let k = 0; k < map.inside.length; k++) {
      const [left, right] = [map.left[k % n] as number, map.right[Math.floor(k / n)] as number];
      expect(map.inside[k]).toBe(inside(walk.range.edge, left, right) ? 1 : 0);
      const isKnown = !Number.isNaN(map.share[k] as number);
      if (map.inside[k] === 1) expect(isKnown).toBe(true);
      else if (isKnown) beyond++;
    }
    // all around the edge
    expect(beyond).toBeGreaterThan(n);
    const lefts = walk.range.edge.map(p => p.left);
    const step = (map.left[1] as number) - (map.left[0] as number);
    expect(map.left[1]).toBeCloseTo(Math.min(...lefts), 9);
    expect(map.left[n - 1]).toBeCloseTo(Math.max(...lefts) + step, 9);
  });

  test('no steering at a place leaves less than the map says', () => {
    for (let k = 0; k < map.inside.length; k += 61) {
      if (map.inside[k] !== 1) continue;
      const [left, right] = [map.left[k % n] as number, map.right[Math.floor(k / n)] as number];
      const pose = walk.model.near(walk.model.ride, left, right, map.steer[k] as number).pose;
      expect(map.share[k] as number).toBeLessThan(leastShare(pose as Pose) + SEARCHED_share);
    }
  });

  test('a pair alone has at least what the tightest has, and as much where it is the tightest', () => {
    const { a = '', b = '' } = map.pairs[0] ?? {};
    const alone = finish(study.pairMap(a, b));
    expect(alone?.pairs).toEqual([map.pairs[0]]);
    let same = 0;
    for (let k = 0; k < map.share.length; k++) {
      const [one, all] = [alone?.share[k] as number, map.share[k] as number];
      if (Number.isNaN(all)) continue;
      expect(one).toBeGreaterThan(all - SEARCHED_share);
      if (map.pair[k] !== 0) continue;
      expect(one).toBeCloseTo(all, 7);
      same++;
    }
    expect(same).toBeGreaterThan(10);
    expect(finish(study.pairMap('no part', b))).toBeNull();
  });
});

test('the steering strip goes from full right to full left where it is asked for', () => {
  const strip = study.steeringStrip(2, -1);
  const pose = walk.reach.travel(2, -1).pose as Pose;
  const interval = walk.reach.steering(pose);
  expect(strip?.places.every(({ left, right }) => left === 2 && right === -1)).toBe(true);
  expect(strip?.places[0]?.steer).toBeCloseTo(interval?.least.value ?? 0, 9);
  expect(strip?.places.at(-1)?.steer).toBeCloseTo(interval?.greatest.value ?? 0, 9);
  expect(strip?.places.some(({ steer }) => steer === 0)).toBe(true);
});

describe('columns', () => {
  const target = { part: null, side: null };
  const measure = measures.find(({ id }) => id === 'axleSteer');
  const value = (pose: Pose): number => {
    const context = new MeasureContext(walk.build, walk.axle, walk.model, pose);
    return (measure?.value(context, target) as number) * SHOWN.deg;
  };

  test('a measure along a walk is that of each of its poses, in shown units', () => {
    const wanted = [{ id: 'axleSteer', target }];
    const told = finish(measureColumns(walk, 'crossed-left-up', wanted, [0, 0]));
    const [column] = told?.columns ?? [];
    expect(column?.unit).toBe('deg');
    expect(column?.values.length).toBe(told?.places.length);
    for (const [i, { left, right }] of (told?.places ?? []).entries()) {
      const pose = walk.model.near(walk.model.ride, left, right, 0).pose as Pose;
      expect(column?.values[i]).toBeCloseTo(value(pose), 7);
    }
    expect(finish(measureColumns(walk, 'both', [{ id: 'noMeasure', target }], [0, 0]))).toBeNull();
  });

  test('a map of a measure is straight ahead, at the places of the range', () => {
    const told = finish(measureMap(walk, null, 'axleSteer', target));
    const at = (told?.inside ?? new Uint8Array()).indexOf(1);
    const n = told?.left.length ?? 1;
    const [left, right] = [told?.left[at % n] ?? 0, told?.right[Math.floor(at / n)] ?? 0];
    const pose = walk.model.near(walk.model.ride, left, right, 0).pose as Pose;
    expect(told?.values[at]).toBeCloseTo(value(pose), 7);
    expect(Number.isNaN(told?.values[(told?.inside ?? new Uint8Array()).indexOf(0)])).toBe(true);
    expect(finish(measureMap(walk, null, 'noMeasure', target))).toBeNull();
  });
});
