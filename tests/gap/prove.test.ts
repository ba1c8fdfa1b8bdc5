/**
 * The proof on pairs that ride on axle and chassis: what it states is attacked with poses all over the range,
 * and falls where the cells' slack is left out.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { openBuild } from '../../geometry/cycle/open.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import { type Pair, pairsOf } from '../../geometry/gap/pairs.ts';
import { partsOf } from '../../geometry/gap/parts.ts';
import { placePart } from '../../geometry/gap/place.ts';
import { Prover } from '../../geometry/gap/prove.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { DistanceSolver } from '../../geometry/solid/distance.ts';
import { PLACEMENT_SIZE } from '../../geometry/solid/placement.ts';

const RESOLUTION_in = 0.02;
const ATTACKS = 1500;

const file = new URL('../../examples/long-arm-front.axlewalk.json', import.meta.url);
const opened = openBuild(readFileSync(file));
if (!opened.ok) throw new Error('the example can be read');
const [front] = opened.axles;
if (!front) throw new Error('the example has an axle');
const { build, axle, model } = front;
const { range, reach } = findRange(build, axle, model);
const { parts } = partsOf(build, axle, () => ({ problem: 'no meshes here' }));
const { pairs } = pairsOf(build, axle.name, parts);

const distance = new DistanceSolver();
function gapAt(pair: Pair, pose: Pose): number {
  const places = [pair.a, pair.b].map(part => {
    const place = new Float64Array(PLACEMENT_SIZE);
    placePart(part, pose, place);
    return place;
  });
  distance.run(pair.solidA, places[0] as Float64Array, pair.solidB, places[1] as Float64Array);
  return distance.gap;
}

/** Poses of the range, drawn by the minimal standard generator of Park and Miller (seed 11). */
const poses: Pose[] = [];
{
  let s = 11;
  const random = (): number => {
    s = (s * 16807) % 2147483647;
    return s / 2147483647;
  };
  while (poses.length < ATTACKS) {
    const { pose, margin } = reach.travel(-10 + 20 * random(), -10 + 20 * random());
    if (pose && margin >= 0) poses.push(pose);
  }
  for (const p of range.edge) {
    const { pose } = reach.travel(p.left, p.right);
    if (pose) poses.push(pose);
  }
}

const names: [string, string][] = [
  ['track bar', 'differential'],
  ['track bar', 'left coil'],
  ['left lower link', 'left rail'],
];

describe.each(names)('%s against %s', (a, b) => {
  const pair = pairs.find(p => [p.a.name, p.b.name].sort().join() === [a, b].sort().join());
  if (!pair) throw new Error(`${a} and ${b} are compared`);
  const start = { gap: gapAt(pair, model.ride), pose: model.ride };

  test('no pose of the range comes under the bound, and the bound is near what was found', () => {
    const proof = new Prover(range, reach).prove(pair, RESOLUTION_in, start);
    const least = Math.min(...poses.map(pose => gapAt(pair, pose)));
    expect(proof.undecided).toBe(false);
    // rounding of two ways to place the same parts
    expect(least).toBeGreaterThanOrEqual(proof.lower - 1e-9);
    expect(proof.lower).toBeGreaterThanOrEqual(
      Math.min(proof.upper - RESOLUTION_in, pair.required + 1) - 1e-12,
    );
    // the pose that is given has the gap that is given, inside the range
    expect(gapAt(pair, proof.pose)).toBeCloseTo(proof.upper, 9);
    expect(
      reach.travel(proof.pose.input.left, proof.pose.input.right).margin,
    ).toBeGreaterThanOrEqual(0);
  });
});

test('without the slack of the cells the same bounds are wrong', () => {
  const excess = names.map(([a, b]) => {
    const pair = pairs.find(p => [p.a.name, p.b.name].sort().join() === [a, b].sort().join());
    if (!pair) throw new Error(`${a} and ${b} are compared`);
    const prover = new Prover(range, reach);
    prover.slack = 0;
    // a required gap far out of reach makes wide cells count, where the hull of the corners misses most
    const proof = prover.prove({ ...pair, required: 100 }, RESOLUTION_in, {
      gap: gapAt(pair, model.ride) + 100,
      pose: model.ride,
    });
    return proof.lower - Math.min(...poses.map(pose => gapAt(pair, pose)));
  });
  console.info(
    `bounds without slack lie ${excess.map(x => x.toFixed(4)).join(', ')} in over the least gap found`,
  );
  expect(Math.max(...excess)).toBeGreaterThan(0);
});
